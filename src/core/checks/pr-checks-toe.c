/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-checks-toe.h"

static void
check_square (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("extension.square");
  const PrPt *corner = run->shoe->ext.corner;
  double medial = pr_pt_dist (corner[0], corner[1]), lateral = pr_pt_dist (corner[3], corner[2]);
  double skew = fabs (medial - lateral);
  PrState state = pr_above (skew, limit);
  const char *text
      = state == PR_FITS
            ? _ ("The extension is square: its sides differ by %s (limit %s).")
            : _ ("One side of the extension is %s longer than the other (limit %s); even out the "
                 "toe quarters.");

  pr_finding_at (pr_run_add (run, "extension.square", PR_GROUP_SHAPE, state, skew, limit->look, "mm",
                             limit->source, pr_say (run, text, skew, limit->look)),
                 medial > lateral ? corner[1] : corner[2]);
}

static void
check_even (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("extension.even");
  const PrPt *corner = run->shoe->ext.corner;
  double off = fabs ((corner[1].x + corner[2].x) / 2);
  PrState state = pr_above (off, limit);
  const char *text
      = state == PR_FITS
            ? _ ("The extension stands even about the centre line, within %s (limit %s).")
            : _ ("The extension stands %s off the centre line (limit %s); move the toe onto it.");

  pr_finding_at (pr_run_add (run, "extension.even", PR_GROUP_SHAPE, state, off, limit->look, "mm",
                             limit->source, pr_say (run, text, off, limit->look)),
                 pr_pt_lerp (corner[1], corner[2], 0.5));
}

/* The first nail of a branch stands in the branch, not in the extension. */
static void
check_first_nail (const PrRun *run, const PrNail *nail)
{
  const PrLimit *limit = pr_limit ("nail.extension");
  double gap = nail->edge - nail->head_length / 2 - run->shoe->ext.line_edge[nail->branch];
  PrState state = pr_below (gap, limit);
  const char *id = nail->branch == PR_MEDIAL ? "nail.extension.medial" : "nail.extension.lateral";
  const char *text = state == PR_FITS
                         ? _ ("The first %s nail's head is %s past the extension line (at least %s).")
                         : _ ("The first %s nail's head is %s from the extension line (at least %s past it); "
                              "move it back.");

  pr_finding_at (pr_run_add (run, id, PR_GROUP_NAILS, state, gap, limit->look, "mm", limit->source,
                             pr_say_side (run, text, nail->branch, gap, limit->look)),
                 nail->at);
}

/* The toe of a squared or set-back shoe: wall stands out ahead of it, so far and no further. */
static void
check_back (const PrRun *run)
{
  PrLimit limit = pr_limit_share ("toe.back", run->hoof->width);
  PrState state = pr_above (run->plan->toe_amount, &limit);
  const char *text = state == PR_FITS
                         ? _ ("The toe is set back %s behind the wall on purpose (up to %s).")
                         : _ ("The toe is set back %s behind the wall (limit %s); bring it forward.");

  pr_finding_at (pr_run_add (run, "toe.back", PR_GROUP_SHAPE, state, run->plan->toe_amount, limit.look, "mm",
                             limit.source, pr_say (run, text, run->plan->toe_amount, limit.look)),
                 run->shoe->st[run->shoe->toe_st].outer);
}

void
pr_check_toe (const PrRun *run)
{
  if (run->plan->toe == PR_TOE_SET_BACK || run->plan->toe == PR_TOE_SQUARED)
    check_back (run);
  if (!run->shoe->ext.present)
    return;
  check_square (run);
  check_even (run);
  for (size_t i = 0; i < run->shoe->n_nails; i++)
    if (run->shoe->nail[i].index == 0)
      check_first_nail (run, &run->shoe->nail[i]);
}
