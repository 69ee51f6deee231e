/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-strips.h"

#include "pr-bar-part.h"
#include "pr-bar.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define SIDE_MM 11.0 /* beside a strip: names at its ends */
#define OVERLAP_MAX_MM 20.0
#define STRIP_GAP_MM 7.0
#define SHADES_MM 4.8 /* of the legend: what the shades mean */
#define LEGEND_ROW_MM 4.6
#define LEGEND_IN_MM 7.2   /* to the words of its rows */
#define LEGEND_TEXT_MM 3.2 /* 9 pt are 3.175 mm */
#define LEGEND_GAP_MM 3.2

static const PrBarLook look = PR_BAR_LOOK_PAPER;

/* --- legend ------------------------------------------------------------------------------ */

/* What the marks mean, from Y on; returns where it ends. */
static double
draw_marks_legend (cairo_t *cr, double y, double width, bool draw)
{
  /* Translators: beside the sign of a mark, on the page of the bar */
  const char *words[2]
      = { _ ("for the punch"), _ ("only to look at: places of nails and crease do not survive drawing") };

  for (int i = 0; i < 2; i++) {
    cairo_save (cr);
    cairo_translate (cr, LEGEND_IN_MM / 2 - 0.8, y + LEGEND_ROW_MM / 2);
    pr_ink (cr, i == 0 ? pr_ink_light.text : pr_ink_light.faint);
    if (draw && i == 0)
      pr_bar_punch (cr, LEGEND_ROW_MM * 0.9);
    cairo_move_to (cr, 0, -1.5);
    cairo_line_to (cr, 0, 1.5);
    cairo_set_line_width (cr, 0.2);
    if (draw && i == 1)
      cairo_stroke (cr);
    cairo_new_path (cr);
    cairo_restore (cr);
    pr_ink (cr, pr_ink_light.text);
    pr_text_face (cr, LEGEND_TEXT_MM, i == 0);
    y = pr_text_block (cr, LEGEND_IN_MM, y + 3.4, width - LEGEND_IN_MM, LEGEND_TEXT_MM * 1.25, draw, words[i])
        - 3.4 + LEGEND_ROW_MM - LEGEND_TEXT_MM * 1.25;
  }
  return y;
}

static double
legend_height (double width)
{
  cairo_t *scratch = pr_text_scratch ();
  double height = draw_marks_legend (scratch, SHADES_MM, width, false);

  cairo_destroy (scratch);
  return height + LEGEND_GAP_MM;
}

/* --- strips ------------------------------------------------------------------------------ */

static char *
strip_title (const PrStrips *strips, const PrStrip *strip)
{
  g_autofree char *title = pr_bar_title (strips->job, strips->unit, strip->piece);

  if (strip->count == 1)
    return g_steal_pointer (&title);
  return g_strdup_printf (_ ("%s (strip %d of %d)"), title, strip->index + 1, strip->count);
}

/* Strip as the bar's drawing wants it; the joins lie in the middle of the overlaps. */
static PrBarPart
strip_part (const PrStrips *strips, const PrStrip *strip, const char *title)
{
  double half = strips->overlap / 2;
  PrBarPart part = pr_bar_part_whole (strips->job, strip->piece);

  part.from = strip->from;
  part.to = strip->to;
  part.title = title;
  if (strip->index > 0)
    part.join[0] = strip->from + half;
  if (strip->index + 1 < strip->count)
    part.join[1] = strip->to - half;
  part.letter[0] = (char) ('a' + (strip->index + 25) % 26);
  part.letter[1] = (char) ('a' + strip->index % 26);
  return part;
}

static double
strip_height (const PrStrips *strips, const PrStrip *strip)
{
  const PrBarPart part = strip_part (strips, strip, "-");

  return pr_bar_part (NULL, strips->job, strips->unit, &look, &part);
}

/* Adds one strip below the last, on a new page when it does not fit; *Y is where the page is full to. */
static void
add_strip (PrStrips *strips, PrStrip strip, double *y)
{
  double height = strip_height (strips, &strip);

  if (*y + height > strips->field.h && *y > strips->legend) {
    strips->n_pages++;
    *y = strips->legend;
  }
  strip.page = strips->n_pages - 1;
  strip.y = *y;
  *y += height + STRIP_GAP_MM;
  g_array_append_val (strips->strip, strip);
}

void
pr_strips_lay (PrStrips *strips, const PrJob *job, PrUnit unit, double overlap, PrBox field)
{
  double width = field.w - 2 * SIDE_MM, y;

  *strips = (PrStrips){ .job = job,
                        .unit = unit,
                        .overlap = CLAMP (overlap, 0, OVERLAP_MAX_MM),
                        .field = field,
                        .strip = g_array_new (FALSE, TRUE, sizeof (PrStrip)),
                        .n_pages = 1 };
  strips->legend = y = legend_height (width);
  double step = width - strips->overlap;
  for (size_t piece = 0; piece < job->iron.n_pieces; piece++) {
    /* the end left over opens no strip of its own */
    double length = job->iron.piece[piece].length, total = pr_bar_part_whole (job, piece).to;
    int count = length <= width ? 1 : (int) ceil ((length - strips->overlap - 1e-6) / step);

    for (int i = 0; i < count; i++) {
      double end = i + 1 < count ? i * step + width : fmin (i * step + width, total);

      add_strip (strips, (PrStrip){ piece, i * step, end, 0, 0, i, count }, &y);
    }
  }
  int page = strips->n_pages - 1;
  pr_cuts_lay (&strips->cuts, job, unit, PR_BAR_TEXT_MM, width, field.h, strips->legend, &page, &y);
  strips->n_pages = page + 1;
}

void
pr_strips_clear (PrStrips *strips)
{
  pr_cuts_clear (&strips->cuts);
  g_clear_pointer (&strips->strip, g_array_unref);
}

static void
draw_strip (const PrStrips *strips, const PrStrip *strip, cairo_t *cr)
{
  g_autofree char *title = strip_title (strips, strip);
  const PrBarPart part = strip_part (strips, strip, title);

  cairo_save (cr);
  cairo_translate (cr, strips->field.x + SIDE_MM, strips->field.y + strip->y);
  pr_bar_part (cr, strips->job, strips->unit, &look, &part);
  cairo_restore (cr);
}

void
pr_strips_draw (const PrStrips *strips, int page, cairo_t *cr)
{
  cairo_save (cr);
  cairo_translate (cr, strips->field.x + SIDE_MM, strips->field.y + 1.5);
  pr_bar_legend (cr, &look);
  draw_marks_legend (cr, SHADES_MM, strips->field.w - 2 * SIDE_MM, true);
  cairo_restore (cr);
  for (guint i = 0; i < strips->strip->len; i++) {
    const PrStrip *strip = &g_array_index (strips->strip, PrStrip, i);

    if (strip->page == page)
      draw_strip (strips, strip, cr);
  }
  cairo_save (cr);
  cairo_translate (cr, strips->field.x + SIDE_MM, strips->field.y);
  pr_cuts_draw (&strips->cuts, page, cr);
  cairo_restore (cr);
}
