/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-template.h"

#include "pr-language.h"
#include "pr-pdf.h"
#include "pr-stage-sheet.h"

#include <cairo-svg.h>

#define SCALE 0.5 /* of the iron */
#define TEXT_MM 6.0
#define MARGIN_MM 8.0
#define COLUMNS 4

bool
pr_make_stages_svg (const PrJob *job, GByteArray *out, GError **error)
{
  PR_PLAIN_NUMBERS;
  g_auto (PrStageSheet) sheet = { 0 };
  double w = 1, h = 1;

  pr_stage_sheet_make (&sheet, job);
  int n = pr_stage_sheet_n (&sheet), columns = CLAMP (n, 1, COLUMNS),
      rows = MAX ((n + columns - 1) / columns, 1);
  if (n > 0)
    pr_stage_sheet_size (&sheet, SCALE, TEXT_MM, &w, &h);
  cairo_surface_t *surface
      = cairo_svg_surface_create_for_stream (pr_bytes_take, out, columns * w + 2 * MARGIN_MM,
                                             rows * h + 2 * MARGIN_MM);
  cairo_svg_surface_set_document_unit (surface, CAIRO_SVG_UNIT_MM);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  for (int i = 0; i < n; i++)
    pr_stage_sheet_draw (&sheet, cr, i, MARGIN_MM + i % columns * w, MARGIN_MM + i / columns * h, SCALE,
                         TEXT_MM);
  cairo_destroy (cr);
  bool done = pr_surface_close (surface, error);
  cairo_surface_destroy (surface);
  return done;
}
