/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is doubtful, on the board: stretches of the line dotted, reference points that do not fit ringed,
 * both told by the pointer. */
#include "pr-board-private.h"
#include <glib/gi18n-lib.h>
#include "pr-doubt-line.h"
#include "pr-doubts.h"

#define RING_PX 9.0
#define LINE_PX 2.0
#define HALO_PX 5.0

static GdkRGBA
colour (PrBoard *board, const char *name)
{
  GdkRGBA found = { 0.7f, 0.4f, 0, 1 };

  gtk_style_context_lookup_color (gtk_widget_get_style_context (GTK_WIDGET (board)), name, &found);
  return found;
}

void
pr_board_append_doubts (PrBoard *board, const PrJob *job, GtkSnapshot *snapshot)
{
  g_autoptr (GArray) part = NULL;
  cairo_t *cr;

  if (!job->tracing || job->tracing->n_doubt == 0)
    return;
  part = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));
  cr = gtk_snapshot_append_cairo (snapshot,
                                  &GRAPHENE_RECT_INIT (0, 0, (float) board->width, (float) board->height));
  for (size_t nr = 0; nr < job->tracing->n_doubt; nr++) {
    pr_doubt_path (job, nr, part);
    for (guint i = 0; i < part->len; i++) {
      PrPt at = pr_foot_frame_in (&job->hoof.frame, g_array_index (part, PrSheetPt, i));
      PrBoardPt p = pr_board_from_foot (board, at);

      cairo_line_to (cr, p.x, p.y);
    }
    pr_doubt_line_stroke (cr, colour (board, "pr_paper"), colour (board, "pr_amber"));
  }
  cairo_destroy (cr);
}

static PrBoardPt
reference_on_board (PrBoard *board, const PrJob *job, const PrReference *reference)
{
  PrSheetPt at = pr_camera_to_sheet (&job->tracing->camera, reference->px);

  return pr_board_from_foot (board, pr_foot_frame_in (&job->hoof.frame, at));
}

static void
stroke (PrBoard *board, cairo_t *cr, const char *name, double width)
{
  GdkRGBA ink = colour (board, name);

  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_set_line_width (cr, width);
  cairo_stroke_preserve (cr);
}

void
pr_board_append_references (PrBoard *board, const PrJob *job, GtkSnapshot *snapshot)
{
  const float r = RING_PX + HALO_PX;

  for (size_t i = 0; job->tracing && i < job->tracing->n_reference; i++) {
    const PrReference *reference = &job->tracing->reference[i];
    if (!reference->outlier)
      continue;
    PrBoardPt p = reference_on_board (board, job, reference);
    cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT ((float) p.x - r, (float) p.y - r,
                                                                            2 * r, 2 * r));
    cairo_arc (cr, p.x, p.y, RING_PX, 0, 2 * G_PI);
    stroke (board, cr, "pr_paper", HALO_PX);
    stroke (board, cr, "pr_amber", LINE_PX);
    cairo_destroy (cr);
  }
}

static bool
tell_reference (PrBoard *board, const PrJob *job, int x, int y, GtkTooltip *tooltip)
{
  for (size_t i = 0; i < job->tracing->n_reference; i++) {
    const PrReference *reference = &job->tracing->reference[i];
    PrBoardPt p = reference_on_board (board, job, reference);
    if (!reference->outlier || hypot (p.x - x, p.y - y) > RING_PX + HALO_PX)
      continue;
    g_autofree char *text
        = g_strdup_printf (_ ("This reference point does not fit the others: it lies %.2f mm off"),
                           reference->off_mm);
    gtk_tooltip_set_text (tooltip, text);
    return true;
  }
  return false;
}

static gboolean
query_tooltip (PrBoard *board, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  const PrJob *job = board->doc ? pr_document_job (board->doc) : NULL;
  int nr;

  if (keyboard || !job || !job->tracing)
    return FALSE;
  if (tell_reference (board, job, x, y, tooltip))
    return TRUE;
  nr = pr_doubt_at (job, pr_foot_frame_out (&job->hoof.frame, pr_board_to_foot (board, x, y)),
                    PR_DOUBT_NEAR_PX / board->scale);
  if (nr >= 0)
    gtk_tooltip_set_text (tooltip, job->tracing->doubt[nr].why);
  return nr >= 0;
}

void
pr_board_tell_doubts (PrBoard *board)
{
  gtk_widget_set_has_tooltip (GTK_WIDGET (board), TRUE);
  g_signal_connect (board, "query-tooltip", G_CALLBACK (query_tooltip), NULL);
}
