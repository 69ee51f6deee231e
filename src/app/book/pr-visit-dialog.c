/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-dialog.h"

#include "pr-bounds.h"
#include "pr-card-colour.h"
#include "pr-colour.h"
#include "pr-document-diary.h"
#include "pr-ui.h"

struct _PrVisitDialog {
  GtkWindow parent_instance;
  PrDocument *doc;
  PrBookVisit visit; /* as the book has it */
  GtkCalendar *day;
  GtkDropDown *colour;
  GtkStringList *colours;
  GtkTextBuffer *note;
  GtkWidget *card, *trouble;
};

G_DEFINE_FINAL_TYPE (PrVisitDialog, pr_visit_dialog, GTK_TYPE_WINDOW)

static void
fill (PrVisitDialog *dialog, const PrBookVisit *visit)
{
  g_autofree char *full = g_strdup_printf ("%.10sT12:00:00Z", visit->date);
  g_autoptr (GDateTime) date = pr_date_holds (visit->date) ? g_date_time_new_from_iso8601 (full, NULL) : NULL;

  if (date)
    gtk_calendar_select_day (dialog->day, date);
  gtk_drop_down_set_selected (dialog->colour, (guint) visit->colour);
  gtk_text_buffer_set_text (dialog->note, visit->note, -1);
}

static void
show_colour (PrVisitDialog *dialog)
{
  guint chosen = gtk_drop_down_get_selected (dialog->colour);

  pr_colour_card (dialog->card, chosen < PR_N_CARD_COLOURS ? (int) chosen : 0);
}

/* --- the names in the list, each on its colour --- */

static void
make_name (GtkListItemFactory *factory, GtkListItem *item, gpointer data)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_widget_set_halign (label, GTK_ALIGN_START);
  gtk_list_item_set_child (item, label);
}

static void
show_name (GtkListItemFactory *factory, GtkListItem *item, gpointer data)
{
  GtkWidget *label = gtk_list_item_get_child (item);
  int colour = (int) gtk_list_item_get_position (item);

  pr_colour_card (label, colour);
  gtk_widget_set_visible (label, TRUE); /* none has its name too */
}

static void
name_colours (PrVisitDialog *dialog)
{
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (make_name), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (show_name), NULL);
  gtk_drop_down_set_list_factory (dialog->colour, factory);
  for (int i = 0; i < PR_N_CARD_COLOURS; i++)
    gtk_string_list_append (dialog->colours, pr_card_colour_name (i));
}

/* --- keeping --- */

static void
keep (PrVisitDialog *dialog)
{
  g_autoptr (GDateTime) day = gtk_calendar_get_date (dialog->day);
  g_autofree char *date = g_date_time_format (day, "%Y-%m-%d");
  g_autoptr (GError) error = NULL;

  g_autofree char *note = pr_typed (dialog->note);
  PrBookVisit visit = dialog->visit;

  visit.date = date;
  visit.note = note;
  visit.colour = (int) gtk_drop_down_get_selected (dialog->colour);
  if (pr_document_describe_visit (dialog->doc, &visit, &error))
    gtk_window_destroy (GTK_WINDOW (dialog));
  else
    pr_tell (dialog->trouble, error->message);
}

void
pr_visit_dialog_show (GtkWindow *parent, PrDocument *doc, PrBookId id)
{
  PrBookVisit visit;
  g_autoptr (GError) error = NULL;
  PrVisitDialog *dialog;

  if (!pr_book_get_visit (pr_document_book (doc), id, &visit, &error)) {
    pr_document_trouble (doc, error->message);
    return;
  }
  dialog = g_object_new (PR_TYPE_VISIT_DIALOG, "transient-for", parent, NULL);
  dialog->doc = g_object_ref (doc);
  dialog->visit = visit;
  fill (dialog, &visit);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
pr_visit_dialog_dispose (GObject *object)
{
  pr_book_visit_clear (&PR_VISIT_DIALOG (object)->visit);
  g_clear_object (&PR_VISIT_DIALOG (object)->doc);
  G_OBJECT_CLASS (pr_visit_dialog_parent_class)->dispose (object);
}

static void
pr_visit_dialog_init (PrVisitDialog *dialog)
{
  gtk_widget_init_template (GTK_WIDGET (dialog));
  name_colours (dialog);
}

static void
pr_visit_dialog_class_init (PrVisitDialogClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_visit_dialog_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "visit-dialog.ui");
  gtk_widget_class_bind_template_callback (widget_class, keep);
  gtk_widget_class_bind_template_callback (widget_class, show_colour);
  gtk_widget_class_bind_template_child (widget_class, PrVisitDialog, day);
  gtk_widget_class_bind_template_child (widget_class, PrVisitDialog, colour);
  gtk_widget_class_bind_template_child (widget_class, PrVisitDialog, colours);
  gtk_widget_class_bind_template_child (widget_class, PrVisitDialog, card);
  gtk_widget_class_bind_template_child (widget_class, PrVisitDialog, note);
  gtk_widget_class_bind_template_child (widget_class, PrVisitDialog, trouble);
}
