/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The doubtful stretches of the line on the board: dotted, and told by the pointer. */
#include "pr-board-private.h"
#include "pr-doubts.h"

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
  cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) board->width,
                                                                 (float) board->height));
  for (size_t nr = 0; nr < job->tracing->n_doubt; nr++) {
    pr_doubt_path (job, nr, part);
    for (guint i = 0; i < part->len; i++) {
      PrPt at = pr_foot_frame_in (&job->hoof.frame, g_array_index (part, PrSheetPt, i));
      PrBoardPt p = pr_board_from_foot (board, at);

      cairo_line_to (cr, p.x, p.y);
    }
    pr_doubt_stroke (cr, colour (board, "pr_paper"), colour (board, "pr_amber"));
  }
  cairo_destroy (cr);
}

static gboolean
query_tooltip (PrBoard *board, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  const PrJob *job = board->doc ? pr_document_job (board->doc) : NULL;
  int nr;

  if (keyboard || !job || !job->tracing)
    return FALSE;
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
