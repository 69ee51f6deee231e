/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-restore-dialog.h"

#include <glib/gi18n-lib.h>
#include "pr-book-loss.h"
#include "pr-document-backup.h"
#include "pr-ui.h"

struct _PrRestoreDialog {
  GtkWindow parent_instance;
  PrDocument *doc;
  GPtrArray *backups; /* PrBookBackup, a row each */
  char *file;         /* that is being asked about */
  GtkStringList *rows;
  GtkWidget *nothing, *trouble;
};

G_DEFINE_FINAL_TYPE (PrRestoreDialog, pr_restore_dialog, GTK_TYPE_WINDOW)

static void
fill (PrRestoreDialog *dialog)
{
  g_autofree char *folder = pr_backup_folder (pr_book_file (pr_document_book (dialog->doc)));

  dialog->backups = pr_book_backups (folder);
  for (guint i = 0; i < dialog->backups->len; i++) {
    g_autofree char *words = pr_document_backup_words (dialog->backups->pdata[i]);

    gtk_string_list_append (dialog->rows, words);
  }
  gtk_widget_set_visible (dialog->nothing, dialog->backups->len == 0);
}

/* --- asking --- */

static void
go (gpointer dialog)
{
  gtk_window_destroy (dialog);
  g_object_unref (dialog);
}

static void
answered (GtkDialog *question, int response, PrRestoreDialog *dialog)
{
  g_autoptr (GError) error = NULL;

  gtk_window_destroy (GTK_WINDOW (question));
  if (response != GTK_RESPONSE_ACCEPT)
    return;
  if (pr_document_restore (dialog->doc, dialog->file, &error))
    g_idle_add_once (go, g_object_ref (dialog)); /* the question still looks for its parent when it goes */
  else
    pr_tell (dialog->trouble, error->message);
}

/* Nothing is done before it is said what would go. */
static void
ask (PrRestoreDialog *dialog, const char *file)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = pr_document_restore_question (dialog->doc, file, &error);
  GtkWidget *question;

  pr_tell (dialog->trouble, error ? error->message : NULL);
  if (!text)
    return;
  g_free (dialog->file);
  dialog->file = g_strdup (file);
  question = gtk_message_dialog_new (GTK_WINDOW (dialog), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                     GTK_MESSAGE_OTHER, GTK_BUTTONS_NONE, "%s", _ ("Restore the book?"));
  gtk_window_set_title (GTK_WINDOW (question), _ ("Restore the book?"));
  gtk_widget_add_css_class (question, "pritchel");
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (question), "%s", text);
  gtk_dialog_add_buttons (GTK_DIALOG (question), _ ("_Cancel"), GTK_RESPONSE_CANCEL, _ ("_Restore"),
                          GTK_RESPONSE_ACCEPT, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (question), GTK_RESPONSE_CANCEL);
  g_signal_connect_object (question, "response", G_CALLBACK (answered), dialog, 0);
  gtk_window_present (GTK_WINDOW (question));
}

static void
chosen (GtkListView *view, guint position, PrRestoreDialog *dialog)
{
  if (position < dialog->backups->len)
    ask (dialog, ((PrBookBackup *) dialog->backups->pdata[position])->file);
}

static void
file_chosen (GtkNativeDialog *native, int response, PrRestoreDialog *dialog)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (native));
  g_autofree char *path = file ? g_file_get_path (file) : NULL;

  if (response == GTK_RESPONSE_ACCEPT && path)
    ask (dialog, path);
  g_object_unref (native);
}

static void
choose_file (PrRestoreDialog *dialog)
{
  GtkFileChooserNative *native
      = gtk_file_chooser_native_new (_ ("Open a backup of the book"), GTK_WINDOW (dialog),
                                     GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"), _ ("_Cancel"));

  g_signal_connect_object (native, "response", G_CALLBACK (file_chosen), dialog, 0);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (native), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (native));
}

/* --- a backup by hand --- */

static void
place_chosen (GtkNativeDialog *native, int response, PrDocument *doc)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (native));
  g_autofree char *path = file ? g_file_get_path (file) : NULL;
  g_autoptr (GError) error = NULL;

  if (response == GTK_RESPONSE_ACCEPT && !path)
    pr_document_trouble (doc, _ ("Nothing can be written there; choose a folder of this computer."));
  else if (response == GTK_RESPONSE_ACCEPT && !pr_document_backup (doc, path, &error))
    pr_document_trouble (doc, error->message);
  g_object_unref (native);
}

void
pr_backup_choose (GtkWindow *parent, PrDocument *doc)
{
  g_autofree char *name = pr_document_backup_name ();
  GtkFileChooserNative *native
      = gtk_file_chooser_native_new (_ ("Back up the whole book"), parent, GTK_FILE_CHOOSER_ACTION_SAVE,
                                     _ ("_Save"), _ ("_Cancel"));

  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (native), name);
  g_signal_connect_object (native, "response", G_CALLBACK (place_chosen), doc, 0);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (native), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (native));
}

/* --- the window --- */

void
pr_restore_dialog_show (GtkWindow *parent, PrDocument *doc)
{
  PrRestoreDialog *dialog;

  if (!pr_document_book (doc))
    return;
  dialog = g_object_new (PR_TYPE_RESTORE_DIALOG, "transient-for", parent, NULL);
  dialog->doc = g_object_ref (doc);
  fill (dialog);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
pr_restore_dialog_dispose (GObject *object)
{
  PrRestoreDialog *dialog = PR_RESTORE_DIALOG (object);

  g_clear_object (&dialog->doc);
  g_clear_pointer (&dialog->backups, g_ptr_array_unref);
  g_clear_pointer (&dialog->file, g_free);
  G_OBJECT_CLASS (pr_restore_dialog_parent_class)->dispose (object);
}

static void
pr_restore_dialog_init (PrRestoreDialog *dialog)
{
  gtk_widget_init_template (GTK_WIDGET (dialog));
}

static void
pr_restore_dialog_class_init (PrRestoreDialogClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_restore_dialog_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "restore-dialog.ui");
  gtk_widget_class_bind_template_callback (widget_class, chosen);
  gtk_widget_class_bind_template_callback (widget_class, choose_file);
  gtk_widget_class_bind_template_child (widget_class, PrRestoreDialog, rows);
  gtk_widget_class_bind_template_child (widget_class, PrRestoreDialog, nothing);
  gtk_widget_class_bind_template_child (widget_class, PrRestoreDialog, trouble);
}
