/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Iron against published figures; each is named with its source. */
#include <string.h>

#include "kit.h"

#define IN 25.4
#define LB 0.45359237 /* kg, exact: international pound */

/* "Weldless rings": 4 in outside, 3 in inside is 5.50 in2; of the same thickness from a bar 1 1/2 in wide,
 * 3.66 in (Shop Practice vol. 2, c. 1906). */
static void
the_weldless_ring (void **state)
{
  g_auto (PrFigure) ring = { 0 }, hole = { 0 };
  PrPath line[2] = { { 0 }, { 0 } };

  (void) state;
  for (int k = 0; k < 2; k++)
    for (int i = 0; i < 2000; i++) {
      double a = 2 * G_PI * i / 2000, r = (k ? 1.5 : 2) * IN;

      pr_path_add (&line[k], pr_pt (r * cos (a), r * sin (a)));
    }
  assert_true (pr_figure_from_ring (&ring, &line[0]) && pr_figure_from_ring (&hole, &line[1]));
  assert_true (pr_figure_minus (&ring, &ring, &hole));
  double area = pr_figure_area (&ring), thick = 0.5 * IN;
  NEAR (area / (IN * IN), 5.50, 0.005);
  NEAR (pr_iron_bar_length (area * thick, 1.5 * IN, thick, 0, 0) / IN, 3.66, 0.01);
  pr_path_clear (&line[0]);
  pr_path_clear (&line[1]);
}

/* 300 mm of 20 x 10 drawn to 22 x 8 is 340.9 mm and weighs 0.471 kg: computed from its own inputs. */
static void
drawing_out (void **state)
{
  double volume = 300 * 20 * 10;

  (void) state;
  NEAR (pr_iron_bar_length (volume, 22, 8, 0, 0), 340.9, 0.05);
  NEAR (volume * 1e-9 * pr_material_density (PR_MATERIAL_STEEL), 0.471, 0.0005);
}

/* Pounds a foot at 490 lb/ft3 and kilograms a metre at 7850 kg/m3: computed; 1 in2 of steel weighs 3.40 lb/ft
 * (AISC Manual, second hand). */
static void
weights_of_bars (void **state)
{
  static const struct {
    double w, t, lb;
  } inch[] = { { 3.0 / 4, 5.0 / 16, 0.798 },
               { 3.0 / 4, 3.0 / 8, 0.957 },
               { 1, 3.0 / 8, 1.276 },
               { 1.25, 3.0 / 8, 1.595 },
               { 1, 1, 3.40 } };
  static const struct {
    double w, t, kg;
  } metric[] = { { 20, 8, 1.256 },  { 20, 10, 1.570 }, { 25, 8, 1.570 },
                 { 25, 10, 1.963 }, { 30, 8, 1.884 },  { 30, 10, 2.355 } };
  double steel = pr_material_density (PR_MATERIAL_STEEL) * 1e-9;

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (inch); i++)
    NEAR (inch[i].w * inch[i].t * IN * IN * 12 * IN * steel / LB, inch[i].lb, 0.004);
  for (size_t i = 0; i < G_N_ELEMENTS (metric); i++)
    NEAR (metric[i].w * metric[i].t * 1000 * steel, metric[i].kg, 0.0006);
}

/* A semicircular toe and parallel branches: the middle line is 2L + 0.5708 W - 1.5708 b; for L = W = 5 in and
 * b = 3/4 in 11.68 in against the hand rule's 10.00 (Lungwitz & Adams' rule; the rest computed). */
static void
middle_line_and_hand_rule (void **state)
{
  const double w = 5 * IN, l = 5 * IN, b = 0.75 * IN;
  const KitFoot shape = { .half_width = w / 2, .toe = w / 2, .back = 400, .heel = l - w / 2 };
  g_autoptr (PrJob) job = kit_job (&shape, PR_FOOT_LF);
  PrPlan *plan = &job->sources.plan;
  static const double back[] = { 1, 0.5, 0 };

  (void) state;
  for (int i = 0; i < 3; i++) {
    plan->knot[i] = pr_pt (-w / 2, -(l - w / 2) * back[i]);
    plan->knot[PR_N_KNOTS - 1 - i] = pr_pt (w / 2, plan->knot[i].y);
  }
  for (int i = 3; i <= 5; i++)
    plan->knot[i] = pr_pt (-w / 2 * cos (G_PI * (i - 2) / 4), w / 2 * sin (G_PI * (i - 2) / 4));
  for (int side = 0; side < 2; side++)
    plan->heel_past[side] = job->hoof.buttress[side].y + (l - w / 2);
  plan->web_toe = plan->web_quarter[0] = plan->web_quarter[1] = plan->web_heel[0] = plan->web_heel[1] = b;
  assert_true (pr_job_refresh (job, NULL));
  NEAR (job->iron.middle_line / IN, 11.68, 0.06);
  NEAR (job->iron.middle_line, 2 * l + 0.5708 * w - 1.5708 * b, 1.5);
  NEAR (job->iron.hand_rule / IN, 10.00, 0.05);
  /* and an inch and a half more, for plain-stamped 3/4 x 3/8 (a members' article of an Australian farriers' association) */
  PrHandRule rules[PR_N_HAND_RULES];
  pr_hand_rules (&job->iron, rules);
  NEAR (rules[0].mm, job->iron.hand_rule, 0);
  NEAR (rules[1].mm / IN, 11.5, 0.05);
  for (int i = 0; i < PR_N_HAND_RULES; i++)
    NEAR (rules[i].apart, rules[i].mm - job->iron.needed, 1e-9);
}

/* L0 = (V + slugs) / (w t) / (1 - loss) + welds, piece by piece, and the marks. */
static void
adds_up (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_RF, "toe-extension");
  const PrIron *iron = &job->iron;
  const PrPlan *plan = &job->sources.plan;
  double section = plan->stock_width * plan->stock_thick;

  (void) state;
  job->sources.plan.loss = 0.05;
  job->sources.plan.given = 400;
  assert_true (pr_job_refresh (job, NULL));
  assert_int_equal (iron->n_pieces, 2);
  assert_string_equal (iron->piece[1].id, "extension");
  NEAR (iron->piece[0].length, iron->piece[0].volume / section / 0.95, 1e-9);
  NEAR (iron->piece[1].length, iron->piece[1].volume / section / 0.95 + 10, 1e-9);
  NEAR (iron->volume + iron->slugs, iron->piece[0].volume + iron->piece[1].volume, 1e-6);
  NEAR (iron->needed, iron->piece[0].length + iron->piece[1].length, 1e-9);
  NEAR (iron->spare, 400 - iron->needed, 1e-9);
  NEAR (iron->mass, iron->volume * 7850e-9, 1e-9);
  /* six square holes through the third that the crease leaves */
  NEAR (iron->slugs, 6 * plan->nail_shank * plan->nail_shank * plan->thick_toe / 3.0, 1e-6);
  /* each is told as it is cut, up to the next mm */
  g_autofree char *text = pr_iron_cut_text (iron, PR_UNIT_MM);
  g_autofree char *wanted
      = g_strdup_printf ("%.0f mm + %.0f mm", ceil (iron->piece[0].length), ceil (iron->piece[1].length));
  assert_string_equal (text, wanted);
  /* forged from one bar the extension's iron lies at the toe: the same volume, one piece, no weld */
  double together = iron->piece[0].volume + iron->piece[1].volume;
  job->sources.plan.ext_piece = false;
  assert_true (pr_job_refresh (job, NULL));
  assert_int_equal (iron->n_pieces, 1);
  NEAR (iron->piece[0].volume, together, 1e-6);
}

static double
sum_line (const PrIron *iron, const char *id)
{
  for (size_t i = 0; i < iron->n_sum; i++)
    if (strcmp (iron->sum[i].id, id) == 0)
      return iron->sum[i].mm;
  return 0;
}

/* The person's own figure is on top of the model's: all but the welds grows by it, with a line of its own in the sum, and the
 * marks move with the bar. */
static void
own_figure_is_on_top (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) model = kit_styled (&shape, PR_FOOT_RF, "toe-extension");
  g_autoptr (PrJob) own = kit_styled (&shape, PR_FOOT_RF, "toe-extension");
  double all = 0;

  (void) state;
  own->sources.plan.own_more = -0.05;
  assert_true (pr_job_refresh (own, NULL));
  for (size_t i = 0; i < own->iron.n_pieces; i++) {
    const PrPiece *a = &model->iron.piece[i], *b = &own->iron.piece[i];

    NEAR (b->length - b->allowance, 0.95 * (a->length - a->allowance), 1e-9);
    NEAR (b->volume, a->volume, 1e-9);
  }
  NEAR (own->iron.bar_at[own->iron.n_st - 1], 0.95 * model->iron.bar_at[own->iron.n_st - 1], 1e-9);
  NEAR (sum_line (&own->iron, "own"), own->iron.needed - model->iron.needed, 1e-9);
  NEAR (sum_line (&own->iron, "loss"), sum_line (&model->iron, "loss"), 1e-9);
  NEAR (sum_line (&model->iron, "own"), 0, 0);
  for (size_t i = 0; i < own->iron.n_sum; i++)
    all += own->iron.sum[i].mm;
  NEAR (all, own->iron.needed, 1e-9);
}

static const PrMark *
mark (const PrPiece *piece, const char *id)
{
  for (size_t i = 0; i < piece->n_marks; i++)
    if (strcmp (piece->mark[i].id, id) == 0)
      return &piece->mark[i];
  fail_msg ("no mark %s", id);
  return NULL;
}

static void
maps_the_bar (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_RF, "quarter-clipped");
  const PrPiece *piece = &job->iron.piece[0];

  (void) state;
  NEAR (mark (piece, "heel.medial")->from_end, 0, 0);
  NEAR (mark (piece, "heel.lateral")->from_end, piece->length, 0.01);
  /* this foot is its own mirror, so the toe is in the middle and marks stand alike from it */
  NEAR (mark (piece, "toe")->from_end, piece->length / 2, 0.3);
  NEAR (mark (piece, "toe")->from_centre, 0, 0);
  for (int i = 1; i <= 3; i++) {
    g_autofree char *m = g_strdup_printf ("nail.%d.medial", i), *l = g_strdup_printf ("nail.%d.lateral", i);

    NEAR (mark (piece, m)->from_centre, -mark (piece, l)->from_centre, 0.3);
  }
  for (size_t i = 1; i < piece->n_marks; i++)
    assert_true (piece->mark[i].from_end >= piece->mark[i - 1].from_end);
  /* there and back along the bar */
  for (double s = 0; s < job->shoe->middle_length; s += 7)
    NEAR (pr_iron_s_at (&job->iron, job->shoe, pr_iron_bar_at (&job->iron, job->shoe, s)), s, 1e-6);
}

/* A shoe of the bar's own section needs neither drawing nor upsetting. */
static void
no_strain_without_change (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_RF, "plain-front");
  PrPlan *plan = &job->sources.plan;

  (void) state;
  for (int b = 0; b < 2; b++) {
    plan->crease[b] = false;
    plan->web_quarter[b] = plan->web_heel[b] = 22;
  }
  plan->web_toe = 22;
  plan->stock_width = 22;
  assert_true (pr_job_refresh (job, NULL));
  NEAR (job->iron.mean_abs_strain, 0, 1e-9);
  /* from a bar of twice the width everything is drawn to twice its length: ln 2 */
  plan->stock_width = 44;
  assert_true (pr_job_refresh (job, NULL));
  NEAR (job->iron.mean_abs_strain, log (2), 1e-9);
  NEAR (job->iron.strain[50], log (2), 1e-9);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_weldless_ring), cmocka_unit_test (drawing_out),
    cmocka_unit_test (weights_of_bars),   cmocka_unit_test (middle_line_and_hand_rule),
    cmocka_unit_test (adds_up),           cmocka_unit_test (own_figure_is_on_top),
    cmocka_unit_test (maps_the_bar),      cmocka_unit_test (no_strain_without_change),
  };

  return cmocka_run_group_tests_name ("iron", tests, NULL, NULL);
}
