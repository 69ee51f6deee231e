/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-leaf.h"

#include "pr-card-colour.h"
#include "pr-ink.h"
#include "pr-paper.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define HEAD_MM 20.0   /* title, figures, words and the rule below them */
#define BAR_ROW_MM 8.4 /* one check bar with its ticks and words */
#define STRIP_MM 17.0  /* both upright check bars */
#define TITLE_MM 6.0
#define BODY_MM 3.3
#define FINE_MM 3.2 /* the smallest lettering: 9 pt are 3.175 mm */
#define GAP_MM 3.0
#define LEAST_SHARE 0.6 /* the foot stands before a long name, and is read at arm's length */
#define CUT_SLACK 1.001 /* type made to fit is not cut for a rounding */
#define BAR_MM 100.0
#define BAR_IN_MM 101.6  /* 4 in */
#define SIDE_MIN_MM 55.0 /* narrowest column in which the sentence stands beside the bars */
#define MARK_MM 12.0     /* of the card's colour */
#define MARK_HIGH_MM 4.0
#define BASE_MM 0.5 /* a check bar's thickness */

void
pr_leaf_clear (PrLeaf *leaf)
{
  g_free (leaf->title);
  g_free (leaf->face);
  g_free (leaf->figures);
  g_free (leaf->words);
  *leaf = (PrLeaf){ 0 };
}

/* --- check bars -------------------------------------------------------------------------- */

/* Along x from (0,0). Every part lies within the length, so that it may be measured over all. */
static void
check_bar (cairo_t *cr, double length, int parts, const char *words)
{
  pr_ink (cr, (PrColour){ 0, 0, 0, 1 });
  cairo_rectangle (cr, 0, 0, length, BASE_MM);
  for (int i = 0; i <= parts; i++) {
    bool end = i == 0 || i == parts;
    double high = end ? 3.2 : i * 2 == parts ? 2.6 : 1.7, wide = end ? 0.3 : 0.2;
    double x = i == 0 ? 0 : i == parts ? length - wide : length * i / parts - wide / 2;

    cairo_rectangle (cr, x, -high, wide, high);
  }
  cairo_fill (cr);
  pr_text_face (cr, BODY_MM, true);
  pr_text (cr, length / 2, BASE_MM + BODY_MM * 0.73 + 0.9, PR_MIDDLE, words);
}

static void
both_bars (cairo_t *cr)
{
  cairo_save (cr);
  cairo_translate (cr, 0, 3.4);
  check_bar (cr, BAR_MM, 10, _ ("100 mm"));
  cairo_translate (cr, 0, BAR_ROW_MM);
  check_bar (cr, BAR_IN_MM, 4, _ ("4 in"));
  cairo_restore (cr);
}

/* --- foot of the page -------------------------------------------------------------------- */

static const char *
bar_sentence (void)
{
  return _ (
      "Measure these lines: they must be 100 mm and 4 in long. If not, print again at 100 % (actual size).");
}

bool
pr_correction_usable (double factor)
{
  return factor > PR_CORRECTION_MIN && factor < PR_CORRECTION_MAX;
}

char *
pr_correction_text (double correct_x, double correct_y)
{
  char x[16], y[16];

  if (correct_x == 1 && correct_y == 1)
    return NULL;
  g_ascii_formatd (x, sizeof x, "%.4f", correct_x);
  g_ascii_formatd (y, sizeof y, "%.4f", correct_y);
  return g_strdup_printf (_ ("Corrected for this printer: × %s across, × %s down."), x, y);
}

static const char *
caution_text (void)
{
  return _ (
      "Planning aid only; it does not diagnose. Therapeutic shoes under a veterinary surgeon's direction; "
      "who may shoe is set by local law. Trim first, trace after. Nails belong in the wall: one inside the "
      "white line lames. Eye protection at anvil and grinder; no galvanised stock in the fire; air for hoof "
      "smoke and flux; a handler for the horse. Measure the stock in hand. The foot decides.");
}

static double
inner_width (const PrLeaf *leaf)
{
  return leaf->width - 2 * leaf->margin;
}

/* Bars with the sentence beside or below them, then cautions, from Y on; returns the end. */
static double
draw_foot (const PrLeaf *leaf, cairo_t *cr, double y, bool draw, const char *count)
{
  double left = leaf->margin, width = inner_width (leaf), column = width - BAR_IN_MM - 2 * GAP_MM;
  bool beside = column >= SIDE_MIN_MM;
  double x = beside ? left + BAR_IN_MM + 2 * GAP_MM : left, at = beside ? y : y + 2 * BAR_ROW_MM;
  g_autofree char *correction = pr_correction_text (leaf->correct_x, leaf->correct_y);

  if (draw) {
    cairo_save (cr);
    cairo_translate (cr, left, y);
    both_bars (cr);
    cairo_restore (cr);
  }
  pr_ink (cr, pr_ink_light.text);
  pr_text_face (cr, BODY_MM, true);
  at = pr_text_block (cr, x, at + BODY_MM, beside ? column : width, BODY_MM * 1.32, draw, bar_sentence ());
  pr_text_face (cr, FINE_MM, false);
  if (correction != NULL)
    at = pr_text_block (cr, x, at, beside ? column : width, FINE_MM * 1.25, draw, correction);
  at = pr_text_block (cr, x, at, beside ? column : width, FINE_MM * 1.25, draw, count);
  at = fmax (at - BODY_MM, y + 2 * BAR_ROW_MM) + 1.2;
  if (leaf->cautions) {
    pr_text_face (cr, FINE_MM, false);
    at = pr_text_block (cr, left, at + FINE_MM, width, FINE_MM * 1.3, draw, caution_text ()) - FINE_MM * 1.3
         + 0.8;
  }
  return at;
}

static double
foot_height (const PrLeaf *leaf)
{
  cairo_t *cr = pr_text_scratch ();
  double height = draw_foot (leaf, cr, 0, false, "-");

  cairo_destroy (cr);
  return height;
}

/* --- boxes ------------------------------------------------------------------------------- */

PrBox
pr_leaf_field (const PrLeaf *leaf)
{
  double top = leaf->margin + HEAD_MM, low = leaf->height - leaf->margin - foot_height (leaf) - GAP_MM;

  return (PrBox){ leaf->margin, top, inner_width (leaf) - STRIP_MM, low - top };
}

PrBox
pr_leaf_niche (const PrLeaf *leaf)
{
  PrBox field = pr_leaf_field (leaf);

  return (PrBox){ field.x + field.w + 2, field.y + 1, STRIP_MM - 2, field.h - BAR_IN_MM - GAP_MM };
}

void
pr_leaf_fit (PrLeaf *leaf, double w, double h)
{
  leaf->width = fmax (w, BAR_IN_MM + 2 * GAP_MM + SIDE_MIN_MM) + STRIP_MM + 2 * leaf->margin;
  leaf->height = fmax (h, BAR_IN_MM) + HEAD_MM + GAP_MM + foot_height (leaf) + 2 * leaf->margin;
}

/* --- head of the page -------------------------------------------------------------------- */

/* TEXT at most WIDTH long: in smaller type when it must be, and cut where that could not be read any more. */
static void
fitted (cairo_t *cr, double x, double y, double width, double size, bool bold, PrAlign align,
        const char *text)
{
  pr_text_face (cr, size, bold);
  double wide = pr_text_width (cr, text);

  if (wide > width)
    pr_text_face (cr, fmax (size * width / wide, fmax (size * LEAST_SHARE, FINE_MM)), bold);
  g_autofree char *shown = pr_text_cut (cr, text, width * CUT_SLACK);
  pr_text (cr, x, y, align, shown);
}

/* A mark with the colour's name beside it: on paper without colour the name tells it. */
static void
draw_colour (const PrLeaf *leaf, cairo_t *cr, double y)
{
  guint rgb = pr_card_colour_rgb (leaf->colour);
  PrColour colour = PR_RGB (rgb);
  g_autofree char *words = g_strdup_printf (_ ("Card of the day: %s"), pr_card_colour_name (leaf->colour));

  cairo_rectangle (cr, leaf->margin, y - MARK_HIGH_MM + 0.4, MARK_MM, MARK_HIGH_MM);
  pr_ink (cr, colour);
  cairo_fill_preserve (cr);
  pr_ink (cr, pr_ink_light.text);
  cairo_set_line_width (cr, 0.2);
  cairo_stroke (cr);
  fitted (cr, leaf->margin + MARK_MM + 2, y, inner_width (leaf) - MARK_MM - 2, BODY_MM, false, PR_LEFT,
          words);
}

static void
draw_head (const PrLeaf *leaf, cairo_t *cr)
{
  double left = leaf->margin, right = leaf->width - leaf->margin, y = leaf->margin;
  double width = inner_width (leaf), face = 0;

  pr_ink (cr, pr_ink_light.text);
  if (leaf->face != NULL) {
    pr_text_face (cr, TITLE_MM, true);
    face = fmin (pr_text_width (cr, leaf->face), width * 0.45);
    fitted (cr, right, y + 5.2, face, TITLE_MM, true, PR_RIGHT, leaf->face);
  }
  fitted (cr, left, y + 5.2, width - face - 2 * GAP_MM, TITLE_MM, true, PR_LEFT, leaf->title);
  if (leaf->figures != NULL)
    fitted (cr, left, y + 11, width, BODY_MM * 1.1, false, PR_LEFT, leaf->figures);
  if (leaf->colour > 0)
    draw_colour (leaf, cr, y + 16);
  else if (leaf->words != NULL)
    fitted (cr, left, y + 16, width, BODY_MM, false, PR_LEFT, leaf->words);
  cairo_rectangle (cr, left, y + HEAD_MM - 2, width, 0.25);
  pr_ink (cr, pr_ink_light.faint);
  cairo_fill (cr);
}

static void
draw_upright_bars (const PrLeaf *leaf, cairo_t *cr)
{
  PrBox field = pr_leaf_field (leaf);

  cairo_save (cr);
  cairo_translate (cr, field.x + field.w + 1.5, field.y + field.h);
  cairo_rotate (cr, -G_PI / 2);
  both_bars (cr);
  cairo_restore (cr);
}

void
pr_leaf_draw (const PrLeaf *leaf, cairo_t *cr, int page, int n)
{
  g_autofree char *count = g_strdup_printf (_ ("Page %d of %d · Pritchel %s"), page + 1, n, PR_VERSION);

  draw_head (leaf, cr);
  draw_upright_bars (leaf, cr);
  draw_foot (leaf, cr, leaf->height - leaf->margin - foot_height (leaf), true, count);
}
