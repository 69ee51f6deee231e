/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every check is brought to each of its states by a shoe made for it, and tells the figure it was made with. */
#include <string.h>

#include "kit.h"
#include "pr-limits.h"
#include "pr-size.h"

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

/* How far along the edge, from the toe, the end of a nail's head is that lies towards it (-1) or the heel (+1). */
static double
head_end (const PrShoe *shoe, const PrNail *nail, int way)
{
  PrPt end = pr_pt_along (nail->at, nail->along, way * nail->head_length / 2);

  return pr_shoe_place_to_edge (shoe, nail->branch, pr_shoe_place_of (shoe, nail->branch, end, NULL));
}

/* Head edge to clip edge along the outer edge: common practice, no source. */
static void
nail_clear_of_clip (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "quarter-clipped");
  PrPlan *plan = &job->sources.plan;
  static const struct {
    double gap;
    PrState want;
  } cases[] = { { 6, PR_FITS }, { 3.2, PR_FITS }, { 2.8, PR_LOOK }, { 0.2, PR_LOOK }, { -0.2, PR_MEND } };

  (void) state;
  /* one nail and one clip are left */
  plan->nails[PR_MEDIAL] = 1;
  plan->nails[PR_LATERAL] = 0;
  plan->nail_first[PR_MEDIAL] = 0.45;
  plan->clip[1].kind = 0;
  plan->clip[0].tie = PR_CLIP_AT_PLACE;
  assert_true (pr_job_refresh (job, NULL));
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    double edge = head_end (job->shoe, &job->shoe->nail[0], -1) - cases[i].gap - plan->clip[0].base / 2;

    plan->clip[0].place = edge / job->shoe->edge_buttress[0];
    const PrFinding *f = after (job, "nail.clip");
    assert_int_equal (f->state, cases[i].want);
    NEAR (f->value, cases[i].gap, 0.15);
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
  job->sources.plan.nail_first[PR_LATERAL] = 0.15;
  assert_true (pr_job_refresh (job, NULL));
  const PrNail *nail = NULL;
  for (size_t i = 0; i < job->shoe->n_nails; i++)
    if (job->shoe->nail[i].branch == PR_LATERAL && job->shoe->nail[i].index == 0)
      nail = &job->shoe->nail[i];
  NEAR (after (job, "nail.clip")->value, head_end (job->shoe, nail, -1) - 15, 0.15);
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
  job->sources.plan.crease_to_tie[PR_LATERAL] = PR_TIE_PLACE;
  job->sources.plan.crease_to[PR_LATERAL] = job->sources.plan.nail_last[PR_LATERAL];
  /* the head's hinder half sticks out */
  NEAR (after (job, "nail.crease")->value, -job->sources.plan.nail_head_length / 2, 1e-6);
  assert_int_equal (finding (job, "nail.crease")->state, PR_LOOK);
  /* no nail is called safe in a wall that was never measured */
  assert_null (finding (job, "nail.wall"));
  assert_int_equal (after (job, "wall.guess")->state, PR_LOOK);
  for (int i = 0; i < 3; i++)
    job->hoof.wall_known[i] = true;
  assert_int_equal (after (job, "wall.guess")->state, PR_FITS);
  assert_int_equal (after (job, "nail.wall")->state, PR_FITS);
  double was = finding (job, "nail.wall")->value;
  assert_true (was <= 0.05 && was > -2);
  job->sources.plan.nail_inset[0] += 5;
  const PrFinding *f = after (job, "nail.wall");
  assert_int_equal (f->state, PR_MEND);
  NEAR (f->value, 5 - 0.7, 0.8);
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
  /* a thirty-second of an inch short is not short (common practice, no source) */
  job->sources.plan.given = job->iron.needed - 25.4 / 32 + 0.001;
  f = after (job, "iron.enough");
  assert_int_equal (f->state, PR_FITS);
  assert_non_null (strstr (f->text, "not short"));
  assert_false (pr_iron_is_short (&job->iron));
  job->sources.plan.given -= 0.002;
  assert_int_equal (after (job, "iron.enough")->state, PR_MEND);
  assert_true (pr_iron_is_short (&job->iron));
  job->sources.plan.web_quarter[0] = job->sources.plan.web_heel[0] = 60;
  job->sources.plan.web_quarter[1] = job->sources.plan.web_heel[1] = 60;
  assert_int_equal (after (job, "shape.simple")->state, PR_MEND);
}

/* Pieces given by themselves: each is held against its own bar, the rest against the common one. */
static void
pieces_given_by_themselves (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "toe-extension");
  PrPlan *plan = &job->sources.plan;

  (void) state;
  double branches = job->iron.piece[0].length, ext = job->iron.piece[1].length;
  plan->given = branches + 2;
  assert_int_equal (after (job, "iron.enough")->state, PR_MEND);
  plan->given_ext = ext + 1;
  assert_int_equal (after (job, "iron.enough")->state, PR_FITS);
  assert_int_equal (after (job, "iron.enough.extension")->state, PR_FITS);
  NEAR (job->iron.common, branches, 1e-9);
  NEAR (job->iron.spare, 2, 1e-9);
  NEAR (job->iron.piece[1].spare, 1, 1e-9);
  NEAR (job->iron.needed, branches + ext, 1e-9);
  plan->given_ext = ext - 1;
  assert_int_equal (after (job, "iron.enough.extension")->state, PR_MEND);
  assert_int_equal (after (job, "iron.enough")->state, PR_FITS);
  assert_true (pr_iron_is_short (&job->iron));
}

/* Drawn by half again at the most; upset to 1 1/2 x the section (FAO, Basic blacksmithing), and by a tenth not along more than one
 * and a half widths of the bar (common practice, no source). */
static void
drawing_and_upsetting (void **state)
{
  g_autoptr (PrJob) job = plain ();

  (void) state;
  PrPlan *plan = &job->sources.plan;
  double least = MIN (plan->web_heel[0], plan->web_heel[1]);
  plan->stock_width = least * 1.24;
  assert_int_equal (after (job, "iron.draw")->state, PR_FITS);
  plan->stock_width = least * 1.27;
  assert_int_equal (after (job, "iron.draw")->state, PR_LOOK);
  plan->stock_width = least * 1.52;
  assert_int_equal (after (job, "iron.draw")->state, PR_MEND);
  plan->stock_width = plan->web_toe / 1.09;
  assert_int_equal (after (job, "iron.upset")->state, PR_FITS);
  plan->stock_width = plan->web_toe / 1.45;
  assert_int_equal (after (job, "iron.upset")->state, PR_LOOK);
  NEAR (finding (job, "iron.upset")->value, 45, 0.5);
  plan->stock_width = plan->web_toe / 1.52;
  assert_int_equal (after (job, "iron.upset")->state, PR_MEND);
  /* a short thickening of the toe alone is no matter: of 1 1/2 widths, and a little over */
  plan->stock_width = plan->web_toe = plan->web_quarter[0] = plan->web_quarter[1] = plan->web_heel[0]
      = plan->web_heel[1] = 22;
  plan->crease[0] = plan->crease[1] = false;
  assert_int_equal (after (job, "iron.upset")->state, PR_FITS);
  plan->web_toe = 24.3;
  assert_int_equal (after (job, "iron.upset")->state, PR_FITS);
  plan->web_toe = 30;
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
                { PR_VERDICT_USABLE, 1.2, PR_LOOK }, /* as the phone says: one verdict */
                { PR_VERDICT_GOOD, 1.2, PR_FITS } };
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

/* A parameter just inside its limit, just outside, and beyond what wants mending. NAN: there is no such value. */
typedef struct {
  const char *id, *style, *param;
  bool more; /* the three are told from where the style has it */
  double fits, look, mend;
} Step;

static void
expect (PrJob *job, const Step *step, double value, PrState want)
{
  const PrParam *param = pr_param_find (step->param);

  assert_non_null (param);
  if (isnan (value))
    return;
  if (!pr_param_set (&job->sources.plan, param, value))
    fail_msg ("%s: %s cannot be %g", step->id, step->param, value);
  assert_true (pr_job_refresh (job, NULL));
  const PrFinding *f = finding (job, step->id);
  PrState have = f ? f->state : PR_FITS;
  if (have != want)
    fail_msg ("%s at %g: %s, not %s", step->id, value, pr_state_code (have), pr_state_code (want));
}

/* On a shoe 10 mm thick: limits of data/limits.json, a foot 128 mm wide. */
static void
just_inside_and_just_outside (void **state)
{
  static const Step steps[] = {
    { "crease.depth", "plain-front", "crease.depth", false, 0.56, 0.54, 0.29 },
    /* at least 2.5 mm is left below it, mend under 1.5 */
    { "crease.depth", "plain-front", "crease.depth", false, 0.74, 0.76, 0.86 },
    { "crease.width", "plain-front", "crease.width", true, 0.25, 0.35, 2.05 },
    { "crease.width", "plain-front", "crease.width", true, -0.25, -0.35, -2.05 },
    { "crease.rim", "plain-front", "nails.inset_last.medial", true, -0.05, -0.3, -1.6 },
    { "clip.thickness", "quarter-clipped", "clip.1.thickness", false, 4.95, 5.05, 7.05 },
    { "clip.root", "quarter-clipped", "clip.1.thickness", false, 1.52, 1.48, 0.74 },
    { "clip.height", "quarter-clipped", "clip.2.height", false, 8.1, 7.9, 2.9 },
    { "clip.height", "quarter-clipped", "clip.2.height", false, 14.9, 15.1, 30.1 },
    { "clip.pair", "quarter-clipped", "clip.2.base", true, 3.9, 4.1, 16.1 },
    { "extension.thin", "toe-extension", "extension.thickness", false, 5.1, 4.9, NAN },
    { "extension.even", "toe-extension", "edge.toe.x", false, 0.95, 1.05, 2.55 },
    { "toe.back", "set-back-toe", "toe.amount", false, 7.6, 7.8, 12.9 },
    { "toe.back", "squared-toe", "toe.amount", false, 7.6, 7.8, 12.9 },
    { "nail.shank", "plain-front", "nails.shank", true, 0.5, NAN, 3 },
    { "nail.none", "plain-front", "nails.count.medial", false, 1, NAN, NAN },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (steps); i++) {
    g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, steps[i].style);
    double base = steps[i].more ? pr_param_get (&job->sources.plan, pr_param_find (steps[i].param)) : 0;

    expect (job, &steps[i], base + steps[i].fits, PR_FITS);
    expect (job, &steps[i], base + steps[i].look, PR_LOOK);
    expect (job, &steps[i], base + steps[i].mend, PR_MEND);
  }
}

/* The edge stands out by so much at the least, from place FROM to the buttress. */
static double
stands_out (const PrJob *job, int b, double from)
{
  double least = INFINITY;

  for (int i = 0; i <= 400; i++) {
    double place = from + (1 - from) * i / 400;
    PrPt p = pr_shoe_edge_at (job->shoe, b, place * job->shoe->edge_buttress[b], NULL, NULL);

    least = MIN (least, pr_hoof_outside (&job->hoof, p));
  }
  return least;
}

/* Boxing as wide as the edge stands out takes no bearing away. */
static void
boxing_and_bearing (void **state)
{
  g_autoptr (PrJob) job = plain ();
  PrBevel *boxing = &job->sources.plan.boxing[PR_LATERAL];
  double out = stands_out (job, PR_LATERAL, 0.9);
  static const struct {
    double over;
    PrState want;
  } cases[] = { { -0.5, PR_FITS }, { 0.2, PR_FITS }, { 0.4, PR_LOOK }, { 1.9, PR_LOOK }, { 2.1, PR_MEND } };

  (void) state;
  assert_true (out > 1);
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    *boxing = (PrBevel){ out + cases[i].over, 4, 0.9, 1.1 };
    assert_true (pr_job_refresh (job, NULL));
    const PrFinding *f = finding (job, "boxing.bearing.lateral");

    assert_int_equal (f ? f->state : PR_FITS, cases[i].want);
    if (f)
      NEAR (f->value, cases[i].over, 0.05);
    assert_null (finding (job, "boxing.bearing.medial"));
  }
}

static void
clips_in_pairs_and_in_their_place (void **state)
{
  g_autoptr (PrJob) pair = kit_styled (&regular, PR_FOOT_LF, "quarter-clipped"),
                    toe = kit_styled (&regular, PR_FOOT_LF, "toe-clipped");
  PrClipPlan *clip = &toe->sources.plan.clip[0];

  (void) state;
  assert_null (finding (pair, "clip.alone"));
  assert_null (finding (pair, "clip.back"));
  for (double behind = -0.5; behind <= 16; behind += behind < 0 ? 1 : 15) {
    PrState want = behind < 0 ? PR_FITS : behind < 15 ? PR_LOOK : PR_MEND;
    double y = pair->hoof.toe.y - pair->hoof.length / 2 - behind, place = 0;

    for (PrPt p = { 0, INFINITY }; p.y > y; place += 1e-4)
      p = pr_shoe_edge_at (pair->shoe, PR_LATERAL, place * pair->shoe->edge_buttress[1], NULL, NULL);
    pair->sources.plan.clip[1].tie = PR_CLIP_AT_PLACE;
    pair->sources.plan.clip[1].place = place;
    assert_true (pr_job_refresh (pair, NULL));
    const PrFinding *f = finding (pair, "clip.back");
    assert_int_equal (f ? f->state : PR_FITS, want);
  }
  pair->sources.plan.clip[1].kind = 0;
  assert_int_equal (after (pair, "clip.alone")->state, PR_LOOK);
  assert_true (finding (pair, "clip.alone")->at.x < 0);
  /* one at the toe is alone and in its place */
  assert_null (finding (toe, "clip.alone"));
  assert_int_equal (finding (toe, "clip.centre")->state, PR_FITS);
  for (double off = 1.9; off < 9; off += off < 2 ? 0.2 : 6) {
    clip->tie = PR_CLIP_AT_PLACE;
    clip->place = off / toe->shoe->edge_buttress[clip->branch];
    const PrFinding *f = after (toe, "clip.centre");

    assert_int_equal (f->state, off < 2 ? PR_FITS : off < 8 ? PR_LOOK : PR_MEND);
    NEAR (f->value, off, 0.1);
  }
}

/* The medial side's last nail is not the rearmost: 5 mm are let pass. */
static void
last_nails_even (void **state)
{
  g_autoptr (PrJob) job = plain ();
  bool seen[3] = { false };

  (void) state;
  for (double back = 0; back < 30; back += 0.7) {
    double last[2] = { 0, 0 };

    job->sources.plan.nail_shift[PR_MEDIAL][2] = back;
    assert_true (pr_job_refresh (job, NULL));
    for (size_t i = 0; i < job->shoe->n_nails; i++)
      last[job->shoe->nail[i].branch] = job->shoe->nail[i].at.y;
    double behind = last[PR_LATERAL] - last[PR_MEDIAL];
    PrState want = behind > 20 ? PR_MEND : behind > 5 ? PR_LOOK : PR_FITS;
    const PrFinding *f = finding (job, "nail.last.even");
    assert_int_equal (f ? f->state : PR_FITS, want);
    seen[want] = true;
  }
  assert_true (seen[PR_FITS] && seen[PR_LOOK] && seen[PR_MEND]);
}

/* Where the wall was measured, iron more than 0.11 of the width inside the white line may lie on the sole. */
static void
iron_on_the_sole (void **state)
{
  g_autoptr (PrJob) job = plain ();
  PrPlan *plan = &job->sources.plan;
  double wall = 7.3;

  (void) state;
  for (double over = -0.3; over < 0.5; over += 0.6) {
    plan->web_toe = plan->web_quarter[0] = plan->web_quarter[1] = plan->web_heel[0] = plan->web_heel[1]
        = wall + 0.11 * job->hoof.width + over;
    for (int i = 0; i < 3; i++) {
      job->hoof.wall[i] = wall;
      job->hoof.wall_known[i] = false;
    }
    assert_true (pr_job_refresh (job, NULL));
    assert_null (finding (job, "sole.iron"));
    for (int i = 0; i < 3; i++)
      job->hoof.wall_known[i] = true;
    assert_true (pr_job_refresh (job, NULL));
    assert_true ((finding (job, "sole.iron") != NULL) == (over > 0));
  }
}

static void
what_a_shoe_is_besides (void **state)
{
  g_autoptr (PrJob) job = kit_styled (&regular, PR_FOOT_LF, "toe-extension"),
                    hind = kit_styled (&regular, PR_FOOT_LH, "plain-hind"),
                    wrong = kit_styled (&regular, PR_FOOT_LH, "plain-front"),
                    rolled = kit_styled (&regular, PR_FOOT_LF, "rolled-toe");
  PrPlan *plan = &job->sources.plan;

  (void) state;
  job->sources.plan.ext_piece = true;
  assert_true (pr_job_refresh (job, NULL));
  assert_null (finding (job, "weld.aluminium"));
  plan->material = PR_MATERIAL_ALUMINIUM;
  assert_int_equal (after (job, "weld.aluminium")->state, PR_MEND);
  plan->ext_piece = false;
  assert_true (pr_job_refresh (job, NULL));
  assert_null (finding (job, "weld.aluminium"));
  assert_null (finding (job, "style.foot"));
  assert_null (finding (hind, "style.foot"));
  assert_int_equal (finding (wrong, "style.foot")->state, PR_LOOK);
  rolled->sources.plan.toe_amount = rolled->sources.plan.web_toe - 0.1;
  assert_true (pr_job_refresh (rolled, NULL));
  assert_null (finding (rolled, "toe.roll"));
  rolled->sources.plan.toe_amount += 0.2;
  assert_int_equal (after (rolled, "toe.roll")->state, PR_MEND);
  plan->nails[0] = plan->nails[1] = 0;
  assert_int_equal (after (job, "nail.none")->state, PR_LOOK);
}

/* Cover of the finished heel: what is felt of it on the two levels, to the tenth of a millimetre. */
static void
cover_is_what_is_there (void **state)
{
  g_autoptr (PrJob) job = plain ();

  (void) state;
  for (double web = 10; web < 24; web += 1.3) {
    double least = INFINITY;

    job->sources.plan.web_heel[PR_MEDIAL] = web;
    const PrFinding *f = after (job, "heel.cover.medial");
    for (int behind = 0; behind <= 2; behind += 2) {
      int cells = 0;

      for (int i = 0; i < 8000; i++)
        cells += pr_figure_holds (&job->shoe->figure,
                                  pr_pt (-0.01 * (i + 0.5), job->hoof.buttress[PR_MEDIAL].y - behind));
      least = MIN (least, cells * 0.01);
    }
    NEAR (f->value, least, 0.05);
    assert_int_equal (f->state, least < 0.09 * job->hoof.width ? PR_MEND : PR_FITS);
  }
}

/* A figure and its limit never read the same where the verdict says they differ. */
static void
figures_and_verdict_agree (void **state)
{
  static const double over[] = { 0.3, 0.04, 0.004 };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (over) * 2; i++) {
    g_autoptr (PrJob) job = plain ();
    double off = 1.5 + over[i / 2];

    job->unit = i % 2 ? PR_UNIT_INCH : PR_UNIT_MM;
    job->sources.plan.heel_past[0] += off;
    const PrFinding *f = after (job, "heels.level");
    g_autofree char *limit = pr_length_text (1.5, job->unit), *twice = NULL;

    assert_int_equal (f->state, PR_LOOK);
    twice = g_strdup_printf ("One heel ends %s behind the other (limit %s);", limit, limit);
    assert_false (g_str_has_prefix (f->text, twice));
  }
}

/* The depth a crease is given by itself is no finding in iron of any thickness that holds both limits. */
static void
crease_by_itself_fits (void **state)
{
  (void) state;
  for (double thick = 5.6; thick < 16; thick += 0.1) {
    g_autoptr (PrJob) job = plain ();

    job->sources.plan.thick_toe = job->sources.plan.thick_heel = thick;
    job->sources.plan.crease_depth = pr_size_crease_depth (thick);
    assert_int_equal (after (job, "crease.depth")->state, PR_FITS);
    job->sources.plan.crease_depth = 0.75;
    assert_int_equal (after (job, "crease.depth")->state == PR_FITS, thick * 0.25 > 2.45);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (pieces_given_by_themselves),
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
    cmocka_unit_test (just_inside_and_just_outside),
    cmocka_unit_test (boxing_and_bearing),
    cmocka_unit_test (clips_in_pairs_and_in_their_place),
    cmocka_unit_test (last_nails_even),
    cmocka_unit_test (iron_on_the_sole),
    cmocka_unit_test (what_a_shoe_is_besides),
    cmocka_unit_test (cover_is_what_is_there),
    cmocka_unit_test (figures_and_verdict_agree),
    cmocka_unit_test (crease_by_itself_fits),
  };

  return cmocka_run_group_tests_name ("checks", tests, NULL, NULL);
}
