/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-due-dialog.h"

#include <glib/gi18n-lib.h>
#include "pr-document-diary.h"
#include "pr-ui.h"
#include "pr-words.h"

struct _PrDueDialog {
  GtkWindow parent_instance;
  PrDocument *doc;
  GPtrArray *due; /* PrBookDue, a row each */
  GtkStringList *rows;
  GtkWidget *nothing, *calendar, *trouble;
};

G_DEFINE_FINAL_TYPE (PrDueDialog, pr_due_dialog, GTK_TYPE_WINDOW)

/* "was due 1 November 2026 · Bramble · Mill yard". Transfer full. */
static char *
row_words (const PrBookDue *due, const char *today)
{
  g_autofree char *when = pr_due_words (due->due, today, NULL);

  return *due->horse.yard ? g_strdup_printf ("%s · %s · %s", when, due->horse.name, due->horse.yard)
                          : g_strdup_printf ("%s · %s", when, due->horse.name);
}

static void
fill (PrDueDialog *dialog)
{
  g_autofree char *today = pr_words_today ();
  g_autoptr (GPtrArray) words = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GError) error = NULL;

  dialog->due = pr_book_due (pr_document_book (dialog->doc), &error);
  for (guint i = 0; dialog->due && i < dialog->due->len; i++)
    g_ptr_array_add (words, row_words (dialog->due->pdata[i], today));
  g_ptr_array_add (words, NULL);
  gtk_string_list_splice (dialog->rows, 0, 0, (const char *const *) words->pdata);
  gtk_widget_set_visible (dialog->nothing, words->len == 1);
  gtk_widget_set_sensitive (dialog->calendar, words->len > 1);
  pr_tell (dialog->trouble, error ? error->message : NULL);
}

/* The horse, with its newest foot on the board. */
static void
chosen (GtkListView *view, guint position, PrDueDialog *dialog)
{
  const PrBookDue *due = position < dialog->due->len ? dialog->due->pdata[position] : NULL;
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (dialog));

  if (due && parent)
    gtk_widget_activate_action (GTK_WIDGET (parent), "win.open-horse", "x", due->horse.id);
  gtk_window_destroy (GTK_WINDOW (dialog));
}

/* --- the calendar --- */

static void
write_to (PrDueDialog *dialog, GFile *file)
{
  g_autofree char *path = g_file_get_path (file);
  g_autoptr (GError) error = NULL;

  if (!path || !pr_document_write_due (dialog->doc, path, &error)) {
    pr_tell (dialog->trouble,
             error ? error->message : _ ("Nothing can be written there; choose a folder of this computer."));
    return;
  }
  g_autofree char *base = g_path_get_basename (path), *name = g_filename_display_name (base);
  g_autofree char *said = g_strdup_printf (_ ("%s was written; open it with your calendar."), name);
  pr_document_say (dialog->doc, said);
  gtk_window_destroy (GTK_WINDOW (dialog));
}

static void
file_chosen (GtkNativeDialog *native, int response, PrDueDialog *dialog)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (native));

  if (response == GTK_RESPONSE_ACCEPT && file)
    write_to (dialog, file);
  g_object_unref (native);
}

static void
choose_file (PrDueDialog *dialog)
{
  GtkFileChooserNative *native
      = gtk_file_chooser_native_new (_ ("Keep what is due as a calendar"), GTK_WINDOW (dialog),
                                     GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));

  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (native), _ ("shoeing.ics"));
  g_signal_connect_object (native, "response", G_CALLBACK (file_chosen), dialog, 0);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (native), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (native));
}

/* --- the window --- */

void
pr_due_dialog_show (GtkWindow *parent, PrDocument *doc)
{
  PrDueDialog *dialog;

  if (!pr_document_book (doc))
    return;
  dialog = g_object_new (PR_TYPE_DUE_DIALOG, "transient-for", parent, NULL);
  dialog->doc = g_object_ref (doc);
  fill (dialog);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
pr_due_dialog_dispose (GObject *object)
{
  PrDueDialog *dialog = PR_DUE_DIALOG (object);

  g_clear_object (&dialog->doc);
  g_clear_pointer (&dialog->due, g_ptr_array_unref);
  G_OBJECT_CLASS (pr_due_dialog_parent_class)->dispose (object);
}

static void
pr_due_dialog_init (PrDueDialog *dialog)
{
  gtk_widget_init_template (GTK_WIDGET (dialog));
}

static void
pr_due_dialog_class_init (PrDueDialogClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_due_dialog_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "due-dialog.ui");
  gtk_widget_class_bind_template_callback (widget_class, chosen);
  gtk_widget_class_bind_template_callback (widget_class, choose_file);
  gtk_widget_class_bind_template_child (widget_class, PrDueDialog, rows);
  gtk_widget_class_bind_template_child (widget_class, PrDueDialog, nothing);
  gtk_widget_class_bind_template_child (widget_class, PrDueDialog, calendar);
  gtk_widget_class_bind_template_child (widget_class, PrDueDialog, trouble);
}
