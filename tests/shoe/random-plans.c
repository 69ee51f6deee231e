/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Seeded random plans: every parameter over its range, and shoes of the program's own styles with a few parameters moved
 * by hand. No crash, no figure that is not a number, each figure valid or reported, the bar map ending at the piece's end;
 * and what an offer makes of a plan is a plan: in range, built, and no worse in what the offer is for. Arguments: how
 * many plans; "list" prints what each offer comes to. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "kit.h"

static long rounds = 2000;
static bool list;

typedef struct {
  const char *id;
  int taken, gone, better, same, refused;
} Tally;

static Tally tally[64];
static size_t n_tally;

static Tally *
tally_of (const char *id)
{
  for (size_t i = 0; i < n_tally; i++)
    if (strcmp (tally[i].id, id) == 0)
      return &tally[i];
  assert_true (n_tally < G_N_ELEMENTS (tally));
  tally[n_tally].id = id;
  return &tally[n_tally++];
}

/* What is told about the shoe is told in numbers. */
static void
holds_numbers (const PrJob *job)
{
  const PrPiece *piece = &job->iron.piece[0];

  /* a heel bar turned of the branches lies half before the one heel and half behind the other */
  NEAR (job->iron.bar_at[0] + job->iron.bar_at[job->iron.n_st - 1], piece->length, 0.01);
  assert_true (isfinite (job->iron.volume) && job->iron.volume > 0 && isfinite (job->iron.needed));
  assert_true (isfinite (job->iron.mean_abs_strain) && isfinite (job->shoe->middle_length));
  assert_true (isfinite (pr_figure_area (&job->shoe->figure)));
  for (size_t i = 1; i < job->iron.n_st; i++)
    assert_true (job->iron.bar_at[i] >= job->iron.bar_at[i - 1] && isfinite (job->iron.strain[i]));
  for (size_t i = 0; i < piece->n_marks; i++)
    assert_true (isfinite (piece->mark[i].from_end) && isfinite (piece->mark[i].at.x));
  for (guint i = 0; i < job->findings->len; i++) {
    const PrFinding *finding = job->findings->pdata[i];

    assert_true (isfinite (finding->value) && isfinite (finding->limit) && *finding->text
                 && *finding->source);
    assert_true (!finding->has_at || (isfinite (finding->at.x) && isfinite (finding->at.y)));
  }
  assert_true (job->shoe->simple || *job->shoe->trouble);
}

static void
lies_in_range (const PrPlan *plan, const char *id)
{
  for (size_t i = 0; i < pr_n_params; i++) {
    double v = pr_param_get (plan, &pr_params[i]);

    if (!(v >= pr_params[i].min && v <= pr_params[i].max))
      fail_msg ("%s offers %s = %g", id, pr_params[i].name, v);
  }
}

static PrState
worst_of (const PrJob *job, const char *id)
{
  PrState worst = PR_FITS;

  for (guint i = 0; i < job->findings->len; i++) {
    const PrFinding *finding = job->findings->pdata[i];

    if (strcmp (finding->id, id) == 0)
      worst = MAX (worst, finding->state);
  }
  return worst;
}

/* Takes the offer of the finding ID, and leaves JOB as it was. */
static void
takes_offer (PrJob *job, const char *id)
{
  PrPlan before = job->sources.plan, next;
  PrState was = worst_of (job, id);
  Tally *t = tally_of (id);

  if (!pr_offer_apply (id, &job->hoof, &job->sources.plan, job->shoe, &job->iron, &next)) {
    assert_true (pr_plan_equal (&next, &before));
    t->refused++;
    return;
  }
  lies_in_range (&next, id);
  job->sources.plan = next;
  if (!pr_job_refresh (job, NULL))
    fail_msg ("%s offers a shoe that cannot be built", id);
  holds_numbers (job);
  PrState is = worst_of (job, id);
  if (is > was)
    fail_msg ("%s: %s before its offer, %s after it", id, pr_state_code (was), pr_state_code (is));
  t->taken++;
  t->gone += is == PR_FITS;
  t->better += is != PR_FITS && is < was;
  t->same += is == was;
  job->sources.plan = before;
}

/* One offer of those there are, a different one each time. */
static void
takes_one (PrJob *job, long round)
{
  const char *ids[64];
  size_t n = 0;

  for (guint i = 0; i < job->findings->len; i++) {
    const PrFinding *finding = job->findings->pdata[i];

    if (finding->offer && n < G_N_ELEMENTS (ids))
      ids[n++] = finding->id;
  }
  if (n)
    takes_offer (job, ids[(size_t) round % n]);
}

static void
tell (const char *what, int least)
{
  int taken = 0, gone = 0;

  for (size_t i = 0; i < n_tally; i++) {
    taken += tally[i].taken;
    gone += tally[i].gone;
    if (list)
      printf ("%-24s %4d taken: %4d gone, %4d better, %4d nearer; %4d refused\n", tally[i].id, tally[i].taken,
              tally[i].gone, tally[i].better, tally[i].same, tally[i].refused);
  }
  printf ("%s: %d offers taken, %d findings gone\n", what, taken, gone);
  /* most mend what they are for; which do not is for the list */
  assert_true (taken > 0 && gone * 100 >= taken * least);
  n_tally = 0;
  memset (tally, 0, sizeof tally);
}

static void
bears_them_all (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_job (&shape, PR_FOOT_RH);
  GRand *rand = g_rand_new_with_seed (99);
  long built = 0, simple = 0;

  (void) state;
  for (long round = 0; round < rounds; round++) {
    kit_random_plan (rand, &job->sources.plan);
    if (!pr_job_refresh (job, NULL))
      continue;
    built++;
    simple += job->shoe->simple;
    holds_numbers (job);
    if (round % 4 == 0)
      takes_one (job, round / 4);
  }
  g_rand_free (rand);
  printf ("%ld plans: %ld built, %ld simple\n", rounds, built, simple);
  assert_true (built > rounds * 95 / 100 && simple > rounds / 50);
  tell ("anywhere", 0);
}

/* A shoe as the program makes it, with up to three parameters moved by up to a tenth of their range. */
static void
move_some (GRand *rand, PrPlan *plan)
{
  for (int i = g_rand_int_range (rand, 1, 4); i > 0; i--) {
    const PrParam *param = &pr_params[g_rand_int_range (rand, 0, (gint32) pr_n_params)];
    double far = (param->max - param->min) / (strcmp (param->group, "edge") == 0 ? 40 : 10);

    if (param->kind == PR_PARAM_CHOICE || param->kind == PR_PARAM_SWITCH || param->kind == PR_PARAM_COUNT)
      pr_param_set (plan, param, g_rand_int_range (rand, (int) param->min, (int) param->max + 1));
    else
      pr_param_set (plan, param, pr_param_get (plan, param) + g_rand_double_range (rand, -far, far));
  }
}

static void
mends_what_a_hand_does (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  GRand *rand = g_rand_new_with_seed (7);

  (void) state;
  for (guint i = 0; i < styles->len; i++) {
    const PrStyle *style = styles->pdata[i];
    g_autoptr (PrJob) job = kit_styled (&shape, i % 2 ? PR_FOOT_LF : PR_FOOT_RH, style->id);
    PrPlan good = job->sources.plan;

    for (long round = 0; round < rounds / 50; round++) {
      job->sources.plan = good;
      move_some (rand, &job->sources.plan);
      if (!pr_job_refresh (job, NULL))
        continue;
      holds_numbers (job);
      takes_one (job, round);
    }
  }
  g_rand_free (rand);
  tell ("by hand", 50);
}

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[]
      = { cmocka_unit_test (bears_them_all), cmocka_unit_test (mends_what_a_hand_does) };

  if (argc > 1)
    rounds = strtol (argv[1], NULL, 10);
  list = argc > 2 && strcmp (argv[2], "list") == 0;
  return cmocka_run_group_tests_name ("random", tests, NULL, NULL);
}
