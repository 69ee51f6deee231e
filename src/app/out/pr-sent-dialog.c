/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sent-dialog.h"

#include <glib/gi18n-lib.h>
#include "pr-error.h"
#include "pr-words.h"

#define LISTED 6 /* feet named one by one; more are counted */

struct _PrSentDialog {
  GtkDialog parent_instance;
  PrDocument *doc;
  char *path;
  GtkLabel *heading, *details;
};

enum { ANSWERED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrSentDialog, pr_sent_dialog, GTK_TYPE_DIALOG)

bool
pr_sent_is (GFile *file)
{
  g_autofree char *path = g_file_get_path (file);
  return path && pr_book_is_book (path);
}

/* --- what is in it --- */

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
heading_of (const GPtrArray *list)
{
  if (list->len == 1)
    return name_of (g_ptr_array_index (list, 0));
  return g_strdup_printf (ngettext ("%u foot was sent", "%u feet were sent", list->len), list->len);
}

static char *
details_of (const GPtrArray *list)
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

static void
answered (PrSentDialog *dialog, int response, gpointer data)
{
  g_autoptr (PrSentDialog) held = g_object_ref (dialog);
  g_autoptr (PrDocument) doc = g_object_ref (dialog->doc);
  g_autoptr (GError) error = NULL;
  bool taken = response == GTK_RESPONSE_OK;

  gtk_widget_set_visible (GTK_WIDGET (dialog), FALSE);
  if (taken && !pr_document_take_sent (doc, dialog->path, &error))
    pr_document_trouble (doc, error->message);
  g_signal_emit (dialog, signals[ANSWERED], 0, taken);
  gtk_window_destroy (GTK_WINDOW (dialog));
}

/* What is in the file at PATH. Element type PrBookSent, transfer full; NULL with error. */
static GPtrArray *
look_into (PrBook *book, const char *path, GError **error)
{
  g_autoptr (GPtrArray) list = NULL;

  if (!book) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                         _ ("There is no book to take this foot into; start again when the book can be "
                            "opened, and open the foot then."));
    return NULL;
  }
  list = pr_book_look_into (book, path, NULL, error);
  if (list && list->len == 0) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK, _ ("There is no foot in %s; ask for it to be sent again."),
                 path);
    return NULL;
  }
  return g_steal_pointer (&list);
}

PrSentDialog *
pr_sent_dialog_new (GtkWindow *parent, PrDocument *doc, GFile *file, GError **error)
{
  g_autofree char *path = g_file_get_path (file), *what = NULL, *more = NULL;
  g_autoptr (GPtrArray) list = look_into (pr_document_book (doc), path, error);
  PrSentDialog *dialog;

  if (!list)
    return NULL;
  what = heading_of (list);
  more = details_of (list);
  dialog = g_object_new (PR_TYPE_SENT_DIALOG, "transient-for", parent, NULL);
  dialog->doc = g_object_ref (doc);
  dialog->path = g_steal_pointer (&path);
  gtk_label_set_text (dialog->heading, what);
  gtk_label_set_text (dialog->details, more);
  return dialog;
}

static void
pr_sent_dialog_dispose (GObject *object)
{
  g_clear_object (&PR_SENT_DIALOG (object)->doc);
  G_OBJECT_CLASS (pr_sent_dialog_parent_class)->dispose (object);
}

static void
pr_sent_dialog_finalize (GObject *object)
{
  g_free (PR_SENT_DIALOG (object)->path);
  G_OBJECT_CLASS (pr_sent_dialog_parent_class)->finalize (object);
}

static void
pr_sent_dialog_init (PrSentDialog *dialog)
{
  gtk_widget_init_template (GTK_WIDGET (dialog));
}

static void
pr_sent_dialog_class_init (PrSentDialogClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_sent_dialog_dispose;
  G_OBJECT_CLASS (class)->finalize = pr_sent_dialog_finalize;
  signals[ANSWERED] = g_signal_new ("answered", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                    NULL, G_TYPE_NONE, 1, G_TYPE_BOOLEAN);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/sent-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, PrSentDialog, heading);
  gtk_widget_class_bind_template_child (widget_class, PrSentDialog, details);
  gtk_widget_class_bind_template_callback (widget_class, answered);
}
