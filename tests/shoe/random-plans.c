/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Seeded random plans, every parameter over its range: no crash, no figure that is not a number, each figure valid or
 * reported, the bar map ending at the piece's end, every offer of a finding applied. Argument: how many. */
#include <stdio.h>
#include <stdlib.h>

#include "kit.h"

static long rounds = 2000;

static void
bears_them_all (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_job (&shape, PR_FOOT_RH);
  GRand *rand = g_rand_new_with_seed (99);
  long built = 0, simple = 0, offered = 0;

  (void) state;
  for (long round = 0; round < rounds; round++) {
    kit_random_plan (rand, &job->plan);
    if (!pr_job_refresh (job, NULL))
      continue;
    built++;
    simple += job->shoe->simple;
    const PrPiece *piece = &job->iron.piece[0];
    NEAR (job->iron.bar_at[job->iron.n_st - 1], piece->length, 0.01);
    assert_true (isfinite (job->iron.volume) && job->iron.volume > 0 && isfinite (job->iron.needed));
    assert_true (isfinite (job->iron.mean_abs_strain) && isfinite (job->shoe->middle_length));
    assert_true (isfinite (pr_figure_area (&job->shoe->figure)));
    for (size_t i = 1; i < job->iron.n_st; i++)
      assert_true (job->iron.bar_at[i] >= job->iron.bar_at[i - 1] && isfinite (job->iron.strain[i]));
    for (size_t i = 0; i < piece->n_marks; i++)
      assert_true (isfinite (piece->mark[i].from_end) && isfinite (piece->mark[i].at.x));
    for (guint i = 0; i < job->findings->len; i++) {
      const PrFinding *finding = job->findings->pdata[i];
      PrPlan next;

      assert_true (isfinite (finding->value) && isfinite (finding->limit) && *finding->text
                   && *finding->source);
      assert_true (!finding->has_at || (isfinite (finding->at.x) && isfinite (finding->at.y)));
      /* one offer a plan is enough, and a different one each time */
      if (finding->offer && round % 37 == (long) i)
        offered += pr_offer_apply (finding->id, &job->hoof, &job->plan, job->shoe, &job->iron, &next);
    }
    assert_true (job->shoe->simple || *job->shoe->trouble);
  }
  g_rand_free (rand);
  printf ("%ld plans: %ld built, %ld simple, %ld offers taken\n", rounds, built, simple, offered);
  assert_true (built > rounds * 95 / 100 && simple > rounds / 50);
}

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (bears_them_all) };

  if (argc > 1)
    rounds = strtol (argv[1], NULL, 10);
  return cmocka_run_group_tests_name ("random", tests, NULL, NULL);
}
