/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sent.h"

#include <glib/gi18n-lib.h>
#include "pr-error.h"
#include "pr-export.h"
#include "pr-words.h"

#define LISTED 6 /* feet named one by one; more are counted */

/* --- sending --- */

static void
file_chosen (GtkNativeDialog *dialog, int response, PrDocument *doc)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  g_autofree char *path = file ? g_file_get_path (file) : NULL;
  g_autoptr (GError) error = NULL;
  PrBookId foot = pr_document_foot_id (doc);

  if (response == GTK_RESPONSE_ACCEPT && !path)
    pr_document_trouble (doc, _ ("The foot cannot be written there; choose a folder of this computer."));
  else if (response == GTK_RESPONSE_ACCEPT && foot
           && !pr_book_send_foot (pr_document_book (doc), foot, path, &error))
    pr_document_trouble (doc, error->message);
  g_object_unref (dialog);
}

void
pr_send_foot (GtkWindow *parent, PrDocument *doc)
{
  GtkFileChooserNative *dialog;
  g_autofree char *name = NULL;

  if (!pr_document_job (doc) || !pr_document_foot_id (doc))
    return;
  name = pr_export_name (doc, ".pritchel");
  dialog = gtk_file_chooser_native_new (_ ("Save this foot to send it"), parent, GTK_FILE_CHOOSER_ACTION_SAVE,
                                        _ ("_Save"), _ ("_Cancel"));
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), name);
  g_signal_connect (dialog, "response", G_CALLBACK (file_chosen), doc);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

/* --- what is in it --- */

bool
pr_sent_is (GFile *file)
{
  g_autofree char *path = g_file_get_path (file);
  return path && pr_book_is_book (path);
}

static char *
name_of (const PrBookSent *sent)
{
  g_autofree char *date = pr_words_date (sent->date);
  return g_strdup_printf ("%s, %s, %s", sent->horse, pr_foot_name (sent->foot), date);
}

static const char *
parts_of (const PrBookSent *sent)
{
  if (sent->has_photo && sent->has_plan)
    return _ ("Its photo, its line and its shoe were sent.");
  if (sent->has_plan)
    return _ ("Its line and its shoe were sent, without the photo.");
  return sent->has_photo ? _ ("Its photo was sent, without a shoe.")
                         : _ ("It was sent without photo and shoe.");
}

static char *
heading (const GPtrArray *list)
{
  if (list->len == 1)
    return name_of (g_ptr_array_index (list, 0));
  return g_strdup_printf (ngettext ("%u foot was sent", "%u feet were sent", list->len), list->len);
}

static char *
details (const GPtrArray *list)
{
  GString *text = g_string_new (list->len == 1 ? parts_of (g_ptr_array_index (list, 0)) : NULL);

  for (guint i = 0; list->len > 1 && i < MIN (list->len, LISTED); i++) {
    g_autofree char *name = name_of (g_ptr_array_index (list, i));

    g_string_append_printf (text, i > 0 ? "\n%s" : "%s", name);
  }
  if (list->len > LISTED) {
    g_string_append_c (text, '\n');
    g_string_append_printf (text, ngettext ("and %u more", "and %u more", list->len - LISTED),
                            list->len - LISTED);
  }
  g_string_append_printf (text, "\n\n%s",
                          _ ("Taken in, it stands in your book under that horse and day. What you "
                             "have there stays as it is."));
  return g_string_free (text, FALSE);
}

/* --- asking --- */

typedef struct {
  PrDocument *doc;
  char *path;
  PrSentDone done;
} Asking;

static void
asking_free (Asking *asking)
{
  g_object_unref (asking->doc);
  g_free (asking->path);
  g_free (asking);
}

static void
answered (GtkDialog *dialog, int response, Asking *asking)
{
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (dialog));
  g_autoptr (PrDocument) doc = g_object_ref (asking->doc);
  g_autofree char *path = g_strdup (asking->path);
  g_autoptr (GError) error = NULL;
  PrSentDone done = asking->done;
  bool taken = response == GTK_RESPONSE_OK;

  gtk_window_destroy (GTK_WINDOW (dialog)); /* and ASKING with it */
  if (taken && !pr_document_take_sent (doc, path, &error))
    pr_document_trouble (doc, error->message);
  done (parent, taken);
}

static void
ask (GtkWindow *parent, Asking *asking, const GPtrArray *list)
{
  g_autofree char *what = heading (list), *more = details (list);
  GtkWidget *dialog = gtk_message_dialog_new (parent, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                              GTK_MESSAGE_OTHER, GTK_BUTTONS_NONE, "%s", what);

  gtk_window_set_title (GTK_WINDOW (dialog), _ ("Take in what was sent?"));
  gtk_widget_add_css_class (dialog, "pritchel");
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s", more);
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _ ("_Cancel"), GTK_RESPONSE_CANCEL, _ ("_Take in"),
                          GTK_RESPONSE_OK, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), GTK_RESPONSE_OK);
  g_object_set_data_full (G_OBJECT (dialog), "pr-asking", asking, (GDestroyNotify) asking_free);
  g_signal_connect (dialog, "response", G_CALLBACK (answered), asking);
  gtk_window_present (GTK_WINDOW (dialog));
}

bool
pr_sent_ask (GtkWindow *parent, PrDocument *doc, GFile *file, PrSentDone done, GError **error)
{
  PrBook *book = pr_document_book (doc);
  g_autofree char *path = g_file_get_path (file);
  g_autoptr (GPtrArray) list = NULL;
  Asking *asking;

  if (!book) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                         _ ("There is no book to take this foot into; start again when the book can be "
                            "opened, and open the foot then."));
    return false;
  }
  list = pr_book_look_into (book, path, error);
  if (!list)
    return false;
  if (list->len == 0) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK, _ ("There is no foot in %s; ask for it to be sent again."),
                 path);
    return false;
  }
  asking = g_new0 (Asking, 1);
  asking->doc = g_object_ref (doc);
  asking->path = g_steal_pointer (&path);
  asking->done = done;
  ask (parent, asking, list);
  return true;
}
