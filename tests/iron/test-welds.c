/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Welds and turns as iron: where they lie on the pieces, what they take, the marks made for them. */
#include <string.h>

#include "kit.h"

static const KitFoot regular = KIT_FOOT;

static const PrMark *
mark_of (const PrPiece *piece, const char *id)
{
  for (size_t i = 0; i < piece->n_marks; i++)
    if (strcmp (piece->mark[i].id, id) == 0)
      return &piece->mark[i];
  return NULL;
}

static PrJob *
barred (const char *style, bool piece)
{
  PrJob *job = kit_styled (&regular, PR_FOOT_LF, style);

  job->sources.plan.bar_piece = piece;
  assert_true (pr_job_refresh (job, NULL));
  return job;
}

/* Turned of one bar: half the heel bar before the one heel, half behind the other, and between the turns the branches, as long
 * as they are without a bar. Pieces or not, the iron is the same but for one weld less. */
static void
one_bar_turns_at_the_heels (void **state)
{
  static const char *const styles[] = { "straight-bar", "egg-bar", "heart-bar" };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (styles); i++) {
    g_autoptr (PrJob) one = barred (styles[i], false), two = barred (styles[i], true);
    const PrPlan *plan = &one->sources.plan;
    const PrPiece *piece = &one->iron.piece[0];
    const PrMark *m = mark_of (piece, "turn.medial"), *l = mark_of (piece, "turn.lateral"),
                 *toe = mark_of (piece, "toe");
    double half = one->shoe->bar_volume / 2 / (plan->stock_width * plan->stock_thick) / (1 - plan->loss)
                  + plan->weld_allowance / 2;

    assert_int_equal (one->iron.n_pieces, 1);
    assert_true (m && l && toe && m->punch && l->punch);
    NEAR (m->from_end, half, 1e-6);
    NEAR (piece->length - l->from_end, half, 1e-6);
    assert_null (mark_of (piece, "heel.medial"));
    const PrPiece *branches = &two->iron.piece[0];
    NEAR (l->from_end - m->from_end, branches->length, 1e-6);
    NEAR (toe->from_end - m->from_end, mark_of (branches, "toe")->from_end, 1e-6);
    NEAR (one->iron.needed, two->iron.needed - plan->weld_allowance, 1e-6);
    NEAR (one->iron.volume, two->iron.volume, 1e-6);
    assert_int_equal (one->iron.welds.n_welds, 1);
    assert_int_equal (one->iron.welds.n_turns, 2);
    NEAR (one->iron.welds.turn[0].at, half, 1e-9);
    NEAR (pr_pt_dist (m->at, one->shoe->heel_outer[PR_MEDIAL]), 0, 1e-9);
  }
}

/* Upset to one and a half times the thickness (FAO, Basic blacksmithing, Agr. Serv. Bull. 88/1), over the lap: half of it is bar, and the
 * allowance holds it. */
static void
joints_take_their_bar (void **state)
{
  static const char *const styles[]
      = { "toe-extension", "contest-toe-extension", "straight-bar", "heart-bar" };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (styles); i++) {
    g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_RF, styles[i]);
    const PrWelds *welds = &job->iron.welds;

    assert_int_equal (welds->n_welds, job->iron.n_pieces == 1 ? 0 : job->shoe->ext.present ? 1 : 2);
    for (size_t k = 0; k < welds->n_welds; k++) {
      const PrWeld *weld = &welds->weld[k];

      NEAR (weld->thick, 1.5 * job->sources.plan.stock_thick, 1e-9);
      NEAR (weld->upset, weld->lap / 2, 1e-9);
      assert_true (weld->upset <= job->sources.plan.weld_allowance);
      assert_int_equal (weld->piece[0], 0);
      assert_int_equal (weld->piece[1], 1);
      for (int p = 0; p < 2; p++)
        assert_true (weld->at[p] > 0 && weld->at[p] < job->iron.piece[weld->piece[p]].length);
    }
  }
}

/* Of the extension piece its middle and its sides, the finished width apart; of a bar piece where its scarfs begin. */
static void
pieces_have_marks_of_their_own (void **state)
{
  g_autoptr (PrJob) ext = kit_styled (&regular, PR_FOOT_LF, "toe-extension");
  g_autoptr (PrJob) bar = barred ("straight-bar", true);

  (void) state;
  const PrPiece *piece = &ext->iron.piece[1];
  const PrMark *m = mark_of (piece, "extension.medial"), *l = mark_of (piece, "extension.lateral");
  NEAR (mark_of (piece, "toe")->from_end, piece->length / 2, 1e-9);
  NEAR (mark_of (piece, "toe")->from_centre, 0, 1e-9);
  if (m && l) {
    NEAR (l->from_end - m->from_end, ext->shoe->ext.width, 1e-9);
    NEAR (m->from_centre, -l->from_centre, 1e-9);
  } else
    assert_true (piece->length <= ext->shoe->ext.width);
  double lap = bar->iron.welds.weld[0].lap;
  for (size_t p = 0; p < 2; p++) {
    const PrPiece *of = &bar->iron.piece[p];

    NEAR (mark_of (of, "weld.heel.medial")->from_end, lap, 1e-9);
    NEAR (mark_of (of, "weld.heel.lateral")->from_end, of->length - lap, 1e-9);
  }
}

/* For the punch: centre, extension line, welds and turns; nothing that drawing would move. */
static void
only_what_lasts_is_punched (void **state)
{
  static const char *const lasting[] = { "toe", "extension.", "weld.", "turn." };
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);

  (void) state;
  for (guint i = 0; i < styles->len; i++) {
    g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, ((const PrStyle *) styles->pdata[i])->id);

    for (size_t p = 0; p < job->iron.n_pieces; p++)
      for (size_t k = 0; k < job->iron.piece[p].n_marks; k++) {
        const PrMark *mark = &job->iron.piece[p].mark[k];
        bool lasts = false;

        for (size_t n = 0; n < G_N_ELEMENTS (lasting); n++)
          lasts |= g_str_has_prefix (mark->id, lasting[n]);
        assert_int_equal (mark->punch, lasts);
        assert_true (mark->from_end >= 0 && mark->from_end <= job->iron.piece[p].length + 1e-9);
      }
  }
}

/* A published straight bar shoe of 3/4 x 5/16 (trade tutorial, read): the bar is the tape from buttress to buttress round the
 * foot, less 2 3/4 in, plus the gap between the heels (taken from buttress to buttress across); within half an inch, the style
 * as it comes, on feet on which such a bar is used. */
static void
published_straight_bar (void **state)
{
  static const double half_widths[] = { 55, 60, 65 };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (half_widths); i++) {
    double w = half_widths[i];
    const KitFoot shape = { .half_width = w, .toe = w * 1.03, .back = w * 1.72, .heel = w };
    g_autoptr (PrJob) job = kit_job (&shape, PR_FOOT_LF);
    PrPlan *plan = &job->sources.plan;
    double girth = 0;

    assert_true (pr_plan_set_section (plan, "3/4 x 5/16", PR_UNIT_INCH, NULL));
    kit_set_style (job, "straight-bar");
    plan->bar_piece = false;
    assert_true (pr_job_refresh (job, NULL));
    for (size_t k = 0; k + 1 < job->hoof.outline.n; k++)
      girth += pr_pt_dist (job->hoof.outline.p[k], job->hoof.outline.p[k + 1]);
    double gap = pr_pt_dist (job->hoof.buttress[PR_MEDIAL], job->hoof.buttress[PR_LATERAL]);
    NEAR (job->iron.needed, girth - 2.75 * 25.4 + gap, 12.7);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (one_bar_turns_at_the_heels),     cmocka_unit_test (joints_take_their_bar),
    cmocka_unit_test (pieces_have_marks_of_their_own), cmocka_unit_test (only_what_lasts_is_punched),
    cmocka_unit_test (published_straight_bar),
  };

  return cmocka_run_group_tests_name ("welds", tests, NULL, NULL);
}
