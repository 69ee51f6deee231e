/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-pages.h"

#include "pr-card.h"
#include "pr-ink.h"

#include <glib/gi18n-lib.h>

#define PAD_X_MM 11.0 /* beside the figure: the letters M and L */
#define PAD_Y_MM 4.5  /* ahead and behind: the ends of the centre line */
#define SIDES_MM 6.5  /* row above the field that names both sides */
#define SIDES_TEXT_MM 4.0
#define FIELD_MIN_MM 40.0 /* less paper than this between margins cannot be tiled on */

/* --- laying out -------------------------------------------------------------------------- */

static char *
face_words (PrFace face)
{
  if (face == PR_FACE_FOOT)
    return g_strdup (_ ("The side that lies against the hoof, seen from above. Dashed: the wall. "
                        "Shown 1 : 1."));
  return g_strdup (_ ("The side that meets the ground, seen from below. Dashed: the wall. "
                      "Shown 1 : 1."));
}

/* Plan of tiles: x right, y down, the padded extent from (0,0). */
static void
plan_extent (PrPages *pages, double *w, double *h)
{
  PrPt low, high;
  int sign = pr_lateral_sign (pages->job->foot, pages->face);

  pr_draw_extent (pages->job, &low, &high);
  *w = high.x - low.x + 2 * PAD_X_MM;
  *h = high.y - low.y + 2 * PAD_Y_MM;
  pages->origin = pr_pt (PAD_X_MM + (sign > 0 ? -low.x : high.x), PAD_Y_MM + high.y);
}

static PrBox
field_under_sides (const PrLeaf *leaf)
{
  PrBox box = pr_leaf_field (leaf);

  return (PrBox){ box.x, box.y + SIDES_MM, box.w, box.h - SIDES_MM };
}

static void
lay_tiles (PrPages *pages)
{
  double w, h;

  pages->field = field_under_sides (&pages->leaf);
  g_assert (pages->field.w >= FIELD_MIN_MM && pages->field.h >= FIELD_MIN_MM);
  plan_extent (pages, &w, &h);
  double overlap = CLAMP (pages->options.overlap_mm, 0, FIELD_MIN_MM / 2 - 1);
  pages->tiles = pr_tiles (w, h, pages->field.w, pages->field.h, overlap);
  pages->n = (int) pages->tiles->len;
}

static double
sane_factor (double factor)
{
  return pr_correction_usable (factor) ? factor : 1;
}

static PrPages *
pages_start (PrDoc doc, const PrJob *job, const PrPageOptions *options)
{
  PrPages *pages = g_new0 (PrPages, 1);

  pages->doc = doc;
  pages->job = job;
  pages->options = *options;
  pages->face = doc == PR_DOC_GROUND ? PR_FACE_GROUND : PR_FACE_FOOT;
  pages->leaf.margin = CLAMP (options->margin_mm, 0, 20);
  pages->leaf.correct_x = sane_factor (options->correct_x);
  pages->leaf.correct_y = sane_factor (options->correct_y);
  pages->leaf.cautions = options->cautions;
  if (job != NULL) {
    pages->leaf.title = pr_card_title (job);
    pages->leaf.figures
        = doc == PR_DOC_BAR ? pr_card_bar_figures (job, options->unit) : pr_card_figures (job, options->unit);
  }
  return pages;
}

static void
take_paper (PrPages *pages)
{
  pr_paper_size (pages->options.paper, &pages->width, &pages->height);
  pages->leaf.width = pages->width / pages->leaf.correct_x;
  pages->leaf.height = pages->height / pages->leaf.correct_y;
}

static void
lay_check (PrPages *pages)
{
  g_free (pages->leaf.title);
  g_clear_pointer (&pages->leaf.figures, g_free);
  pages->leaf.title = g_strdup (_ ("Check page"));
  pages->leaf.face = g_strdup (pr_paper_name (pages->options.paper));
  pages->leaf.words = g_strdup (_ ("Measure one of these bars across the page and one down, from end "
                                   "to end, with a steel rule."));
  pages->n = 1;
}

PrPages *
pr_pages_new (PrDoc doc, const PrJob *job, const PrPageOptions *options)
{
  g_assert (job != NULL || doc == PR_DOC_TRACING_SHEET || doc == PR_DOC_CHECK);
  PrPages *pages = pages_start (doc, job, options);

  take_paper (pages);
  switch (doc) {
  case PR_DOC_TEMPLATE:
  case PR_DOC_GROUND:
    pages->leaf.face = g_strdup (pr_face_name (pages->face));
    pages->leaf.words = face_words (pages->face);
    lay_tiles (pages);
    break;
  case PR_DOC_BAR:
    pages->leaf.face = g_strdup (_ ("bar layout"));
    pages->leaf.words = g_strdup (_ ("Shown 1 : 1. Lay the bar along it, or measure from the end: "
                                     "distances run from the medial heel."));
    pages->field = pr_leaf_field (&pages->leaf);
    pr_pages_lay_strips (pages);
    break;
  case PR_DOC_CARD:
    pages->leaf.face = g_strdup (C_ ("for the anvil", "card"));
    pages->field = pr_leaf_field (&pages->leaf);
    pr_pages_lay_card (pages);
    break;
  case PR_DOC_TRACING_SHEET:
    pages->n = 1;
    break;
  case PR_DOC_CHECK:
    lay_check (pages);
    break;
  }
  return pages;
}

PrPages *
pr_pages_new_single (const PrJob *job, PrFace face, PrUnit unit)
{
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  double w, h;

  options.unit = unit;
  options.cautions = false;
  PrPages *pages = pages_start (face == PR_FACE_FOOT ? PR_DOC_TEMPLATE : PR_DOC_GROUND, job, &options);
  pages->leaf.face = g_strdup (pr_face_name (face));
  pages->leaf.words = face_words (face);
  plan_extent (pages, &w, &h);
  pr_leaf_fit (&pages->leaf, w, h + SIDES_MM);
  pages->leaf.width = pages->width = ceil (pages->leaf.width);
  pages->leaf.height = pages->height = ceil (pages->leaf.height);
  lay_tiles (pages);
  g_assert (pages->n == 1);
  return pages;
}

void
pr_pages_free (PrPages *pages)
{
  if (pages == NULL)
    return;
  pr_leaf_clear (&pages->leaf);
  g_clear_pointer (&pages->tiles, g_array_unref);
  g_clear_pointer (&pages->strips, g_array_unref);
  g_clear_pointer (&pages->places, g_array_unref);
  g_clear_pointer (&pages->card, g_ptr_array_unref);
  g_free (pages);
}

int
pr_pages_count (const PrPages *pages)
{
  return pages->n;
}

void
pr_pages_size (const PrPages *pages, double *width, double *height)
{
  *width = pages->width;
  *height = pages->height;
}

/* --- template ---------------------------------------------------------------------------- */

/* Which side lies where, on every page, also where the letters fall on another tile. */
static void
draw_sides (const PrPages *pages, cairo_t *cr)
{
  bool lateral_right = pr_lateral_sign (pages->job->foot, pages->face) > 0;
  const char *lateral = _ ("L lateral"), *medial = _ ("M medial");
  double y = pages->field.y - 2.2;

  pr_text_face (cr, SIDES_TEXT_MM, true);
  pr_ink (cr, pr_ink_light.text);
  g_autofree char *left = g_strdup_printf ("← %s", lateral_right ? medial : lateral);
  g_autofree char *right = g_strdup_printf ("%s →", lateral_right ? lateral : medial);
  pr_text (cr, pages->field.x, y, PR_LEFT, left);
  pr_text (cr, pages->field.x + pages->field.w, y, PR_RIGHT, right);
}

/* The whole grid small, this page's tile thick. */
static void
draw_overview (const PrPages *pages, const PrTile *tile, cairo_t *cr)
{
  PrBox niche = pr_leaf_niche (&pages->leaf);
  const PrTile *first = &g_array_index (pages->tiles, PrTile, 0);
  const PrTile *last = &g_array_index (pages->tiles, PrTile, pages->tiles->len - 1);
  double w = last->box.x + last->box.w - first->box.x, h = last->box.y + last->box.h - first->box.y;
  double k = fmin (niche.w / w, (niche.h - 9) / h);

  if (k <= 0)
    return;
  pr_text_face (cr, 8, true);
  pr_ink (cr, pr_ink_light.text);
  pr_text (cr, niche.x + niche.w / 2, niche.y + 6.5, PR_MIDDLE, tile->name);
  cairo_save (cr);
  cairo_translate (cr, niche.x + (niche.w - w * k) / 2, niche.y + 9);
  cairo_scale (cr, k, k);
  cairo_translate (cr, -first->box.x, -first->box.y);
  for (guint i = 0; i < pages->tiles->len; i++) {
    const PrTile *t = &g_array_index (pages->tiles, PrTile, i);

    cairo_rectangle (cr, t->box.x, t->box.y, t->box.w, t->box.h);
    cairo_set_line_width (cr, (t == tile ? 0.7 : 0.15) / k);
    cairo_stroke (cr);
  }
  const PrDrawOptions small = { .face = pages->face, .shoe = true, .clips = true, .line_mm = 0.25 / k };
  pr_draw_enter_foot (cr, pages->job->foot, pages->face, pages->origin.x, pages->origin.y);
  pr_draw_job (cr, pages->job, &small);
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
neighbour (const PrPages *pages, const PrTile *tile, int columns, int rows)
{
  for (guint i = 0; i < pages->tiles->len; i++) {
    const PrTile *t = &g_array_index (pages->tiles, PrTile, i);

    if (t->column == tile->column + columns && t->row == tile->row + rows)
      return t;
  }
  return NULL;
}

/* Join lines and the neighbours' names, in plan coordinates. */
static void
draw_joins (const PrPages *pages, const PrTile *tile, cairo_t *cr)
{
  static const int step[4][2] = { { -1, 0 }, { 1, 0 }, { 0, -1 }, { 0, 1 } };
  const PrBox *box = &tile->box;

  for (int i = 0; i < 4; i++) {
    const PrTile *next = neighbour (pages, tile, step[i][0], step[i][1]);

    if (next == NULL)
      continue;
    bool upright = step[i][0] != 0;
    double x = (fmax (box->x, next->box.x) + fmin (box->x + box->w, next->box.x + next->box.w)) / 2;
    double y = (fmax (box->y, next->box.y) + fmin (box->y + box->h, next->box.y + next->box.h)) / 2;
    /* past the overlap, so that both pages show the same inside it */
    double in = pages->options.overlap_mm / 2 + 2.5;

    if (upright)
      draw_join (cr, x, box->y, box->h, true);
    else
      draw_join (cr, box->x, y, box->w, false);
    pr_text_face (cr, 3, true);
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

static void
draw_tile (const PrPages *pages, int page, cairo_t *cr)
{
  const PrTile *tile = &g_array_index (pages->tiles, PrTile, page);
  const PrDrawOptions show = PR_DRAW_TEMPLATE (pages->face);

  draw_sides (pages, cr);
  if (pages->n > 1) {
    draw_overview (pages, tile, cr);
    draw_corners (&pages->field, cr);
  }
  cairo_save (cr);
  cairo_rectangle (cr, pages->field.x, pages->field.y, pages->field.w, pages->field.h);
  cairo_clip (cr);
  cairo_translate (cr, pages->field.x - tile->box.x, pages->field.y - tile->box.y);
  cairo_save (cr);
  pr_draw_enter_foot (cr, pages->job->foot, pages->face, pages->origin.x, pages->origin.y);
  pr_draw_job (cr, pages->job, &show);
  cairo_restore (cr);
  if (pages->n > 1)
    draw_joins (pages, tile, cr);
  cairo_restore (cr);
}

/* --- a page ------------------------------------------------------------------------------ */

void
pr_pages_draw (const PrPages *pages, int page, cairo_t *cr)
{
  g_assert (page >= 0 && page < pages->n);
  cairo_save (cr);
  cairo_new_path (cr);
  if (pages->doc == PR_DOC_TRACING_SHEET) {
    pr_draw_tracing_sheet_corrected (cr, pages->options.paper,
                                     pages->job != NULL ? pages->job->foot : PR_FOOT_ANY,
                                     pages->leaf.correct_x, pages->leaf.correct_y);
  } else {
    cairo_scale (cr, pages->leaf.correct_x, pages->leaf.correct_y);
    pr_leaf_draw (&pages->leaf, cr, page, pages->n);
  }
  if (pages->tiles != NULL)
    draw_tile (pages, page, cr);
  if (pages->strips != NULL)
    pr_pages_draw_strips (pages, page, cr);
  if (pages->card != NULL)
    pr_pages_draw_card (pages, page, cr);
  cairo_restore (cr);
}
