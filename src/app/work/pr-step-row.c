/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-step-row.h"

#include <glib/gi18n-lib.h>

struct _PrStepRow {
  GtkBox parent_instance;
  guint nr;
  GtkWidget *text, *look, *buttons, *earlier, *later, *part;
};

G_DEFINE_FINAL_TYPE (PrStepRow, pr_step_row, GTK_TYPE_BOX)

enum { MOVED, PARTED, N_SIGNALS };

static guint signals[N_SIGNALS];

static void
go_earlier (PrStepRow *row)
{
  g_signal_emit (row, signals[MOVED], 0, -1);
}

static void
go_later (PrStepRow *row)
{
  g_signal_emit (row, signals[MOVED], 0, 1);
}

static void
part (PrStepRow *row)
{
  g_signal_emit (row, signals[PARTED], 0);
}

/* BUTTON is called TOLD, and spoken of with the step it is for. */
static void
name_button (GtkWidget *button, const char *told, const char *step)
{
  g_autofree char *spoken = g_strdup_printf ("%s: %s", told, step);

  gtk_widget_set_tooltip_text (button, told);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

static void
take (GtkWidget *button, char *change)
{
  gtk_widget_set_sensitive (button, change != NULL);
  g_free (change);
}

GtkWidget *
pr_step_row_new (const PrHeats *heats, guint nr)
{
  const PrStep *step = &g_array_index (heats->steps, PrStep, nr);
  PrStepRow *row = g_object_new (PR_TYPE_STEP_ROW, NULL);
  guint of = pr_heats_of_step (heats, nr);
  bool first = of > 0 && of <= heats->heats->len && g_array_index (heats->heats, PrHeat, of - 1).first == nr;

  row->nr = nr;
  gtk_label_set_text (GTK_LABEL (row->text), step->text);
  pr_tell (row->look, step->look);
  gtk_widget_set_visible (row->buttons, step->zone != PR_ZONE_COLD);
  name_button (row->earlier, _ ("Earlier"), step->text);
  name_button (row->later, _ ("Later"), step->text);
  name_button (row->part, first ? _ ("With the heat before") : _ ("A new heat from here"), step->text);
  gtk_button_set_icon_name (GTK_BUTTON (row->part), first ? "list-remove-symbolic" : "list-add-symbolic");
  take (row->earlier, pr_heats_moved (heats, nr, -1));
  take (row->later, pr_heats_moved (heats, nr, 1));
  take (row->part, pr_heats_parted (heats, nr));
  return GTK_WIDGET (row);
}

guint
pr_step_row_nr (PrStepRow *row)
{
  return row->nr;
}

void
pr_step_row_focus (PrStepRow *row, int by)
{
  GtkWidget *wanted = by < 0 ? row->earlier : by > 0 ? row->later : row->part;
  GtkWidget *all[] = { wanted, row->part, row->later, row->earlier };

  for (size_t i = 0; i < G_N_ELEMENTS (all); i++)
    if (gtk_widget_is_sensitive (all[i])) {
      gtk_widget_grab_focus (all[i]);
      return;
    }
}

static void
pr_step_row_init (PrStepRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
}

static void
pr_step_row_class_init (PrStepRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  GType type = G_TYPE_FROM_CLASS (class);

  signals[MOVED]
      = g_signal_new ("moved", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  signals[PARTED] = g_signal_new ("parted", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "step-row.ui");
  gtk_widget_class_bind_template_callback (widget_class, go_earlier);
  gtk_widget_class_bind_template_callback (widget_class, go_later);
  gtk_widget_class_bind_template_callback (widget_class, part);
  gtk_widget_class_bind_template_child (widget_class, PrStepRow, text);
  gtk_widget_class_bind_template_child (widget_class, PrStepRow, look);
  gtk_widget_class_bind_template_child (widget_class, PrStepRow, buttons);
  gtk_widget_class_bind_template_child (widget_class, PrStepRow, earlier);
  gtk_widget_class_bind_template_child (widget_class, PrStepRow, later);
  gtk_widget_class_bind_template_child (widget_class, PrStepRow, part);
}
