/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stage-sheet.h"

#include "pr-ink.h"

#include <glib/gi18n-lib.h>

#define LINE_MM 0.18 /* of paper */
#define DOT_MM 0.3
#define GAP_MM 3.0
#define CAPTION_LEAD 1.6

static void
build (const PrStageSheet *sheet, int nr, PrStage *stage)
{
  const PrJob *job = sheet->job;
  const PrStageProgress at = pr_stage_progress_at (&sheet->heats, nr);

  pr_stage_build (stage, &job->sources.plan, job->shoe, &job->iron, &at);
}

void
pr_stage_sheet_make (PrStageSheet *sheet, const PrJob *job)
{
  g_auto (PrStage) stage = { 0 };

  *sheet = (PrStageSheet){ .job = job, .low = { INFINITY, INFINITY }, .high = { -INFINITY, -INFINITY } };
  if (!job->shoe || job->shoe->n_st < 2)
    return;
  pr_heats_make (&sheet->heats, &job->sources.plan, job->shoe, &job->iron, job->unit);
  for (int i = 0; i < pr_stage_sheet_n (sheet); i++) {
    PrPt low, high;

    build (sheet, i, &stage);
    pr_stage_extent (&stage, &low, &high);
    sheet->low = pr_pt (MIN (sheet->low.x, low.x), MIN (sheet->low.y, low.y));
    sheet->high = pr_pt (MAX (sheet->high.x, high.x), MAX (sheet->high.y, high.y));
  }
}

void
pr_stage_sheet_clear (PrStageSheet *sheet)
{
  pr_heats_clear (&sheet->heats);
  *sheet = (PrStageSheet){ 0 };
}

int
pr_stage_sheet_n (const PrStageSheet *sheet)
{
  return sheet->heats.heats && sheet->heats.heats->len > 0 ? (int) sheet->heats.heats->len + 1 : 0;
}

static double
wide (const PrStageSheet *sheet)
{
  return 2 * MAX (sheet->high.x, -sheet->low.x);
}

void
pr_stage_sheet_size (const PrStageSheet *sheet, double scale, double text, double *width, double *height)
{
  *width = wide (sheet) * scale + GAP_MM;
  *height = (sheet->high.y - sheet->low.y) * scale + text * CAPTION_LEAD + GAP_MM;
}

double
pr_stage_sheet_scale (const PrStageSheet *sheet, double width)
{
  return MAX (width - GAP_MM, 1) / MAX (wide (sheet), 1);
}

/* "3  medial branch" */
static char *
caption (const PrStageSheet *sheet, int nr)
{
  if (nr == 0)
    return g_strdup (_ ("stock"));
  return g_strdup_printf ("%d  %s", nr,
                          pr_zone_name (g_array_index (sheet->heats.heats, PrHeat, nr - 1).zone));
}

void
pr_stage_sheet_draw (const PrStageSheet *sheet, cairo_t *cr, int nr, double x, double y, double scale,
                     double text)
{
  g_autofree char *words = caption (sheet, nr);
  const PrStageLook look = {
    .show
    = { .face = PR_FACE_GROUND, .crease = true, .nails = true, .clips = true, .line_mm = LINE_MM / scale },
    .hot = nr > 0 ? pr_stage_hot_at (&sheet->heats, nr - 0.5) : 0,
    .dot = DOT_MM / scale
  };
  g_auto (PrStage) stage = { 0 };
  double width, height;

  pr_stage_sheet_size (sheet, scale, text, &width, &height);
  pr_text_face (cr, text, nr > 0);
  g_autofree char *shown = pr_text_cut (cr, words, width - GAP_MM);
  pr_ink (cr, pr_ink_light.text);
  pr_text (cr, x, y + text, PR_LEFT, shown);
  build (sheet, nr, &stage);
  cairo_save (cr);
  cairo_translate (cr, x + (width - GAP_MM) / 2, y + text * CAPTION_LEAD + sheet->high.y * scale);
  cairo_scale (cr, scale, scale);
  pr_draw_enter_foot (cr, sheet->job->sources.foot, PR_FACE_GROUND, 0, 0);
  pr_stage_draw (cr, sheet->job, &stage, &look);
  cairo_restore (cr);
}
