/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-hoof-change.h"

static void
find_most (PrHoofChange *change, const PrHoof *now, const PrHoof *before)
{
  double rear = -INFINITY;

  for (int side = 0; side < 2; side++)
    rear = fmax (rear, fmax (now->buttress[side].y, before->buttress[side].y));
  for (size_t i = 0; i < now->outline.n; i++) {
    PrPt p = now->outline.p[i];
    double d = p.y > rear ? pr_hoof_outside (before, p) : 0;

    if (fabs (d) > fabs (change->most)) {
      change->most = d;
      change->most_at = p;
    }
  }
}

PrHoofChange
pr_hoof_change (const PrHoof *now, const PrHoof *before)
{
  PrHoofChange change = {
    .halves = now->centre != PR_CENTRE_ASSUMED && before->centre != PR_CENTRE_ASSUMED,
    .apex = now->has_frog_apex && before->has_frog_apex,
    .length = now->length - before->length,
    .width = now->width - before->width,
    .heel_width = now->heel_width - before->heel_width,
    .toe_to_widest = now->toe_to_widest - before->toe_to_widest,
    .most_at = now->toe,
  };

  for (int side = 0; side < 2; side++) {
    change.half[side] = now->width_side[side] - before->width_side[side];
    change.heel_length[side] = now->heel_length[side] - before->heel_length[side];
  }
  if (change.apex)
    change.apex_to_toe = now->apex_to_toe - before->apex_to_toe;
  find_most (&change, now, before);
  return change;
}
