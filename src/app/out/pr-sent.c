/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sent.h"

#include <glib/gi18n-lib.h>
#include "pr-document-delete.h"
#include "pr-document-file.h"
#include "pr-error.h"

#define TOLD_STEP 0.01 /* of the whole: the window is not told more finely */

typedef struct {
  char *file;
  bool whole;
  const PrMerge *merge; /* what was chosen */
  PrSentTold told;
  gpointer data;
  double last;
} Order;

static void
order_free (gpointer data)
{
  Order *order = data;

  g_free (order->file);
  g_free (order);
}

/* --- how it goes, from its thread to the main one --- */

typedef struct {
  GTask *task;
  double done;
} Word;

static void
word_free (gpointer data)
{
  Word *word = data;

  g_object_unref (word->task);
  g_free (word);
}

static gboolean
pass_on (gpointer data)
{
  Word *word = data;
  Order *order = g_task_get_task_data (word->task);

  if (!g_task_get_completed (word->task) && !g_cancellable_is_cancelled (g_task_get_cancellable (word->task)))
    order->told (word->done, order->data);
  return G_SOURCE_REMOVE;
}

static void
tell (double done, gpointer data)
{
  GTask *task = data;
  Order *order = g_task_get_task_data (task);
  Word *word;

  if (done < order->last + TOLD_STEP && done < 1)
    return;
  order->last = done;
  word = g_new (Word, 1);
  word->task = g_object_ref (task);
  word->done = done;
  g_main_context_invoke_full (NULL, G_PRIORITY_DEFAULT, pass_on, word, word_free);
}

/* --- the threads --- */

static void
look_thread (GTask *task, gpointer source, gpointer task_data, GCancellable *stop)
{
  const Order *order = task_data;
  const PrBookWork work = { stop, tell, task, order->whole };
  GError *error = NULL;
  PrMerge *merge = pr_merge_look (pr_document_book (PR_DOCUMENT (source)), order->file, &work, &error);

  pr_document_book_let_go (PR_DOCUMENT (source));
  if (merge)
    g_task_return_pointer (task, merge, (GDestroyNotify) pr_merge_free);
  else
    g_task_return_error (task, error);
}

static void
take_thread (GTask *task, gpointer source, gpointer task_data, GCancellable *stop)
{
  const Order *order = task_data;
  const PrBookWork work = { stop, tell, task, order->whole };
  GError *error = NULL;
  PrMerged *merged
      = pr_merge_take (pr_document_book (PR_DOCUMENT (source)), order->file, order->merge, &work, &error);

  pr_document_book_let_go (PR_DOCUMENT (source));
  if (merged)
    g_task_return_pointer (task, merged, (GDestroyNotify) pr_merged_free);
  else
    g_task_return_error (task, error);
}

/* The task holds the document, and with it the book. */
static void
start (PrDocument *doc, Order *order, GCancellable *stop, GTaskThreadFunc work, GAsyncReadyCallback ready,
       gpointer data)
{
  g_autoptr (GTask) task = g_task_new (doc, stop, ready, data);

  /* what was done is done, even if the wish to stop it came while it ended */
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, order, order_free);
  if (pr_document_book (doc)) {
    pr_document_book_hold (doc);
    g_task_run_in_thread (task, work);
  } else {
    g_task_return_new_error (task, PR_ERROR, PR_ERROR_BOOK, "%s",
                             _ ("There is no book to import this foot into; start again when the book can be "
                                "opened, and open the foot then."));
  }
}

static Order *
order_new (const char *file, bool whole, const PrMerge *merge, PrSentTold told, gpointer data)
{
  Order *order = g_new0 (Order, 1);

  order->file = g_strdup (file);
  order->whole = whole;
  order->merge = merge;
  order->told = told;
  order->data = data;
  return order;
}

void
pr_sent_look (PrDocument *doc, const char *file, bool whole, GCancellable *stop, PrSentTold told,
              GAsyncReadyCallback ready, gpointer data)
{
  start (doc, order_new (file, whole, NULL, told, data), stop, look_thread, ready, data);
}

PrMerge *
pr_sent_look_finish (GAsyncResult *result, GError **error)
{
  const Order *order = g_task_get_task_data (G_TASK (result));
  g_autoptr (PrMerge) merge = g_task_propagate_pointer (G_TASK (result), error);

  if (merge && merge->sent->len == 0) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK, _ ("There is no foot in %s; ask for it to be sent again."),
                 order->file);
    return NULL;
  }
  return g_steal_pointer (&merge);
}

void
pr_sent_take (PrDocument *doc, const char *file, bool whole, const PrMerge *merge, GCancellable *stop,
              PrSentTold told, GAsyncReadyCallback ready, gpointer data)
{
  start (doc, order_new (file, whole, merge, told, data), stop, take_thread, ready, data);
}

bool
pr_sent_take_finish (PrDocument *doc, GAsyncResult *result, GError **error)
{
  PrMerged *merged = g_task_propagate_pointer (G_TASK (result), error);

  pr_document_look (doc); /* its thread did not */
  return merged && pr_document_merged (doc, merged, error);
}
