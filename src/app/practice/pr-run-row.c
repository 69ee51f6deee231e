/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-run-row.h"

#include <glib/gi18n-lib.h>
#include "pr-practice-words.h"
#include "pr-ui.h"

struct _PrRunRow {
  GtkBox parent_instance;
  GtkLabel *when, *what;
  GtkWidget *sheet, *away;
};

G_DEFINE_FINAL_TYPE (PrRunRow, pr_run_row, GTK_TYPE_BOX)

/* BUTTON presses ACTION with ID, and is spoken of with the run. */
static void
aim (GtkWidget *button, const char *action, PrBookId id, const char *told, const char *when)
{
  g_autofree char *spoken = g_strdup_printf ("%s: %s", told, when);

  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "x", id);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

GtkWidget *
pr_run_row_new (const PrPracticeRun *run, PrUnit unit)
{
  PrRunRow *row = g_object_new (PR_TYPE_RUN_ROW, NULL);
  g_autofree char *when = pr_practice_when (run), *what = pr_practice_run_words (run, unit);

  gtk_label_set_text (row->when, when);
  gtk_label_set_text (row->what, what);
  aim (row->sheet, "practice.sheet", run->id, _ ("Scores and notes…"), when);
  aim (row->away, "practice.delete-run", run->id, _ ("Delete"), when);
  return GTK_WIDGET (row);
}

static void
pr_run_row_init (PrRunRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
}

static void
pr_run_row_class_init (PrRunRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "run-row.ui");
  gtk_widget_class_bind_template_child (widget_class, PrRunRow, when);
  gtk_widget_class_bind_template_child (widget_class, PrRunRow, what);
  gtk_widget_class_bind_template_child (widget_class, PrRunRow, sheet);
  gtk_widget_class_bind_template_child (widget_class, PrRunRow, away);
}
