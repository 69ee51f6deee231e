/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Handles, without a window. */
#include "kit.h"
#include "pr-handle.h"

static PrJob *
full_job (void)
{
  const KitFoot shape = KIT_FOOT;
  PrJob *job = kit_styled (&shape, PR_FOOT_LF, "quarter-clipped");

  job->sources.plan.ext_ahead = 25;
  job->sources.plan.bar = PR_BAR_STRAIGHT;
  assert_true (pr_job_refresh (job, NULL));
  return job;
}

static size_t
handles_of (const PrJob *job, PrHandle *out)
{
  return pr_handles (&job->hoof, &job->sources.plan, job->shoe, out);
}

static const PrHandle *
same (const PrHandle *all, size_t n, const PrHandle *wanted)
{
  for (size_t i = 0; i < n; i++)
    if (pr_handle_same (&all[i], wanted))
      return &all[i];
  return NULL;
}

static void
there_and_back_is_nothing (void **state)
{
  g_autoptr (PrJob) job = full_job ();
  PrHandle all[PR_MAX_HANDLES];
  size_t n = handles_of (job, all);
  bool kinds[PR_HANDLE_BAR + 1] = { false };

  (void) state;
  for (size_t i = 0; i < n; i++) {
    PrPlan start = job->sources.plan, moved, back;

    kinds[all[i].kind] = true;
    for (unsigned flags = 0; flags < 4; flags++) {
      pr_handle_drag (&all[i], &job->hoof, &start, job->shoe, pr_pt_add (all[i].at, pr_pt (3, -4)), 1, flags,
                      &moved);
      pr_handle_drag (&all[i], &job->hoof, &start, job->shoe, all[i].at, 1, flags, &back);
      assert_true (pr_plan_equal (&back, &start));
      /* a nail dragged square to the edge may stay; all else moves */
      if (all[i].kind != PR_HANDLE_NAIL && all[i].kind != PR_HANDLE_CLIP && all[i].kind != PR_HANDLE_CREASE)
        assert_false (pr_plan_equal (&moved, &start));
    }
  }
  for (int kind = 0; kind <= PR_HANDLE_BAR; kind++)
    assert_true (kinds[kind]);
}

/* A handle of an edge, toe or heel follows the pointer; one that runs along the edge follows it along. */
static void
handles_follow_the_pointer (void **state)
{
  g_autoptr (PrJob) job = full_job ();
  PrHandle all[PR_MAX_HANDLES], after[PR_MAX_HANDLES];
  size_t n = handles_of (job, all);
  PrPlan start = job->sources.plan;

  (void) state;
  for (size_t i = 0; i < n; i++) {
    PrPt along = pr_pt (2, 3), to;
    bool runs
        = all[i].kind == PR_HANDLE_NAIL || all[i].kind == PR_HANDLE_CLIP || all[i].kind == PR_HANDLE_CREASE;

    job->sources.plan = start;
    assert_true (pr_job_refresh (job, NULL));
    if (runs) {
      double place = pr_shoe_place_of (job->shoe, all[i].branch, all[i].at, NULL);

      pr_shoe_edge_at (job->shoe, all[i].branch, pr_shoe_place_to_edge (job->shoe, all[i].branch, place),
                       &along, NULL);
      along = pr_pt_scale (along, 3);
    }
    to = pr_pt_add (all[i].at, along);
    pr_handle_drag (&all[i], &job->hoof, &start, job->shoe, to, 0, PR_DRAG_FREE, &job->sources.plan);
    assert_true (pr_job_refresh (job, NULL));
    size_t m = handles_of (job, after);
    const PrHandle *now = same (after, m, &all[i]);
    assert_non_null (now);
    PrPt went = pr_pt_sub (now->at, all[i].at);
    switch (all[i].kind) {
    case PR_HANDLE_TOE:
    case PR_HANDLE_EDGE:
    case PR_HANDLE_HEEL:
      NEAR (pr_pt_dist (went, along), 0, 1e-6);
      break;
    case PR_HANDLE_NAIL:
    case PR_HANDLE_CLIP:
    case PR_HANDLE_CREASE:
      NEAR (pr_pt_dist (went, along), 0, 0.6);
      break;
    case PR_HANDLE_EXTENSION:
      if (all[i].index == 0)
        NEAR (went.y, along.y, 1e-6);
      else
        NEAR (went.x, along.x, 1e-6);
      break;
    case PR_HANDLE_WEB:
      /* only the part across the web counts */
      assert_true (pr_pt_len (went) <= pr_pt_len (along) + 0.3);
      break;
    case PR_HANDLE_BAR:
      NEAR (went.y, along.y, 1e-6);
      break;
    }
  }
}

static void
snaps_and_lets_go (void **state)
{
  g_autoptr (PrJob) job = full_job ();
  PrHandle all[PR_MAX_HANDLES];
  size_t n = handles_of (job, all);
  PrPlan start = job->sources.plan, plan;
  PrHandle want = { .kind = PR_HANDLE_TOE };
  const PrHandle *toe = same (all, n, &want);

  (void) state;
  pr_handle_drag (toe, &job->hoof, &start, job->shoe, pr_pt (0.6, toe->at.y + 5), 1, 0, &plan);
  NEAR (plan.knot[PR_KNOT_TOE].x, 0, 0);
  pr_handle_drag (toe, &job->hoof, &start, job->shoe, pr_pt (0.6, toe->at.y + 5), 1, PR_DRAG_FREE, &plan);
  NEAR (plan.knot[PR_KNOT_TOE].x, 0.6, 1e-9);
  /* a heel catches the level of the other */
  want = (PrHandle){ .kind = PR_HANDLE_HEEL, .branch = PR_LATERAL };
  const PrHandle *heel = same (all, n, &want);
  start.heel_past[PR_MEDIAL] += 6;
  double level = job->hoof.buttress[PR_MEDIAL].y - start.heel_past[PR_MEDIAL];
  pr_handle_drag (heel, &job->hoof, &start, job->shoe, pr_pt (heel->at.x + 5, level + 0.7), 1, 0, &plan);
  NEAR (job->hoof.buttress[PR_LATERAL].y - plan.heel_past[PR_LATERAL], level, 1e-9);
}

static void
both_is_a_mirror (void **state)
{
  g_autoptr (PrJob) job = full_job ();
  PrHandle all[PR_MAX_HANDLES];
  size_t n = handles_of (job, all);

  (void) state;
  for (size_t i = 0; i < n; i++) {
    PrPlan plan;

    if (all[i].kind != PR_HANDLE_EDGE)
      continue;
    pr_handle_drag (&all[i], &job->hoof, &job->sources.plan, job->shoe, pr_pt_add (all[i].at, pr_pt (4, 1)),
                    1, PR_DRAG_BOTH, &plan);
    PrPt a = plan.knot[all[i].index], b = plan.knot[PR_N_KNOTS - 1 - all[i].index];
    NEAR (a.x, -b.x, 1e-12);
    NEAR (a.y, b.y, 1e-12);
  }
}

static void
hits_the_nearest (void **state)
{
  const PrHandle all[] = { { .kind = PR_HANDLE_EDGE, .at = { 0, 0 } },
                           { .kind = PR_HANDLE_NAIL, .at = { 0.3, 0 } },
                           { .kind = PR_HANDLE_EDGE, .at = { 10, 0 } } };

  (void) state;
  assert_int_equal (pr_handle_hit (all, 3, pr_pt (0, 0), 3), 1);
  assert_int_equal (pr_handle_hit (all, 3, pr_pt (-2, 0), 3), 1);
  assert_int_equal (pr_handle_hit (all, 3, pr_pt (9, 0), 3), 2);
  assert_int_equal (pr_handle_hit (all, 3, pr_pt (5, 0), 3), -1);
}

static void
names_and_values_are_told (void **state)
{
  g_autoptr (PrJob) job = full_job ();
  PrHandle all[PR_MAX_HANDLES];
  size_t n = handles_of (job, all);

  (void) state;
  for (size_t i = 0; i < n; i++) {
    g_autofree char *name = pr_handle_name (&all[i]);
    g_autofree char *value = pr_handle_value (&all[i], &job->hoof, &job->sources.plan, job->shoe, PR_UNIT_MM);

    assert_true (*name && *value);
    if (all[i].kind == PR_HANDLE_HEEL) {
      g_autofree char *past = pr_length_text (job->sources.plan.heel_past[all[i].branch], PR_UNIT_MM);

      assert_true (g_str_has_prefix (value, past));
      assert_true (g_str_has_suffix (value, " past the buttress"));
    }
    /* no two handles have the same name */
    for (size_t k = 0; k < i; k++) {
      g_autofree char *other = pr_handle_name (&all[k]);

      assert_string_not_equal (name, other);
    }
  }
}

/* Each handle belongs to the lock of its part and its side; medial is x < 0. */
static void
locks_are_told (void **state)
{
  g_autoptr (PrJob) job = full_job ();
  PrHandle all[PR_MAX_HANDLES];
  size_t n = handles_of (job, all), locked = 0;

  (void) state;
  for (size_t i = 0; i < n; i++) {
    const PrHandle *h = &all[i];
    int lock = pr_handle_lock (h);

    locked += lock >= 0;
    if (h->kind == PR_HANDLE_WEB || h->kind == PR_HANDLE_CREASE || h->kind == PR_HANDLE_EXTENSION
        || h->kind == PR_HANDLE_BAR)
      assert_int_equal (lock, -1);
    if (h->kind == PR_HANDLE_TOE)
      assert_int_equal (lock, PR_LOCK_TOE);
    if (h->kind == PR_HANDLE_EDGE)
      assert_int_equal (lock, h->at.x < 0 ? PR_LOCK_MEDIAL : PR_LOCK_LATERAL);
    if (h->kind == PR_HANDLE_HEEL)
      assert_int_equal (lock, h->at.x < 0 ? PR_LOCK_HEEL_M : PR_LOCK_HEEL_L);
    if (h->kind == PR_HANDLE_NAIL)
      assert_int_equal (lock, h->at.x < 0 ? PR_LOCK_NAILS_M : PR_LOCK_NAILS_L);
    if (h->kind == PR_HANDLE_CLIP)
      assert_int_equal (lock, PR_LOCK_CLIPS);
  }
  assert_true (locked >= 1 + 6 + 2 + 2 + 2);
}

/* On the web and a little beside it, not farther off, and not in the opening. */
static void
web_under_the_pointer (void **state)
{
  g_autoptr (PrJob) job = full_job ();
  const PrShoe *shoe = job->shoe;

  (void) state;
  for (double share = 0.1; share < 1; share += 0.2) {
    double s = share * shoe->middle_length;
    PrPt outer, inner, middle = pr_shoe_middle_at (shoe, s, &outer, &inner);
    PrPt out = pr_pt_unit (pr_pt_sub (outer, inner));

    assert_float_equal (pr_shoe_s_under (shoe, middle), s, 0.2);
    assert_true (pr_shoe_s_under (shoe, pr_pt_along (outer, out, PR_WEB_NEAR_MM - 0.3)) >= 0);
    assert_true (pr_shoe_s_under (shoe, pr_pt_along (outer, out, PR_WEB_NEAR_MM + 0.7)) < 0);
  }
  assert_true (pr_shoe_s_under (shoe, pr_pt (0, 0)) < 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (there_and_back_is_nothing),
    cmocka_unit_test (handles_follow_the_pointer),
    cmocka_unit_test (snaps_and_lets_go),
    cmocka_unit_test (both_is_a_mirror),
    cmocka_unit_test (hits_the_nearest),
    cmocka_unit_test (names_and_values_are_told),
    cmocka_unit_test (locks_are_told),
    cmocka_unit_test (web_under_the_pointer),
  };

  return cmocka_run_group_tests_name ("handle", tests, NULL, NULL);
}
