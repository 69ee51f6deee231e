/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-board-doubts.h"

#include <glib/gi18n-lib.h>
#include "pr-colour.h"
#include "pr-doubt-line.h"
#include "pr-doubts.h"
#include "pr-marks.h"
#include "pr-words.h"

#define RING_PX 9.0
#define LINE_PX 2.0
#define HALO_PX 5.0
#define OTHER_PX 2.5
#define OTHER_DASH_PX 9.0
#define OTHER_GAP_PX 5.0

static void
stroke (const PrBoardStage *stage, cairo_t *cr, const char *name, double width)
{
  pr_colour_use (cr, stage->widget, name);
  cairo_set_line_width (cr, width);
  cairo_stroke_preserve (cr);
}

/* Where a heel that waits may be, round the bulbs too, where no outline runs. */
static void
range_append (const PrBoardStage *stage, const PrJob *job, PrLandmark mark, GtkSnapshot *snapshot)
{
  g_auto (PrPath) range = { 0 };
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) stage->width,
                                                                          (float) stage->height));

  pr_mark_range (job, mark, &range);
  for (size_t i = 0; i < range.n; i++) {
    PrScreenPt p = pr_board_stage_out (stage, range.p[i]);

    cairo_line_to (cr, p.x, p.y);
  }
  pr_doubt_line_stroke (cr, pr_colour (stage->widget, "pr_paper"), pr_colour (stage->widget, "pr_amber"));
  cairo_destroy (cr);
}

void
pr_board_doubts_append (const PrBoardStage *stage, const PrJob *job, GtkSnapshot *snapshot)
{
  g_autoptr (GArray) part = NULL;
  cairo_t *cr;

  if (!job->sources.tracing || job->sources.tracing->n_doubt == 0)
    return;
  for (PrLandmark mark = 0; mark < PR_N_MARKS; mark++)
    if (pr_mark_waits (job, mark))
      range_append (stage, job, mark, snapshot);
  part = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));
  cr = gtk_snapshot_append_cairo (snapshot,
                                  &GRAPHENE_RECT_INIT (0, 0, (float) stage->width, (float) stage->height));
  for (size_t nr = 0; nr < job->sources.tracing->n_doubt; nr++) {
    pr_doubt_path (job, nr, part);
    for (guint i = 0; i < part->len; i++) {
      PrPt at = pr_foot_frame_in (&job->hoof.frame, g_array_index (part, PrSheetPt, i));
      PrScreenPt p = pr_board_stage_out (stage, at);

      cairo_line_to (cr, p.x, p.y);
    }
    pr_doubt_line_stroke (cr, pr_colour (stage->widget, "pr_paper"), pr_colour (stage->widget, "pr_amber"));
  }
  cairo_destroy (cr);
}

/* --- other feet on the sheet --- */

static PrScreenPt
on_board (const PrBoardStage *stage, const PrJob *job, PrSheetPt p)
{
  return pr_board_stage_out (stage, pr_foot_frame_in (&job->hoof.frame, p));
}

void
pr_board_others_append (const PrBoardStage *stage, const PrJob *job, GtkSnapshot *snapshot)
{
  const PrTracing *t = job->sources.tracing;
  const double dash[2] = { OTHER_DASH_PX, OTHER_GAP_PX };

  for (size_t i = 0; t && i < t->n_other; i++) {
    cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) stage->width,
                                                                            (float) stage->height));

    for (size_t k = 0; k < t->other[i].n_outline; k++) {
      PrScreenPt p = on_board (stage, job, t->other[i].outline[k]);
      cairo_line_to (cr, p.x, p.y);
    }
    stroke (stage, cr, "pr_paper", HALO_PX);
    cairo_set_dash (cr, dash, 2, 0);
    stroke (stage, cr, "pr_teal", OTHER_PX);
    cairo_destroy (cr);
  }
}

int
pr_board_other_at (const PrBoardStage *stage, double x, double y)
{
  const PrJob *job = pr_board_stage_job (stage);
  const PrTracing *t = job ? job->sources.tracing : NULL;

  for (size_t i = 0; t && i < t->n_other; i++)
    for (size_t k = 0; k < t->other[i].n_outline; k++) {
      PrScreenPt p = on_board (stage, job, t->other[i].outline[k]);
      if (hypot (p.x - x, p.y - y) < PR_DOUBT_NEAR_PX)
        return (int) i;
    }
  return -1;
}

/* --- references --- */

static PrScreenPt
reference_on_board (const PrBoardStage *stage, const PrJob *job, const PrReference *reference)
{
  PrSheetPt at = pr_camera_to_sheet (&job->sources.tracing->camera, reference->px);

  return pr_board_stage_out (stage, pr_foot_frame_in (&job->hoof.frame, at));
}

void
pr_board_references_append (const PrBoardStage *stage, const PrJob *job, GtkSnapshot *snapshot)
{
  const float r = RING_PX + HALO_PX;

  for (size_t i = 0; job->sources.tracing && i < job->sources.tracing->n_reference; i++) {
    const PrReference *reference = &job->sources.tracing->reference[i];
    if (!reference->outlier)
      continue;
    PrScreenPt p = reference_on_board (stage, job, reference);
    cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT ((float) p.x - r, (float) p.y - r,
                                                                            2 * r, 2 * r));
    cairo_arc (cr, p.x, p.y, RING_PX, 0, 2 * G_PI);
    stroke (stage, cr, "pr_paper", HALO_PX);
    stroke (stage, cr, "pr_amber", LINE_PX);
    cairo_destroy (cr);
  }
}

static bool
tell_reference (const PrBoardStage *stage, const PrJob *job, int x, int y, GtkTooltip *tooltip)
{
  for (size_t i = 0; i < job->sources.tracing->n_reference; i++) {
    const PrReference *reference = &job->sources.tracing->reference[i];
    PrScreenPt p = reference_on_board (stage, job, reference);
    if (!reference->outlier || hypot (p.x - x, p.y - y) > RING_PX + HALO_PX)
      continue;
    g_autofree char *off = pr_words_error (reference->off_mm, job->unit);
    g_autofree char *text
        = g_strdup_printf (_ ("This reference point does not fit the others: it lies %s off"), off);
    gtk_tooltip_set_text (tooltip, text);
    return true;
  }
  return false;
}

static gboolean
query_tooltip (PrBoardStage *stage, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  const PrJob *job = pr_board_stage_job (stage);
  int nr;

  if (keyboard || !job || !job->sources.tracing)
    return FALSE;
  if (tell_reference (stage, job, x, y, tooltip))
    return TRUE;
  if (pr_board_other_at (stage, x, y) >= 0) {
    gtk_tooltip_set_text (tooltip, _ ("Another foot's outline: press it to take it for this foot"));
    return TRUE;
  }
  nr = pr_doubt_at (job, pr_foot_frame_out (&job->hoof.frame, pr_board_stage_in (stage, x, y)),
                    PR_DOUBT_NEAR_PX / stage->view.scale);
  if (nr >= 0)
    gtk_tooltip_set_text (tooltip, job->sources.tracing->doubt[nr].why);
  return nr >= 0;
}

void
pr_board_doubts_tell (PrBoardStage *stage)
{
  gtk_widget_set_has_tooltip (stage->widget, TRUE);
  g_signal_connect_swapped (stage->widget, "query-tooltip", G_CALLBACK (query_tooltip), stage);
}
