/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-line-look.h"

#include "pr-ink-cover.h"
#include "pr-ink-wipe.h"
#include "pr-straight-lines.h"

/* What lies about everywhere is taken off so many times over: a floor's grain and pits reach five of their means, a pen's
 * line a hundred. Where no line is found then, less is; a drawing that fills the sheet is taken for grain. */
static const double calm[] = { 5, 2, 0 };
/* The sides of a card or rectangle and the shadow beside them are this broad to each side, mm. */
#define SIDE_MM 3.0

/* What gave the scale is no hoof: a card all of it, of a rectangle its sides. */
static void
wipe_marked (PrInkMap *ink, const PrTracing *t, const PrTraceOptions *o)
{
  PrSheetPt p[4];

  if ((o->method != PR_SCALE_CARD && o->method != PR_SCALE_RECT) || o->n_points != 4)
    return;
  for (int i = 0; i < 4; i++)
    p[i] = pr_camera_to_sheet (&t->camera, o->point[i]);
  for (int i = 0; i < 4; i++) {
    PrSheetPt a = p[i], b = p[(i + 1) % 4];
    double side = hypot (b.x - a.x, b.y - a.y);
    for (double s = 0; s <= side; s += SIDE_MM / 2)
      pr_ink_wipe_at (ink, (PrSheetPt){ a.x + s / side * (b.x - a.x), a.y + s / side * (b.y - a.y) },
                      SIDE_MM * ink->broad);
  }
  if (o->method == PR_SCALE_CARD)
    pr_ink_wipe_inside (ink, p, 4, SIDE_MM * ink->broad);
}

/* More than a sheet is in the picture: a floor, a board. */
static bool
shows_more (const PrTracing *t)
{
  return t->scale.paper == PR_PAPER_UNKNOWN;
}

/* What lies about everywhere is taken off TIMES over. */
static void
make (PrLineLook *look, PrTracing *t, const PrTraceOptions *o, bool light, double times)
{
  t->light = light;
  pr_ink_map_make (&look->ink, t);
  wipe_marked (&look->ink, t, o);
  if (!light && !shows_more (t))
    pr_ink_cover_take_out (&look->ink);
  if (times > 0)
    pr_ink_map_calm_clutter (&look->ink, times);
  if (shows_more (t) || light)
    pr_straight_lines_wipe (&look->ink);
  look->job = (PrHoofLine){ .tracing = t,
                            .pen_mm = o->pen_mm,
                            .ask.turn = t->scale.method == PR_SCALE_SHEET ? PR_TURN_LOATH : PR_TURN_FREE };
}

void
pr_line_look_begin (PrLineLook *look, PrTracing *t, const PrTraceOptions *options)
{
  look->side = pr_ink_side (t);
  make (look, t, options, look->side == PR_INK_SIDE_RATHER_LIGHT, shows_more (t) ? calm[0] : 0);
}

static bool
is_clean (const PrLineLook *look)
{
  return pr_hoof_choice_worth (&look->job) >= PR_HOOF_CHOICE_CLEAN;
}

/* Another look, in a tracing of its own; its line is taken where it is the better one. */
static void
look_again (PrLineLook *look, PrTracing *t, const PrTraceOptions *options, bool light, double times)
{
  g_autoptr (PrTracing) aside = pr_tracing_copy (t);
  g_auto (PrLineLook) other = { .side = look->side };
  double worth = pr_hoof_choice_worth (&look->job);

  pr_tracing_drop_line (aside);
  pr_tracing_drop_others (aside);
  make (&other, aside, options, light, times);
  pr_hoof_choice_find (&other.job, &other.ink, &other.error);
  double then = pr_hoof_choice_worth (&other.job);
  if (then < worth || (then == worth && (light || !t->light)))
    return;
  PrLineLook taken = other;
  other = *look;
  *look = taken;
  look->job.tracing = t;
  pr_tracing_take_lines (t, aside);
}

void
pr_line_look_find (PrLineLook *look, PrTracing *t, const PrTraceOptions *options)
{
  bool light = t->light, more = shows_more (t);

  pr_hoof_choice_find (&look->job, &look->ink, &look->error);
  for (size_t i = 1; more && i < G_N_ELEMENTS (calm) && !is_clean (look); i++)
    look_again (look, t, options, light, calm[i]);
  if (look->side != PR_INK_SIDE_DARK && !is_clean (look))
    look_again (look, t, options, !light, more ? calm[0] : 0);
}

void
pr_line_look_clear (PrLineLook *look)
{
  pr_ink_map_clear (&look->ink);
  g_clear_error (&look->error);
}
