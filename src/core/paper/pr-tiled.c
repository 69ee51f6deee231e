/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-tiled.h"

#include "pr-draw.h"
#include "pr-ink.h"

#include <glib/gi18n-lib.h>

#define PAD_X_MM 11.0   /* beside the figure: the letters M and L, the line over its length */
#define PAD_Y_MM 4.5    /* ahead: the end of the centre line */
#define WORDS_X_MM 15.0 /* a page that may be as large as it likes has so much more for figures, beside ... */
#define WORDS_Y_MM 12.0 /* ... and ahead and behind */
#define SIDES_MM 6.5    /* row above the field that names both sides */
#define SIDES_TEXT_MM 4.0
#define JOIN_TEXT_MM 3.2
#define JOIN_OFF_MM 2.0
#define FIELD_MIN_MM 40.0 /* less paper than this between margins cannot be tiled on */

/* What stands beside a join: the neighbour's name, on the plan. */
typedef struct {
  int page;
  double x, y; /* base line's beginning */
  char *text;
} JoinWords;

/* --- extent ------------------------------------------------------------------------------ */

PrFace
pr_tiled_face (PrDoc doc)
{
  return doc == PR_DOC_TEMPLATE ? PR_FACE_FOOT : PR_FACE_GROUND;
}

/* Of the drawing alone; *ORIGIN is the foot's on a plan that begins at its top left. */
static void
plan_extent (const PrJob *job, PrDoc doc, double *w, double *h, PrPt *origin)
{
  bool black = doc == PR_DOC_SILHOUETTE;
  double left = black ? PR_SILHOUETTE_BEYOND_MM : PAD_X_MM,
         ahead = black ? PR_SILHOUETTE_BEYOND_MM : PAD_Y_MM;
  double right = black ? PR_SILHOUETTE_BEYOND_MM : PR_DIM_BESIDE_MM;
  double behind = black ? PR_SILHOUETTE_BEYOND_MM : PR_DIM_BEHIND_MM;
  PrPt low, high;
  int sign = pr_lateral_sign (job->sources.foot, pr_tiled_face (doc));

  pr_draw_extent (job, &low, &high);
  *w = high.x - low.x + left + right;
  *h = high.y - low.y + ahead + behind;
  *origin = pr_pt (left + (sign > 0 ? -low.x : high.x), ahead + high.y);
}

void
pr_tiled_size (const PrJob *job, double *width, double *height)
{
  PrPt origin;

  plan_extent (job, PR_DOC_TEMPLATE, width, height, &origin);
  *width += 2 * WORDS_X_MM;
  *height += 2 * WORDS_Y_MM + SIDES_MM;
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
  PrBox all = pr_tiles_all (tiled->tile);
  double w = all.w, h = all.h;
  double k = fmin (niche->w / w, (niche->h - 9) / h);

  if (k <= 0)
    return;
  pr_text_face (cr, 8, true);
  pr_ink (cr, pr_ink_light.text);
  pr_text (cr, niche->x + niche->w / 2, niche->y + 6.5, PR_MIDDLE, tile->name);
  cairo_save (cr);
  cairo_translate (cr, niche->x + (niche->w - w * k) / 2, niche->y + 9);
  cairo_scale (cr, k, k);
  cairo_translate (cr, -all.x, -all.y);
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

/* The middle of what TILE and NEXT share: the line at which they join begins at (*X, *Y). */
static void
join_of (const PrTile *tile, const PrTile *next, double *x, double *y)
{
  const PrBox *a = &tile->box, *b = &next->box;
  bool upright = tile->column != next->column;

  *x = upright ? (fmax (a->x, b->x) + fmin (a->x + a->w, b->x + b->w)) / 2 : a->x;
  *y = upright ? a->y : (fmax (a->y, b->y) + fmin (a->y + a->h, b->y + b->h)) / 2;
}

static const int step[4][2] = { { -1, 0 }, { 1, 0 }, { 0, -1 }, { 0, 1 } };

/* Join lines, in plan coordinates. */
static void
draw_joins (const PrTiled *tiled, const PrTile *tile, cairo_t *cr)
{
  for (int i = 0; i < 4; i++) {
    const PrTile *next = neighbour (tiled, tile, step[i][0], step[i][1]);
    bool upright = step[i][0] != 0;
    double x, y;

    if (next == NULL)
      continue;
    join_of (tile, next, &x, &y);
    draw_join (cr, x, y, upright ? tile->box.h : tile->box.w, upright);
  }
}

/* And the neighbours' names. */
static void
draw_join_words (const PrTiled *tiled, int page, cairo_t *cr)
{
  pr_text_face (cr, JOIN_TEXT_MM, true);
  pr_ink (cr, pr_ink_light.text);
  for (guint i = 0; i < tiled->join->len; i++) {
    const JoinWords *join = &g_array_index (tiled->join, JoinWords, i);

    if (join->page == page)
      pr_text (cr, join->x, join->y, PR_LEFT, join->text);
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

/* In plan coordinates. */
static void
draw_template (const PrTiled *tiled, cairo_t *cr)
{
  const PrDrawOptions show = PR_DRAW_TEMPLATE (tiled->face);

  cairo_save (cr);
  pr_draw_enter_foot (cr, tiled->job->sources.foot, tiled->face, tiled->origin.x, tiled->origin.y);
  pr_draw_job (cr, tiled->job, &show);
  cairo_restore (cr);
  if (tiled->dims != NULL)
    pr_dimensions_draw (tiled->dims, cr);
}

void
pr_tiled_draw (const PrTiled *tiled, int page, const PrBox *niche, cairo_t *cr)
{
  const PrTile *tile = &g_array_index (tiled->tile, PrTile, page);

  if (tiled->job->sources.foot != PR_FOOT_ANY)
    draw_sides (tiled, cr);
  if (tiled->tile->len > 1) {
    draw_overview (tiled, tile, niche, cr);
    draw_corners (&tiled->field, cr);
  }
  cairo_save (cr);
  cairo_rectangle (cr, tiled->field.x, tiled->field.y, tiled->field.w, tiled->field.h);
  cairo_clip (cr);
  cairo_translate (cr, tiled->field.x - tile->box.x, tiled->field.y - tile->box.y);
  if (tiled->doc != PR_DOC_SILHOUETTE)
    draw_template (tiled, cr);
  else if (tiled->silhouette != NULL)
    pr_silhouette_draw (tiled->silhouette, cr);
  draw_joins (tiled, tile, cr);
  draw_join_words (tiled, page, cr);
  cairo_restore (cr);
}

/* --- figures ----------------------------------------------------------------------------- */

/* The drawing takes its room, and all of the iron does: words on it would be read as made there. */
static void
take_drawing (const PrTiled *tiled, PrFreeRoom *room)
{
  const PrDrawOptions solid
      = { .face = tiled->face, .nails = true, .labels = true, .landmarks = true, .line_mm = 0.35 };
  PrDrawOptions show = PR_DRAW_TEMPLATE (tiled->face);
  PrPt letter[2];
  double size = pr_draw_letters (tiled->job, show.line_mm, letter);

  show.fill = true;
  for (int k = 0; k < 2; k++) {
    cairo_t *ink = pr_free_room_ink (room, k);

    cairo_save (ink);
    pr_draw_enter_foot (ink, tiled->job->sources.foot, tiled->face, tiled->origin.x, tiled->origin.y);
    pr_draw_job (ink, tiled->job, k ? &solid : &show);
    for (int side = 0; side < 2; side++) {
      cairo_rectangle (ink, letter[side].x - size / 2, letter[side].y - size * 0.6, size, size * 1.2);
      cairo_fill (ink);
    }
    cairo_restore (ink);
  }
}

/* No words lie where two tiles share what they show, nor over what is drawn at the joins. */
static void
take_joins (const PrTiled *tiled, PrFreeRoom *room)
{
  cairo_t *ink = pr_free_room_ink (room, false);

  for (guint i = 0; i < tiled->tile->len; i++) {
    const PrTile *tile = &g_array_index (tiled->tile, PrTile, i);

    draw_corners (&tile->box, ink);
    draw_joins (tiled, tile, ink);
    for (guint k = 0; k < i; k++) {
      const PrBox *a = &g_array_index (tiled->tile, PrTile, k).box, *b = &tile->box;
      double x = fmax (a->x, b->x), y = fmax (a->y, b->y);

      cairo_rectangle (ink, x, y, fmax (fmin (a->x + a->w, b->x + b->w) - x, 0),
                       fmax (fmin (a->y + a->h, b->y + b->h) - y, 0));
      cairo_fill (ink);
    }
  }
}

/* The name of NEXT beside its join with page PAGE, where it covers nothing: past the overlap, so that both pages show the
 * same inside it. */
static void
lay_join_words (PrTiled *tiled, int page, const PrTile *next, PrFreeRoom *room, cairo_t *scratch)
{
  const PrTile *tile = &g_array_index (tiled->tile, PrTile, page);
  bool upright = tile->column != next->column;
  int way = upright ? tile->column - next->column : tile->row - next->row;
  g_autofree char *text = g_strdup_printf (_ ("joins %s"), next->name);
  double x, y, off = tiled->overlap / 2 + JOIN_OFF_MM, w = pr_text_width (scratch, text),
               h = JOIN_TEXT_MM * 1.2;
  PrBox band = tile->box, place;

  join_of (tile, next, &x, &y);
  if (upright)
    band = (PrBox){ way > 0 ? x + off : x - off - w, tile->box.y, w, tile->box.h };
  else
    band = (PrBox){ tile->box.x, way > 0 ? y + off : y - off - h, tile->box.w, h };
  PrPt at
      = upright ? pr_pt (band.x + w / 2, band.y + band.h / 8) : pr_pt (band.x + band.w / 2, band.y + h / 2);
  if (isinf (pr_free_room_find (room, at, w, h, &band, &place)))
    place = (PrBox){ at.x - w / 2, at.y - h / 2, w, h };
  JoinWords words = { page, place.x, place.y + 0.94 * JOIN_TEXT_MM, g_steal_pointer (&text) };
  g_array_append_val (tiled->join, words);
  cairo_rectangle (pr_free_room_ink (room, false), place.x, place.y, w, h);
  cairo_fill (pr_free_room_ink (room, false));
}

static void
join_words_clear (gpointer data)
{
  g_free (((JoinWords *) data)->text);
}

static void
lay_all_join_words (PrTiled *tiled, PrFreeRoom *room)
{
  cairo_t *scratch = pr_text_scratch ();

  g_array_set_clear_func (tiled->join, join_words_clear);
  pr_text_face (scratch, JOIN_TEXT_MM, true);
  for (guint page = 0; page < tiled->tile->len; page++)
    for (int i = 0; i < 4; i++) {
      const PrTile *next
          = neighbour (tiled, &g_array_index (tiled->tile, PrTile, page), step[i][0], step[i][1]);

      if (next != NULL)
        lay_join_words (tiled, (int) page, next, room, scratch);
    }
  cairo_destroy (scratch);
}

/* --- laying out -------------------------------------------------------------------------- */

void
pr_tiled_lay (PrTiled *tiled, const PrJob *job, PrDoc doc, PrUnit unit, double overlap, PrBox field)
{
  double w, h, shared = CLAMP (overlap, 0, FIELD_MIN_MM / 2 - 1);

  *tiled = (PrTiled){ .job = job, .doc = doc, .face = pr_tiled_face (doc), .overlap = overlap };
  tiled->field = (PrBox){ field.x, field.y + SIDES_MM, field.w, field.h - SIDES_MM };
  g_assert (tiled->field.w >= FIELD_MIN_MM && tiled->field.h >= FIELD_MIN_MM);
  plan_extent (job, doc, &w, &h, &tiled->origin);
  tiled->tile = pr_tiles (w, h, tiled->field.w, tiled->field.h, shared);
  g_autoptr (PrFreeRoom) room = pr_free_room_new (pr_tiles_all (tiled->tile));
  tiled->join = g_array_new (FALSE, FALSE, sizeof (JoinWords));
  if (doc == PR_DOC_SILHOUETTE)
    tiled->silhouette = pr_silhouette_new (job, tiled->origin, room);
  else
    take_drawing (tiled, room);
  if (tiled->tile->len > 1)
    take_joins (tiled, room);
  if (doc != PR_DOC_SILHOUETTE)
    tiled->dims = pr_dimensions_new (job, tiled->face, unit, tiled->origin, room);
  if (tiled->tile->len > 1)
    lay_all_join_words (tiled, room); /* last: they may stand anywhere along their join */
  if (tiled->silhouette != NULL)
    pr_silhouette_lay (tiled->silhouette, room);
}

void
pr_tiled_clear (PrTiled *tiled)
{
  g_clear_pointer (&tiled->tile, g_array_unref);
  g_clear_pointer (&tiled->join, g_array_unref);
  g_clear_pointer (&tiled->dims, pr_dimensions_free);
  g_clear_pointer (&tiled->silhouette, pr_silhouette_free);
}
