/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-strips.h"

#include "pr-bar-part.h"
#include "pr-bar.h"
#include "pr-section-look.h"

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
#define CUT_TEXT_MM PR_BAR_TEXT_MM
#define CUT_LEAD_MM 4.2 /* from one line of words to the next */
#define CUT_GAP_MM 8.0  /* between two cells */
#define CUT_LINE_MM 0.35
#define HEAD_MM 7.0 /* the line over them */

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

/* --- sections ------------------------------------------------------------------------------ */

static void
cell_clear (gpointer data)
{
  g_free (((PrCutCell *) data)->name);
}

/* Width that the widest of a cell's words and the iron take. */
static double
cell_width (cairo_t *scratch, const PrStrips *strips, const PrSection *section, const char *name)
{
  g_autofree char *size = pr_section_size (section, strips->unit),
                  *crease = pr_section_crease (section, strips->unit);
  PrSectionRoom room = pr_section_room (section);
  double width = room.left + room.right;

  pr_text_face (scratch, CUT_TEXT_MM, true);
  width = MAX (width, pr_text_width (scratch, name));
  pr_text_face (scratch, CUT_TEXT_MM, false);
  width = MAX (width, pr_text_width (scratch, size));
  return crease ? MAX (width, pr_text_width (scratch, crease)) : width;
}

/* A row of cells from X = 0 on, all with the room that the tallest needs; returns its height. */
static double
lay_row (PrStrips *strips, guint first, double y, double up, double down)
{
  for (guint i = first; i < strips->cut->len; i++) {
    PrCutCell *cell = &g_array_index (strips->cut, PrCutCell, i);

    cell->page = strips->n_pages - 1;
    cell->top = y + CUT_LEAD_MM;
    cell->y = cell->top + 2 + up;
  }
  return CUT_LEAD_MM + 2 + up + down + 3 * CUT_LEAD_MM;
}

/* The row's height once FIRST and what follows stand in it: on this page below *Y, or on a new one. */
static void
end_row (PrStrips *strips, guint first, double *y, double up, double down)
{
  double height = CUT_LEAD_MM + 2 + up + down + 3 * CUT_LEAD_MM;

  if (*y + height > strips->field.h && *y > strips->legend + HEAD_MM) {
    strips->n_pages++;
    *y = strips->legend + HEAD_MM;
  }
  *y += lay_row (strips, first, *y, up, down);
}

/* The places a smith looks at, side by side below the bar, as many in a row as the field is wide. */
static void
lay_cuts (PrStrips *strips, double y)
{
  g_autoptr (GArray) places = pr_section_places (strips->job);
  g_auto (PrSection) section = { 0 };
  cairo_t *scratch = pr_text_scratch ();
  double x = 0, up = 0, down = 0;
  guint first = 0;

  y += HEAD_MM;
  for (guint i = 0; i < places->len; i++) {
    const PrSectionPlace *place = &g_array_index (places, PrSectionPlace, i);

    pr_section_at (&strips->job->sources.plan, strips->job->shoe, place->s, &section);
    PrSectionRoom room = pr_section_room (&section);
    double width = cell_width (scratch, strips, &section, place->name);

    if (x > 0 && x + width > strips->field.w - 2 * SIDE_MM) {
      end_row (strips, first, &y, up, down);
      first = strips->cut->len;
      x = up = down = 0;
    }
    up = MAX (up, room.up);
    down = MAX (down, room.down);
    g_array_append_val (strips->cut,
                        ((PrCutCell){ place->s, g_strdup (place->name), x + room.left, 0, 0, 0 }));
    x += width + CUT_GAP_MM;
  }
  if (places->len > 0)
    end_row (strips, first, &y, up, down);
  cairo_destroy (scratch);
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
                        .cut = g_array_new (FALSE, TRUE, sizeof (PrCutCell)),
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
  g_array_set_clear_func (strips->cut, cell_clear);
  lay_cuts (strips, y);
}

static void
draw_cut (const PrStrips *strips, const PrCutCell *cell, cairo_t *cr)
{
  g_auto (PrSection) section = { 0 };

  pr_section_at (&strips->job->sources.plan, strips->job->shoe, cell->s, &section);
  g_autofree char *size = pr_section_size (&section, strips->unit),
                  *crease = pr_section_crease (&section, strips->unit);
  PrSectionRoom room = pr_section_room (&section);
  double left = cell->x - room.left, below = cell->y + room.down + CUT_LEAD_MM;

  cairo_save (cr);
  cairo_translate (cr, cell->x, cell->y);
  pr_section_draw (cr, &section, &pr_ink_light, CUT_LINE_MM);
  cairo_restore (cr);
  pr_ink (cr, pr_ink_light.text);
  pr_text_face (cr, CUT_TEXT_MM, true);
  pr_text (cr, left, cell->top, PR_LEFT, cell->name);
  pr_text_face (cr, CUT_TEXT_MM, false);
  pr_text (cr, left, below, PR_LEFT, size);
  if (crease)
    pr_text (cr, left, below + CUT_LEAD_MM, PR_LEFT, crease);
}

static void
draw_cuts (const PrStrips *strips, int page, cairo_t *cr)
{
  bool headed = false;

  cairo_save (cr);
  cairo_translate (cr, strips->field.x + SIDE_MM, strips->field.y);
  for (guint i = 0; i < strips->cut->len; i++) {
    const PrCutCell *cell = &g_array_index (strips->cut, PrCutCell, i);

    if (cell->page != page)
      continue;
    if (!headed) {
      pr_ink (cr, pr_ink_light.text);
      pr_text_face (cr, CUT_TEXT_MM, true);
      pr_text (cr, 0, cell->top - HEAD_MM, PR_LEFT,
               _ ("The iron cut through, 1 : 1: foot surface up, outer edge left."));
      headed = true;
    }
    draw_cut (strips, cell, cr);
  }
  cairo_restore (cr);
}

void
pr_strips_clear (PrStrips *strips)
{
  g_clear_pointer (&strips->cut, g_array_unref);
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
  draw_cuts (strips, page, cr);
}
