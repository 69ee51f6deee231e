/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The board's layers, lowest first: ground and grid, photo, shoe, hoof, then what points at
 * something. Each drawn layer is a render node kept until what it shows changes. */
#include "pr-board-private.h"

#include "pr-draw.h"

#define GRID_MM 10.0
#define GRID_LEAST_PX 7.0 /* closer lines than this are left out */
#define LINE_PX 1.6       /* the shoe's lines on the screen */
#define LAYER_PAD_MM 14.0 /* labels and clips beyond the drawing's extent */
#define RING_PX 20.0
#define POINTER_PX 2.5  /* lines that point at something */
#define PHOTO_DARK 0.72 /* the photo's strength on a dark ground */

void
pr_board_drop_ground (PrBoard *board)
{
  g_clear_pointer (&board->ground, gsk_render_node_unref);
  board->still = false;
}

void
pr_board_drop_layers (PrBoard *board)
{
  pr_board_drop_ground (board);
  g_clear_pointer (&board->hoof, gsk_render_node_unref);
  g_clear_pointer (&board->shoe, gsk_render_node_unref);
}

/* --- the photo, at full size and in halves of it --- */

/* Half the size, each pixel the mean of four. Transfer full. */
static GBytes *
halved (const uint8_t *rgb, int width, int height)
{
  int w = width / 2, h = height / 2;
  uint8_t *out = g_malloc ((gsize) w * (gsize) h * 3), *to = out;

  for (int y = 0; y < h; y++) {
    const uint8_t *a = rgb + (gsize) (2 * y) * (gsize) width * 3, *b = a + (gsize) width * 3;

    for (int x = 0; x < w; x++, a += 6, b += 6)
      for (int c = 0; c < 3; c++)
        *to++ = (uint8_t) ((a[c] + a[c + 3] + b[c] + b[c + 3] + 2) / 4);
  }
  return g_bytes_new_take (out, (gsize) w * (gsize) h * 3);
}

static GdkTexture *
texture_of (GBytes *rgb, int width, int height)
{
  return gdk_memory_texture_new (width, height, GDK_MEMORY_R8G8B8, rgb, (gsize) width * 3);
}

void
pr_board_drop_photo (PrBoard *board)
{
  for (int i = 0; i < PR_PHOTO_LEVELS; i++)
    g_clear_object (&board->photo[i]);
}

void
pr_board_load_photo (PrBoard *board)
{
  const PrJob *job = pr_document_job (board->doc);
  const PrTracing *tracing = job ? job->tracing : NULL;
  g_autoptr (GBytes) bytes = NULL;
  int width, height;

  pr_board_drop_photo (board);
  if (!tracing || !tracing->raster_rgb)
    return;
  width = tracing->raster_width;
  height = tracing->raster_height;
  bytes = g_bytes_new (tracing->raster_rgb, (gsize) width * (gsize) height * 3);
  for (int i = 0; i < PR_PHOTO_LEVELS && width > 1 && height > 1; i++) {
    GBytes *next = halved (g_bytes_get_data (bytes, NULL), width, height);

    board->photo[i] = texture_of (bytes, width, height);
    g_bytes_unref (bytes);
    bytes = next;
    width /= 2;
    height /= 2;
  }
}

static bool
photo_seen (PrBoard *board)
{
  return board->photo[0] && board->show_photo;
}

/* --- drawn layers --- */

static graphene_rect_t
whole (PrBoard *board)
{
  return GRAPHENE_RECT_INIT (0, 0, (float) gtk_widget_get_width (GTK_WIDGET (board)),
                             (float) gtk_widget_get_height (GTK_WIDGET (board)));
}

/* The part of the board the drawing needs. */
static graphene_rect_t
needed (PrBoard *board, const PrJob *job)
{
  PrPt low, high;
  PrBoardPt a, b;
  graphene_rect_t all = whole (board), r;

  pr_draw_extent (job, &low, &high);
  a = pr_board_from_foot (board, pr_pt (low.x - LAYER_PAD_MM, high.y + LAYER_PAD_MM));
  b = pr_board_from_foot (board, pr_pt (high.x + LAYER_PAD_MM, low.y - LAYER_PAD_MM));
  graphene_rect_init (&r, (float) floor (MIN (a.x, b.x)), (float) floor (a.y),
                      (float) ceil (fabs (b.x - a.x)) + 1, (float) ceil (b.y - a.y) + 1);
  if (!graphene_rect_intersection (&r, &all, &r))
    graphene_rect_init (&r, 0, 0, 0, 0);
  return r;
}

static GskRenderNode *
draw_layer (PrBoard *board, const PrJob *job, const PrDrawOptions *options)
{
  graphene_rect_t bounds = needed (board, job);
  GskRenderNode *node = gsk_cairo_node_new (&bounds);
  cairo_t *cr = gsk_cairo_node_get_draw_context (node);

  cairo_scale (cr, board->scale, board->scale);
  pr_draw_enter_foot (cr, job->foot, board->face, board->x0 / board->scale, board->y0 / board->scale);
  pr_draw_job (cr, job, options);
  cairo_destroy (cr);
  return node;
}

static GskRenderNode *
hoof_layer (PrBoard *board, const PrJob *job)
{
  PrDrawOptions options = {
    .face = board->face,
    .hoof = board->layers.hoof,
    .centre_lines = board->layers.centre_lines,
    .labels = true,
    .landmarks = board->layers.hoof,
    .dark = board->dark,
    .line_mm = LINE_PX / board->scale,
  };
  return draw_layer (board, job, &options);
}

static GskRenderNode *
shoe_layer (PrBoard *board, const PrJob *job)
{
  PrDrawOptions options = {
    .face = board->face,
    .shoe = true,
    .crease = board->layers.crease,
    .nails = board->layers.nails,
    .clips = board->layers.clips,
    .fill = board->layers.fill,
    .strain = board->layers.strain,
    .dark = board->dark,
    .line_mm = LINE_PX / board->scale,
  };
  return draw_layer (board, job, &options);
}

static void
grid_lines (PrBoard *board, cairo_t *cr, int width, int height)
{
  double step = GRID_MM * board->scale;

  for (double x = fmod (board->x0, step); x < width; x += step) {
    cairo_move_to (cr, floor (x) + 0.5, 0);
    cairo_line_to (cr, floor (x) + 0.5, height);
  }
  for (double y = fmod (board->y0, step); y < height; y += step) {
    cairo_move_to (cr, 0, floor (y) + 0.5);
    cairo_line_to (cr, width, floor (y) + 0.5);
  }
  cairo_stroke (cr);
}

static GskRenderNode *
grid_layer (PrBoard *board)
{
  graphene_rect_t bounds = whole (board);
  GskRenderNode *node = gsk_cairo_node_new (&bounds);
  cairo_t *cr = gsk_cairo_node_get_draw_context (node);
  GdkRGBA ink;

  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (board)), &ink);
  ink.alpha *= 0.08f;
  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_set_line_width (cr, 1);
  if (board->layers.grid && GRID_MM * board->scale >= GRID_LEAST_PX)
    grid_lines (board, cr, (int) bounds.size.width, (int) bounds.size.height);
  cairo_destroy (cr);
  return node;
}

/* --- photo --- */

/* The smallest picture that still has a pixel for each of the board's. */
static int
photo_level (PrBoard *board, double raster)
{
  int level = 0;

  while (level + 1 < PR_PHOTO_LEVELS && board->photo[level + 1] && raster / (2 << level) >= board->scale)
    level++;
  return level;
}

/* Raster pixels to board: raster -> sheet mm -> foot -> board. All of them keep shapes, so it is a
 * shift, a turn and a scale, with a flip where the frames differ in handedness. */
static void
append_photo (PrBoard *board, const PrJob *job, GtkSnapshot *snapshot)
{
  const PrTracing *tracing = job->tracing;
  const PrFootFrame *frame = &job->hoof.frame;
  int level = photo_level (board, tracing->raster), sign = pr_board_sign (board);
  float k = (float) (board->scale / tracing->raster);
  PrBoardPt zero = pr_board_from_foot (board, pr_foot_frame_in (frame, (PrSheetPt){ 0, 0 }));
  PrPt across = pr_pt (sign * frame->ex.x, -frame->ey.x), down = pr_pt (sign * frame->ex.y, -frame->ey.y);
  graphene_rect_t rect
      = GRAPHENE_RECT_INIT (0, 0, (float) tracing->raster_width, (float) tracing->raster_height);

  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot, &GRAPHENE_POINT_INIT ((float) zero.x, (float) zero.y));
  gtk_snapshot_rotate (snapshot, (float) (atan2 (across.y, across.x) * 180 / G_PI));
  gtk_snapshot_scale (snapshot, k, pr_pt_cross (across, down) < 0 ? -k : k);
  gtk_snapshot_push_opacity (snapshot, board->layers.photo * (board->dark ? PHOTO_DARK : 1));
  gtk_snapshot_append_texture (snapshot, board->photo[level], &rect);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_restore (snapshot);
}

/* --- the ground: grid and photo --- */

static GskRenderNode *
ground_layer (PrBoard *board, const PrJob *job)
{
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  g_autoptr (GskRenderNode) grid = grid_layer (board);

  gtk_snapshot_append_node (snapshot, grid);
  if (job && photo_seen (board))
    append_photo (board, job, snapshot);
  return gtk_snapshot_free_to_node (snapshot);
}

/* NODE as one picture in the screen's own pixels: a turned photo is costly to draw without a
 * graphics card, a picture of it is not. Takes NODE over. */
static GskRenderNode *
as_picture (PrBoard *board, GskRenderNode *node)
{
  graphene_rect_t bounds = whole (board);
  int k = gtk_widget_get_scale_factor (GTK_WIDGET (board));
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, (int) bounds.size.width * k,
                                                         (int) bounds.size.height * k);
  GskRenderNode *still = gsk_cairo_node_new (&bounds);
  cairo_t *cr;

  cairo_surface_set_device_scale (picture, k, k);
  cr = cairo_create (picture);
  gsk_render_node_draw (node, cr);
  cairo_destroy (cr);
  gsk_render_node_unref (node);
  cr = gsk_cairo_node_get_draw_context (still);
  cairo_set_source_surface (cr, picture, 0, 0);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_destroy (picture);
  return still;
}

/* Drawn as it is while the view moves; made one picture once the same view is asked for again. */
static void
append_ground (PrBoard *board, const PrJob *job, GtkSnapshot *snapshot)
{
  if (!board->ground) {
    board->ground = ground_layer (board, job);
  } else if (!board->still) {
    board->ground = as_picture (board, board->ground);
    board->still = true;
  }
  gtk_snapshot_append_node (snapshot, board->ground);
}

/* --- what points at something --- */

static GdkRGBA
named_colour (PrBoard *board, const char *name)
{
  GdkRGBA colour = { 0.8f, 0.5f, 0.1f, 1 };

  gtk_style_context_lookup_color (gtk_widget_get_style_context (GTK_WIDGET (board)), name, &colour);
  return colour;
}

static cairo_t *
pointer_context (PrBoard *board, GtkSnapshot *snapshot, PrBoardPt low, PrBoardPt high, const char *ink)
{
  graphene_rect_t bounds
      = GRAPHENE_RECT_INIT ((float) low.x, (float) low.y, (float) (high.x - low.x), (float) (high.y - low.y));
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  GdkRGBA colour = named_colour (board, ink);

  gdk_cairo_set_source_rgba (cr, &colour);
  cairo_set_line_width (cr, POINTER_PX);
  return cr;
}

static void
append_hover (PrBoard *board, const PrJob *job, GtkSnapshot *snapshot)
{
  PrPt outer, inner;
  PrBoardPt a, b;
  cairo_t *cr;

  pr_shoe_middle_at (job->shoe, board->hover_s, &outer, &inner);
  a = pr_board_from_foot (board, outer);
  b = pr_board_from_foot (board, inner);
  cr = pointer_context (board, snapshot,
                        (PrBoardPt){ MIN (a.x, b.x) - POINTER_PX, MIN (a.y, b.y) - POINTER_PX },
                        (PrBoardPt){ MAX (a.x, b.x) + POINTER_PX, MAX (a.y, b.y) + POINTER_PX }, "pr_teal");
  cairo_move_to (cr, a.x, a.y);
  cairo_line_to (cr, b.x, b.y);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

static void
append_ring (PrBoard *board, GtkSnapshot *snapshot)
{
  PrBoardPt p = pr_board_from_foot (board, board->ring);
  double r = RING_PX + POINTER_PX;
  cairo_t *cr = pointer_context (board, snapshot, (PrBoardPt){ p.x - r, p.y - r },
                                 (PrBoardPt){ p.x + r, p.y + r }, "pr_amber");

  cairo_arc (cr, p.x, p.y, RING_PX, 0, 2 * G_PI);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

/* --- all of it --- */

static void
append_job (PrBoard *board, const PrJob *job, GtkSnapshot *snapshot)
{
  if (!board->shoe)
    board->shoe = shoe_layer (board, job);
  gtk_snapshot_append_node (snapshot, board->shoe);
  if (!board->hoof)
    board->hoof = hoof_layer (board, job);
  gtk_snapshot_append_node (snapshot, board->hoof);
  pr_board_append_doubts (board, job, snapshot);
  if (board->layers.photo > 0)
    pr_board_append_references (board, job, snapshot);
  if (board->hover_s >= 0 && job->shoe)
    append_hover (board, job, snapshot);
  if (board->ringed)
    append_ring (board, snapshot);
}

void
pr_board_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  PrBoard *board = PR_BOARD (widget);
  const PrJob *job = board->doc ? pr_document_job (board->doc) : NULL;

  append_ground (board, job, snapshot);
  if (job)
    append_job (board, job, snapshot);
  for (size_t i = 0; i < board->n_grips; i++)
    gtk_widget_snapshot_child (widget, board->widget[i], snapshot);
  gtk_widget_snapshot_child (widget, board->bubble, snapshot);
  if (job)
    pr_board_append_measure (board, snapshot);
}
