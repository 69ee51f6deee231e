/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sheet-guide.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include "pr-ink.h"

/* Lettering, share of the field's width. Shrunk in steps until the field holds all, but not below 9 pt, mm. */
#define TEXT_SHARE 0.024
#define TEXT_LEAST_MM 3.175
#define TEXT_STEP 0.95
/* In letterings. */
#define LEAD 1.4
#define HEAD 1.5   /* the head of a part */
#define BULLET 1.2 /* from a dot to its words */
#define BETWEEN 2.6
/* A part's picture: share of the field's width, and what is left between it and the words. */
#define PICTURE 0.3
#define GUTTER_MM 8.0

#define N_PARTS 3
#define N_STEPS 4

typedef void (*Picture) (cairo_t *cr); /* within 60 x 60, its own units */

typedef struct {
  const char *head, *step[N_STEPS];
  Picture picture;
} Part;

/* --- pictures ---------------------------------------------------------------------------- */

static void
stroke (cairo_t *cr, double width)
{
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
}

static void
line (cairo_t *cr, double x0, double y0, double x1, double y1)
{
  cairo_move_to (cr, x0, y0);
  cairo_line_to (cr, x1, y1);
}

static void
arrow_up (cairo_t *cr, double x, double y)
{
  cairo_move_to (cr, x, y);
  cairo_line_to (cr, x + 3, y + 5);
  cairo_line_to (cr, x - 3, y + 5);
  cairo_close_path (cr);
  cairo_fill (cr);
}

/* The line from heel to heel, a stroke across it at each end and at the toe. */
static void
draw_foot (cairo_t *cr)
{
  arrow_up (cr, 30, 0);
  cairo_move_to (cr, 17, 56);
  cairo_curve_to (cr, 9, 44, 7, 34, 10, 25);
  cairo_curve_to (cr, 13, 14, 21, 9, 30, 9);
  cairo_curve_to (cr, 39, 9, 47, 14, 50, 25);
  cairo_curve_to (cr, 53, 34, 51, 44, 43, 56);
  stroke (cr, 1);
  line (cr, 12, 58, 22, 54);
  line (cr, 48, 58, 38, 54);
  line (cr, 30, 6, 30, 12);
  stroke (cr, 0.8);
}

static void
corner_marks (cairo_t *cr, double x, double y, double w, double h, double side)
{
  for (int i = 0; i < 4; i++)
    cairo_rectangle (cr, x + (i % 2 ? w - side - 2 : 2), y + (i / 2 ? h - side - 2 : 2), side, side);
  cairo_fill (cr);
}

/* The sheet as the telephone shows it: whole, with a rim of ground all round. */
static void
draw_photo (cairo_t *cr)
{
  cairo_rectangle (cr, 9, 0, 42, 60);
  stroke (cr, 1.4);
  cairo_set_source_rgb (cr, 0.72, 0.72, 0.72);
  cairo_rectangle (cr, 12, 4, 36, 52);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_rectangle (cr, 15, 9, 30, 42);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, 0, 0, 0);
  corner_marks (cr, 15, 9, 30, 42, 5);
  cairo_save (cr);
  cairo_translate (cr, 18.5, 17);
  cairo_scale (cr, 0.38, 0.38);
  draw_foot (cr);
  cairo_restore (cr);
}

/* A check bar with a rule laid along it. */
static void
draw_bar (cairo_t *cr)
{
  cairo_rectangle (cr, 5, 22, 50, 4);
  stroke (cr, 0.5);
  for (int i = 0; i < 10; i += 2)
    cairo_rectangle (cr, 5 + 5 * i, 22, 5, 4);
  cairo_fill (cr);
  cairo_rectangle (cr, 1, 27, 58, 11);
  stroke (cr, 0.6);
  for (int i = 0; i <= 50; i++)
    line (cr, 5 + i, 27, 5 + i, i % 5 == 0 ? 31 : 29);
  stroke (cr, 0.25);
  pr_text_face (cr, 4.5, false);
  pr_text (cr, 5, 36.3, PR_MIDDLE, "0");
  pr_text (cr, 53.5, 36.3, PR_MIDDLE, "100");
}

/* --- words ------------------------------------------------------------------------------- */

static const Part parts[N_PARTS] = {
  { N_ ("Draw round the foot"),
    { N_ ("Trim the foot first. Stand it on the sheet with the toe towards the arrow."),
      N_ ("Hold the pen upright and draw once round the wall, from heel to heel."),
      N_ ("Tick both heels: a short stroke across the tracing where the wall ends."),
      N_ ("Tick the middle of the toe in the same way.") },
    draw_foot },
  { N_ ("Take the photo"),
    { N_ ("Lay the sheet flat on a darker ground, away from hard shadows and glare."),
      N_ ("Hold the camera straight above it, so close that the sheet fills the photo."),
      N_ ("Keep all four corner marks and all four edges of the paper in the photo.") },
    draw_photo },
  { N_ ("Check the printer"),
    { /* xgettext:no-c-format */
      N_ ("Print at 100 % or actual size, never fitted to the page."),
      N_ ("Measure the check lines on the sheet with a steel rule: 100 mm and 4 in, across and down."),
      N_ ("If they differ, print again at actual size, or measure the printer once in the program, which "
          "corrects for it from then on."),
      N_ ("With the edges of the paper in the photo, the program notices a wrong print and asks.") },
    draw_bar },
};

typedef struct {
  PrBox field;
  double size;
} Page;

/* A dot, and TEXT beside it; the next base line. */
static double
put_step (cairo_t *cr, const Page *page, double x, double y, double room, bool draw, const char *text)
{
  double in = BULLET * page->size;

  if (draw) {
    cairo_arc (cr, x + page->size * 0.3, y - page->size * 0.3, page->size * 0.17, 0, 2 * G_PI);
    cairo_fill (cr);
  }
  return pr_text_block (cr, x + in, y, room - in, LEAD * page->size, draw, text) + 0.25 * page->size;
}

/* PART with its top at Y; where the next begins. */
static double
put_part (cairo_t *cr, const Page *page, const Part *part, double y, bool draw)
{
  double side = PICTURE * page->field.w;
  double x = page->field.x + side + GUTTER_MM, room = page->field.w - side - GUTTER_MM;
  double at = y + HEAD * page->size;

  if (draw) {
    cairo_save (cr);
    cairo_translate (cr, page->field.x, y);
    cairo_scale (cr, side / 60, side / 60);
    part->picture (cr);
    cairo_restore (cr);
  }
  pr_text_face (cr, HEAD * page->size, true);
  at = pr_text_block (cr, x, at, room, HEAD * LEAD * page->size, draw, _ (part->head));
  pr_text_face (cr, page->size, false);
  for (int i = 0; i < N_STEPS && part->step[i]; i++)
    at = put_step (cr, page, x, at, room, draw, _ (part->step[i]));
  return fmax (y + side, at - LEAD * page->size) + BETWEEN * page->size;
}

/* All of it; where it ends. */
static double
put_all (cairo_t *cr, const Page *page, bool draw)
{
  double y = page->field.y + page->size;

  for (int i = 0; i < N_PARTS; i++)
    y = put_part (cr, page, &parts[i], y, draw);
  return y - BETWEEN * page->size;
}

void
pr_sheet_guide_draw (cairo_t *cr, PrBox field)
{
  Page page = { field, TEXT_SHARE * field.w };

  while (page.size * TEXT_STEP > TEXT_LEAST_MM && put_all (cr, &page, false) > field.y + field.h)
    page.size *= TEXT_STEP;
  cairo_save (cr);
  cairo_set_source_rgb (cr, 0, 0, 0);
  put_all (cr, &page, true);
  cairo_restore (cr);
}
