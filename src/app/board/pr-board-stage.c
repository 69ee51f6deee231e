/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-board-stage.h"

#include "pr-draw.h"
#include "pr-stage.h"

#define FIT_MARGIN_PX 48.0 /* room for the handles and the letters M and L */
#define GROWN_PX 4.0       /* so far into that room the foot may grow before the view is fitted anew */
#define FIT_BOTTOM_PX 24.0 /* more of it below, for the buttons there */
#define FIT_LEAST_PX 50.0  /* a board smaller than its margins still shows something */
#define SEEN_PX 24.0       /* a ring nearer to the edge brings its place to the middle */
#define BUTTONS_X_PX 600.0 /* what the buttons cover */
#define BUTTONS_Y_PX 72.0

/* px per mm: a whole sheet still fits a small window; a pencil line fills a thumb's width */
static const PrViewLimits limits = { .least = 0.5, .most = 60 };

const PrJob *
pr_board_stage_job (const PrBoardStage *stage)
{
  return stage->doc ? pr_document_job (stage->doc) : NULL;
}

void
pr_board_stage_turn (PrBoardStage *stage)
{
  const PrJob *job = pr_board_stage_job (stage);

  stage->view.sx = pr_lateral_sign (job ? job->sources.foot : PR_FOOT_ANY, stage->face);
  stage->view.sy = -1; /* the toe is up */
}

PrScreenPt
pr_board_stage_out (const PrBoardStage *stage, PrPt p)
{
  return pr_view_out (&stage->view, p.x, p.y);
}

PrPt
pr_board_stage_in (const PrBoardStage *stage, double x, double y)
{
  PrPt p;

  pr_view_in (&stage->view, (PrScreenPt){ x, y }, &p.x, &p.y);
  return p;
}

/* LOW and HIGH are widened to the straight bar, which the stages begin with. */
static void
reach_bar (const PrJob *job, PrPt *low, PrPt *high)
{
  g_auto (PrStage) bar = { 0 };
  const PrStageProgress nothing = { 0 };
  PrPt a, b;

  if (!job->shoe || job->shoe->n_st < 2)
    return;
  pr_stage_build (&bar, &job->sources.plan, job->shoe, &job->iron, &nothing);
  pr_stage_extent (&bar, &a, &b);
  *low = pr_pt (MIN (low->x, a.x), MIN (low->y, a.y));
  *high = pr_pt (MAX (high->x, b.x), MAX (high->y, b.y));
}

/* Widens LOW to HIGH by the other feet on the sheet, as long as it is asked which of them is meant. */
static void
reach_others (const PrJob *job, PrPt *low, PrPt *high)
{
  const PrTracing *t = job->sources.tracing;

  for (size_t i = 0; t && pr_scale_is_about (&t->scale, PR_ABOUT_FEET) && i < t->n_other; i++)
    for (size_t k = 0; k < t->other[i].n_outline; k++) {
      PrPt p = pr_foot_frame_in (&job->hoof.frame, t->other[i].outline[k]);

      *low = pr_pt (MIN (low->x, p.x), MIN (low->y, p.y));
      *high = pr_pt (MAX (high->x, p.x), MAX (high->y, p.y));
    }
}

/* The view that shows all of the foot. FALSE: there is no foot, or no room yet. */
static bool
fitting (const PrBoardStage *stage, PrView *view)
{
  const PrJob *job = pr_board_stage_job (stage);
  int width = gtk_widget_get_width (stage->widget), height = gtk_widget_get_height (stage->widget);
  double room_x = MAX (width - 2 * FIT_MARGIN_PX, FIT_LEAST_PX),
         room_y = MAX (height - 2 * FIT_MARGIN_PX - FIT_BOTTOM_PX, FIT_LEAST_PX);
  PrPt low, high;

  if (!job || width < 1 || height < 1)
    return false;
  pr_draw_extent (job, &low, &high);
  reach_others (job, &low, &high);
  if (stage->under_way)
    reach_bar (job, &low, &high);
  pr_view_fit (view, &limits, (PrViewBox){ low.x, low.y, MAX (high.x - low.x, 1), MAX (high.y - low.y, 1) },
               (PrViewBox){ (width - room_x) / 2, (height - FIT_BOTTOM_PX - room_y) / 2, room_x, room_y });
  return true;
}

void
pr_board_stage_fit (PrBoardStage *stage)
{
  stage->view.fitted = true;
  fitting (stage, &stage->view);
}

/* At least SEEN of the widget's sides stay free: handles and letters stand there. */
bool
pr_board_stage_outgrown (const PrBoardStage *stage)
{
  const PrJob *job = pr_board_stage_job (stage);
  PrView now = stage->view;
  PrPt low, high;

  if (!stage->view.fitted || !fitting (stage, &now) || now.scale >= stage->view.scale)
    return false;
  pr_draw_extent (job, &low, &high);
  PrScreenPt a = pr_board_stage_out (stage, low), b = pr_board_stage_out (stage, high);
  return MIN (a.x, b.x) < FIT_MARGIN_PX - GROWN_PX || MAX (a.x, b.x) > stage->width - FIT_MARGIN_PX + GROWN_PX
         || MIN (a.y, b.y) < FIT_MARGIN_PX - GROWN_PX
         || MAX (a.y, b.y) > stage->height - FIT_MARGIN_PX - FIT_BOTTOM_PX + GROWN_PX;
}

void
pr_board_stage_zoom (PrBoardStage *stage, double factor, PrScreenPt at)
{
  pr_view_zoom (&stage->view, &limits, factor, at);
  pr_board_stage_moved (stage);
}

void
pr_board_stage_moved (PrBoardStage *stage)
{
  gtk_widget_queue_allocate (stage->widget);
  gtk_widget_queue_draw (stage->widget);
  g_signal_emit_by_name (stage->widget, "view");
}

graphene_rect_t
pr_board_stage_buttons (const PrBoardStage *stage)
{
  return GRAPHENE_RECT_INIT (0, (float) (stage->height - BUTTONS_Y_PX), (float) BUTTONS_X_PX,
                             (float) BUTTONS_Y_PX);
}

/* Neither near the edge nor under the buttons in the lower left corner. */
static bool
in_sight (const PrBoardStage *stage, PrScreenPt p)
{
  int width = stage->width, height = stage->height;

  if (p.x < BUTTONS_X_PX && p.y > height - BUTTONS_Y_PX)
    return false;
  return p.x > SEEN_PX && p.y > SEEN_PX && p.x < width - SEEN_PX && p.y < height - SEEN_PX;
}

static void
bring_into_sight (PrBoardStage *stage, PrScreenPt p)
{
  if (in_sight (stage, p))
    return;
  pr_view_move (&stage->view, stage->view.x0 + stage->width / 2.0 - p.x,
                stage->view.y0 + stage->height / 2.0 - p.y);
  pr_board_stage_moved (stage);
}

void
pr_board_stage_follow_ring (PrBoardStage *stage)
{
  const PrJob *job = pr_board_stage_job (stage);
  const PrFinding *nearest = NULL;

  if (!stage->ringed)
    return;
  for (guint i = 0; stage->ringed_id && job && job->findings && i < job->findings->len; i++) {
    const PrFinding *finding = g_ptr_array_index (job->findings, i);

    if (finding->has_at && finding->state != PR_FITS && g_str_equal (finding->id, stage->ringed_id)
        && (!nearest || pr_pt_dist (finding->at, stage->ring) < pr_pt_dist (nearest->at, stage->ring)))
      nearest = finding;
  }
  stage->ringed = nearest != NULL;
  if (nearest)
    stage->ring = nearest->at;
  gtk_widget_queue_draw (stage->widget);
}

void
pr_board_stage_ring (PrBoardStage *stage, const PrPt *at, const char *id)
{
  stage->ringed = at != NULL;
  stage->ringed_id = id;
  if (at) {
    stage->ring = *at;
    bring_into_sight (stage, pr_board_stage_out (stage, *at));
  }
  gtk_widget_queue_draw (stage->widget);
}
