/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages that flow from top to bottom: the bar folded into strips, and the card. */
#include "pr-pages.h"

#include "pr-bar.h"
#include "pr-bar-part.h"
#include "pr-card.h"
#include "pr-ink.h"

#include <glib/gi18n-lib.h>

#define SIDE_MM 11.0 /* beside a strip: names at its ends */
#define STRIP_GAP_MM 7.0
#define LEGEND_MM 8.0

static const PrBarLook look = PR_BAR_LOOK_PAPER;

/* --- strips of bar ----------------------------------------------------------------------- */

static double
strip_overlap (const PrPages *pages)
{
  return CLAMP (pages->options.overlap_mm, 0, 20);
}

static char *
strip_title (const PrPages *pages, const PrStrip *strip)
{
  g_autofree char *title = pr_bar_title (pages->job, pages->options.unit, strip->piece);

  if (strip->count == 1)
    return g_steal_pointer (&title);
  return g_strdup_printf (_ ("%s (strip %d of %d)"), title, strip->index + 1, strip->count);
}

/* Strip as the bar's drawing wants it; the joins lie in the middle of the overlaps. */
static PrBarPart
strip_part (const PrPages *pages, const PrStrip *strip, const char *title)
{
  double half = strip_overlap (pages) / 2;
  PrBarPart part = pr_bar_part_whole (pages->job, strip->piece);

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
strip_height (const PrPages *pages, const PrStrip *strip)
{
  const PrBarPart part = strip_part (pages, strip, "-");

  return pr_bar_part (NULL, pages->job, pages->options.unit, &look, &part);
}

void
pr_pages_lay_strips (PrPages *pages)
{
  const PrIron *iron = &pages->job->iron;
  double width = pages->field.w - 2 * SIDE_MM, overlap = strip_overlap (pages);
  double y = LEGEND_MM;

  pages->strips = g_array_new (FALSE, TRUE, sizeof (PrStrip));
  pages->n = 1;
  for (size_t piece = 0; piece < iron->n_pieces; piece++) {
    /* the end left over opens no strip of its own */
    double length = iron->piece[piece].length, total = pr_bar_part_whole (pages->job, piece).to;
    double step = width - overlap;
    int count = length <= width ? 1 : (int) ceil ((length - overlap - 1e-6) / step);

    for (int i = 0; i < count; i++) {
      double end = i + 1 < count ? i * step + width : fmin (i * step + width, total);
      PrStrip strip = { piece, i * step, end, 0, 0, i, count };
      double height = strip_height (pages, &strip);

      if (y + height > pages->field.h && y > LEGEND_MM) {
        pages->n++;
        y = LEGEND_MM;
      }
      strip.page = pages->n - 1;
      strip.y = y;
      y += height + STRIP_GAP_MM;
      g_array_append_val (pages->strips, strip);
    }
  }
}

static void
draw_strip (const PrPages *pages, const PrStrip *strip, cairo_t *cr)
{
  g_autofree char *title = strip_title (pages, strip);
  const PrBarPart part = strip_part (pages, strip, title);

  cairo_save (cr);
  cairo_translate (cr, pages->field.x + SIDE_MM, pages->field.y + strip->y);
  pr_bar_part (cr, pages->job, pages->options.unit, &look, &part);
  cairo_restore (cr);
}

void
pr_pages_draw_strips (const PrPages *pages, int page, cairo_t *cr)
{
  cairo_save (cr);
  cairo_translate (cr, pages->field.x + SIDE_MM, pages->field.y + 1.5);
  pr_bar_legend (cr, &look);
  cairo_restore (cr);
  for (guint i = 0; i < pages->strips->len; i++) {
    const PrStrip *strip = &g_array_index (pages->strips, PrStrip, i);

    if (strip->page == page)
      draw_strip (pages, strip, cr);
  }
}

/* --- card -------------------------------------------------------------------------------- */

#define CARD_MM 4.7 /* read at arm's length */
#define CARD_HEAD_MM 5.8
#define CARD_LEAD 1.36
#define LABEL_SHARE 0.29 /* of the field, for labels */

/* Draws LINE with its first base line at Y, or only measures; returns where the next one begins. */
static double
card_line (const PrPages *pages, const PrCardLine *line, cairo_t *cr, double y, bool draw)
{
  double x = pages->field.x, w = pages->field.w, lead = CARD_MM * CARD_LEAD, in = w * LABEL_SHARE;

  pr_ink (cr, pr_ink_light.text);
  if (line->kind == PR_CARD_HEAD) {
    pr_text_face (cr, CARD_HEAD_MM, true);
    return pr_text_block (cr, x, y + 3, w, CARD_HEAD_MM * CARD_LEAD, draw, line->label);
  }
  if (line->kind == PR_CARD_TEXT) {
    g_autofree char *text
        = line->label != NULL ? g_strdup_printf ("%s: %s", line->label, line->value) : g_strdup (line->value);
    pr_text_face (cr, CARD_MM, false);
    return pr_text_block (cr, x, y, w, lead, draw, text) + 1;
  }
  pr_text_face (cr, CARD_MM, false);
  double below
      = pr_text_block (cr, x, y, line->kind == PR_CARD_MARK ? w * 0.5 : in - 2, lead, draw, line->label);
  if (line->kind == PR_CARD_ROW)
    return fmax (below, pr_text_block (cr, x + in, y, w - in, lead, draw, line->value));
  if (draw) {
    pr_text (cr, x + w * 0.70, y, PR_RIGHT, line->value);
    pr_text (cr, x + w * 0.98, y, PR_RIGHT, line->more);
  }
  return below;
}

void
pr_pages_lay_card (PrPages *pages)
{
  cairo_t *cr = pr_text_scratch ();
  double y = CARD_MM;

  pages->card = pr_card_lines (pages->job, pages->options.unit);
  pages->places = g_array_new (FALSE, TRUE, sizeof (PrCardPlace));
  pages->n = 1;
  for (guint i = 0; i < pages->card->len; i++) {
    const PrCardLine *line = g_ptr_array_index (pages->card, i);

    if (!line->anvil)
      continue;
    double height = card_line (pages, line, cr, 0, false);
    /* a heading does not stand alone at the foot of a page */
    double keep = line->kind == PR_CARD_HEAD ? 3 * CARD_MM * CARD_LEAD : 0;
    if (y - CARD_MM + height + keep > pages->field.h && y > CARD_MM) {
      pages->n++;
      y = CARD_MM;
    }
    PrCardPlace place = { i, y, pages->n - 1 };
    g_array_append_val (pages->places, place);
    y += height;
  }
  cairo_destroy (cr);
}

void
pr_pages_draw_card (const PrPages *pages, int page, cairo_t *cr)
{
  for (guint i = 0; i < pages->places->len; i++) {
    const PrCardPlace *place = &g_array_index (pages->places, PrCardPlace, i);

    if (place->page == page)
      card_line (pages, g_ptr_array_index (pages->card, place->line), cr, pages->field.y + place->y, true);
  }
}
