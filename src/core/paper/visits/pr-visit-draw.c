/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-draw.h"

#include <glib/gi18n-lib.h>

#include "pr-forged-text.h"

#define DASH_LINES 4.0 /* of the ghost, in widths of the line */
#define GAP_LINES 2.5
#define AWAY_TEXTS 1.6 /* a figure stands so far outside of its place, in heights of its letters */
#define PAD_TEXTS 0.25
#define LETTER_IN_MM 32.0 /* so far within the wall a letter stands clear of any web */

static void
add_path (cairo_t *cr, const PrPath *path)
{
  cairo_new_sub_path (cr);
  for (size_t i = 0; i < path->n; i++)
    cairo_line_to (cr, path->p[i].x, path->p[i].y);
}

/* What lies in the path, as of the earlier visit. */
static void
stroke_ghost (cairo_t *cr, const PrVisitLook *look)
{
  const double dash[2] = { DASH_LINES * look->forged.line, GAP_LINES * look->forged.line };

  pr_ink (cr, look->forged.ink->deep);
  cairo_set_line_width (cr, look->forged.line);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

/* --- figures ------------------------------------------------------------------------------- */

/* On the ground's colour, so that it is read whatever it lies on. */
static void
draw_figure (cairo_t *cr, PrFoot foot, const PrVisitGap *gap, double lift, const PrVisitLook *look)
{
  g_autofree char *text = pr_forged_signed (gap->mm, look->forged.unit);
  double size = look->text, wide = pr_text_width (cr, text);
  PrPt at = pr_pt_along (gap->at, gap->out, AWAY_TEXTS * size + fabs (gap->out.x) * wide / 2);
  PrColour ground = look->forged.ink->ground;

  at.y += lift;
  ground.a = 0.8;
  pr_ink (cr, ground);
  cairo_rectangle (cr, at.x - wide / 2 - PAD_TEXTS * size, at.y - (0.5 + PAD_TEXTS) * size,
                   wide + 2 * PAD_TEXTS * size, (1 + 2 * PAD_TEXTS) * size);
  cairo_fill (cr);
  pr_ink (cr, look->forged.ink->text);
  pr_draw_label (cr, foot, look->face, at, size, text);
}

static void
draw_figures (cairo_t *cr, PrFoot foot, const PrVisitChange *change, const PrVisitLook *look)
{
  if (!(look->text > 0))
    return;
  pr_text_face (cr, look->text, false);
  for (PrVisitPlace place = 0; place < PR_N_VISIT_PLACES; place++) {
    bool quarter = place == PR_VISIT_AT_QUARTER_M || place == PR_VISIT_AT_QUARTER_L;

    if (change->place[place].known)
      draw_figure (cr, foot, &change->place[place], quarter ? look->lift : 0, look);
  }
}

/* --- all ----------------------------------------------------------------------------------- */

void
pr_draw_visit_ghost (cairo_t *cr, PrFoot foot, const PrVisitChange *change, const PrVisitLook *look)
{
  cairo_save (cr);
  cairo_new_path (cr);
  add_path (cr, &change->before);
  stroke_ghost (cr, look);
  draw_figures (cr, foot, change, look);
  cairo_restore (cr);
}

static void
draw_feet (cairo_t *cr, const PrJob *now, const PrVisitChange *change, const PrVisitLook *look)
{
  pr_draw_forged_gaps (cr, change->gap, &look->forged);
  add_path (cr, &now->hoof.outline);
  pr_ink (cr, look->forged.ink->wall);
  cairo_set_line_width (cr, 1.6 * look->forged.line);
  cairo_stroke (cr);
  pr_draw_visit_ghost (cr, now->sources.foot, change, look);
}

static void
draw_shoes (cairo_t *cr, const PrJob *now, const PrVisitChange *change, const PrVisitLook *look)
{
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  pr_draw_forged_figure (cr, &now->shoe->figure);
  pr_ink (cr, look->forged.ink->steel);
  cairo_fill_preserve (cr);
  pr_ink (cr, look->forged.ink->crease);
  cairo_set_line_width (cr, look->forged.line);
  cairo_stroke (cr);
  pr_draw_forged_gaps (cr, change->shoe_gap, &look->forged);
  pr_draw_forged_figure (cr, &change->shoe);
  stroke_ghost (cr, look);
}

/* Which side is which. */
static void
draw_letters (cairo_t *cr, PrFoot foot, const PrVisitChange *change, const PrVisitLook *look)
{
  const char *const letter[2] = { C_ ("medial", "M"), C_ ("lateral", "L") };

  pr_ink (cr, look->forged.ink->text);
  for (int side = 0; side < 2 && look->letters > 0; side++) {
    const PrVisitGap *gap = &change->place[PR_VISIT_AT_QUARTER_M + side];

    pr_draw_label (cr, foot, look->face, pr_pt_along (gap->at, gap->out, -LETTER_IN_MM), look->letters,
                   letter[side]);
  }
}

void
pr_draw_visit (cairo_t *cr, const PrJob *now, const PrVisitChange *change, const PrVisitLook *look)
{
  cairo_save (cr);
  cairo_new_path (cr);
  if (!look->shoes)
    draw_feet (cr, now, change, look);
  else if (change->shoes)
    draw_shoes (cr, now, change, look);
  if (!look->shoes || change->shoes)
    draw_letters (cr, now->sources.foot, change, look);
  cairo_restore (cr);
}

static void
widen (const PrPath *path, PrPt *low, PrPt *high)
{
  for (size_t i = 0; i < path->n; i++) {
    *low = pr_pt (fmin (low->x, path->p[i].x), fmin (low->y, path->p[i].y));
    *high = pr_pt (fmax (high->x, path->p[i].x), fmax (high->y, path->p[i].y));
  }
}

void
pr_visit_extent (const PrJob *now, const PrVisitChange *change, PrPt *low, PrPt *high)
{
  *low = *high = now->hoof.toe;
  widen (&now->hoof.outline, low, high);
  widen (&change->before, low, high);
  for (size_t i = 0; change->shoes && i < change->shoe.n; i++)
    widen (&change->shoe.ring[i], low, high);
  for (size_t i = 0; change->shoes && i < now->shoe->figure.n; i++)
    widen (&now->shoe->figure.ring[i], low, high);
}
