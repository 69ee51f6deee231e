/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-tiled.h"

#include "pr-draw.h"
#include "pr-ink.h"

#include <glib/gi18n-lib.h>

#define PAD_X_MM 11.0 /* beside the figure: the letters M and L */
#define PAD_Y_MM 4.5  /* ahead and behind: the ends of the centre line */
#define SIDES_MM 6.5  /* row above the field that names both sides */
#define SIDES_TEXT_MM 4.0
#define JOIN_TEXT_MM 3.2
#define FIELD_MIN_MM 40.0 /* less paper than this between margins cannot be tiled on */

/* --- laying out -------------------------------------------------------------------------- */

/* Of the drawing alone; *ORIGIN is the foot's on a plan that begins at its top left. */
static void
plan_extent (const PrJob *job, PrFace face, double *w, double *h, PrPt *origin)
{
  PrPt low, high;
  int sign = pr_lateral_sign (job->sources.foot, face);

  pr_draw_extent (job, &low, &high);
  *w = high.x - low.x + 2 * PAD_X_MM;
  *h = high.y - low.y + 2 * PAD_Y_MM;
  *origin = pr_pt (PAD_X_MM + (sign > 0 ? -low.x : high.x), PAD_Y_MM + high.y);
}

void
pr_tiled_size (const PrJob *job, double *width, double *height)
{
  PrPt origin;

  plan_extent (job, PR_FACE_FOOT, width, height, &origin);
  *height += SIDES_MM;
}

void
pr_tiled_lay (PrTiled *tiled, const PrJob *job, PrFace face, double overlap, PrBox field)
{
  double w, h, shared = CLAMP (overlap, 0, FIELD_MIN_MM / 2 - 1);

  *tiled = (PrTiled){ .job = job, .face = face, .overlap = overlap };
  tiled->field = (PrBox){ field.x, field.y + SIDES_MM, field.w, field.h - SIDES_MM };
  g_assert (tiled->field.w >= FIELD_MIN_MM && tiled->field.h >= FIELD_MIN_MM);
  plan_extent (job, face, &w, &h, &tiled->origin);
  tiled->tile = pr_tiles (w, h, tiled->field.w, tiled->field.h, shared);
}

void
pr_tiled_clear (PrTiled *tiled)
{
  g_clear_pointer (&tiled->tile, g_array_unref);
}

/* --- drawing ----------------------------------------------------------------------------- */

/* Which side lies where, on every page, also where the letters fall on another tile. */
static void
draw_sides (const PrTiled *tiled, cairo_t *cr)
{
  bool lateral_right = pr_lateral_sign (tiled->job->sources.foot, tiled->face) > 0;
  const char *lateral = _ ("L lateral"), *medial = _ ("M medial");
  double y = tiled->field.y - 2.2;

  pr_text_face (cr, SIDES_TEXT_MM, true);
  pr_ink (cr, pr_ink_light.text);
  g_autofree char *left = g_strdup_printf ("← %s", lateral_right ? medial : lateral);
  g_autofree char *right = g_strdup_printf ("%s →", lateral_right ? lateral : medial);
  pr_text (cr, tiled->field.x, y, PR_LEFT, left);
  pr_text (cr, tiled->field.x + tiled->field.w, y, PR_RIGHT, right);
}

/* The whole grid small, this page's tile thick. */
static void
draw_overview (const PrTiled *tiled, const PrTile *tile, const PrBox *niche, cairo_t *cr)
{
  const PrTile *first = &g_array_index (tiled->tile, PrTile, 0);
  const PrTile *last = &g_array_index (tiled->tile, PrTile, tiled->tile->len - 1);
  double w = last->box.x + last->box.w - first->box.x, h = last->box.y + last->box.h - first->box.y;
  double k = fmin (niche->w / w, (niche->h - 9) / h);

  if (k <= 0)
    return;
  pr_text_face (cr, 8, true);
  pr_ink (cr, pr_ink_light.text);
  pr_text (cr, niche->x + niche->w / 2, niche->y + 6.5, PR_MIDDLE, tile->name);
  cairo_save (cr);
  cairo_translate (cr, niche->x + (niche->w - w * k) / 2, niche->y + 9);
  cairo_scale (cr, k, k);
  cairo_translate (cr, -first->box.x, -first->box.y);
  for (guint i = 0; i < tiled->tile->len; i++) {
    const PrTile *t = &g_array_index (tiled->tile, PrTile, i);

    cairo_rectangle (cr, t->box.x, t->box.y, t->box.w, t->box.h);
    cairo_set_line_width (cr, (t == tile ? 0.7 : 0.15) / k);
    cairo_stroke (cr);
  }
  const PrDrawOptions small = { .face = tiled->face, .shoe = true, .clips = true, .line_mm = 0.25 / k };
  pr_draw_enter_foot (cr, tiled->job->sources.foot, tiled->face, tiled->origin.x, tiled->origin.y);
  pr_draw_job (cr, tiled->job, &small);
  cairo_restore (cr);
}

static void
draw_register (cairo_t *cr, double x, double y)
{
  cairo_move_to (cr, x - 3, y);
  cairo_line_to (cr, x + 3, y);
  cairo_move_to (cr, x, y - 3);
  cairo_line_to (cr, x, y + 3);
  cairo_new_sub_path (cr);
  cairo_arc (cr, x, y, 1.6, 0, 2 * G_PI);
}

/* The line at which two tiles meet: the middle of their overlap, drawn alike on both. X and Y are
 * plan coordinates of its beginning. */
static void
draw_join (cairo_t *cr, double x, double y, double length, bool upright)
{
  const double dash[2] = { 2, 2 };
  double dx = upright ? 0 : 1, dy = upright ? 1 : 0;

  pr_ink (cr, pr_ink_light.faint);
  cairo_set_line_width (cr, 0.15);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_move_to (cr, x, y);
  cairo_line_to (cr, x + dx * length, y + dy * length);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  pr_ink (cr, pr_ink_light.text);
  for (int i = 1; i <= 3; i += 2)
    draw_register (cr, x + dx * length * i / 4, y + dy * length * i / 4);
  cairo_stroke (cr);
}

static const PrTile *
neighbour (const PrTiled *tiled, const PrTile *tile, int columns, int rows)
{
  for (guint i = 0; i < tiled->tile->len; i++) {
    const PrTile *t = &g_array_index (tiled->tile, PrTile, i);

    if (t->column == tile->column + columns && t->row == tile->row + rows)
      return t;
  }
  return NULL;
}

/* Join lines and the neighbours' names, in plan coordinates. */
static void
draw_joins (const PrTiled *tiled, const PrTile *tile, cairo_t *cr)
{
  static const int step[4][2] = { { -1, 0 }, { 1, 0 }, { 0, -1 }, { 0, 1 } };
  const PrBox *box = &tile->box;

  for (int i = 0; i < 4; i++) {
    const PrTile *next = neighbour (tiled, tile, step[i][0], step[i][1]);

    if (next == NULL)
      continue;
    bool upright = step[i][0] != 0;
    double x = (fmax (box->x, next->box.x) + fmin (box->x + box->w, next->box.x + next->box.w)) / 2;
    double y = (fmax (box->y, next->box.y) + fmin (box->y + box->h, next->box.y + next->box.h)) / 2;
    /* past the overlap, so that both pages show the same inside it */
    double in = tiled->overlap / 2 + 2.5;

    if (upright)
      draw_join (cr, x, box->y, box->h, true);
    else
      draw_join (cr, box->x, y, box->w, false);
    pr_text_face (cr, JOIN_TEXT_MM, true);
    g_autofree char *text = g_strdup_printf (_ ("joins %s"), next->name);
    if (upright)
      pr_text (cr, x - step[i][0] * in, box->y + box->h / 8, step[i][0] < 0 ? PR_LEFT : PR_RIGHT, text);
    else
      pr_text (cr, box->x + box->w / 8, y - step[i][1] * in + (step[i][1] < 0 ? 2 : 0), PR_MIDDLE, text);
  }
}

/* Corners of the tile, as crop marks. */
static void
draw_corners (const PrBox *box, cairo_t *cr)
{
  for (int i = 0; i < 4; i++) {
    double x = box->x + (i & 1 ? box->w : 0), y = box->y + (i & 2 ? box->h : 0);

    cairo_move_to (cr, x, y + (i & 2 ? -4 : 4));
    cairo_line_to (cr, x, y);
    cairo_line_to (cr, x + (i & 1 ? -4 : 4), y);
  }
  pr_ink (cr, pr_ink_light.text);
  cairo_set_line_width (cr, 0.2);
  cairo_stroke (cr);
}

void
pr_tiled_draw (const PrTiled *tiled, int page, const PrBox *niche, cairo_t *cr)
{
  const PrTile *tile = &g_array_index (tiled->tile, PrTile, page);
  const PrDrawOptions show = PR_DRAW_TEMPLATE (tiled->face);

  draw_sides (tiled, cr);
  if (tiled->tile->len > 1) {
    draw_overview (tiled, tile, niche, cr);
    draw_corners (&tiled->field, cr);
  }
  cairo_save (cr);
  cairo_rectangle (cr, tiled->field.x, tiled->field.y, tiled->field.w, tiled->field.h);
  cairo_clip (cr);
  cairo_translate (cr, tiled->field.x - tile->box.x, tiled->field.y - tile->box.y);
  cairo_save (cr);
  pr_draw_enter_foot (cr, tiled->job->sources.foot, tiled->face, tiled->origin.x, tiled->origin.y);
  pr_draw_job (cr, tiled->job, &show);
  cairo_restore (cr);
  if (tiled->tile->len > 1)
    draw_joins (tiled, tile, cr);
  cairo_restore (cr);
}
