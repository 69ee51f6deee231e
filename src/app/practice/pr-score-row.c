/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-score-row.h"

#include <glib/gi18n-lib.h>
#include "pr-error.h"
#include "pr-names.h"
#include "pr-practice-figure.h"
#include "pr-ui.h"

#define MOST_SCORE 10.0

struct _PrScoreRow {
  GtkBox parent_instance;
  GtkLabel *name, *weight;
  GtkEditable *value;
  GtkWidget *measured;
  PrPracticeScore was;
};

G_DEFINE_FINAL_TYPE (PrScoreRow, pr_score_row, GTK_TYPE_BOX)

static char *
text_of (double value)
{
  return value < 0 ? g_strdup ("") : g_strdup_printf ("%.1f", value);
}

/* Is it still what was measured? */
static bool
is_measured (PrScoreRow *row)
{
  g_autofree char *was = text_of (row->was.value);

  return row->was.measured && g_str_equal (gtk_editable_get_text (row->value), was);
}

static void
typed (PrScoreRow *row)
{
  gtk_widget_set_visible (row->measured, is_measured (row));
  gtk_widget_activate_action (GTK_WIDGET (row), "sheet.check", NULL);
}

void
pr_score_row_show (PrScoreRow *row, const PrPracticeScore *score)
{
  g_autofree char *value = text_of (score->measured ? score->value : -1);

  if (*gtk_editable_get_text (row->value) && !is_measured (row))
    return;
  row->was = *score;
  gtk_editable_set_text (row->value, value);
  typed (row);
}

GtkWidget *
pr_score_row_new (const char *name, int weight, const PrPracticeScore *score)
{
  PrScoreRow *row = g_object_new (PR_TYPE_SCORE_ROW, NULL);
  g_autofree char *value = text_of (score->value), *counts = g_strdup_printf ("× %d", weight);

  row->was = *score;
  gtk_label_set_text (row->name, name);
  gtk_label_set_text (row->weight, counts);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->value), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_editable_set_text (row->value, value);
  typed (row);
  return GTK_WIDGET (row);
}

bool
pr_score_row_read (PrScoreRow *row, PrPracticeScore *score, GError **error)
{
  const char *text = gtk_editable_get_text (row->value);
  double value = -1;

  if (is_measured (row)) {
    *score = row->was;
    return true;
  }
  if (*text && !pr_practice_figure_parse (text, MOST_SCORE, &value)) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT, _ ("%s: write a mark from 0 to 10, or nothing."),
                 gtk_label_get_text (row->name));
    return false;
  }
  *score = (PrPracticeScore){ value, false };
  return true;
}

static void
pr_score_row_init (PrScoreRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
  pr_label_cut (row->name, 1);
}

static void
pr_score_row_class_init (PrScoreRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "score-row.ui");
  gtk_widget_class_bind_template_callback (widget_class, typed);
  gtk_widget_class_bind_template_child (widget_class, PrScoreRow, name);
  gtk_widget_class_bind_template_child (widget_class, PrScoreRow, weight);
  gtk_widget_class_bind_template_child (widget_class, PrScoreRow, value);
  gtk_widget_class_bind_template_child (widget_class, PrScoreRow, measured);
}
