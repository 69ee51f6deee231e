/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every check is brought to each of its states by a shoe made for it, and tells the figure it was made with. */
#include <string.h>

#include "kit.h"
#include "pr-limits.h"

static const KitFoot regular = KIT_FOOT;

static const PrFinding *
finding (const PrJob *job, const char *id)
{
  for (guint i = 0; i < job->findings->len; i++) {
    const PrFinding *f = job->findings->pdata[i];

    if (strcmp (f->id, id) == 0)
      return f;
  }
  return NULL;
}

static const PrFinding *
after (PrJob *job, const char *id)
{
  assert_true (pr_job_refresh (job, NULL));
  const PrFinding *f = finding (job, id);
  assert_non_null (f);
  assert_true (*f->text && *f->source);
  return f;
}

static PrJob *
plain (void)
{
  return kit_styled (&regular, PR_FOOT_LF, "plain-front");
}

static void
heels_level (void **state)
{
  g_autoptr (PrJob) job = plain ();
  double past = job->sources.plan.heel_past[0];
  static const struct {
    double more;
    PrState want;
  } cases[] = { { 0, PR_FITS },   { 1.4, PR_FITS }, { 1.6, PR_LOOK },
                { 3.9, PR_LOOK }, { 4.2, PR_MEND }, { -2, PR_LOOK } };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    job->sources.plan.heel_past[0] = past + cases[i].more;
    const PrFinding *f = after (job, "heels.level");

    assert_int_equal (f->state, cases[i].want);
    NEAR (f->value, fabs (cases[i].more), 0.06);
    /* it points at the longer heel */
    if (f->state != PR_FITS)
      assert_true ((f->at.x < 0) == (cases[i].more > 0));
  }
}

/* Past the buttress by the shoe's thickness, nearly twice on an acute-angled hoof (Lungwitz & Adams; USDA). */
static void
heel_past (void **state)
{
  g_autoptr (PrJob) job = plain ();
  static const struct {
    double past;
    PrState want;
  } cases[] = { { 0.5, PR_FITS }, { 9.5, PR_FITS }, { 11, PR_LOOK },
                { 21, PR_MEND },  { -1, PR_LOOK },  { -3, PR_MEND } };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    job->sources.plan.heel_past[1] = cases[i].past;
    const PrFinding *f = after (job, "heel.past.lateral");

    assert_int_equal (f->state, cases[i].want);
    NEAR (f->value, cases[i].past, 1e-9);
    assert_true (f->at.x > 0);
  }
}

/* 1/16 to 1/8 in from last nail to heel (Lungwitz & Adams; USDA). */
static void
fit_behind_the_nails (void **state)
{
  static const struct {
    double fit;
    PrState want;
  } cases[] = { { 2.4, PR_FITS }, { 5, PR_LOOK }, { 8.5, PR_MEND }, { 0.6, PR_LOOK }, { -1.5, PR_MEND } };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autoptr (PrJob) job = plain ();

    job->sources.plan.fit_heel[PR_MEDIAL] = cases[i].fit;
    assert_true (pr_job_fit (job, NULL));
    const PrFinding *f = after (job, "fit.heel.medial");
    assert_int_equal (f->state, cases[i].want);
    NEAR (f->value, cases[i].fit, 0.5);
  }
}

static void
flush_ahead_and_never_inside (void **state)
{
  g_autoptr (PrJob) job = plain ();
  double y = job->sources.plan.knot[PR_KNOT_TOE].y;

  (void) state;
  assert_int_equal (after (job, "fit.inside")->state, PR_FITS);
  assert_int_equal (after (job, "fit.front.medial")->state, PR_FITS);
  job->sources.plan.knot[PR_KNOT_TOE].y = y + 2;
  assert_int_equal (after (job, "fit.front.medial")->state, PR_LOOK);
  NEAR (finding (job, "fit.front.medial")->value, 2, 0.4);
  job->sources.plan.knot[PR_KNOT_TOE].y = y - 1.5;
  assert_int_equal (after (job, "fit.inside")->state, PR_LOOK);
  NEAR (finding (job, "fit.inside")->value, 1.5, 0.4);
  job->sources.plan.knot[PR_KNOT_TOE].y = y - 4;
  assert_int_equal (after (job, "fit.inside")->state, PR_MEND);
}

/* Head edge to clip edge along the outer edge: common practice, no source. */
static void
nail_clear_of_clip (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "quarter-clipped");
  static const struct {
    double gap;
    PrState want;
  } cases[] = { { 6, PR_FITS }, { 3.1, PR_FITS }, { 2.9, PR_LOOK }, { 0.1, PR_LOOK }, { -0.1, PR_MEND } };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    const PrNail *nail = &job->shoe->nail[0];
    double edge = nail->edge - nail->head_length / 2 - cases[i].gap - 10;

    job->sources.plan.clip[0].place = edge / job->shoe->edge_buttress[0];
    const PrFinding *f = after (job, "nail.clip");
    assert_int_equal (f->state, cases[i].want);
    NEAR (f->value, MIN (cases[i].gap, f->value), 1e-6);
    if (cases[i].gap < 4)
      NEAR (f->value, cases[i].gap, 1e-6);
  }
}

/* A toe clip lies on both branches: its far edge counts for the other branch's nails too. */
static void
toe_clip_counts_on_both_sides (void **state)
{
  g_autoptr (PrJob) job = plain ();

  (void) state;
  assert_null (finding (job, "nail.clip"));
  job->sources.plan.clip[0] = (PrClipPlan){
    .kind = 1, .branch = PR_MEDIAL, .place = 0, .base = 30, .height = 10, .thickness = 2.5
  };
  job->sources.plan.nail_first[PR_LATERAL] = 0.12;
  assert_true (pr_job_refresh (job, NULL));
  const PrNail *nail = NULL;
  for (size_t i = 0; i < job->shoe->n_nails; i++)
    if (job->shoe->nail[i].branch == PR_LATERAL && job->shoe->nail[i].index == 0)
      nail = &job->shoe->nail[i];
  NEAR (after (job, "nail.clip")->value, nail->edge - nail->head_length / 2 - 15, 1e-9);
}

/* 1 to 1 1/2 in apart (Hunting, The Art of Horse-Shoeing). */
static void
nail_spacing (void **state)
{
  g_autoptr (PrJob) job = plain ();

  (void) state;
  assert_int_equal (after (job, "nail.spacing.lateral")->state, PR_FITS);
  job->sources.plan.nail_shift[PR_LATERAL][1] = 5;
  const PrFinding *f = after (job, "nail.spacing.lateral");
  assert_int_equal (f->state, PR_LOOK);
  assert_true (f->value < 25.4);
  job->sources.plan.nail_shift[PR_LATERAL][1] = 16;
  assert_int_equal (after (job, "nail.spacing.lateral")->state, PR_MEND);
  job->sources.plan.nail_shift[PR_LATERAL][1] = 0;
  job->sources.plan.nails[PR_LATERAL] = 2;
  f = after (job, "nail.spacing.lateral");
  assert_int_equal (f->state, PR_LOOK);
  assert_true (f->value > 38.1);
}

/* Fore half of front shoes, front two thirds of hind shoes (USDA). */
static void
last_nail (void **state)
{
  g_autoptr (PrJob) job = plain ();

  (void) state;
  assert_int_equal (after (job, "nail.last.medial")->state, PR_FITS);
  job->sources.plan.nail_last[PR_MEDIAL] = 0.63;
  assert_int_equal (after (job, "nail.last.medial")->state, PR_LOOK);
  job->sources.plan.nail_last[PR_MEDIAL] = 0.75;
  assert_int_equal (after (job, "nail.last.medial")->state, PR_MEND);
  /* behind, the same place is still in the front two thirds */
  job->sources.foot = PR_FOOT_LH;
  assert_true (pr_job_refresh_hoof (job, NULL));
  job->sources.plan.nail_last[PR_MEDIAL] = 0.63;
  assert_int_equal (after (job, "nail.last.medial")->state, PR_FITS);
}

static void
nails_in_crease_and_wall (void **state)
{
  g_autoptr (PrJob) job = plain ();

  (void) state;
  assert_int_equal (after (job, "nail.crease")->state, PR_FITS);
  job->sources.plan.crease_to[PR_LATERAL] = job->sources.plan.nail_last[PR_LATERAL];
  /* the head's hinder half sticks out */
  NEAR (after (job, "nail.crease")->value, -job->sources.plan.nail_head_length / 2, 1e-6);
  assert_int_equal (finding (job, "nail.crease")->state, PR_LOOK);
  assert_int_equal (after (job, "nail.wall")->state, PR_FITS);
  job->sources.plan.nail_inset[0] += 5;
  const PrFinding *f = after (job, "nail.wall");
  assert_int_equal (f->state, PR_MEND);
  NEAR (f->value, 5, 0.8);
  assert_non_null (strstr (f->text, "lame"));
}

static void
extension_square_and_even (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "toe-extension");

  (void) state;
  assert_int_equal (after (job, "extension.square")->state, PR_FITS);
  assert_int_equal (after (job, "extension.even")->state, PR_FITS);
  assert_int_equal (after (job, "nail.extension.lateral")->state, PR_FITS);
  job->sources.plan.knot[PR_KNOT_TOE].x = 2;
  NEAR (after (job, "extension.even")->value, 2, 1e-9);
  assert_int_equal (finding (job, "extension.even")->state, PR_LOOK);
  job->sources.plan.knot[PR_KNOT_TOE].x = 4;
  assert_int_equal (after (job, "extension.even")->state, PR_MEND);
  job->sources.plan.knot[PR_KNOT_TOE].x = 0;
  job->sources.plan.knot[PR_KNOT_TOE_QUARTER_M].y -= 6;
  assert_true (after (job, "extension.square")->state != PR_FITS);
  job->sources.plan.nail_shift[PR_LATERAL][0] = -12;
  assert_true (after (job, "nail.extension.lateral")->state != PR_FITS);
}

static void
shape_and_bar (void **state)
{
  g_autoptr (PrJob) job = plain ();

  (void) state;
  assert_int_equal (after (job, "shape.simple")->state, PR_FITS);
  assert_int_equal (after (job, "iron.enough")->state, PR_FITS);
  job->sources.plan.given = job->iron.needed + 1;
  assert_int_equal (after (job, "iron.enough")->state, PR_FITS);
  job->sources.plan.given = job->iron.needed - 1;
  const PrFinding *f = after (job, "iron.enough");
  assert_int_equal (f->state, PR_MEND);
  g_autofree char *one = pr_length_text (1, PR_UNIT_MM), *missing = g_strconcat (one, " is missing", NULL);
  assert_non_null (strstr (f->text, missing));
  job->sources.plan.web_quarter[0] = job->sources.plan.web_heel[0] = 60;
  job->sources.plan.web_quarter[1] = job->sources.plan.web_heel[1] = 60;
  assert_int_equal (after (job, "shape.simple")->state, PR_MEND);
}

/* Upset to 1 1/2 x the section (FAO, Basic blacksmithing). */
static void
drawing_and_upsetting (void **state)
{
  g_autoptr (PrJob) job = plain ();

  (void) state;
  job->sources.plan.stock_width = 60;
  assert_true (after (job, "iron.draw")->state != PR_FITS);
  job->sources.plan.stock_width = 23.0 / 1.45;
  assert_int_equal (after (job, "iron.upset")->state, PR_FITS);
  NEAR (finding (job, "iron.upset")->value, 45, 0.5);
  job->sources.plan.stock_width = 23.0 / 1.55;
  assert_int_equal (after (job, "iron.upset")->state, PR_LOOK);
}

static void
photo (void **state)
{
  static const struct {
    PrVerdict verdict;
    double residual;
    PrState want;
  } cases[] = { { PR_VERDICT_GOOD, 0.1, PR_FITS },
                { PR_VERDICT_USABLE, 0.1, PR_LOOK },
                { PR_VERDICT_RETAKE, 0.1, PR_MEND },
                { PR_VERDICT_GOOD, 0.4, PR_LOOK },
                { PR_VERDICT_GOOD, 1.2, PR_MEND } };
  g_autoptr (PrJob) job = plain ();

  (void) state;
  assert_null (finding (job, "photo.residual"));
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    PrScale scale = { .verdict = cases[i].verdict, .residual_mm = cases[i].residual, .why = (char *) "told" };
    g_autoptr (GPtrArray) all
        = pr_checks_run (&job->hoof, &job->sources.plan, job->shoe, &job->iron, &scale, PR_UNIT_MM);
    int count;

    assert_int_equal (pr_checks_group (all, PR_GROUP_PHOTO, &count), cases[i].want);
    assert_int_equal (count, cases[i].want != PR_FITS);
  }
}

/* Sentences follow the unit, and the order is worst first within a group. */
static void
sentences_and_order (void **state)
{
  g_autoptr (PrJob) job = plain ();

  (void) state;
  job->unit = PR_UNIT_INCH;
  job->sources.plan.heel_past[0] += 6.35;
  assert_non_null (strstr (after (job, "heels.level")->text, "1/4 in"));
  for (guint i = 1; i < job->findings->len; i++) {
    const PrFinding *a = job->findings->pdata[i - 1], *b = job->findings->pdata[i];

    assert_true (a->group < b->group || (a->group == b->group && a->state >= b->state));
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (heels_level),
    cmocka_unit_test (heel_past),
    cmocka_unit_test (fit_behind_the_nails),
    cmocka_unit_test (flush_ahead_and_never_inside),
    cmocka_unit_test (nail_clear_of_clip),
    cmocka_unit_test (toe_clip_counts_on_both_sides),
    cmocka_unit_test (nail_spacing),
    cmocka_unit_test (last_nail),
    cmocka_unit_test (nails_in_crease_and_wall),
    cmocka_unit_test (extension_square_and_even),
    cmocka_unit_test (shape_and_bar),
    cmocka_unit_test (drawing_and_upsetting),
    cmocka_unit_test (photo),
    cmocka_unit_test (sentences_and_order),
  };

  return cmocka_run_group_tests_name ("checks", tests, NULL, NULL);
}
