/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-tracing-heels.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include "pr-path.h"

/* Nearer than this to where it is cut already, the cut stays, mm. */
#define SAME_MM 0.01
/* A doubt that ends so near to an end of the outline reaches it, mm. */
#define AT_END 0.5

/* --- what a heel that is told puts an end to -------------------------------------------------- */

static void
drop_doubt (PrTracing *t, size_t nr)
{
  g_free (t->doubt[nr].why);
  for (size_t i = nr + 1; i < t->n_doubt; i++)
    t->doubt[i - 1] = t->doubt[i];
  t->n_doubt--;
}

void
pr_tracing_ask_heels (PrTracing *t)
{
  pr_scale_drop_about (&t->scale, PR_ABOUT_HEELS);
  if (t->n_outline == 0 || (t->heel_range[0] == 0 && t->heel_range[1] == 0))
    return;
  size_t end = t->heel_range[0] > t->heel_range[1] ? 0 : t->n_outline - 1;
  pr_scale_lower_about (&t->scale, PR_VERDICT_USABLE, PR_ABOUT_HEELS,
                        _ ("The tracing is closed and its shape does not tell where the wall ends; set the "
                           "heels on the board."),
                        &t->outline[end]);
}

void
pr_tracing_heel_told (PrTracing *t, int end)
{
  double length = pr_tracing_length (t);

  t->heel_range[end] = 0;
  bool both = t->heel_range[0] == 0 && t->heel_range[1] == 0;
  for (size_t i = t->n_doubt; i-- > 0;) {
    bool first = t->doubt[i].from_mm<AT_END, last = t->doubt[i].to_mm> length - AT_END;
    /* one over all of the line stands for both heels */
    if (t->doubt[i].heel && (end == 0 ? first : last) && (both || !(first && last)))
      drop_doubt (t, i);
  }
  if (both)
    pr_scale_drop_about (&t->scale, PR_ABOUT_HEELS);
}

/* --- the cut ---------------------------------------------------------------------------------- */

/* Outline and rest as one path, from the outline's first point round to it again. */
static void
ring_of (const PrTracing *t, PrPath *ring)
{
  for (size_t i = 0; i < t->n_outline; i++)
    pr_path_add (ring, pr_pt (t->outline[i].x, t->outline[i].y));
  for (size_t i = 1; i < t->n_rest; i++)
    pr_path_add (ring, pr_pt (t->rest[i].x, t->rest[i].y));
}

/* The ring from FROM on to TO, mm along it, which may lie beyond its end. */
static PrSheetPt *
part_of (const PrPath *ring, double length, double from, double to, size_t *n)
{
  g_auto (PrPath) part = { 0 }, more = { 0 };

  pr_path_part (&part, ring, from, fmin (to, length));
  if (to > length) {
    pr_path_part (&more, ring, 0, to - length);
    for (size_t i = 1; i < more.n; i++)
      pr_path_add (&part, more.p[i]);
  }
  PrSheetPt *out = g_new (PrSheetPt, part.n);
  for (size_t i = 0; i < part.n; i++)
    out[i] = (PrSheetPt){ part.p[i].x, part.p[i].y };
  *n = part.n;
  return out;
}

/* All doubts BY mm further on along an outline of LENGTH; what lies beyond its ends goes. */
static void
move_doubts (PrTracing *t, double by, double length)
{
  for (size_t i = t->n_doubt; i-- > 0;) {
    PrDoubt *doubt = &t->doubt[i];

    doubt->from_mm = fmax (doubt->from_mm + by, 0);
    doubt->to_mm = fmin (doubt->to_mm + by, length);
    if (doubt->to_mm <= doubt->from_mm)
      drop_doubt (t, i);
  }
}

bool
pr_tracing_set_heel (PrTracing *t, PrSheetPt at)
{
  g_auto (PrPath) ring = { 0 };
  double u = 0, outline = pr_tracing_length (t);

  if (t->n_rest < 2 || t->n_outline < 2)
    return false;
  ring_of (t, &ring);
  double all = pr_path_length (&ring), rest = all - outline;
  pr_path_nearest (&ring, pr_pt (at.x, at.y), &u, NULL);
  int end = u >= outline / 2 && u <= outline + rest / 2;
  double off = end == 1      ? u - outline
               : u > outline ? u - all
                             : u; /* along the line; beyond the end for the last, inward
                                                                    * for the first */
  pr_tracing_heel_told (t, end);
  if (fabs (off) <= SAME_MM)
    return true;
  double from = end == 0 ? off : 0, to = end == 1 ? outline + off : outline;
  g_free (t->outline);
  g_free (t->rest);
  t->outline = part_of (&ring, all, from < 0 ? from + all : from, from < 0 ? to + all : to, &t->n_outline);
  t->rest = part_of (&ring, all, to, from + all, &t->n_rest);
  move_doubts (t, -from, to - from);
  return true;
}
