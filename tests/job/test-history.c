/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Steps of one foot: nudges that belong together are one, no more are kept than said, and flat pictures are
 * shared, not copied, and not hoarded. */
#include "kit.h"
#include "pr-history.h"

#define SECOND G_USEC_PER_SEC

static const KitFoot regular = KIT_FOOT;

static PrSources *
with_web (const PrSources *from, double web)
{
  PrSources *to = pr_sources_dup (from);

  to->plan.web_toe = web;
  return to;
}

/* The web of what UNDO gives; -1 when there is nothing. */
static double
back (PrHistory *history, const PrSources *now)
{
  g_autoptr (PrSources) step = pr_history_undo (history, now);

  return step ? step->plan.web_toe : -1;
}

static void
nudges_are_one_step (void **state)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF);
  g_autoptr (PrHistory) history = pr_history_new ();

  (void) state;
  pr_history_push (history, with_web (&job->sources, 20), "web", 10 * SECOND);
  pr_history_push (history, with_web (&job->sources, 21), "web", 10 * SECOND + PR_HISTORY_SAME_US - 1);
  pr_history_push (history, with_web (&job->sources, 22), "web", 12 * SECOND); /* later */
  pr_history_push (history, with_web (&job->sources, 23), "toe", 12 * SECOND); /* another thing */
  pr_history_push (history, with_web (&job->sources, 24), NULL, 12 * SECOND);
  pr_history_push (history, with_web (&job->sources, 25), NULL, 12 * SECOND);
  NEAR (back (history, &job->sources), 25, 0);
  NEAR (back (history, &job->sources), 24, 0);
  NEAR (back (history, &job->sources), 23, 0);
  NEAR (back (history, &job->sources), 22, 0);
  NEAR (back (history, &job->sources), 20, 0);
  NEAR (back (history, &job->sources), -1, 0);
}

/* A nudge after an undo is a step of its own: what it stands on is not what the newest step holds. */
static void
nudge_after_undo_is_its_own (void **state)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF);
  g_autoptr (PrHistory) history = pr_history_new ();

  (void) state;
  pr_history_push (history, with_web (&job->sources, 20), "web", SECOND);
  pr_history_push (history, with_web (&job->sources, 21), "toe", SECOND);
  NEAR (back (history, &job->sources), 21, 0);
  pr_history_push (history, with_web (&job->sources, 22), "web", SECOND);
  assert_false (pr_history_can_redo (history));
  NEAR (back (history, &job->sources), 22, 0);
  NEAR (back (history, &job->sources), 20, 0);
}

static void
oldest_give_way (void **state)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF);
  g_autoptr (PrHistory) history = pr_history_new ();
  int n = 0;

  (void) state;
  for (int i = 0; i < PR_HISTORY_MOST + 30; i++)
    pr_history_push (history, with_web (&job->sources, i), NULL, i * SECOND);
  for (double web = PR_HISTORY_MOST + 29; pr_history_can_undo (history); web--, n++)
    NEAR (back (history, &job->sources), web, 0);
  assert_int_equal (n, PR_HISTORY_MOST);
}

static int
rasters (PrHistory *history, const PrSources *now, const uint8_t *of)
{
  int n = 0;

  while (pr_history_can_undo (history)) {
    g_autoptr (PrSources) step = pr_history_undo (history, now);

    n += of ? step->tracing->raster_rgb == of : step->tracing->raster_rgb != NULL;
  }
  return n;
}

/* A copy holds the same picture, not another one like it. */
static void
pictures_are_shared (void **state)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF);
  g_autoptr (PrHistory) history = pr_history_new ();

  (void) state;
  job->sources.tracing->raster_rgb = g_atomic_rc_box_alloc (12);
  for (int i = 0; i < 10; i++)
    pr_history_push (history, with_web (&job->sources, i), NULL, i * SECOND);
  assert_int_equal (rasters (history, &job->sources, job->sources.tracing->raster_rgb), 10);
}

/* Each step with a picture of its own: only the newest keep theirs; put away, none does. */
static void
pictures_are_not_hoarded (void **state)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF);

  (void) state;
  for (int rest = 0; rest < 2; rest++) {
    g_autoptr (PrHistory) history = pr_history_new ();

    for (int i = 0; i < 10; i++) {
      PrSources *step = with_web (&job->sources, i);

      step->tracing->raster_rgb = g_atomic_rc_box_alloc (12);
      pr_history_push (history, step, NULL, i * SECOND);
    }
    if (rest)
      pr_history_rest (history);
    assert_int_equal (rasters (history, &job->sources, NULL), rest ? 0 : PR_HISTORY_PICTURES);
  }
}

/* A job copied for paper is its own, and gives the same shoe from the same bar. */
static void
copied_job_is_the_same_and_apart (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_RF, "toe-extension");

  (void) state;
  job->sources.order = g_strdup ("Cut the bar.");
  job->sources.wall[0] = 12;
  assert_true (pr_job_refresh_hoof (job, NULL));
  g_autoptr (PrJob) copy = pr_job_copy (job);
  assert_int_equal (pr_sources_differ (&job->sources, &copy->sources), 0);
  NEAR (copy->hoof.wall[0], 12, 0);
  NEAR (copy->iron.needed, job->iron.needed, 0);
  NEAR (copy->iron.volume, job->iron.volume, 0);
  assert_int_equal (copy->findings->len, job->findings->len);
  job->sources.plan.web_toe += 3;
  assert_true (pr_job_refresh (job, NULL));
  assert_true (copy->iron.needed < job->iron.needed);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (nudges_are_one_step),      cmocka_unit_test (nudge_after_undo_is_its_own),
    cmocka_unit_test (oldest_give_way),          cmocka_unit_test (pictures_are_shared),
    cmocka_unit_test (pictures_are_not_hoarded), cmocka_unit_test (copied_job_is_the_same_and_apart),
  };

  return cmocka_run_group_tests_name ("history", tests, NULL, NULL);
}
