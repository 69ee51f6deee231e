/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-horse-dialog.h"

#include <glib/gi18n-lib.h>
#include "pr-document-diary.h"
#include "pr-ui.h"

#define WEEK 7

struct _PrHorseDialog {
  GtkWindow parent_instance;
  PrDocument *doc;
  PrBookId horse;
  GtkEditable *name, *yard, *owner;
  GtkDropDown *due;
  GtkStringList *intervals;
  GtkTextBuffer *note;
  GtkWidget *trouble;
  GArray *days; /* int, of each interval */
};

G_DEFINE_FINAL_TYPE (PrHorseDialog, pr_horse_dialog, GTK_TYPE_WINDOW)

static void
add_interval (PrHorseDialog *dialog, int days, const char *words)
{
  gtk_string_list_append (dialog->intervals, words);
  g_array_append_val (dialog->days, days);
}

/* Whole weeks; what a book has besides is one more. */
static void
list_intervals (PrHorseDialog *dialog, int now)
{
  static const int weeks[] = { 3, 4, 5, 6, 7, 8, 10, 12 };
  g_autofree char *usual = g_strdup_printf (_ ("as usual, every %d weeks"), PR_BOOK_USUAL_DAYS / WEEK);
  bool found = false;

  add_interval (dialog, 0, usual);
  for (size_t i = 0; i < G_N_ELEMENTS (weeks); i++) {
    g_autofree char *words = g_strdup_printf (_ ("every %d weeks"), weeks[i]);

    add_interval (dialog, weeks[i] * WEEK, words);
  }
  add_interval (dialog, PR_BOOK_NEVER_DUE, _ ("never"));
  for (guint i = 0; i < dialog->days->len; i++)
    if (g_array_index (dialog->days, int, i) == now) {
      gtk_drop_down_set_selected (dialog->due, i);
      found = true;
    }
  if (found)
    return;
  g_autofree char *words = g_strdup_printf (ngettext ("every %d day", "every %d days", (gulong) now), now);
  add_interval (dialog, now, words);
  gtk_drop_down_set_selected (dialog->due, dialog->days->len - 1);
}

static void
fill (PrHorseDialog *dialog, const PrBookHorse *horse)
{
  gtk_editable_set_text (dialog->name, horse->name);
  gtk_editable_set_text (dialog->yard, horse->yard);
  gtk_editable_set_text (dialog->owner, horse->owner);
  gtk_text_buffer_set_text (dialog->note, horse->note, -1);
  list_intervals (dialog, horse->due_days);
}

static void
keep (PrHorseDialog *dialog)
{
  g_autoptr (GError) error = NULL;

  g_autofree char *note = pr_typed (dialog->note);
  const PrBookHorse horse
      = { .id = dialog->horse,
          .name = (char *) gtk_editable_get_text (dialog->name),
          .yard = (char *) gtk_editable_get_text (dialog->yard),
          .owner = (char *) gtk_editable_get_text (dialog->owner),
          .note = note,
          .due_days = g_array_index (dialog->days, int, gtk_drop_down_get_selected (dialog->due)) };
  if (pr_document_describe_horse (dialog->doc, &horse, &error))
    gtk_window_destroy (GTK_WINDOW (dialog));
  else
    pr_tell (dialog->trouble, error->message);
}

void
pr_horse_dialog_show (GtkWindow *parent, PrDocument *doc, PrBookId id)
{
  g_auto (PrBookHorse) horse = { 0 };
  g_autoptr (GError) error = NULL;
  PrHorseDialog *dialog;

  if (!pr_book_get_horse (pr_document_book (doc), id, &horse, &error)) {
    pr_document_trouble (doc, error->message);
    return;
  }
  dialog = g_object_new (PR_TYPE_HORSE_DIALOG, "transient-for", parent, NULL);
  dialog->doc = g_object_ref (doc);
  dialog->horse = id;
  fill (dialog, &horse);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
pr_horse_dialog_dispose (GObject *object)
{
  PrHorseDialog *dialog = PR_HORSE_DIALOG (object);

  g_clear_object (&dialog->doc);
  g_clear_pointer (&dialog->days, g_array_unref);
  G_OBJECT_CLASS (pr_horse_dialog_parent_class)->dispose (object);
}

static void
pr_horse_dialog_init (PrHorseDialog *dialog)
{
  dialog->days = g_array_new (FALSE, FALSE, sizeof (int));
  gtk_widget_init_template (GTK_WIDGET (dialog));
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrHorseDialog, name)

static void
pr_horse_dialog_class_init (PrHorseDialogClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_horse_dialog_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "horse-dialog.ui");
  gtk_widget_class_bind_template_callback (widget_class, keep);
  BIND (name);
  BIND (yard);
  BIND (owner);
  BIND (due);
  BIND (intervals);
  BIND (note);
  BIND (trouble);
}
