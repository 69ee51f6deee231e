/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-board-scene.h"

#include "pr-board-doubts.h"
#include "pr-colour.h"
#include "pr-stage-look.h"
#include "pr-document-forged.h"
#include "pr-forged-draw.h"

#define GRID_MM 10.0
#define GRID_LEAST_PX 7.0 /* closer lines than this are left out */
#define LINE_PX 1.6       /* the shoe's lines on the screen */
#define LAYER_PAD_PX 48.0 /* the letters M and L, which keep their size on the screen */
#define LAYER_PAD_MM 14.0 /* labels and clips beyond the drawing's extent */
#define RING_PX 20.0
#define DOT_PX 3.0     /* a mark on a stage between bar and shoe ... */
#define NAME_PX 14.7   /* ... and its name: 11 pt */
#define POINTER_PX 2.5 /* lines that point at something */
#define NAMES_PX 144.0 /* how far names reach beyond the iron */
#define LEGEND_PX 16
#define LEGEND_SCALE 2.4 /* pixels to a mm of its page */
#define LEGEND_WIDE_PX (float) (LEGEND_SCALE * PR_FORGED_SCALE_MM)
#define LEGEND_TEXT_PX 13
#define LIFT_PX 36.0    /* clear of the letters M and L */
#define PAST_PX 96.0    /* round the visit before: its figures */
#define PHOTO_DARK 0.72 /* the photo's strength on a dark ground */

static void
drop_kept (PrSceneKept *layer)
{
  g_clear_pointer (&layer->node, gsk_render_node_unref);
  layer->still = false;
}

void
pr_scene_drop_shoe (PrScene *scene)
{
  g_clear_pointer (&scene->shoe, gsk_render_node_unref);
}

void
pr_scene_drop (PrScene *scene)
{
  drop_kept (&scene->ground);
  drop_kept (&scene->hoof);
  g_clear_pointer (&scene->past, gsk_render_node_unref);
  pr_scene_drop_shoe (scene);
}

void
pr_scene_start (PrScene *scene, const PrBoardStage *stage)
{
  scene->stage = stage;
  scene->ground.format = CAIRO_FORMAT_RGB24; /* it covers all */
  scene->show_photo = true;
  scene->mix = 0.5;
  scene->layers = (PrBoardLayers) PR_BOARD_LAYERS_ALL;
}

void
pr_scene_clear (PrScene *scene)
{
  pr_scene_drop (scene);
  pr_levels_clear (&scene->photo);
  pr_stage_clear (&scene->bent);
  pr_ghost_clear (&scene->ghost);
}

void
pr_scene_take_photo (PrScene *scene)
{
  const PrJob *job = pr_board_stage_job (scene->stage);
  const PrTracing *t = job ? job->sources.tracing : NULL;

  pr_levels_clear (&scene->photo);
  if (t && t->raster_rgb)
    pr_levels_fill (&scene->photo, t->raster_rgb, t->raster_width, t->raster_height,
                    (size_t) t->raster_width * 3);
  drop_kept (&scene->ground);
}

static bool
photo_seen (const PrScene *scene)
{
  /* under a stage it would only be in the way of the marks' names */
  return pr_levels_filled (&scene->photo) && scene->show_photo && !scene->stage->under_way;
}

/* --- drawn layers --- */

static graphene_rect_t
whole (PrScene *scene)
{
  return GRAPHENE_RECT_INIT (0, 0, (float) gtk_widget_get_width (scene->stage->widget),
                             (float) gtk_widget_get_height (scene->stage->widget));
}

/* The part of the board that a drawing from LOW to HIGH needs. */
static graphene_rect_t
needed (PrScene *scene, PrPt low, PrPt high)
{
  PrScreenPt a, b;
  graphene_rect_t all = whole (scene), r;
  double pad = MAX (LAYER_PAD_MM, LAYER_PAD_PX / scene->stage->view.scale);

  a = pr_board_stage_out (scene->stage, pr_pt (low.x - pad, high.y + pad));
  b = pr_board_stage_out (scene->stage, pr_pt (high.x + pad, low.y - pad));
  graphene_rect_init (&r, (float) floor (MIN (a.x, b.x)), (float) floor (a.y),
                      (float) ceil (fabs (b.x - a.x)) + 1, (float) ceil (b.y - a.y) + 1);
  if (!graphene_rect_intersection (&r, &all, &r))
    graphene_rect_init (&r, 0, 0, 0, 0);
  return r;
}

/* A context on a new NODE, from LOW to HIGH, inside the foot frame. */
static cairo_t *
foot_context (PrScene *scene, const PrJob *job, PrPt low, PrPt high, GskRenderNode **node)
{
  graphene_rect_t bounds = needed (scene, low, high);
  const PrView *view = &scene->stage->view;

  *node = gsk_cairo_node_new (&bounds);
  cairo_t *cr = gsk_cairo_node_get_draw_context (*node);
  cairo_scale (cr, view->scale, view->scale);
  pr_draw_enter_foot (cr, job->sources.foot, scene->stage->face, view->x0 / view->scale,
                      view->y0 / view->scale);
  return cr;
}

static GskRenderNode *
draw_layer (PrScene *scene, const PrJob *job, const PrDrawOptions *options)
{
  PrPt low, high;
  GskRenderNode *node;

  pr_draw_extent (job, &low, &high);
  cairo_t *cr = foot_context (scene, job, low, high, &node);
  pr_draw_job (cr, job, options);
  cairo_destroy (cr);
  return node;
}

static GskRenderNode *
hoof_layer (PrScene *scene, const PrJob *job, bool halo)
{
  PrDrawOptions options = {
    .halo = halo,
    .face = scene->stage->face,
    .hoof = scene->layers.hoof,
    .centre_lines = scene->layers.centre_lines && !scene->stage->under_way, /* there its marks' names stand */
    .labels = true,
    .landmarks = scene->layers.hoof,
    .dark = scene->dark,
    .line_mm = LINE_PX / scene->stage->view.scale,
  };
  return draw_layer (scene, job, &options);
}

static GskRenderNode *
lines_layer (PrScene *scene, const PrJob *job)
{
  return hoof_layer (scene, job, false);
}

static PrDrawOptions
shoe_options (const PrScene *scene)
{
  return (PrDrawOptions){
    .face = scene->stage->face,
    .shoe = true,
    .crease = scene->layers.crease,
    .nails = scene->layers.nails,
    .clips = scene->layers.clips,
    .fill = scene->layers.fill,
    .strain = scene->layers.strain,
    .dark = scene->dark,
    .line_mm = LINE_PX / scene->stage->view.scale,
  };
}

/* From LOW to HIGH it holds all of C's shoe too. */
static void
hold_forged (const PrComparison *c, PrPt *low, PrPt *high)
{
  for (size_t i = 0; i < c->figure.n; i++)
    for (size_t k = 0; k < c->figure.ring[i].n; k++) {
      PrPt p = c->figure.ring[i].p[k];

      *low = pr_pt (fmin (low->x, p.x), fmin (low->y, p.y));
      *high = pr_pt (fmax (high->x, p.x), fmax (high->y, p.y));
    }
}

/* Half way both are whole; on either side of that one of them fades. */
static PrForgedLook
forged_look (const PrScene *scene)
{
  return (PrForgedLook){ .ink = scene->dark ? &pr_ink_dark : &pr_ink_light,
                         .line = LINE_PX / scene->stage->view.scale,
                         .forged = fmin (1, 2 * scene->mix),
                         .plan = fmin (1, 2 * (1 - scene->mix)),
                         .unit = pr_document_unit (scene->stage->doc) };
}

static GskRenderNode *
forged_layer (PrScene *scene, const PrJob *job, const PrComparison *c)
{
  const PrForgedLook look = forged_look (scene);
  GskRenderNode *node;
  PrPt low, high;

  pr_draw_extent (job, &low, &high);
  hold_forged (c, &low, &high);
  cairo_t *cr = foot_context (scene, job, low, high, &node);
  pr_draw_forged (cr, job, c, &look);
  cairo_destroy (cr);
  return node;
}

/* What the colours mean, in a corner where no shoe lies. */
static void
append_forged_scale (const PrScene *scene, GtkSnapshot *snapshot)
{
  PrForgedLook look = forged_look (scene);
  cairo_t *cr
      = gtk_snapshot_append_cairo (snapshot,
                                   &GRAPHENE_RECT_INIT (0, 0, 2 * LEGEND_PX + LEGEND_WIDE_PX, 4 * LEGEND_PX));

  look.line = 1 / LEGEND_SCALE;
  look.plan = look.forged = 1;
  cairo_translate (cr, LEGEND_PX, LEGEND_PX);
  cairo_scale (cr, LEGEND_SCALE, LEGEND_SCALE);
  pr_draw_forged_scale (cr, &look, PR_FORGED_SCALE_MM, LEGEND_TEXT_PX / LEGEND_SCALE);
  cairo_destroy (cr);
}

/* The names of its marks stand beside the iron, the longest of any language. */
static void
pad_names (const PrScene *scene, PrPt *low, PrPt *high)
{
  double room = NAMES_PX / scene->stage->view.scale;

  *low = pr_pt (low->x - room, low->y - room);
  *high = pr_pt (high->x + room, high->y + room);
}

/* The shoe, or what it is on its way from the bar, or as it was forged. */
static GskRenderNode *
shoe_layer (PrScene *scene, const PrJob *job)
{
  const PrComparison *forged = scene->comparing ? pr_document_forged (scene->stage->doc) : NULL;
  const PrStageLook look = { .show = shoe_options (scene),
                             .hot = scene->hot,
                             .dot = DOT_PX / scene->stage->view.scale,
                             .text = NAME_PX / scene->stage->view.scale };
  GskRenderNode *node;
  PrPt low, high;

  if (forged && job->shoe)
    return forged_layer (scene, job, forged);
  if (!scene->stage->under_way || !job->shoe || job->shoe->n_st < 2)
    return draw_layer (scene, job, &look.show);
  pr_stage_build (&scene->bent, &job->sources.plan, job->shoe, &job->iron, &scene->progress);
  pr_stage_extent (&scene->bent, &low, &high);
  pad_names (scene, &low, &high);
  cairo_t *cr = foot_context (scene, job, low, high, &node);
  pr_stage_draw (cr, job, &scene->bent, &look);
  cairo_destroy (cr);
  return node;
}

/* The visit before, with the change since; empty where there is none. */
static GskRenderNode *
past_layer (PrScene *scene, const PrJob *job)
{
  const PrVisitChange *change = pr_ghost_of (&scene->ghost, scene->stage->doc);
  const PrInk *ink = scene->dark ? &pr_ink_dark : &pr_ink_light;
  const PrVisitLook look
      = { .forged = { ink, LINE_PX / scene->stage->view.scale, 1, 1, pr_document_unit (scene->stage->doc) },
          .face = scene->stage->face,
          .text = NAME_PX / scene->stage->view.scale,
          .lift = LIFT_PX / scene->stage->view.scale };
  PrPt low = job->hoof.toe, high = low;
  GskRenderNode *node;

  if (change)
    pr_visit_extent (job, change, &low, &high);
  double round = PAST_PX / scene->stage->view.scale;
  cairo_t *cr = foot_context (scene, job, pr_pt (low.x - round, low.y - round),
                              pr_pt (high.x + round, high.y + round), &node);
  if (change)
    pr_draw_visit_ghost (cr, job->sources.foot, change, &look);
  cairo_destroy (cr);
  return node;
}

static void
grid_lines (PrScene *scene, cairo_t *cr, int width, int height)
{
  double step = GRID_MM * scene->stage->view.scale;

  for (double x = fmod (scene->stage->view.x0, step); x < width; x += step) {
    cairo_move_to (cr, floor (x) + 0.5, 0);
    cairo_line_to (cr, floor (x) + 0.5, height);
  }
  for (double y = fmod (scene->stage->view.y0, step); y < height; y += step) {
    cairo_move_to (cr, 0, floor (y) + 0.5);
    cairo_line_to (cr, width, floor (y) + 0.5);
  }
  cairo_stroke (cr);
}

static GskRenderNode *
grid_layer (PrScene *scene)
{
  graphene_rect_t bounds = whole (scene);
  GskRenderNode *node = gsk_cairo_node_new (&bounds);
  cairo_t *cr = gsk_cairo_node_get_draw_context (node);
  GdkRGBA ink = pr_colour_of_text (scene->stage->widget);

  pr_colour_use (cr, scene->stage->widget, "pr_paper"); /* what covers all is copied, not mixed */
  cairo_paint (cr);
  ink.alpha *= 0.08f;
  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_set_line_width (cr, 1);
  if (scene->layers.grid && GRID_MM * scene->stage->view.scale >= GRID_LEAST_PX)
    grid_lines (scene, cr, (int) bounds.size.width, (int) bounds.size.height);
  cairo_destroy (cr);
  return node;
}

/* --- photo --- */

/* Raster pixels to board: raster -> sheet mm -> foot -> board. All of them keep shapes, so it is a
 * shift, a turn and a scale, with a flip where the frames differ in handedness. */
static void
append_photo (const PrScene *scene, const PrJob *job, GtkSnapshot *snapshot)
{
  const PrTracing *tracing = job->sources.tracing;
  const PrFootFrame *frame = &job->hoof.frame;
  const PrView *view = &scene->stage->view;
  double k = view->scale / tracing->raster;
  PrScreenPt zero = pr_board_stage_out (scene->stage, pr_foot_frame_in (frame, (PrSheetPt){ 0, 0 }));
  PrPt across = pr_pt (view->sx * frame->ex.x, view->sy * frame->ey.x),
       down = pr_pt (view->sx * frame->ex.y, view->sy * frame->ey.y);
  graphene_rect_t all
      = GRAPHENE_RECT_INIT (0, 0, (float) (k * tracing->raster_width), (float) (k * tracing->raster_height));

  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float) zero.x, (float) zero.y));
  gtk_snapshot_rotate (snapshot, (float) (atan2 (across.y, across.x) * 180 / G_PI));
  gtk_snapshot_scale (snapshot, 1, pr_pt_cross (across, down) < 0 ? -1 : 1);
  gtk_snapshot_push_opacity (snapshot, scene->layers.photo * (scene->dark ? PHOTO_DARK : 1));
  pr_levels_append (&scene->photo, snapshot, 0, 0, k, &all);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_restore (snapshot);
}

/* --- the ground: grid and photo --- */

static void
append_faded (GskRenderNode *node, double strength, GtkSnapshot *snapshot)
{
  if (strength < 1)
    gtk_snapshot_push_opacity (snapshot, strength);
  gtk_snapshot_append_node (snapshot, node);
  if (strength < 1)
    gtk_snapshot_pop (snapshot);
}

static GskRenderNode *
ground_layer (PrScene *scene, const PrJob *job)
{
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  g_autoptr (GskRenderNode) grid = grid_layer (scene);

  gtk_snapshot_append_node (snapshot, grid);
  if (job && photo_seen (scene)) {
    g_autoptr (GskRenderNode) halo = hoof_layer (scene, job, true);

    append_photo (scene, job, snapshot);
    append_faded (halo, scene->layers.tracing, snapshot);
  }
  return gtk_snapshot_free_to_node (snapshot);
}

/* NODE as one picture in the screen's own pixels: a turned photo, and lines with their letters, are costly to draw
 * without a graphics card, a picture of them is not. Takes NODE over. */
static GskRenderNode *
as_picture (PrScene *scene, GskRenderNode *node, cairo_format_t format)
{
  int k = gtk_widget_get_scale_factor (scene->stage->widget);
  graphene_rect_t bounds, seen = whole (scene);
  GskRenderNode *still;
  cairo_t *cr;

  gsk_render_node_get_bounds (node, &bounds);
  graphene_rect_round_extents (&bounds, &bounds);
  if (!graphene_rect_intersection (&bounds, &seen, &bounds))
    return node;
  cairo_surface_t *picture
      = cairo_image_surface_create (format, (int) bounds.size.width * k, (int) bounds.size.height * k);
  cairo_surface_set_device_scale (picture, k, k);
  cairo_surface_set_device_offset (picture, -bounds.origin.x * (float) k, -bounds.origin.y * (float) k);
  cr = cairo_create (picture);
  gsk_render_node_draw (node, cr);
  cairo_destroy (cr);
  gsk_render_node_unref (node);
  still = gsk_cairo_node_new (&bounds);
  cr = gsk_cairo_node_get_draw_context (still);
  cairo_set_source_surface (cr, picture, 0, 0);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_destroy (picture);
  return still;
}

/* LAYER as MAKE makes it while the view moves; made one picture once the same view is asked for again. */
static GskRenderNode *
kept (PrScene *scene, const PrJob *job, PrSceneKept *layer,
      GskRenderNode *(*make) (PrScene *, const PrJob *) )
{
  if (!layer->node) {
    layer->node = make (scene, job);
  } else if (!layer->still) {
    layer->node = as_picture (scene, layer->node, layer->format);
    layer->still = true;
  }
  return layer->node;
}

/* --- what points at something --- */

static cairo_t *
pointer_context (PrScene *scene, GtkSnapshot *snapshot, PrScreenPt low, PrScreenPt high, const char *ink)
{
  graphene_rect_t bounds
      = GRAPHENE_RECT_INIT ((float) low.x, (float) low.y, (float) (high.x - low.x), (float) (high.y - low.y));
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);

  pr_colour_use (cr, scene->stage->widget, ink);
  cairo_set_line_width (cr, POINTER_PX);
  return cr;
}

static void
append_hover (PrScene *scene, const PrJob *job, GtkSnapshot *snapshot)
{
  PrPt outer, inner;
  PrScreenPt a, b;
  cairo_t *cr;

  if (scene->stage->under_way && scene->bent.n > 0) {
    outer = pr_stage_at (&scene->bent, job->shoe, scene->stage->hover_s, 0, NULL);
    inner = pr_stage_at (&scene->bent, job->shoe, scene->stage->hover_s, 1, NULL);
  } else
    pr_shoe_middle_at (job->shoe, scene->stage->hover_s, &outer, &inner);
  a = pr_board_stage_out (scene->stage, outer);
  b = pr_board_stage_out (scene->stage, inner);
  cr = pointer_context (scene, snapshot,
                        (PrScreenPt){ MIN (a.x, b.x) - POINTER_PX, MIN (a.y, b.y) - POINTER_PX },
                        (PrScreenPt){ MAX (a.x, b.x) + POINTER_PX, MAX (a.y, b.y) + POINTER_PX }, "pr_teal");
  cairo_move_to (cr, a.x, a.y);
  cairo_line_to (cr, b.x, b.y);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

static void
append_ring (PrScene *scene, GtkSnapshot *snapshot)
{
  PrScreenPt p = pr_board_stage_out (scene->stage, scene->stage->ring);
  double r = RING_PX + POINTER_PX;
  cairo_t *cr = pointer_context (scene, snapshot, (PrScreenPt){ p.x - r, p.y - r },
                                 (PrScreenPt){ p.x + r, p.y + r }, "pr_amber");

  cairo_arc (cr, p.x, p.y, RING_PX, 0, 2 * G_PI);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

/* --- all of it --- */

/* What lies left of the split is as the foot came. */
static void
push_after (const PrScene *scene, GtkSnapshot *snapshot)
{
  float left = (float) (scene->split * scene->width);

  gtk_snapshot_push_clip (snapshot,
                          &GRAPHENE_RECT_INIT (left, 0, (float) scene->width - left, (float) scene->height));
}

static void
append_job (PrScene *scene, const PrJob *job, GtkSnapshot *snapshot)
{
  if (!scene->shoe)
    scene->shoe = shoe_layer (scene, job);
  push_after (scene, snapshot);
  append_faded (scene->shoe, scene->layers.shoe, snapshot);
  gtk_snapshot_pop (snapshot);
  if (scene->layers.ghost && !scene->stage->under_way && !scene->comparing) {
    if (!scene->past)
      scene->past = past_layer (scene, job);
    gtk_snapshot_append_node (snapshot, scene->past);
  }
  append_faded (kept (scene, job, &scene->hoof, lines_layer), scene->layers.tracing, snapshot);
  pr_board_doubts_append (scene->stage, job, snapshot);
  if (scene->layers.hoof && !scene->stage->under_way)
    pr_board_others_append (scene->stage, job, snapshot);
  if (scene->layers.photo > 0)
    pr_board_references_append (scene->stage, job, snapshot);
  if (scene->stage->hover_s >= 0 && job->shoe)
    append_hover (scene, job, snapshot);
  if (scene->stage->ringed)
    append_ring (scene, snapshot);
  if (scene->comparing)
    append_forged_scale (scene, snapshot);
}

/* Nothing that was made for another view or size is of use. */
static void
drop_what_is_stale (PrScene *scene)
{
  const PrBoardStage *stage = scene->stage;

  if (pr_view_same (&scene->seen, &stage->view) && scene->width == stage->width
      && scene->height == stage->height)
    return;
  pr_scene_drop (scene);
  scene->seen = stage->view;
  scene->width = stage->width;
  scene->height = stage->height;
}

void
pr_scene_append (PrScene *scene, GtkSnapshot *snapshot)
{
  const PrJob *job = pr_board_stage_job (scene->stage);

  drop_what_is_stale (scene);
  gtk_snapshot_append_node (snapshot, kept (scene, job, &scene->ground, ground_layer));
  if (job)
    append_job (scene, job, snapshot);
}
