/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The toe extension. */
#include "pr-checks-private.h"

void
pr_check_toe (const PrRun *run)
{
  const PrExtension *ext = &run->shoe->ext;
  const PrLimit *square = pr_limit ("extension.square"), *even = pr_limit ("extension.even");
  const PrLimit *past = pr_limit ("nail.extension");

  if (!ext->present)
    return;
  double side[2]
      = { pr_pt_dist (ext->corner[0], ext->corner[1]), pr_pt_dist (ext->corner[3], ext->corner[2]) };
  double skew = fabs (side[0] - side[1]), off = fabs ((ext->corner[1].x + ext->corner[2].x) / 2);
  PrState state = pr_above (skew, square->look, square->mend);

  pr_finding_at (
      pr_run_add (run, "extension.square", PR_GROUP_SHAPE, state, skew, square->look, "mm", square->source,
                  pr_say (run,
                          state == PR_FITS ? _ ("The extension is square: its sides differ by %s (limit %s).")
                                           : _ ("One side of the extension is %s longer than the other "
                                                "(limit %s); even out the toe quarters."),
                          skew, square->look)),
      side[0] > side[1] ? ext->corner[1] : ext->corner[2]);
  state = pr_above (off, even->look, even->mend);
  pr_finding_at (
      pr_run_add (
          run, "extension.even", PR_GROUP_SHAPE, state, off, even->look, "mm", even->source,
          pr_say (run,
                  state == PR_FITS
                      ? _ ("The extension stands even about the centre line, within %s (limit %s).")
                      : _ ("The extension stands %s off the centre line (limit %s); move the toe onto it."),
                  off, even->look)),
      pr_pt_lerp (ext->corner[1], ext->corner[2], 0.5));
  for (size_t i = 0; i < run->shoe->n_nails; i++) {
    const PrNail *nail = &run->shoe->nail[i];
    double gap = nail->edge - nail->head_length / 2 - ext->line_edge[nail->branch];

    if (nail->index != 0)
      continue;
    state = pr_below (gap, past->look, past->mend);
    pr_finding_at (
        pr_run_add (run, nail->branch == PR_MEDIAL ? "nail.extension.medial" : "nail.extension.lateral",
                    PR_GROUP_NAILS, state, gap, past->look, "mm", past->source,
                    pr_say_side (run,
                                 state == PR_FITS ? _ (
                                     "The first %s nail's head is %s past the extension line (at least %s).")
                                                  : _ ("The first %s nail's head is %s from the extension "
                                                       "line (at least %s past it); move it back."),
                                 nail->branch, gap, past->look)),
        nail->at);
  }
}
