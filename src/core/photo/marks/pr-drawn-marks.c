/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-drawn-marks.h"

#include "pr-frog-lines.h"
#include "pr-toe-tick.h"

void
pr_drawn_marks_find (PrTracing *t, const PrInkMap *ink)
{
  g_auto (PrRoughFoot) foot = { 0 };

  t->drawn = (PrDrawnMarks){ 0 };
  if (!pr_rough_foot_make (&foot, t, ink))
    return;
  t->drawn.tick = pr_toe_tick_find (&foot, &t->drawn.toe);
  t->drawn.frog_lines = pr_frog_lines_find (&foot, &t->drawn.frog_apex, t->drawn.frog);
}
