/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-trash-row.h"

#include <glib/gi18n-lib.h>
#include "pr-text.h"
#include "pr-ui.h"
#include "pr-words.h"

struct _PrTrashRow {
  GtkBox parent_instance;
  GtkLabel *what, *when;
  GtkWidget *put_back;
};

G_DEFINE_FINAL_TYPE (PrTrashRow, pr_trash_row, GTK_TYPE_BOX)

/* Transfer full. */
static char *
what_it_is (const PrBookDeleted *deleted)
{
  g_autofree char *name = pr_text_name (deleted->name), *date = pr_words_date (deleted->date);

  switch (deleted->kind) {
  case PR_BOOK_HORSE:
    return g_strdup_printf (_ ("%s, with all visits"), name);
  case PR_BOOK_VISIT:
    return g_strdup_printf (_ ("%s: the visit of %s"), name, date);
  case PR_BOOK_FOOT:
    return g_strdup_printf ("%s: %s, %s", name, pr_foot_name (deleted->foot), date);
  case PR_BOOK_CLASS:
    return g_strdup_printf (_ ("Practice: %s, with its runs"), name);
  default:
    return g_strdup_printf (_ ("Practice: %s, the run of %s"), name, date);
  }
}

GtkWidget *
pr_trash_row_new (const PrBookDeleted *deleted)
{
  PrTrashRow *row = g_object_new (PR_TYPE_TRASH_ROW, NULL);
  g_autofree char *what = what_it_is (deleted), *day = pr_words_date (deleted->deleted);
  g_autofree char *when = g_strdup_printf (_ ("deleted on %s"), day);
  g_autofree char *spoken = g_strdup_printf (_ ("Put back: %s"), what);

  gtk_label_set_text (row->what, what);
  gtk_widget_set_tooltip_text (GTK_WIDGET (row->what), what);
  gtk_label_set_text (row->when, when);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (row->put_back), "trash.put-back");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (row->put_back), "(ix)", deleted->kind, deleted->id);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->put_back), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  return GTK_WIDGET (row);
}

static void
pr_trash_row_init (PrTrashRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
}

static void
pr_trash_row_class_init (PrTrashRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "trash-row.ui");
  gtk_widget_class_bind_template_child (widget_class, PrTrashRow, what);
  gtk_widget_class_bind_template_child (widget_class, PrTrashRow, when);
  gtk_widget_class_bind_template_child (widget_class, PrTrashRow, put_back);
}
