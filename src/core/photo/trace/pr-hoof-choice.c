/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-hoof-choice.h"

#include "pr-ink-side.h"
#include "pr-ink-wipe.h"

/* Tried on our own scenes of boards, mats and pairs of feet. */
/* What a line loses of 100: all of it in doubt, a straight part, a part only, ink fainter than other,
 * and a size that no foot has. */
#define LOSS_DOUBT 100
#define LOSS_STRAIGHT 40
#define LOSS_PART 30
#define LOSS_FAINT 10
#define LOSS_SIZE 40
/* Another line takes the place of a poor one when it is better by so much. */
#define BETTER 10.0
/* Half a hoof of 170 mm, and a middle that is a little off, mm. */
#define SMALL_MOST 95.0
/* Lines that are looked at in place of a poor one. */
#define TRIES 2
/* A rim or a line that is known is wiped out so far to both sides, mm. */
#define WIPE_MM 6.0
/* A second foot needs so much room beside the first, and so much ink, mm: a foal's. */
#define ROOM_LEAST 85.0
#define INK_LEAST 170.0
/* Another foot's line is in doubt for no more than this share of it. */
#define OTHER_DOUBTFUL 0.3
/* Another foot's ink is this much of the first's at the least. */
#define OTHER_FULL 0.6
/* The heels stand no further apart than this share of the foot; where it is cut off they do. */
#define OPEN_MOST 0.95
/* Least and greatest side of a foot's line as it lies, mm: a foal's, a draught horse's turned. */
#define SIZE_LEAST 60.0
#define SIZE_MOST 230.0

typedef struct {
  PrSheetPt low, high;
} Box;

static Box
box_of (const PrSheetPt *p, size_t n)
{
  Box b = { { INFINITY, INFINITY }, { -INFINITY, -INFINITY } };

  for (size_t i = 0; i < n; i++) {
    b.low = (PrSheetPt){ fmin (b.low.x, p[i].x), fmin (b.low.y, p[i].y) };
    b.high = (PrSheetPt){ fmax (b.high.x, p[i].x), fmax (b.high.y, p[i].y) };
  }
  return b;
}

static bool
is_large (const PrTracing *t)
{
  Box b = box_of (t->outline, t->n_outline);

  return fmax (b.high.x - b.low.x, b.high.y - b.low.y) > SIZE_MOST;
}

double
pr_hoof_choice_worth (const PrHoofLine *job)
{
  const PrTracing *t = job->tracing;

  if (t->n_outline == 0)
    return 0;
  return 100 - LOSS_SIZE * is_large (t) - LOSS_DOUBT * job->doubtful - LOSS_STRAIGHT * job->straight
         - LOSS_PART * job->part - LOSS_FAINT * job->faint;
}

/* --- in place of a poor line --------------------------------------------------------------- */

static void
wipe_way (PrInkMap *rest, const PrPolarPath *round)
{
  for (int k = 0; k < PR_POLAR_PATH_STEPS; k++) {
    PrSheetPt a = pr_polar_path_point (round, k), b = pr_polar_path_point (round, k + 1);
    pr_ink_wipe_at (rest, a, WIPE_MM * rest->broad);
    pr_ink_wipe_at (rest, (PrSheetPt){ (a.x + b.x) / 2, (a.y + b.y) / 2 }, WIPE_MM * rest->broad);
  }
}

/* ASKED on INK; its line takes the place of JOB's when it is better. Returns the way round that it found. */
static PrHoofLine
try_again (PrHoofLine *job, const PrHoofLine *asked, const PrInkMap *ink)
{
  PrHoofLine next = *asked;
  double worth = pr_hoof_choice_worth (job);
  g_auto (PrFootLine) kept = pr_tracing_steal_line (job->tracing);

  pr_hoof_line_find (&next, ink, NULL);
  if (pr_hoof_choice_worth (&next) > worth + BETTER)
    *job = next;
  else
    pr_tracing_put_line (job->tracing, &kept);
  return next;
}

/* First a smaller foot, as two that stand together have a way round both; then what is left when the way that was found is
 * wiped out, as a board's rim is. */
static void
find_better (PrHoofLine *job, const PrHoofLine *asked, const PrInkMap *ink)
{
  PrInkMap rest;
  PrHoofLine small = *asked, last = *job;

  small.ask.r_most = SMALL_MOST;
  if (job->tracing->n_outline == 0 || is_large (job->tracing))
    try_again (job, &small, ink);
  if (pr_hoof_choice_worth (job) >= PR_HOOF_CHOICE_CLEAN)
    return;
  pr_ink_wipe_begin (&rest, ink);
  for (int i = 0; i < TRIES && last.has_round && pr_hoof_choice_worth (job) < PR_HOOF_CHOICE_CLEAN; i++) {
    wipe_way (&rest, &last.round);
    if (pr_ink_wipe_left (&rest, last.round.full) < INK_LEAST)
      break;
    last = try_again (job, asked, &rest);
  }
  pr_ink_wipe_end (&rest);
}

/* --- other feet ---------------------------------------------------------------------------- */

/* Is there room for another foot on any side of the line? */
static bool
has_room (const PrTracing *t)
{
  PrSheetPt low, high;
  Box b = box_of (t->outline, t->n_outline);

  pr_ink_field (&t->scale, &low, &high);
  return fmax (fmax (b.low.x - low.x, high.x - b.high.x), fmax (b.low.y - low.y, high.y - b.high.y))
         >= ROOM_LEAST;
}

static bool
apart (Box a, Box b)
{
  PrSheetPt m = { (a.low.x + a.high.x) / 2, (a.low.y + a.high.y) / 2 };
  PrSheetPt n = { (b.low.x + b.high.x) / 2, (b.low.y + b.high.y) / 2 };
  bool in_b = m.x > b.low.x && m.x < b.high.x && m.y > b.low.y && m.y < b.high.y;
  bool in_a = n.x > a.low.x && n.x < a.high.x && n.y > a.low.y && n.y < a.high.y;

  return !in_a && !in_b;
}

/* Is the line that was found one of a foot by itself, beside the line ABOUT? */
static bool
is_foot (const PrHoofLine *job, Box about)
{
  const PrTracing *t = job->tracing;
  Box b = box_of (t->outline, t->n_outline);
  double wide = b.high.x - b.low.x, high = b.high.y - b.low.y;
  PrSheetPt from = t->outline[0], to = t->outline[t->n_outline - 1];
  bool open = hypot (to.x - from.x, to.y - from.y) > OPEN_MOST * fmin (wide, high);

  return !job->straight && !open && job->doubtful <= OTHER_DOUBTFUL && fmin (wide, high) >= SIZE_LEAST
         && fmax (wide, high) <= SIZE_MOST && apart (b, about);
}

/* The next foot beside JOB's line, which stays as it is. TRUE when there is one; a line that goes round and is no
 * whole foot's is told as a rival. */
static bool
find_other (PrHoofLine *job, const PrHoofLine *asked, PrInkMap *rest)
{
  PrTracing *t = asked->tracing;
  PrHoofLine next = *asked;
  Box about = box_of (t->outline, t->n_outline);

  next.ask.full_least = OTHER_FULL * job->round.full;
  next.ask.rest = true;
  if (pr_ink_wipe_left (rest, next.ask.full_least) < INK_LEAST)
    return false;
  PrFootLine kept = pr_tracing_steal_line (t);
  bool line = pr_hoof_line_find (&next, rest, NULL), found = line && is_foot (&next, about);
  job->rival = job->rival || (line && !found && !next.faint && !next.straight);
  if (found) {
    pr_ink_wipe_inside (rest, t->outline, t->n_outline, WIPE_MM * rest->broad);
    t->other[t->n_other++] = pr_tracing_steal_line (t);
  }
  pr_tracing_put_line (t, &kept);
  return found;
}

static void
find_others (PrHoofLine *job, const PrHoofLine *asked, const PrInkMap *ink)
{
  PrTracing *t = job->tracing;
  PrInkMap rest;

  if (t->n_outline == 0 || !has_room (t))
    return;
  pr_ink_wipe_begin (&rest, ink);
  pr_ink_wipe_inside (&rest, t->outline, t->n_outline, WIPE_MM * rest.broad);
  while (t->n_other < PR_OTHERS_MOST && find_other (job, asked, &rest))
    ;
  pr_ink_wipe_end (&rest);
}

bool
pr_hoof_choice_find (PrHoofLine *job, const PrInkMap *ink, GError **error)
{
  const PrHoofLine asked = *job;
  g_autoptr (GError) none = NULL;

  pr_hoof_line_find (job, ink, &none);
  if (job->has_round && pr_hoof_choice_worth (job) < PR_HOOF_CHOICE_CLEAN)
    find_better (job, &asked, ink);
  if (job->tracing->n_outline == 0) {
    g_propagate_error (error, g_steal_pointer (&none));
    return false;
  }
  find_others (job, &asked, ink);
  return true;
}
