/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-row.h"

#include <glib/gi18n-lib.h>
#include "pr-book-trash.h"
#include "pr-colour.h"
#include "pr-context-menu.h"
#include "pr-ui.h"
#include "pr-words.h"

#define ACROSS 2

struct _PrVisitRow {
  GtkBox parent_instance;
  GtkWidget *head, *card, *note;
  GtkLabel *date;
  GtkMenuButton *more;
  GtkGrid *feet;
  PrContextMenu *context; /* of its head */
  int n;
  PrBookId id;
  bool open; /* the foot on the board is one of its */
};

G_DEFINE_FINAL_TYPE (PrVisitRow, pr_visit_row, GTK_TYPE_BOX)

void
pr_visit_row_add (PrVisitRow *row, PrFootThumb *thumb)
{
  gtk_grid_attach (row->feet, GTK_WIDGET (thumb), row->n % ACROSS, row->n / ACROSS, 1, 1);
  row->n++;
}

PrFootThumb *
pr_visit_row_thumb (PrVisitRow *row, int which)
{
  GtkWidget *thumb = gtk_grid_get_child_at (row->feet, which % ACROSS, which / ACROSS);

  return thumb ? PR_FOOT_THUMB (thumb) : NULL;
}

void
pr_visit_row_cut (PrVisitRow *row, int n)
{
  while (row->n > n)
    gtk_grid_remove (row->feet, GTK_WIDGET (pr_visit_row_thumb (row, --row->n)));
}

static void
append (GMenu *menu, const char *words, const char *action, const char *type, ...)
{
  g_autoptr (GMenuItem) item = g_menu_item_new (words, NULL);
  va_list args;

  va_start (args, type);
  g_menu_item_set_action_and_target_value (item, action, g_variant_new_va (type, NULL, &args));
  va_end (args);
  g_menu_append_item (menu, item);
}

/* Made when it is opened. */
static void
make_menu (GtkMenuButton *button, gpointer data)
{
  PrVisitRow *row = data;
  g_autoptr (GMenu) menu = g_menu_new ();

  append (menu, _ ("_About this visit…"), "book.about-visit", "x", row->id);
  append (menu, _ ("_Side by side…"), "win.show-visit", "x", row->id);
  append (menu, _ ("All _four feet…"), "win.visit-feet", "x", row->id);
  if (row->open)
    g_menu_append (menu, _ ("Sheet _for the vet…"), "win.vet-sheet");
  append (menu, _ ("_Delete this visit"), "book.delete", "(ix)", PR_BOOK_VISIT, row->id);
  gtk_menu_button_set_menu_model (button, G_MENU_MODEL (menu));
}

void
pr_visit_row_mark (PrVisitRow *row, PrBookId foot)
{
  bool open = false;

  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (row->feet)); child;
       child = gtk_widget_get_next_sibling (child)) {
    bool chosen = foot && pr_foot_thumb_id (PR_FOOT_THUMB (child)) == foot;

    if (chosen)
      gtk_widget_add_css_class (child, "chosen");
    else
      gtk_widget_remove_css_class (child, "chosen");
    open |= chosen;
  }
  row->open = open;
}

PrBookId
pr_visit_row_id (PrVisitRow *row)
{
  return row->id;
}

void
pr_visit_row_show (PrVisitRow *row, const PrBookVisit *visit)
{
  g_autofree char *date = pr_words_date (visit->date);
  g_autofree char *spoken = g_strdup_printf (_ ("What can be done with the visit of %s"), date);

  row->id = visit->id;
  gtk_label_set_text (row->date, date);
  pr_colour_card (row->card, visit->colour);
  pr_tell (row->note, *visit->note ? visit->note : NULL);
  gtk_widget_set_tooltip_text (GTK_WIDGET (row->more), spoken);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->more), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  pr_context_menu_set_delete (row->context, _ ("_Delete this visit"), "book.delete",
                              g_variant_new ("(ix)", PR_BOOK_VISIT, row->id));
}

PrVisitRow *
pr_visit_row_new (void)
{
  return g_object_new (PR_TYPE_VISIT_ROW, NULL);
}

static void
pr_visit_row_init (PrVisitRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
  row->context = pr_context_menu_add (row->head);
  gtk_menu_button_set_create_popup_func (row->more, make_menu, row, NULL);
}

static void
pr_visit_row_class_init (PrVisitRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/visit-row.ui");
  gtk_widget_class_bind_template_child (widget_class, PrVisitRow, head);
  gtk_widget_class_bind_template_child (widget_class, PrVisitRow, card);
  gtk_widget_class_bind_template_child (widget_class, PrVisitRow, note);
  gtk_widget_class_bind_template_child (widget_class, PrVisitRow, date);
  gtk_widget_class_bind_template_child (widget_class, PrVisitRow, more);
  gtk_widget_class_bind_template_child (widget_class, PrVisitRow, feet);
}
