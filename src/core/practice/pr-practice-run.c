/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-practice-run.h"

#include "pr-bounds.h"

#define US_PER_MIN (60 * G_USEC_PER_SEC)

PrPracticeRun *
pr_practice_run_new (const PrPracticeClass *class)
{
  PrPracticeRun *run = g_new0 (PrPracticeRun, 1);

  run->class = class->id;
  run->as = pr_practice_class_copy (class);
  run->started = g_strdup ("");
  run->note = g_strdup ("");
  run->judge = g_strdup ("");
  run->steps = g_ptr_array_new_with_free_func (g_free);
  run->pressed = g_array_new (FALSE, FALSE, sizeof (PrPressed));
  run->scores = g_array_new (FALSE, FALSE, sizeof (PrPracticeScore));
  for (guint i = 0; i < class->criteria->len; i++)
    g_array_append_val (run->scores, ((PrPracticeScore){ .value = -1 }));
  run->measured.off = -1;
  for (int i = 0; i < PR_N_MEASURED; i++)
    run->measured.by[i] = -1;
  return run;
}

void
pr_practice_run_free (PrPracticeRun *run)
{
  if (run == NULL)
    return;
  g_free (run->started);
  g_free (run->note);
  g_free (run->judge);
  pr_practice_class_free (run->as);
  g_ptr_array_unref (run->steps);
  g_array_unref (run->pressed);
  g_array_unref (run->scores);
  g_free (run);
}

static const PrPressed *
nth (const PrPracticeRun *run, guint i)
{
  return &g_array_index (run->pressed, PrPressed, i);
}

static const PrPressed *
last (const PrPracticeRun *run)
{
  return run->pressed->len > 0 ? nth (run, run->pressed->len - 1) : NULL;
}

/* --- pressing --- */

bool
pr_practice_is_going (const PrPracticeRun *run)
{
  return !run->broken && run->pressed->len > 0 && last (run)->kind != PR_PRESSED_STOP;
}

static gint64
within (gint64 us)
{
  return MIN (us, (gint64) pr_bound_most (PR_BOUND_MINUTES) * US_PER_MIN);
}

/* Were some of the steps done, and not all? */
static bool
is_short (const PrPracticeRun *run)
{
  guint done = pr_practice_steps_done (run);

  return done > 0 && done < run->steps->len;
}

bool
pr_practice_press (PrPracticeRun *run, PrPressedKind kind, const PrPracticeMoment *at)
{
  PrPressed pressed = { .kind = kind, .at = *at };

  if (kind == PR_PRESSED_START ? run->pressed->len > 0 : !pr_practice_is_going (run))
    return false;
  if (run->pressed->len >= PR_PRACTICE_MOST_PRESSED && kind != PR_PRESSED_STOP)
    return false;
  if (run->pressed->len > 0)
    pressed.us = within (last (run)->us + pr_practice_between (&last (run)->at, at).us);
  g_array_append_val (run->pressed, pressed);
  run->unfinished = kind == PR_PRESSED_STOP && is_short (run);
  return true;
}

bool
pr_practice_take_back (PrPracticeRun *run)
{
  if (run->pressed->len < 2 || run->broken)
    return false;
  g_array_set_size (run->pressed, run->pressed->len - 1);
  run->unfinished = false; /* it is going */
  return true;
}

/* --- what follows from it --- */

gint64
pr_practice_us (const PrPracticeRun *run, const PrPracticeMoment *now)
{
  if (run->pressed->len == 0)
    return 0;
  if (!pr_practice_is_going (run))
    return last (run)->us;
  return within (last (run)->us + pr_practice_between (&last (run)->at, now).us);
}

double
pr_practice_seconds (const PrPracticeRun *run)
{
  if (run->told_minutes > 0)
    return run->told_minutes * 60;
  return run->pressed->len > 0 ? (double) last (run)->us / G_USEC_PER_SEC : 0;
}

static void
add (PrPracticeSpan *sum, PrPracticeSpan more)
{
  sum->us += more.us;
  sum->slept += more.slept;
  sum->set += more.set;
  sum->restarted |= more.restarted;
}

PrPracticeSpan
pr_practice_told_by_clocks (const PrPracticeRun *run, const PrPracticeMoment *now)
{
  PrPracticeSpan sum = { 0 };

  for (guint i = 1; i < run->pressed->len; i++)
    add (&sum, pr_practice_between (&nth (run, i - 1)->at, &nth (run, i)->at));
  if (now != NULL && pr_practice_is_going (run))
    add (&sum, pr_practice_between (&last (run)->at, now));
  return sum;
}

static guint
count (const PrPracticeRun *run, PrPressedKind kind)
{
  guint n = 0;

  for (guint i = 0; i < run->pressed->len; i++)
    n += nth (run, i)->kind == kind;
  return n;
}

guint
pr_practice_heats (const PrPracticeRun *run)
{
  return count (run, PR_PRESSED_HEAT);
}

guint
pr_practice_steps_done (const PrPracticeRun *run)
{
  return count (run, PR_PRESSED_STEP);
}

gint64
pr_practice_split (const PrPracticeRun *run, guint nr)
{
  gint64 before = 0;

  for (guint i = 0; i < run->pressed->len; i++) {
    const PrPressed *p = nth (run, i);

    if (p->kind != PR_PRESSED_STEP)
      continue;
    if (nr-- == 0)
      return p->us - before;
    before = p->us;
  }
  return -1;
}

guint
pr_practice_criteria (const PrPracticeRun *run)
{
  guint n = 0;

  for (guint i = 0; i < run->as->criteria->len; i++)
    n += g_array_index (run->as->criteria, PrPracticeCriterion, i).weight > 0;
  return n;
}

double
pr_practice_score (const PrPracticeRun *run, guint *n)
{
  double sum = 0, weights = 0;
  guint judged = 0;

  for (guint i = 0; i < run->scores->len; i++) {
    double value = g_array_index (run->scores, PrPracticeScore, i).value;
    int weight = g_array_index (run->as->criteria, PrPracticeCriterion, i).weight;

    if (value < 0 || weight == 0)
      continue;
    sum += weight * value;
    weights += weight;
    judged++;
  }
  if (n != NULL)
    *n = judged;
  return judged > 0 ? sum / weights : -1;
}
