/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-criterion-row.h"

#include "pr-ui.h"

struct _PrCriterionRow {
  GtkBox parent_instance;
  GtkEditable *name;
  GtkSpinButton *weight;
  PrMeasuredBy by;
};

G_DEFINE_FINAL_TYPE (PrCriterionRow, pr_criterion_row, GTK_TYPE_BOX)

GtkWidget *
pr_criterion_row_new (const PrPracticeCriterion *criterion)
{
  PrCriterionRow *row = g_object_new (PR_TYPE_CRITERION_ROW, NULL);

  if (criterion) {
    gtk_editable_set_text (row->name, criterion->name);
    gtk_spin_button_set_value (row->weight, criterion->weight);
    row->by = criterion->by;
  }
  return GTK_WIDGET (row);
}

void
pr_criterion_row_add_to (PrCriterionRow *row, PrPracticeClass *class)
{
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (row->name)));

  if (*name && class->criteria->len < PR_PRACTICE_MOST_CRITERIA)
    pr_practice_class_add (class, name, gtk_spin_button_get_value_as_int (row->weight), row->by);
}

static void
pr_criterion_row_init (PrCriterionRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
}

static void
pr_criterion_row_class_init (PrCriterionRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "criterion-row.ui");
  gtk_widget_class_bind_template_child (widget_class, PrCriterionRow, name);
  gtk_widget_class_bind_template_child (widget_class, PrCriterionRow, weight);
}
