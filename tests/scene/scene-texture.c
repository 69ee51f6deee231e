/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet: print, drawing, writing and what a barn leaves on paper. */
#include "scene-parts.h"

#include <math.h>
#include <string.h>
#include "pr-paper.h"

static const double print_rgb[3] = { 34, 33, 36 }; /* toner under room light */

static const double stain_rgb[3] = { 0.56, 0.36, 0.16 };
static const double note_rgb[3] = { 52, 60, 168 };

static const struct {
  double width, dark, vary, grain, rgb[3];
} pens[] = {
  [SCENE_PEN_MARKER] = { 1.7, 0.95, 0.10, 0, { 28, 27, 32 } },
  [SCENE_PEN_BALLPOINT] = { 0.55, 0.85, 0.16, 0, { 30, 44, 120 } },
  [SCENE_PEN_PENCIL] = { 0.8, 0.78, 0.22, 0.5, { 72, 72, 76 } },
  [SCENE_PEN_CHALK] = { 5, 0.9, 0.15, 0.75, { 232, 231, 224 } },
  [SCENE_PEN_WHITE] = { 1.6, 0.95, 0.10, 0, { 240, 240, 238 } },
};

static Nib
pen_nib (const SceneOptions *o, double share, guint32 stream)
{
  double width = o->pen_mm > 0 ? o->pen_mm : pens[o->pen].width;
  return (Nib){ width * share, pens[o->pen].dark, pens[o->pen].vary, pens[o->pen].grain,
                o->seed * 31 + stream };
}

/* --- print and dirt, with cairo ---------------------------------------------------------- */

static void
draw_grid (cairo_t *cr, const Texture *t, const SceneOptions *o)
{
  cairo_save (cr);
  if (o->tags) { /* the fiducials are printed on top of any grid */
    PrSheetPt low, high;
    pr_sheet_field (o->paper, &low, &high);
    cairo_rectangle (cr, low.x, low.y, high.x - low.x, high.y - low.y);
    cairo_clip (cr);
  }
  cairo_set_source_rgb (cr, 0.66, 0.76, 0.86);
  cairo_set_line_width (cr, 0.2);
  for (double x = 5; x < t->width_mm; x += 5) {
    cairo_move_to (cr, x, 0);
    cairo_line_to (cr, x, t->height_mm);
  }
  for (double y = 5; y < t->height_mm; y += 5) {
    cairo_move_to (cr, 0, y);
    cairo_line_to (cr, t->width_mm, y);
  }
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
draw_speck (cairo_t *cr, double x, double y, double r, Chance *c)
{
  cairo_set_source_rgba (cr, chance_span (c, 0.18, 0.34), 0.2, 0.13, chance_span (c, 0.45, 0.95));
  for (int i = 0; i < 7; i++) {
    double a = i * G_PI * 2 / 7, k = r * chance_span (c, 0.55, 1.3);
    cairo_line_to (cr, x + k * cos (a), y + k * sin (a));
  }
  cairo_close_path (cr);
  cairo_fill (cr);
}

static void
draw_smudge (cairo_t *cr, double x, double y, double r, double dark, Chance *c)
{
  cairo_pattern_t *soft = cairo_pattern_create_radial (0, 0, 0, 0, 0, r);

  cairo_pattern_add_color_stop_rgba (soft, 0, 0.42, 0.33, 0.22, dark);
  cairo_pattern_add_color_stop_rgba (soft, 0.5, 0.42, 0.33, 0.22, dark * 0.6);
  cairo_pattern_add_color_stop_rgba (soft, 1, 0.42, 0.33, 0.22, 0);
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_rotate (cr, chance_span (c, 0, G_PI));
  cairo_scale (cr, 1, chance_span (c, 0.3, 0.8));
  cairo_set_source (cr, soft);
  cairo_arc (cr, 0, 0, r, 0, 2 * G_PI);
  cairo_fill (cr);
  cairo_restore (cr);
  cairo_pattern_destroy (soft);
}

static void
draw_hair (cairo_t *cr, double x, double y, Chance *c)
{
  double a = chance_span (c, 0, 2 * G_PI), l = chance_span (c, 6, 22);
  double bend = chance_span (c, -0.6, 0.6);

  cairo_set_source_rgba (cr, 0.25, 0.2, 0.16, 0.8);
  cairo_set_line_width (cr, 0.12);
  cairo_move_to (cr, x, y);
  cairo_curve_to (cr, x + l / 3 * cos (a), y + l / 3 * sin (a), x + 2 * l / 3 * cos (a + bend),
                  y + 2 * l / 3 * sin (a + bend), x + l * cos (a + bend), y + l * sin (a + bend));
  cairo_stroke (cr);
}

/* What a wet cup leaves: pale inside, its rim darker and soft, and broken for an eighth. */
static void
draw_stain (cairo_t *cr, const Texture *t, const SceneOptions *o)
{
  Chance c = chance_new (o->seed, 8);
  double turn = chance_span (&c, -1.3, -0.7), out = o->hoof_width / 2;
  double x = t->width_mm / 2 + out * cos (turn), y = t->height_mm / 2 + out * sin (turn);
  double open = chance_span (&c, 0, 2 * G_PI);

  cairo_save (cr);
  cairo_set_source_rgba (cr, stain_rgb[0], stain_rgb[1], stain_rgb[2], 0.1);
  cairo_arc (cr, x, y, o->stain_mm, 0, 2 * G_PI);
  cairo_fill (cr);
  cairo_set_source_rgba (cr, stain_rgb[0], stain_rgb[1], stain_rgb[2], 0.2);
  for (double width = 0.6; width < 2.9; width += 0.45) {
    cairo_set_line_width (cr, width);
    cairo_arc (cr, x, y, o->stain_mm, open, open + 1.75 * G_PI);
    cairo_stroke (cr);
  }
  cairo_restore (cr);
}

static void
draw_dirt (cairo_t *cr, const Texture *t, Chance *c)
{
  for (int i = 0; i < 12; i++)
    draw_smudge (cr, chance_span (c, 0, t->width_mm), chance_span (c, 0, t->height_mm),
                 chance_span (c, 5, 32), chance_span (c, 0.05, 0.2), c);
  for (int i = 0; i < 110; i++) {
    double r = 0.12 * exp (0.8 * chance_normal (c));
    draw_speck (cr, chance_span (c, 0, t->width_mm), chance_span (c, 0, t->height_mm), fmin (r, 1.4), c);
  }
  for (int i = 0; i < 4; i++)
    draw_hair (cr, chance_span (c, 20, t->width_mm - 20), chance_span (c, 40, t->height_mm - 40), c);
}

/* A fold at X, drawn down the sheet: lit on one side, dim on the other. */
static void
draw_fold (cairo_t *cr, double x, double length)
{
  cairo_pattern_t *side = cairo_pattern_create_linear (x - 9, 0, x + 9, 0);

  cairo_pattern_add_color_stop_rgba (side, 0, 0, 0, 0, 0);
  cairo_pattern_add_color_stop_rgba (side, 0.47, 0, 0, 0, 0.10);
  cairo_pattern_add_color_stop_rgba (side, 0.5, 0, 0, 0, 0.26);
  cairo_pattern_add_color_stop_rgba (side, 0.515, 1, 1, 1, 0.4);
  cairo_pattern_add_color_stop_rgba (side, 1, 1, 1, 1, 0);
  cairo_set_source (cr, side);
  cairo_rectangle (cr, x - 9, 0, 18, length);
  cairo_fill (cr);
  cairo_pattern_destroy (side);
}

static void
draw_folds (cairo_t *cr, const Texture *t, Chance *c)
{
  draw_fold (cr, t->width_mm * chance_span (c, 0.47, 0.53), t->height_mm);
  cairo_save (cr);
  cairo_rotate (cr, G_PI / 2);
  cairo_scale (cr, 1, -1);
  draw_fold (cr, t->height_mm * chance_span (c, 0.47, 0.53), t->width_mm);
  cairo_restore (cr);
}

/* The form is drawn for its paper, about the middle of the sheet as it is cut. */
static void
draw_form (cairo_t *cr, const Texture *t, const SceneOptions *o)
{
  double width, height;

  pr_paper_size (o->paper, &width, &height);
  cairo_save (cr);
  cairo_translate (cr, t->width_mm / 2 + o->print_off[0], t->height_mm / 2 + o->print_off[1]);
  cairo_scale (cr, o->print_x, o->print_y);
  cairo_translate (cr, -width / 2, -height / 2);
  pr_draw_tracing_sheet (cr, o->paper, o->foot);
  cairo_restore (cr);
}

static cairo_surface_t *
draw_print (const Texture *t, const SceneOptions *o)
{
  cairo_surface_t *s = cairo_image_surface_create (CAIRO_FORMAT_RGB24, t->width, t->height);
  cairo_t *cr = cairo_create (s);
  Chance dirt = chance_new (o->seed, 4), folds = chance_new (o->seed, 5);

  cairo_scale (cr, t->res, t->res);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  if (o->tags)
    draw_form (cr, t, o);
  if (o->grid)
    draw_grid (cr, t, o);
  if (o->stain_mm > 0)
    draw_stain (cr, t, o);
  if (o->dirt)
    draw_dirt (cr, t, &dirt);
  if (o->folds)
    draw_folds (cr, t, &folds);
  cairo_destroy (cr);
  cairo_surface_flush (s);
  return s;
}

static PrSheetPt
hidden_at (const HoofLine *hoof, const SceneOptions *o)
{
  return hoof->line[MIN ((size_t) (o->hidden.at * (double) hoof->n), hoof->n - 1)];
}

static void
draw_mud (cairo_t *cr, PrSheetPt at, double mm, Chance *c)
{
  Waver rim;

  waver_set (&rim, c, 0.6, 3);
  for (int i = 0; i < 120; i++) {
    double a = i * G_PI / 60, r = mm / 2 * (1 + 0.05 * waver_at (&rim, a));
    cairo_line_to (cr, at.x + r * cos (a), at.y + r * sin (a));
  }
  cairo_close_path (cr);
  cairo_set_source_rgb (cr, 0.31, 0.25, 0.19);
  cairo_fill_preserve (cr);
  cairo_clip (cr);
  for (int i = 0; i < 60; i++)
    draw_smudge (cr, at.x + chance_span (c, -0.5, 0.5) * mm, at.y + chance_span (c, -0.5, 0.5) * mm,
                 chance_span (c, 1, 7), chance_span (c, 0.1, 0.4), c);
}

/* From beyond the line's outside over it, as wide as it hides. */
static void
draw_finger (cairo_t *cr, const HoofLine *hoof, const SceneOptions *o, Chance *c)
{
  PrSheetPt at = hidden_at (hoof, o);
  double out = atan2 (at.y - hoof->middle.y, at.x - hoof->middle.x) + chance_span (c, -0.25, 0.25);
  double light = chance_span (c, 0.75, 1);

  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_width (cr, o->hidden.mm);
  cairo_move_to (cr, at.x + 150 * cos (out), at.y + 150 * sin (out));
  cairo_line_to (cr, at.x, at.y);
  cairo_set_source_rgb (cr, 0.62 * light, 0.44 * light, 0.35 * light);
  cairo_stroke_preserve (cr);
  cairo_set_line_width (cr, 0.72 * o->hidden.mm);
  cairo_set_source_rgb (cr, 0.83 * light, 0.62 * light, 0.52 * light);
  cairo_stroke (cr);
}

/* --- what the hand draws ----------------------------------------------------------------- */

static void
draw_frog (Ink *ink, const HoofLine *hoof, const SceneOptions *o, Chance *c)
{
  Nib nib = pen_nib (o, 0.8, 11);
  PrSheetPt apex = hoof->frog[1];

  for (int i = 0; i < 3; i += 2) {
    PrSheetPt base = hoof->frog[i];
    double bow = i == 0 ? -2.6 : 2.6;
    PrSheetPt mid = { (base.x + apex.x) / 2 + bow * hoof->side, (base.y + apex.y) / 2 };
    PrSheetPt p[] = { base, mid, { apex.x + bow * 0.7 * hoof->side, apex.y + 5 }, apex };
    ink_curve (ink, p, G_N_ELEMENTS (p), &nib, c);
  }
  PrSheetPt cleft[] = { { apex.x + 1, (hoof->frog[0].y + apex.y) / 2 + 8 },
                        { apex.x - 0.5, hoof->frog[0].y - 6 },
                        { apex.x, hoof->frog[0].y + 1 } };
  ink_curve (ink, cleft, G_N_ELEMENTS (cleft), &nib, c);
}

static void
draw_ticks (Ink *ink, const HoofLine *hoof, const SceneOptions *o, Chance *c)
{
  Nib nib = pen_nib (o, o->tick_deg != 0 ? 1 : 0.8, 12);
  PrSheetPt toe[] = { { hoof->toe.x - 0.4, hoof->toe.y - 7 }, { hoof->toe.x + 0.3, hoof->toe.y + 7 } };

  ink_curve (ink, toe, 2, &nib, c);
  for (int i = 0; i < 2; i++) {
    PrSheetPt at = hoof->heel[i];
    double lean = (at.x > hoof->middle.x ? 1 : -1) * o->tick_deg * G_PI / 180;
    double dx = cos (lean), dy = sin (lean);
    PrSheetPt p[] = { { at.x - 6 * dx, at.y - 6 * dy + 0.3 }, { at.x + 6.5 * dx, at.y + 6.5 * dy - 0.4 } };
    ink_curve (ink, p, 2, &nib, c);
  }
}

static void
draw_writing (Ink *ink, const HoofLine *hoof, const Texture *t, const SceneOptions *o, Chance *c)
{
  static const char *const horses[] = { "Pipwick", "Tamsel", "Burrow Lad", "Hobnail Lass", "Fenwhistle" };
  const char *horse = o->horse ? o->horse : horses[o->seed % G_N_ELEMENTS (horses)];
  const char *date = o->date ? o->date : "3 Feb";
  Nib nib = pen_nib (o, 1, 13);
  double lean = chance_span (c, -0.02, 0.02), quarter = 0.5 * o->hoof_width + 7;
  PrSheetPt head = { o->tags ? 52 : 24, o->tags ? 31.8 : 26 };
  PrSheetPt day = { o->tags ? t->width_mm - 73 : t->width_mm - 70, head.y };

  nib.width = fmin (nib.width * 0.6, 0.8);
  ink_write (ink, horse, head, lean, o->tags ? 6.5 : 9, &nib, c);
  ink_write (ink, date, day, lean, o->tags ? 6 : 8, &nib, c);
  ink_write (ink, "toe", (PrSheetPt){ hoof->toe.x + 9, hoof->toe.y - 4 }, lean - 0.05, 7, &nib, c);
  ink_write (ink, "L", (PrSheetPt){ hoof->middle.x + hoof->side * quarter - 2, hoof->middle.y + 4 }, lean, 8,
             &nib, c);
  ink_write (ink, "3/8 x 1", (PrSheetPt){ 24, t->height_mm - 44 }, lean + 0.04, 7, &nib, c);
}

/* Its letters stand on the line, as tall inside as outside. */
static void
draw_across (Ink *ink, const HoofLine *hoof, const SceneOptions *o, Chance *c)
{
  Nib nib = pen_nib (o, 1, 15);
  double aside = chance_span (c, -18, 6);

  ink_write (ink, o->across, (PrSheetPt){ hoof->toe.x + aside, hoof->toe.y + 5 }, 0, 10, &nib, c);
}

/* Share of the line's length; the hand's first choice. */
static double
gap_at (Chance *c)
{
  return chance_unit (c) < 0.5 ? 0.25 : 0.72;
}

/* A word whose first letter stands along the line, to be laid over the sheet in its own ink. */
static void
draw_note (Ink *ink, const HoofLine *hoof, const SceneOptions *o)
{
  Chance hand = chance_new (o->seed, 6), c = chance_new (o->seed, 9);
  PrSheetPt at = hoof->line[(size_t) (gap_at (&hand) * (double) hoof->n)];
  Nib nib = { 0.7, 0.9, 0.1, 0, o->seed * 31 + 14 };

  PrSheetPt foot = { at.x + chance_span (&c, 1.2, 2.2), at.y + 5 };

  ink_write (ink, "heel", foot, 0, 9, &nib, &c);
}

static void
draw_line (Ink *ink, const HoofLine *hoof, const SceneOptions *o, Chance *c)
{
  Nib nib = pen_nib (o, 1, 10);
  double length = hoof->n * 0.4, at = length * gap_at (c);
  Gap gap = { at - o->gap_mm / 2, at + o->gap_mm / 2 };

  size_t from = (size_t) (o->heels.short_mm[0] / 0.4), to = (size_t) (o->heels.short_mm[1] / 0.4);

  ink_stroke (ink, hoof->line + from, hoof->n - from - to, &nib, o->gap_mm > 0 ? &gap : NULL);
  nib.dark *= 1 - o->heels.pale;
  if (hoof->bulbs)
    ink_stroke (ink, hoof->bulbs, hoof->n_bulbs, &nib, NULL);
}

static void
draw_strokes (Ink *ink, const SceneOptions *o)
{
  Nib nib = pen_nib (o, 1, 10);

  for (size_t i = 0; i < o->n_stroke; i++) {
    g_autofree PrSheetPt *p = g_new (PrSheetPt, o->stroke[i].n + 1);
    for (size_t j = 0; j <= o->stroke[i].n; j++) {
      PrPt at = o->stroke[i].p[j % o->stroke[i].n];
      p[j] = (PrSheetPt){ at.x, at.y };
    }
    ink_stroke (ink, p, o->stroke[i].n + 1, &nib, NULL);
  }
}

static void
draw_hand (Ink *ink, const HoofLine *hoof, const Texture *t, const SceneOptions *o)
{
  Chance c = chance_new (o->seed, 6);

  draw_strokes (ink, o);

  if (!o->no_line) {
    draw_line (ink, hoof, o, &c);
    if (o->frog)
      draw_frog (ink, hoof, o, &c);
    if (o->ticks)
      draw_ticks (ink, hoof, o, &c);
  }
  if (o->writing)
    draw_writing (ink, hoof, t, o, &c);
  if (o->across)
    draw_across (ink, hoof, o, &c);
}

/* --- together ---------------------------------------------------------------------------- */

/* The level of channel K where the print leaves LIT of the light of what it is on. */
static double
printed (const Ground *ground, int k, int grain, int lit)
{
  return print_rgb[k] + (ground->rgb[k] + grain - print_rgb[k]) * lit / 255;
}

/* A light pen covers, a dark one only darkens. */
static void
mix_texel (guint8 *out, const Ground *ground, guint32 print, int ink, int grain, ScenePen pen)
{
  bool covers = pen == SCENE_PEN_CHALK || pen == SCENE_PEN_WHITE;

  for (int k = 0; k < 3; k++) {
    double v = printed (ground, k, grain, (int) (print >> (16 - 8 * k) & 255)), to = pens[pen].rgb[k];
    v += (to - v) * (covers || to < v ? ink : 0) / 255;
    out[k] = (guint8) (v + 0.5);
  }
}

/* Most of a sheet is bare: BARE is what its texels are, the ground's grain and all. Texels FROM to TO. */
static void
mix_row (guint8 *out, const guint32 *print, const guint8 *cover, const Ground *ground, int y,
         const guint8 *bare, int from, int to, ScenePen pen)
{
  int side = ground->side;
  const gint8 *grain = ground->grain + y % side * side;

  bare += TEXEL * (y % side) * side;
  out += TEXEL * from;
  for (int x = from; x < to; x++, out += TEXEL)
    if (cover[x] == 0 && (print[x] & 0xffffff) == 0xffffff)
      memcpy (out, bare + TEXEL * (x % side), TEXEL);
    else
      mix_texel (out, ground, print[x], cover[x], grain[x % side], pen);
}

/* The texels from LOW to HIGH on GROUND. */
static void
mix_part (Texture *t, cairo_surface_t *print, const Ink *ink, const SceneOptions *o, PrSheetPt low,
          PrSheetPt high)
{
  Ground ground;
  const guint8 *data = cairo_image_surface_get_data (print);
  gsize stride = (gsize) cairo_image_surface_get_stride (print), width = (gsize) t->width;
  int from = (int) (low.x * t->res), to = MIN ((int) ceil (high.x * t->res), t->width);

  ground_make (&ground, o, t->res);
  gsize n = (gsize) ground.side * (gsize) ground.side;
  g_autofree guint8 *bare = g_new0 (guint8, TEXEL * n);
  for (gsize i = 0; i < n; i++)
    for (int k = 0; k < 3; k++)
      bare[TEXEL * i + (gsize) k] = (guint8) (printed (&ground, k, ground.grain[i], 255) + 0.5);
  for (gsize y = (gsize) (low.y * t->res); y < (gsize) MIN (ceil (high.y * t->res), t->height); y++)
    mix_row (t->rgbx + y * width * TEXEL, (const guint32 *) (const void *) (data + y * stride),
             ink->cover + y * width, &ground, (int) y, bare, from, to, o->pen);
  ground_clear (&ground);
}

/* The printed sheet is paper, and what is drawn on lies in its field. */
static void
mix_sheet (Texture *t, cairo_surface_t *print, const Ink *ink, const SceneOptions *o)
{
  PrSheetPt low = { 0, 0 }, high = { t->width_mm, t->height_mm };
  SceneOptions paper = *o;

  paper.ground = SCENE_GROUND_PAPER;
  mix_part (t, print, ink, o->tags ? &paper : o, low, high);
  if (o->tags && o->ground != SCENE_GROUND_PAPER) {
    pr_sheet_field (o->paper, &low, &high);
    mix_part (t, print, ink, o, low, high);
  }
}

/* A cake of mud with a ragged rim, or a finger laid across from outside: neither is paper. */
static void
lay_cover (Texture *t, const HoofLine *hoof, const SceneOptions *o)
{
  cairo_surface_t *s = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, t->width, t->height);
  cairo_t *cr = cairo_create (s);
  Chance c = chance_new (o->seed, 21);

  cairo_scale (cr, t->res, t->res);
  if (o->hidden.what == SCENE_MUD)
    draw_mud (cr, hidden_at (hoof, o), o->hidden.mm, &c);
  else
    draw_finger (cr, hoof, o, &c);
  cairo_destroy (cr);
  cairo_surface_flush (s);
  const guint8 *data = cairo_image_surface_get_data (s);
  gsize stride = (gsize) cairo_image_surface_get_stride (s);
  for (gsize y = 0; y < (gsize) t->height; y++)
    for (gsize x = 0; x < (gsize) t->width; x++) {
      guint32 p = *(const guint32 *) (const void *) (data + y * stride + 4 * x);
      guint8 *out = t->rgbx + (y * (gsize) t->width + x) * TEXEL;
      for (int k = 0; k < 3; k++)
        out[k] = (guint8) MIN ((p >> (16 - 8 * k) & 255) + out[k] * (255 - (p >> 24)) / 255, 255);
    }
  cairo_surface_destroy (s);
}

/* The true line to where it was drawn. */
static void
turn_truth (HoofLine *hoof, const Ink *ink)
{
  for (size_t i = 0; i < hoof->n; i++)
    hoof->line[i] = ink_turned (ink, hoof->line[i]);
  hoof->toe = ink_turned (ink, hoof->toe);
  for (int i = 0; i < 2; i++)
    hoof->heel[i] = ink_turned (ink, hoof->heel[i]);
  for (int i = 0; i < 3; i++)
    hoof->frog[i] = ink_turned (ink, hoof->frog[i]);
}

static void
lay_note (Texture *t, const HoofLine *hoof, const SceneOptions *o)
{
  gsize texels = (gsize) t->width * (gsize) t->height;
  Ink ink = { .width = t->width, .height = t->height, .res = t->res, .cover = g_malloc0 (texels) };

  draw_note (&ink, hoof, o);
  for (gsize i = 0; i < texels; i++)
    for (int k = 0; k < 3; k++) {
      double v = t->rgbx[TEXEL * i + (gsize) k];
      v += (note_rgb[k] - v) * (note_rgb[k] < v ? ink.cover[i] : 0) / 255;
      t->rgbx[TEXEL * i + (gsize) k] = (guint8) (v + 0.5);
    }
  g_free (ink.cover);
}

static bool
has_other (const SceneOptions *o)
{
  return o->other_mm[0] != 0 || o->other_mm[1] != 0;
}

/* The other foot of the pair beside the first, into the same ink. */
static void
draw_other (Ink *ink, HoofLine *other, const HoofLine *hoof, const Texture *t, const SceneOptions *o)
{
  static const PrFoot pair[] = { PR_FOOT_ANY, PR_FOOT_RF, PR_FOOT_LF, PR_FOOT_RH, PR_FOOT_LH };
  SceneOptions second = *o;
  Chance c = chance_new (o->seed, 33);
  PrSheetPt at
      = ink_turned (ink, (PrSheetPt){ hoof->middle.x + o->other_mm[0], hoof->middle.y + o->other_mm[1] });

  second.foot = pair[o->foot];
  second.seed = o->seed + 500;
  second.writing = false;
  second.across = NULL;
  hoof_line_make (other, &second, at, &c);
  ink->about = at;
  ink->turn += o->other_deg * G_PI / 180;
  draw_hand (ink, other, t, &second);
  turn_truth (other, ink);
}

void
texture_sheet (Texture *t, HoofLine *hoof, HoofLine *other, const SceneOptions *o, double res)
{
  Chance c = chance_new (o->seed, 3);

  *t = (Texture){ .res = res };
  scene_size (o, &t->width_mm, &t->height_mm);
  t->width = (int) ceil (t->width_mm * res);
  t->height = (int) ceil (t->height_mm * res);
  gsize texels = (gsize) t->width * (gsize) t->height;
  t->rgbx = g_malloc (texels * TEXEL);

  PrSheetPt about = { t->width_mm / 2 + o->at_mm[0], t->height_mm / 2 + o->at_mm[1] };
  double x = chance_span (&c, -4, 4), y = chance_span (&c, -4, 4);
  hoof_line_make (hoof, o, (PrSheetPt){ about.x + x, about.y + y }, &c);
  Ink ink = { t->width, t->height, res, g_malloc0 (texels), o->drawn_deg * G_PI / 180, about };
  draw_hand (&ink, hoof, t, o);
  if (has_other (o))
    draw_other (&ink, other, hoof, t, o);
  ink.turn = o->drawn_deg * G_PI / 180;
  ink.about = about;
  turn_truth (hoof, &ink);
  cairo_surface_t *print = draw_print (t, o);
  mix_sheet (t, print, &ink, o);
  if (o->note)
    lay_note (t, hoof, o);
  if (o->hidden.what == SCENE_MUD || o->hidden.what == SCENE_FINGER)
    lay_cover (t, hoof, o);
  ground_lay (t, o);
  cairo_surface_destroy (print);
  g_free (ink.cover);
}

void
texture_clear (Texture *t)
{
  g_clear_pointer (&t->rgbx, g_free);
  g_clear_pointer (&t->bench, bench_free);
}
