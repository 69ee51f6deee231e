/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-rack-list.h"

#include <glib/gi18n-lib.h>
#include "pr-words.h"

#define MOST_LINES 8 /* what lies further down asks for far more work; the bar in hand is always shown */
#define SAME_MM 0.01 /* sections typed in inches and in mm are the same bar */

struct _PrRackList {
  GtkBox parent_instance;
  PrDocument *doc;
  GArray *rack; /* PrRackBar, read when first unfolded */
  GtkWidget *expander, *lines;
};

G_DEFINE_FINAL_TYPE (PrRackList, pr_rack_list, GTK_TYPE_BOX)

static void
taken (GtkButton *button, PrRackList *list)
{
  const PrRackBar *bar = g_object_get_data (G_OBJECT (button), "pr-bar");
  g_autoptr (GError) error = NULL;

  if (pr_document_job (list->doc) && !pr_document_take_bar (list->doc, bar->width, bar->thickness, &error))
    pr_document_trouble (list->doc, error->message);
}

/* The section is two columns wide. */
static void
add_cell (GtkWidget *grid, int column, const char *text, const char *class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), column == 0 ? 0 : 1);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_add_css_class (label, class);
  gtk_grid_attach (GTK_GRID (grid), label, column == 0 ? 0 : column + 1, 0, column == 0 ? 2 : 1, 1);
}

static GtkWidget *
cells (const char *section, const char *needed, const char *work, const char *waste, const char *class)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_column_homogeneous (GTK_GRID (grid), TRUE);
  gtk_widget_set_valign (grid, GTK_ALIGN_CENTER);
  add_cell (grid, 0, section, class);
  add_cell (grid, 1, needed, class);
  add_cell (grid, 2, work, class);
  add_cell (grid, 3, waste, class);
  return grid;
}

static bool
in_hand (const PrRackLine *line, const PrPlan *plan)
{
  return fabs (line->bar.width - plan->stock_width) < SAME_MM
         && fabs (line->bar.thickness - plan->stock_thick) < SAME_MM;
}

static GtkWidget *
line_new (PrRackList *list, const PrRackLine *line, const PrPlan *plan)
{
  PrUnit unit = pr_document_unit (list->doc);
  g_autofree char *width = pr_words_number (line->bar.width, unit);
  g_autofree char *thick = pr_words_number (line->bar.thickness, unit);
  g_autofree char *section = g_strdup_printf ("%s × %s", width, thick);
  g_autofree char *needed = pr_words_length (line->needed, unit);
  g_autofree char *work = g_strdup_printf ("%.0f %%", 100 * line->work);
  g_autofree char *waste
      = line->bar.length > 0 ? g_strdup_printf ("%.0f %%", 100 * line->waste) : g_strdup ("–");
  g_autofree char *spoken
      = g_strdup_printf (_ ("%s: %s needed, work %s, waste %s"), section, needed, work, waste);
  bool held = in_hand (line, plan);
  GtkWidget *button = gtk_button_new ();

  gtk_button_set_child (GTK_BUTTON (button), cells (section, needed, work, waste, "figure"));
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_add_css_class (button, "rack-line");
  if (held)
    gtk_widget_add_css_class (button, "chosen");
  gtk_widget_set_tooltip_text (button, held ? _ ("The bar in hand") : _ ("Take this bar"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  g_object_set_data_full (G_OBJECT (button), "pr-bar", g_memdup2 (&line->bar, sizeof line->bar), g_free);
  g_signal_connect (button, "clicked", G_CALLBACK (taken), list);
  return button;
}

static void
clear (PrRackList *list)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (list->lines)))
    gtk_box_remove (GTK_BOX (list->lines), child);
}

static void
fill (PrRackList *list)
{
  const PrJob *job = pr_document_job (list->doc);
  g_autoptr (GArray) ranked = NULL;

  if (!job || !gtk_expander_get_expanded (GTK_EXPANDER (list->expander)) || pr_document_editing (list->doc))
    return;
  if (!list->rack)
    list->rack = pr_rack_load (NULL);
  ranked = pr_rack_rank (list->rack, &job->hoof, &job->plan, job->shoe);
  clear (list);
  gtk_box_append (GTK_BOX (list->lines),
                  cells (_ ("section"), _ ("needed"), _ ("work"), _ ("waste"), "hint"));
  for (guint i = 0; i < ranked->len; i++) {
    const PrRackLine *line = &g_array_index (ranked, PrRackLine, i);

    if (i < MOST_LINES || in_hand (line, &job->plan))
      gtk_box_append (GTK_BOX (list->lines), line_new (list, line, &job->plan));
  }
}

static void
document_changed (PrRackList *list, guint what)
{
  if (what & (PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_PLACE | PR_CHANGED_UNIT | PR_CHANGED_HISTORY))
    fill (list);
}

GtkWidget *
pr_rack_list_new (PrDocument *doc)
{
  PrRackList *list = g_object_new (PR_TYPE_RACK_LIST, NULL);

  list->doc = g_object_ref (doc);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), list, G_CONNECT_SWAPPED);
  return GTK_WIDGET (list);
}

static void
pr_rack_list_dispose (GObject *object)
{
  g_clear_object (&PR_RACK_LIST (object)->doc);
  g_clear_pointer (&PR_RACK_LIST (object)->rack, g_array_unref);
  G_OBJECT_CLASS (pr_rack_list_parent_class)->dispose (object);
}

static void
pr_rack_list_init (PrRackList *list)
{
  list->expander = gtk_expander_new (_ ("Bars of the rack, least work first"));
  list->lines = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_widget_set_hexpand (list->expander, TRUE);
  gtk_expander_set_child (GTK_EXPANDER (list->expander), list->lines);
  g_signal_connect_swapped (list->expander, "notify::expanded", G_CALLBACK (fill), list);
  gtk_box_append (GTK_BOX (list), list->expander);
}

static void
pr_rack_list_class_init (PrRackListClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pr_rack_list_dispose;
}
