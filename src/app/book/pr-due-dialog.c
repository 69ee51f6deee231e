/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-due-dialog.h"

#include <glib/gi18n-lib.h>
#include "pr-document-diary.h"
#include "pr-due-list.h"
#include "pr-ui.h"
#include "pr-words.h"

struct _PrDueDialog {
  GtkWindow parent_instance;
  PrDocument *doc;
  PrDueList *rows;
  GtkWidget *nothing, *calendar, *trouble;
};

G_DEFINE_FINAL_TYPE (PrDueDialog, pr_due_dialog, GTK_TYPE_WINDOW)

static void
fill (PrDueDialog *dialog)
{
  g_autofree char *today = pr_words_today ();
  g_autoptr (GError) error = NULL;

  pr_due_list_take (dialog->rows, pr_book_due (pr_document_book (dialog->doc), &error), today);
  bool any = pr_due_list_at (dialog->rows, 0) != NULL;
  gtk_widget_set_visible (dialog->nothing, !any);
  gtk_widget_set_sensitive (dialog->calendar, any);
  pr_tell (dialog->trouble, error ? error->message : NULL);
}

/* The horse, with its newest foot on the board. */
static void
chosen (GtkListView *view, guint position, PrDueDialog *dialog)
{
  const PrBookDue *due = pr_due_list_at (dialog->rows, position);
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
  G_OBJECT_CLASS (pr_due_dialog_parent_class)->dispose (object);
}

static void
pr_due_dialog_init (PrDueDialog *dialog)
{
  g_type_ensure (PR_TYPE_DUE_LIST);
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
