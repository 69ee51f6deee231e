/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-foot-line.h"

void
pr_foot_line_clear (PrFootLine *line)
{
  for (size_t i = 0; i < line->n_doubt; i++)
    g_free (line->doubt[i].why);
  g_free (line->doubt);
  g_free (line->outline);
  g_free (line->rest);
  *line = (PrFootLine){ 0 };
}

PrFootLine
pr_foot_line_copy (const PrFootLine *from)
{
  PrFootLine line = *from;

  line.outline = g_memdup2 (from->outline, from->n_outline * sizeof *from->outline);
  line.rest = g_memdup2 (from->rest, from->n_rest * sizeof *from->rest);
  line.doubt = g_memdup2 (from->doubt, from->n_doubt * sizeof *from->doubt);
  for (size_t i = 0; i < line.n_doubt; i++)
    line.doubt[i].why = g_strdup (from->doubt[i].why);
  return line;
}

/* None and an empty one say the same. */
static bool
same_text (const char *a, const char *b)
{
  return g_strcmp0 (a ? a : "", b ? b : "") == 0;
}

static bool
same_point (PrSheetPt a, PrSheetPt b)
{
  return a.x == b.x && a.y == b.y;
}

static bool
same_drawn (const PrDrawnMarks *a, const PrDrawnMarks *b)
{
  return a->tick == b->tick && a->frog_lines == b->frog_lines && (!a->tick || same_point (a->toe, b->toe))
         && (!a->frog_lines
             || (same_point (a->frog_apex, b->frog_apex) && same_point (a->frog[0], b->frog[0])
                 && same_point (a->frog[1], b->frog[1])));
}

static bool
same_points (const PrSheetPt *a, const PrSheetPt *b, size_t n)
{
  for (size_t i = 0; i < n; i++)
    if (!same_point (a[i], b[i]))
      return false;
  return true;
}

bool
pr_foot_line_equal (const PrFootLine *a, const PrFootLine *b)
{
  bool same = a->n_outline == b->n_outline && a->closed == b->closed && a->figure == b->figure
              && a->pen_mm == b->pen_mm && a->inward_mm == b->inward_mm && a->n_doubt == b->n_doubt
              && a->n_rest == b->n_rest && a->heel_range[0] == b->heel_range[0]
              && a->heel_range[1] == b->heel_range[1] && same_drawn (&a->drawn, &b->drawn)
              && same_points (a->outline, b->outline, a->n_outline)
              && same_points (a->rest, b->rest, a->n_rest);

  for (size_t i = 0; same && i < a->n_doubt; i++)
    same = a->doubt[i].from_mm == b->doubt[i].from_mm && a->doubt[i].to_mm == b->doubt[i].to_mm
           && same_text (a->doubt[i].why, b->doubt[i].why);
  return same;
}
