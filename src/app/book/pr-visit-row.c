/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-row.h"

#include "pr-names.h"
#include "pr-words.h"

#define ACROSS 2

struct _PrVisitRow {
  GtkBox parent_instance;
  GtkLabel *date;
  GtkGrid *feet;
  int n;
};

G_DEFINE_FINAL_TYPE (PrVisitRow, pr_visit_row, GTK_TYPE_BOX)

void
pr_visit_row_add (PrVisitRow *row, PrFootThumb *thumb)
{
  gtk_grid_attach (row->feet, GTK_WIDGET (thumb), row->n % ACROSS, row->n / ACROSS, 1, 1);
  row->n++;
}

PrVisitRow *
pr_visit_row_new (const char *date)
{
  PrVisitRow *row = g_object_new (PR_TYPE_VISIT_ROW, NULL);
  g_autofree char *text = pr_words_date (date);

  gtk_label_set_text (row->date, text);
  return row;
}

static void
pr_visit_row_init (PrVisitRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
  pr_label_cut (row->date, 1);
}

static void
pr_visit_row_class_init (PrVisitRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/visit-row.ui");
  gtk_widget_class_bind_template_child (widget_class, PrVisitRow, date);
  gtk_widget_class_bind_template_child (widget_class, PrVisitRow, feet);
}
