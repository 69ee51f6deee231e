/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sent.h"

#include <glib/gi18n-lib.h>
#include "pr-book-merge.h"
#include "pr-document-file.h"
#include "pr-error.h"

#define TOLD_STEP 0.01 /* of the whole: the window is not told more finely */

typedef struct {
  char *file;
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
  const PrBookWork work = { stop, tell, task };
  GError *error = NULL;
  GPtrArray *list = pr_book_look_into (pr_document_book (PR_DOCUMENT (source)), order->file, &work, &error);

  pr_document_book_let_go (PR_DOCUMENT (source));
  if (list)
    g_task_return_pointer (task, list, (GDestroyNotify) g_ptr_array_unref);
  else
    g_task_return_error (task, error);
}

static void
take_thread (GTask *task, gpointer source, gpointer task_data, GCancellable *stop)
{
  const Order *order = task_data;
  const PrBookWork work = { stop, tell, task };
  GError *error = NULL;
  PrBookId foot = 0;
  bool merged = pr_book_merge (pr_document_book (PR_DOCUMENT (source)), order->file, &work, &foot, &error);

  pr_document_book_let_go (PR_DOCUMENT (source));
  if (merged)
    g_task_return_pointer (task, g_memdup2 (&foot, sizeof foot), g_free);
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
order_new (const char *file, PrSentTold told, gpointer data)
{
  Order *order = g_new0 (Order, 1);

  order->file = g_strdup (file);
  order->told = told;
  order->data = data;
  return order;
}

void
pr_sent_look (PrDocument *doc, const char *file, GCancellable *stop, PrSentTold told,
              GAsyncReadyCallback ready, gpointer data)
{
  start (doc, order_new (file, told, data), stop, look_thread, ready, data);
}

GPtrArray *
pr_sent_look_finish (GAsyncResult *result, GError **error)
{
  const Order *order = g_task_get_task_data (G_TASK (result));
  g_autoptr (GPtrArray) list = g_task_propagate_pointer (G_TASK (result), error);

  if (list && list->len == 0) {
    g_set_error (error, PR_ERROR, PR_ERROR_BOOK, _ ("There is no foot in %s; ask for it to be sent again."),
                 order->file);
    return NULL;
  }
  return g_steal_pointer (&list);
}

void
pr_sent_take (PrDocument *doc, const char *file, GCancellable *stop, PrSentTold told,
              GAsyncReadyCallback ready, gpointer data)
{
  pr_document_look (doc); /* its thread does not, and writes */
  start (doc, order_new (file, told, data), stop, take_thread, ready, data);
}

/* A foot that cannot be opened is at least in sight. */
static void
choose_visit_of (PrDocument *doc, PrBookId foot)
{
  g_auto (PrBookVisit) visit = { 0 };

  if (pr_book_get_foot (pr_document_book (doc), foot, NULL, &visit, NULL, NULL))
    pr_document_choose_visit (doc, visit.horse, visit.id);
}

bool
pr_sent_take_finish (PrDocument *doc, GAsyncResult *result, GError **error)
{
  g_autofree PrBookId *foot = g_task_propagate_pointer (G_TASK (result), error);

  pr_document_look (doc); /* its thread did not */
  if (!foot)
    return false;
  if (pr_document_open_foot (doc, *foot, error))
    return true;
  choose_visit_of (doc, *foot);
  return false;
}
