/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-write.h"

#include <glib/gi18n-lib.h>

#include "pr-error.h"
#include "pr-language.h"
#include "pr-page-png.h"
#include "pr-pdf.h"
#include "pr-visit-text.h"

#define PER_METRE_PAGE 5906 /* 150 dpi */
#define PER_METRE 11811     /* 300 dpi */
#define MARGIN_MM 12.0
#define ROUND_MM 25.0 /* round the drawing: its figures */
#define TYPE_MM 3.3
#define LEAD_MM 4.8
#define TITLE_MM 5.0
#define LINES_MM 86.0 /* width of the figures beside the drawing */
#define SCALE_MM 16.0
#define FIGURE_MM 3.8
#define LETTER_MM 6.0
#define LEAST_HIGH_MM 150.0 /* all lines have room */

static bool
too_large (GError **error)
{
  g_set_error_literal (error, PR_ERROR, PR_ERROR_FILE, _ ("This picture is too large to be drawn."));
  return false;
}

/* --- over time ----------------------------------------------------------------------------- */

static void
paint_single (gpointer pages, cairo_t *cr)
{
  pr_visit_pages_draw (pages, 0, cr);
}

bool
pr_visit_pages_png (const PrVisitPages *pages, GByteArray *out, GError **error)
{
  PR_PLAIN_NUMBERS;
  PrVisitPages one = *pages;
  double width, height;

  one.single = true;
  pr_visit_pages_size (&one, &width, &height);
  return pr_page_png (width, height, PER_METRE_PAGE, paint_single, &one, out) || too_large (error);
}

static void
draw_page (gpointer pages, int page, cairo_t *cr)
{
  pr_visit_pages_draw (pages, page, cr);
}

bool
pr_visit_pages_pdf (const PrVisitPages *pages, GByteArray *out, GError **error)
{
  PR_PLAIN_NUMBERS;
  PrVisitPages all = *pages;
  double width, height;

  pr_visit_pages_size (&all, &width, &height);
  return pr_pdf_make (out, width, height, pr_foot_name (all.table->foot), pr_visit_pages_count (&all),
                      draw_page, &all, error);
}

/* --- one on the other ---------------------------------------------------------------------- */

static void
picture_size (const PrVisitPicture *p, double *width, double *height)
{
  PrPt low, high;

  pr_visit_extent (p->now, p->change, &low, &high);
  *width = high.x - low.x + 2 * ROUND_MM + LINES_MM + 2 * MARGIN_MM;
  *height = MAX (high.y - low.y + 2 * ROUND_MM, LEAST_HIGH_MM) + 2 * TITLE_MM + SCALE_MM + 2 * MARGIN_MM;
}

static void
paint_lines (const PrVisitPicture *p, cairo_t *cr, double x, double y)
{
  g_auto (GStrv) lines = pr_visit_lines (p->change, p->shoes, p->unit);
  g_autofree char *caution = pr_visit_caution (p->change);

  for (int i = 0; lines[i]; i++) {
    g_auto (GStrv) part = g_strsplit (lines[i], "\t", 2);

    pr_text (cr, x, y, PR_LEFT, part[0]);
    pr_text (cr, x + LINES_MM, y, PR_RIGHT, part[1]);
    y += LEAD_MM;
  }
  pr_text_block (cr, x, y + LEAD_MM, LINES_MM, LEAD_MM, true, caution);
}

static void
paint_picture (gpointer what, cairo_t *cr)
{
  const PrVisitPicture *p = what;
  const PrVisitLook look = { .forged = PR_FORGED_LOOK_PAPER (p->unit),
                             .face = PR_FACE_FOOT,
                             .shoes = p->shoes,
                             .text = p->shoes ? 0 : FIGURE_MM,
                             .letters = LETTER_MM };
  PrPt low, high;
  double width, height, top = MARGIN_MM + 2 * TITLE_MM;

  picture_size (p, &width, &height);
  pr_visit_extent (p->now, p->change, &low, &high);
  bool right = pr_lateral_sign (p->now->sources.foot, PR_FACE_FOOT) > 0;
  pr_text_face (cr, TITLE_MM, true);
  pr_ink (cr, pr_ink_light.text);
  g_autofree char *title = pr_text_cut (cr, p->title, width - 2 * MARGIN_MM);
  pr_text (cr, MARGIN_MM, MARGIN_MM + TITLE_MM, PR_LEFT, title);
  pr_text_face (cr, TYPE_MM, false);
  paint_lines (p, cr, width - MARGIN_MM - LINES_MM, top + LEAD_MM);
  cairo_save (cr);
  pr_draw_enter_foot (cr, p->now->sources.foot, PR_FACE_FOOT,
                      MARGIN_MM + ROUND_MM + (right ? -low.x : high.x), top + ROUND_MM + high.y);
  pr_draw_visit (cr, p->now, p->change, &look);
  cairo_restore (cr);
  cairo_translate (cr, MARGIN_MM, height - MARGIN_MM - SCALE_MM / 2);
  pr_draw_forged_scale (cr, &look.forged, PR_FORGED_SCALE_MM, TYPE_MM);
}

bool
pr_visit_picture_png (const PrVisitPicture *picture, GByteArray *out, GError **error)
{
  PR_PLAIN_NUMBERS;
  PrVisitPicture p = *picture;
  double width, height;

  picture_size (&p, &width, &height);
  return pr_page_png (width, height, PER_METRE, paint_picture, &p, out) || too_large (error);
}

static void
draw_picture (gpointer what, int page, cairo_t *cr)
{
  (void) page;
  paint_picture (what, cr);
}

bool
pr_visit_picture_pdf (const PrVisitPicture *picture, GByteArray *out, GError **error)
{
  PR_PLAIN_NUMBERS;
  PrVisitPicture p = *picture;
  double width, height;

  picture_size (&p, &width, &height);
  return pr_pdf_make (out, width, height, picture->title, 1, draw_picture, &p, error);
}
