/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-row.h"

#include <glib/gi18n-lib.h>
#include "pr-book-trash.h"
#include "pr-context-menu.h"
#include "pr-names.h"
#include "pr-ui.h"
#include "pr-words.h"

#define ACROSS 2

struct _PrVisitRow {
  GtkBox parent_instance;
  GtkWidget *head, *note;
  GtkLabel *date;
  GtkMenuButton *more;
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

/* By its button, and where its date stands. */
static void
offer_delete (PrVisitRow *row, PrBookId id, const char *date)
{
  g_autoptr (GMenu) menu = g_menu_new ();
  g_autoptr (GMenuItem) about = g_menu_item_new (_ ("_About this visit…"), NULL);
  g_autoptr (GMenuItem) beside = g_menu_item_new (_ ("_Side by side…"), NULL);
  g_autoptr (GMenuItem) item = g_menu_item_new (_ ("_Delete this visit"), NULL);
  g_autofree char *spoken = g_strdup_printf (_ ("What can be done with the visit of %s"), date);

  g_menu_item_set_action_and_target (about, "book.about-visit", "x", id);
  g_menu_append_item (menu, about);
  g_menu_item_set_action_and_target (beside, "win.show-visit", "x", id);
  g_menu_append_item (menu, beside);
  g_menu_item_set_action_and_target (item, "book.delete", "(ix)", PR_BOOK_VISIT, id);
  g_menu_append_item (menu, item);
  gtk_menu_button_set_menu_model (row->more, G_MENU_MODEL (menu));
  gtk_widget_set_tooltip_text (GTK_WIDGET (row->more), spoken);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->more), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  pr_context_menu_add_delete (row->head, _ ("_Delete this visit"), "book.delete",
                              g_variant_new ("(ix)", PR_BOOK_VISIT, id));
}

PrVisitRow *
pr_visit_row_new (PrBookId id, const char *date, const char *note)
{
  PrVisitRow *row = g_object_new (PR_TYPE_VISIT_ROW, NULL);
  g_autofree char *text = pr_words_date (date);

  gtk_label_set_text (row->date, text);
  pr_tell (row->note, *note ? note : NULL);
  offer_delete (row, id, text);
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
  gtk_widget_class_bind_template_child (widget_class, PrVisitRow, head);
  gtk_widget_class_bind_template_child (widget_class, PrVisitRow, note);
  gtk_widget_class_bind_template_child (widget_class, PrVisitRow, date);
  gtk_widget_class_bind_template_child (widget_class, PrVisitRow, more);
  gtk_widget_class_bind_template_child (widget_class, PrVisitRow, feet);
}
