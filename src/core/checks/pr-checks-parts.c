/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-checks-parts.h"

#define BOXING_STEPS 12

double
pr_boxing_under (const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, int b, PrPt *at)
{
  const PrBevel *boxing = &plan->boxing[b];
  double worst = -INFINITY;

  for (int i = 0; i <= BOXING_STEPS; i++) {
    double place = boxing->from + (MIN (boxing->to, 1) - boxing->from) * i / BOXING_STEPS;
    PrPt p = pr_shoe_edge_at (shoe, b, pr_shoe_place_to_edge (shoe, b, place), NULL, NULL);
    double under = boxing->width - MAX (0, pr_hoof_outside (hoof, p));

    if (under > worst) {
      worst = under;
      *at = p;
    }
  }
  return worst;
}

static void
check_boxing (const PrRun *run, int b)
{
  const PrLimit *limit = pr_limit ("boxing.bearing");
  PrPt at;

  if (!(run->plan->boxing[b].width > 0))
    return;
  double under = pr_boxing_under (run->hoof, run->plan, run->shoe, b, &at);
  PrState state = pr_above (under, limit);
  if (state != PR_FITS)
    pr_finding_at (
        pr_run_add (run, b == PR_MEDIAL ? "boxing.bearing.medial" : "boxing.bearing.lateral", PR_GROUP_SHAPE,
                    state, under, limit->look, "mm", limit->source,
                    pr_say_side (run,
                                 _ ("The boxing of the %s branch goes %s under the wall (limit %s) and takes "
                                    "its bearing away; box it less or move the edge out."),
                                 b, under, limit->look)),
        at);
}

static void
check_roll (const PrRun *run)
{
  const PrPlan *plan = run->plan;

  if (plan->toe == PR_TOE_ROLLED && plan->toe_amount > plan->web_toe)
    pr_finding_at (pr_run_add (run, "toe.roll", PR_GROUP_SHAPE, PR_MEND, plan->toe_amount, plan->web_toe,
                               "mm", _ ("common practice, no source"),
                               pr_say (run,
                                       _ ("The roll is %s wide and the web at the toe %s; make it narrower."),
                                       plan->toe_amount, plan->web_toe)),
                   run->shoe->st[run->shoe->toe_st].outer);
}

static void
check_extension (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("extension.thin");
  double share = run->plan->ext_thick / run->plan->thick_toe;
  PrState state = pr_below (share, limit);

  if (run->shoe->ext.present && state != PR_FITS)
    pr_finding_at (
        pr_run_add (run, "extension.thin", PR_GROUP_SHAPE, state, share, limit->look, "", limit->source,
                    pr_say (run,
                            _ ("The extension is %s thick on a shoe of %s; it bends, so leave it as thick "
                               "as the shoe."),
                            run->plan->ext_thick, run->plan->thick_toe)),
        run->shoe->ext.corner[1]);
}

/* Aluminium is not forge-welded: it gives no sign of heat and its skin does not join (trade pages). */
static void
check_welds (const PrRun *run)
{
  const PrPlan *plan = run->plan;
  bool welded = (run->shoe->ext.present && plan->ext_piece) || (plan->bar != PR_BAR_NONE && plan->bar_piece);

  if (plan->material == PR_MATERIAL_ALUMINIUM && welded)
    pr_run_add (run, "weld.aluminium", PR_GROUP_IRON, PR_MEND, 1, 0, "", _ ("common practice, no source"),
                g_strdup (_ ("Aluminium is not forge-welded; make the shoe of one piece or of steel.")));
}

/* Where the wall was measured the sole's edge is known: iron that bears further in lies on the sole. */
static void
check_sole (const PrRun *run)
{
  PrLimit limit = pr_limit_share ("sole.iron", run->hoof->width);
  const PrPlan *plan = run->plan;
  double over = -INFINITY;
  PrPt at = { 0, 0 };

  if (pr_hoof_wall_is_guess (run->hoof))
    return;
  for (size_t i = 0; i < run->shoe->n_st; i++) {
    const PrStation *st = &run->shoe->st[i];
    const PrBevel *seat = &plan->seating[st->branch];
    double seated = st->place >= seat->from && st->place <= seat->to ? seat->width : 0;
    double in = st->web - seated - pr_hoof_wall (run->hoof, MIN (st->place, 1));

    /* at the heels the bars bear, not the sole */
    if (st->place < 0.7 && in > over) {
      over = in;
      at = st->inner;
    }
  }
  PrState state = pr_above (over, &limit);
  if (state != PR_FITS)
    pr_finding_at (
        pr_run_add (run, "sole.iron", PR_GROUP_SHAPE, state, over, limit.look, "mm", limit.source,
                    pr_say (run,
                            _ ("The web reaches %s inside the white line (limit %s) and may lie on a flat "
                               "sole; seat it out or narrow it."),
                            over, limit.look)),
        at);
}

static void
check_feet (const PrRun *run)
{
  PrFeet feet = (PrFeet) run->plan->feet;
  bool hind = pr_foot_is_hind (run->hoof->foot);

  if (feet == PR_FEET_ALL || (feet == PR_FEET_HIND) == hind)
    return;
  pr_run_add (run, "style.foot", PR_GROUP_SHAPE, PR_LOOK, 1, 0, "", _ ("common practice, no source"),
              g_strdup (hind ? _ ("This style is made for front feet and lies on a hind one.")
                             : _ ("This style is made for hind feet and lies on a front one.")));
}

void
pr_check_parts (const PrRun *run)
{
  for (int b = 0; b < 2; b++)
    check_boxing (run, b);
  check_roll (run);
  check_extension (run);
  check_welds (run);
  check_sole (run);
  check_feet (run);
}
