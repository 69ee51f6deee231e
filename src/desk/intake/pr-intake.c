/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-intake.h"

#include <glib/gi18n-lib.h>
#include "pr-text.h"

#define NAME_LETTERS 40 /* of a file that is told of among others */

struct _PrIntake {
  PrIntakeOwner owner;
  bool gone;          /* nobody is told any more */
  GCancellable *work; /* of what is under way; NULL: nothing */
  double done;
  char *what;
  GQueue takes; /* of PrTake, still to be carried out */
  int n_takes, nth;
  GString *left_over;
};

PrIntake *
pr_intake_new (const PrIntakeOwner *owner)
{
  PrIntake *intake = g_rc_box_new0 (PrIntake);

  intake->owner = *owner;
  g_queue_init (&intake->takes);
  return intake;
}

static void
clear (gpointer data)
{
  PrIntake *intake = data;

  g_free (intake->what);
}

static void
unref (PrIntake *intake)
{
  g_rc_box_release_full (intake, clear);
}

static void
call_off (PrIntake *intake)
{
  if (intake->work)
    g_cancellable_cancel (intake->work);
  g_clear_object (&intake->work);
}

static void
forget_takes (PrIntake *intake)
{
  g_queue_clear_full (&intake->takes, (GDestroyNotify) pr_take_free);
  intake->n_takes = intake->nth = 0;
  if (intake->left_over)
    g_string_free (g_steal_pointer (&intake->left_over), TRUE);
}

/* The thread may still run, and holds a reference until it is through. */
void
pr_intake_free (PrIntake *intake)
{
  if (!intake)
    return;
  intake->gone = true;
  call_off (intake);
  forget_takes (intake);
  unref (intake);
}

/* --- the work under way --- */

static void
say (PrIntake *intake, double done, const char *what)
{
  intake->done = done;
  g_free (intake->what);
  intake->what = intake->n_takes < 2
                     ? g_strdup (what)
                     : g_strdup_printf (_ ("%d of %d · %s"), intake->nth, intake->n_takes, what);
  intake->owner.busy (intake->owner.data);
}

static void
told (double done, const char *what, gpointer data)
{
  say (data, done, what);
}

/* What was stopped, or had something else started in its place, ends without a word. */
static void
ready (GObject *source, GAsyncResult *result, gpointer data)
{
  PrIntake *intake = data;
  g_autoptr (GError) error = NULL;
  PrTake *take;
  bool wanted;

  pr_take_run_finish (result, &take, &error);
  wanted = !intake->gone && intake->work == g_task_get_cancellable (G_TASK (result));
  if (wanted) {
    g_clear_object (&intake->work);
    intake->owner.busy (intake->owner.data);
    intake->owner.ready (take, error, intake->owner.data);
  } else {
    pr_take_free (take);
  }
  unref (intake);
}

void
pr_intake_start (PrIntake *intake, PrTake *take, const char *what)
{
  call_off (intake);
  intake->work = g_cancellable_new ();
  pr_take_run (take, intake->work, told, ready, g_rc_box_acquire (intake));
  say (intake, 0, what);
}

void
pr_intake_stop (PrIntake *intake)
{
  forget_takes (intake);
  if (!intake->work)
    return;
  call_off (intake);
  intake->owner.busy (intake->owner.data);
}

bool
pr_intake_busy (PrIntake *intake, double *done, const char **what)
{
  *done = intake->done;
  *what = intake->what;
  return intake->work != NULL;
}

/* --- several --- */

void
pr_intake_queue (PrIntake *intake, GPtrArray *takes)
{
  forget_takes (intake);
  for (guint i = 0; i < takes->len; i++)
    g_queue_push_tail (&intake->takes, takes->pdata[i]);
  intake->n_takes = (int) takes->len;
}

PrTake *
pr_intake_next (PrIntake *intake)
{
  PrTake *take = g_queue_pop_head (&intake->takes);

  if (take)
    intake->nth++;
  return take;
}

bool
pr_intake_is_several (const PrIntake *intake)
{
  return intake->n_takes > 0;
}

void
pr_intake_leave_over (PrIntake *intake, const char *name)
{
  g_autofree char *shown = pr_text_name_brief (name, NAME_LETTERS);

  if (!intake->left_over)
    intake->left_over = g_string_new (NULL);
  g_string_append_printf (intake->left_over, intake->left_over->len > 0 ? ", %s" : "%s", shown);
}

char *
pr_intake_close (PrIntake *intake)
{
  char *sentence = intake->left_over ? g_strdup_printf (
                       _ ("Not opened: %s. Open each one alone to see why, and to mark its scale by hand."),
                       intake->left_over->str)
                                     : NULL;

  forget_takes (intake);
  return sentence;
}
