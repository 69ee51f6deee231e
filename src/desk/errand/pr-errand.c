/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-errand.h"

#include <glib/gi18n-lib.h>
#include "pr-error.h"

#define PAGES 64       /* at once: a quarter of a megabyte, which nobody notices */
#define TOLD_STEP 0.01 /* of the whole: nobody is told more finely */

/* Held by its owner, and by the thread that is at work. */
struct _PrErrand {
  PrErrandKind kind;
  gpointer data;
  GCancellable *stop;
  double from, to, done;
  PrErrandNext next;
  bool over; /* its owner let it go */
  /* while it copies */
  PrBackupWork *copy;
  guint source;
};

static void
clear (gpointer data)
{
  PrErrand *errand = data;

  if (errand->kind.free_data)
    errand->kind.free_data (errand->data);
  g_object_unref (errand->stop);
}

static void
unref (gpointer errand)
{
  g_atomic_rc_box_release_full (errand, clear);
}

PrErrand *
pr_errand_new (const PrErrandKind *kind, gpointer data)
{
  PrErrand *errand = g_atomic_rc_box_new0 (PrErrand);

  errand->kind = *kind;
  errand->data = data;
  errand->stop = g_cancellable_new ();
  return errand;
}

static void
tell (PrErrand *errand)
{
  if (errand->kind.told && !errand->over)
    errand->kind.told (errand->kind.owner);
}

/* DONE of the part, 0..1. */
static void
reach (PrErrand *errand, double done)
{
  double all = errand->from + (errand->to - errand->from) * CLAMP (done, 0, 1);

  if (all < errand->done + TOLD_STEP)
    return;
  errand->done = all;
  tell (errand);
}

static void
begin (PrErrand *errand, double from, double to, PrErrandNext next)
{
  errand->from = errand->done = from;
  errand->to = to;
  errand->next = next;
  tell (errand);
}

/* NEXT may free it. */
static void
end (PrErrand *errand, const GError *error)
{
  if (!errand->over)
    errand->next (errand, error, errand->data);
}

/* --- the copy --- */

static void
end_copy (PrErrand *errand, const GError *error)
{
  errand->source = 0;
  errand->copy = NULL;
  end (errand, error);
}

static gboolean
go_on (gpointer data)
{
  PrErrand *errand = data;
  g_autoptr (GError) error = NULL;
  int more = g_cancellable_set_error_if_cancelled (errand->stop, &error)
                 ? -1
                 : pr_backup_work_step (errand->copy, PAGES);

  if (more > 0) {
    reach (errand, pr_backup_work_done (errand->copy));
    return G_SOURCE_CONTINUE;
  }
  if (more < 0 && !error)
    pr_backup_work_fail (errand->copy, &error);
  end_copy (errand, error);
  return G_SOURCE_REMOVE;
}

void
pr_errand_copy (PrErrand *errand, PrBackupWork *copy, double from, double to, PrErrandNext next)
{
  errand->copy = copy;
  begin (errand, from, to, next);
  errand->source = g_idle_add_full (G_PRIORITY_LOW, go_on, errand, NULL);
}

/* --- the thread --- */

typedef struct {
  PrErrand *errand;
  PrErrandWork work;
} Order;

typedef struct {
  PrErrand *errand;
  double done;
} Word;

static void
word_free (gpointer data)
{
  Word *word = data;

  unref (word->errand);
  g_free (word);
}

static gboolean
pass_on (gpointer data)
{
  Word *word = data;

  if (!word->errand->over)
    reach (word->errand, word->done);
  return G_SOURCE_REMOVE;
}

typedef struct {
  PrErrand *errand;
  double last;
} Teller;

/* In the thread. */
static void
told (double done, gpointer data)
{
  Teller *teller = data;
  Word *word;

  if (done < teller->last + TOLD_STEP && done < 1)
    return;
  teller->last = done;
  word = g_new (Word, 1);
  word->errand = g_atomic_rc_box_acquire (teller->errand);
  word->done = done;
  g_idle_add_full (G_PRIORITY_DEFAULT, pass_on, word, word_free);
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *stop)
{
  const Order *order = data;
  Teller teller = { order->errand, 0 };
  const PrBookWork way = { stop, told, &teller };
  GError *error = NULL;

  if (order->work (order->errand->data, &way, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
worked (GObject *source, GAsyncResult *result, gpointer data)
{
  PrErrand *errand = data;
  g_autoptr (GError) error = NULL;

  g_task_propagate_boolean (G_TASK (result), &error);
  end (errand, error);
  unref (errand);
}

void
pr_errand_run (PrErrand *errand, PrErrandWork does, double from, double to, PrErrandNext next)
{
  Order *order = g_new (Order, 1);
  g_autoptr (GTask) task = g_task_new (NULL, errand->stop, worked, g_atomic_rc_box_acquire (errand));

  begin (errand, from, to, next);
  order->errand = errand; /* held until it has ended, by the one who is told */
  order->work = does;
  g_task_set_check_cancellable (task, FALSE); /* what was done is done */
  g_task_set_task_data (task, order, g_free);
  g_task_run_in_thread (task, work);
}

/* --- its end --- */

void
pr_errand_free (PrErrand *errand)
{
  if (!errand)
    return;
  errand->over = true;
  g_cancellable_cancel (errand->stop);
  g_clear_handle_id (&errand->source, g_source_remove);
  unref (errand);
}

void
pr_errand_stop (PrErrand *errand)
{
  g_cancellable_cancel (errand->stop);
}

double
pr_errand_done (const PrErrand *errand)
{
  return errand->done;
}

const char *
pr_errand_what (const PrErrand *errand)
{
  return errand->kind.what;
}
