/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-figure-entry.h"

#include "pr-ui.h"

struct _PrFigureEntry {
  GtkEntry parent_instance;
};

enum { TAKEN, DROPPED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrFigureEntry, pr_figure_entry, GTK_TYPE_ENTRY)

void
pr_figure_entry_show (PrFigureEntry *entry, const char *text)
{
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (entry)), text) != 0)
    gtk_editable_set_text (GTK_EDITABLE (entry), text);
}

static void
take (PrFigureEntry *entry)
{
  g_signal_emit (entry, signals[TAKEN], 0);
}

static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
             PrFigureEntry *entry)
{
  if (key != GDK_KEY_Escape)
    return FALSE;
  g_signal_emit (entry, signals[DROPPED], 0);
  return TRUE;
}

static void
pr_figure_entry_init (PrFigureEntry *entry)
{
  gtk_widget_init_template (GTK_WIDGET (entry));
}

static void
pr_figure_entry_class_init (PrFigureEntryClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  const char *const names[N_SIGNALS] = { "taken", "dropped" };

  for (int i = 0; i < N_SIGNALS; i++)
    signals[i] = g_signal_new (names[i], G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                               G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "figure-entry.ui");
  gtk_widget_class_bind_template_callback (widget_class, take);
  gtk_widget_class_bind_template_callback (widget_class, key_pressed);
}
