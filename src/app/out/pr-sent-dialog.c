/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sent-dialog.h"

#include <glib/gi18n-lib.h>
#include "pr-merge-row.h"
#include "pr-sent.h"
#include "pr-text.h"
#include "pr-words.h"

#define LISTED 200    /* feet named one by one; more are counted */
#define GLANCE_MS 250 /* what is read sooner is not shown being read */

struct _PrSentDialog {
  GtkDialog parent_instance;
  PrDocument *doc;
  char *path;
  bool whole;         /* a person's own other book */
  PrMerge *merge;     /* what is in it; NULL: not looked at yet */
  GListStore *items;  /* PrMergeItem, of MERGE */
  GCancellable *work; /* of what is under way; NULL: it waits for an answer */
  guint later;        /* source that shows it */
  GtkLabel *heading, *details;
  GtkProgressBar *progress;
  GtkWidget *list, *take, *cancel, *questions;
  GtkListView *rows;
  GtkDropDown *all;
};

enum { ANSWERED, REFUSED, N_SIGNALS };
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
  g_autofree char *date = pr_words_date (sent->date), *day = pr_text_name (date);
  g_autofree char *horse = pr_text_name (sent->horse);
  return g_strdup_printf ("%s, %s, %s", horse, pr_foot_name (sent->foot), day);
}

static const char *
parts_of (const PrBookSent *sent)
{
  if (sent->has_photo && sent->has_plan)
    return _ ("Its photo, its outline and its shoe are in the file.");
  if (sent->has_plan)
    return _ ("Its outline and its shoe are in the file, without the photo.");
  return sent->has_photo ? _ ("Its photo is in the file, without a shoe.")
                         : _ ("The file has neither its photo nor a shoe.");
}

static char *
heading_of (const GPtrArray *list)
{
  if (list->len == 1)
    return name_of (g_ptr_array_index (list, 0));
  return g_strdup_printf (ngettext ("%u foot is in the file", "%u feet are in the file", list->len),
                          list->len);
}

/* What of it is known here already. */
static char *
known_of (const PrMerge *merge)
{
  guint differ = merge->feet->len;
  g_autofree char *new_feet
      = g_strdup_printf (ngettext ("%u foot is new", "%u feet are new", merge->n_new), merge->n_new);
  g_autofree char *same = g_strdup_printf (
      ngettext ("%u is the same in your book", "%u are the same in your book", merge->n_same), merge->n_same);
  g_autofree char *other = g_strdup_printf (
      ngettext ("%u differs from the one you have", "%u differ from those you have", differ), differ);

  if (merge->n_deleted == 0)
    return g_strdup_printf ("%s, %s, %s.", new_feet, same, other);
  g_autofree char *gone
      = g_strdup_printf (ngettext ("%u of the new feet was deleted in your book.",
                                   "%u of the new feet were deleted in your book.", merge->n_deleted),
                         merge->n_deleted);
  return g_strdup_printf ("%s, %s, %s. %s", new_feet, same, other, gone);
}

static void
list_feet (GString *text, const GPtrArray *list)
{
  for (guint i = 0; i < MIN (list->len, LISTED); i++) {
    g_autofree char *name = name_of (g_ptr_array_index (list, i));

    g_string_append_printf (text, i > 0 ? "\n%s" : "%s", name);
  }
  if (list->len <= LISTED)
    return;
  g_string_append_c (text, '\n');
  g_string_append_printf (text, ngettext ("and %u more", "and %u more", list->len - LISTED),
                          list->len - LISTED);
}

/* Where there are questions, they stand for themselves. */
static char *
details_of (const PrMerge *merge)
{
  const GPtrArray *list = merge->sent;
  bool asks = merge->feet->len + merge->horses->len > 0;
  GString *text = g_string_new (list->len == 1 ? parts_of (g_ptr_array_index (list, 0)) : NULL);
  g_autofree char *known = known_of (merge);

  if (list->len > 1 && !asks)
    list_feet (text, list);
  if (asks || merge->n_deleted > 0)
    g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", known);
  if (!asks)
    g_string_append_printf (
        text, "\n\n%s",
        _ ("Imported, it stands in your book under that horse and day. What you have there stays as it is."));
  return g_string_free (text, FALSE);
}

/* --- what is asked of each --- */

static void
make_row (GtkListItemFactory *factory, GtkListItem *item, gpointer data)
{
  gtk_list_item_set_activatable (item, FALSE);
  gtk_list_item_set_child (item, g_object_new (PR_TYPE_MERGE_ROW, NULL));
}

static void
fill_row (GtkListItemFactory *factory, GtkListItem *item, gpointer data)
{
  pr_merge_row_show (PR_MERGE_ROW (gtk_list_item_get_child (item)), gtk_list_item_get_item (item));
}

static void
empty_row (GtkListItemFactory *factory, GtkListItem *item, gpointer data)
{
  pr_merge_row_show (PR_MERGE_ROW (gtk_list_item_get_child (item)), NULL);
}

static void
make_rows (PrSentDialog *dialog)
{
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", G_CALLBACK (make_row), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (fill_row), NULL);
  g_signal_connect (factory, "unbind", G_CALLBACK (empty_row), NULL);
  gtk_list_view_set_factory (dialog->rows, factory);
  dialog->items = g_list_store_new (PR_TYPE_MERGE_ITEM);
  g_autoptr (GtkSelectionModel) model
      = GTK_SELECTION_MODEL (gtk_no_selection_new (g_object_ref (G_LIST_MODEL (dialog->items))));
  gtk_list_view_set_model (dialog->rows, model);
}

static void
add_item (PrSentDialog *dialog, PrMergeHorse *horse, PrMergeFoot *foot)
{
  g_autoptr (PrMergeItem) item = pr_merge_item_new (horse, foot);

  g_list_store_append (dialog->items, item);
}

static void
ask_each (PrSentDialog *dialog)
{
  const PrMerge *merge = dialog->merge;

  for (guint i = 0; i < merge->feet->len; i++)
    add_item (dialog, NULL, merge->feet->pdata[i]);
  for (guint i = 0; i < merge->horses->len; i++)
    add_item (dialog, merge->horses->pdata[i], NULL);
}

static bool
has_questions (PrSentDialog *dialog)
{
  return g_list_model_get_n_items (G_LIST_MODEL (dialog->items)) > 0;
}

/* The choices stand there in their own order. */
static void
all_chosen (PrSentDialog *dialog)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (dialog->items));

  for (guint i = 0; i < n; i++) {
    g_autoptr (PrMergeItem) item = g_list_model_get_item (G_LIST_MODEL (dialog->items), i);

    pr_merge_item_choose (item, (PrMergeChoice) gtk_drop_down_get_selected (dialog->all));
  }
  g_list_model_items_changed (G_LIST_MODEL (dialog->items), 0, n, n);
}

/* --- reading, asking, taking in --- */

static void
tell (double done, gpointer data)
{
  gtk_progress_bar_set_fraction (PR_SENT_DIALOG (data)->progress, done);
}

/* WHAT is under way, or NULL: it waits for an answer. */
static void
show_work (PrSentDialog *dialog, const char *what)
{
  gtk_widget_set_visible (GTK_WIDGET (dialog->progress), what != NULL);
  gtk_widget_set_visible (dialog->list, what == NULL);
  gtk_widget_set_visible (dialog->questions, what == NULL && has_questions (dialog));
  gtk_widget_set_sensitive (dialog->take, what == NULL);
  gtk_button_set_label (GTK_BUTTON (dialog->cancel), what ? _ ("_Stop") : _ ("_Cancel"));
  if (what) {
    gtk_label_set_text (dialog->heading, what);
    gtk_progress_bar_set_fraction (dialog->progress, 0);
  }
}

static GCancellable *
begin_work (PrSentDialog *dialog, const char *what)
{
  g_clear_object (&dialog->work);
  dialog->work = g_cancellable_new ();
  show_work (dialog, what);
  return dialog->work;
}

/* Away, before anybody is told. */
static void
go (PrSentDialog *dialog)
{
  g_clear_handle_id (&dialog->later, g_source_remove);
  gtk_widget_set_visible (GTK_WIDGET (dialog), FALSE);
}

static void
end_answered (PrSentDialog *dialog, bool taken)
{
  go (dialog);
  g_signal_emit (dialog, signals[ANSWERED], 0, taken);
  gtk_window_destroy (GTK_WINDOW (dialog));
}

static void
end_refused (PrSentDialog *dialog, const char *sentence)
{
  go (dialog);
  g_signal_emit (dialog, signals[REFUSED], 0, sentence);
  gtk_window_destroy (GTK_WINDOW (dialog));
}

/* The window it belonged to may have gone meanwhile, and it with that. */
static void
taken (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (PrSentDialog) dialog = PR_SENT_DIALOG (data);
  g_autoptr (GError) error = NULL;
  bool stopped;

  if (!dialog->doc)
    return;
  g_autoptr (PrDocument) doc = g_object_ref (dialog->doc);
  g_clear_object (&dialog->work);
  go (dialog);
  if (!pr_sent_take_finish (doc, result, &error)
      && !g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    pr_document_trouble (doc, error->message);
  stopped = g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  end_answered (dialog, !stopped);
}

static void
answered (PrSentDialog *dialog, int response, gpointer data)
{
  if (dialog->work)
    g_cancellable_cancel (dialog->work);
  else if (response == GTK_RESPONSE_OK)
    pr_sent_take (dialog->doc, dialog->path, dialog->whole, dialog->merge,
                  begin_work (dialog, _ ("Importing the file")), tell, taken, g_object_ref (dialog));
  else
    end_answered (dialog, false);
}

/* Work that is under way is stopped first; what comes of it closes the dialog. */
static gboolean
closing (PrSentDialog *dialog, gpointer data)
{
  if (dialog->work)
    g_cancellable_cancel (dialog->work);
  return dialog->work != NULL;
}

static void
ask (PrSentDialog *dialog)
{
  g_autofree char *what = heading_of (dialog->merge->sent), *more = details_of (dialog->merge);

  ask_each (dialog);
  show_work (dialog, NULL);
  gtk_label_set_text (dialog->heading, what);
  gtk_label_set_text (dialog->details, more);
  gtk_window_set_focus (GTK_WINDOW (dialog), dialog->take);
  g_clear_handle_id (&dialog->later, g_source_remove);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
looked (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (PrSentDialog) dialog = PR_SENT_DIALOG (data);
  g_autoptr (GError) error = NULL;
  g_autoptr (PrMerge) merge = pr_sent_look_finish (result, &error);

  if (!dialog->doc)
    return;
  g_clear_object (&dialog->work);
  dialog->merge = g_steal_pointer (&merge);
  if (dialog->merge)
    ask (dialog);
  else if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    end_answered (dialog, false);
  else
    end_refused (dialog, error->message);
}

static gboolean
takes_longer (gpointer data)
{
  PrSentDialog *dialog = PR_SENT_DIALOG (data);

  dialog->later = 0;
  gtk_window_present (GTK_WINDOW (dialog));
  return G_SOURCE_REMOVE;
}

PrSentDialog *
pr_sent_dialog_new (GtkWindow *parent, PrDocument *doc, GFile *file, bool whole)
{
  PrSentDialog *dialog = g_object_new (PR_TYPE_SENT_DIALOG, "transient-for", parent, NULL);

  dialog->doc = g_object_ref (doc);
  dialog->path = g_file_get_path (file);
  dialog->whole = whole;
  dialog->later = g_timeout_add (GLANCE_MS, takes_longer, dialog);
  pr_sent_look (doc, dialog->path, whole, begin_work (dialog, _ ("Reading the file")), tell, looked,
                g_object_ref (dialog));
  return dialog;
}

static void
pr_sent_dialog_dispose (GObject *object)
{
  PrSentDialog *dialog = PR_SENT_DIALOG (object);

  g_clear_handle_id (&dialog->later, g_source_remove);
  if (dialog->work)
    g_cancellable_cancel (dialog->work);
  g_clear_object (&dialog->work);
  g_clear_object (&dialog->doc);
  G_OBJECT_CLASS (pr_sent_dialog_parent_class)->dispose (object);
}

static void
pr_sent_dialog_finalize (GObject *object)
{
  g_free (PR_SENT_DIALOG (object)->path);
  g_clear_object (&PR_SENT_DIALOG (object)->items);
  g_clear_pointer (&PR_SENT_DIALOG (object)->merge, pr_merge_free);
  G_OBJECT_CLASS (pr_sent_dialog_parent_class)->finalize (object);
}

static void
pr_sent_dialog_init (PrSentDialog *dialog)
{
  gtk_widget_init_template (GTK_WIDGET (dialog));
  make_rows (dialog);
}

static void
bind (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/sent-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, PrSentDialog, heading);
  gtk_widget_class_bind_template_child (widget_class, PrSentDialog, details);
  gtk_widget_class_bind_template_child (widget_class, PrSentDialog, list);
  gtk_widget_class_bind_template_child (widget_class, PrSentDialog, progress);
  gtk_widget_class_bind_template_child (widget_class, PrSentDialog, take);
  gtk_widget_class_bind_template_child (widget_class, PrSentDialog, cancel);
  gtk_widget_class_bind_template_child (widget_class, PrSentDialog, questions);
  gtk_widget_class_bind_template_child (widget_class, PrSentDialog, rows);
  gtk_widget_class_bind_template_child (widget_class, PrSentDialog, all);
  gtk_widget_class_bind_template_callback (widget_class, all_chosen);
  gtk_widget_class_bind_template_callback (widget_class, answered);
  gtk_widget_class_bind_template_callback (widget_class, closing);
}

static void
pr_sent_dialog_class_init (PrSentDialogClass *class)
{
  GType type = G_TYPE_FROM_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_sent_dialog_dispose;
  G_OBJECT_CLASS (class)->finalize = pr_sent_dialog_finalize;
  signals[ANSWERED] = g_signal_new ("answered", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                    G_TYPE_BOOLEAN);
  signals[REFUSED]
      = g_signal_new ("refused", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  bind (GTK_WIDGET_CLASS (class));
}
