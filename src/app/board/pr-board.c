/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-board-private.h"

#include <glib/gi18n-lib.h>
#include "pr-draw.h"

#define MM_PER_INCH 25.4
#define SCALE_LEAST 0.5    /* px per mm: a whole sheet still fits a small window */
#define SCALE_MOST 60.0    /* px per mm: a pencil line fills a thumb's width */
#define FIT_MARGIN_PX 44.0 /* room for the handles and the letters M and L */
#define FIT_BOTTOM_PX 24.0 /* more of it below, for the buttons there */
#define SEEN_PX 24.0       /* a ring nearer to the edge brings its place to the middle */
#define BUTTONS_X_PX 400.0 /* what the buttons cover */
#define BUTTONS_Y_PX 72.0
#define SCREEN_FALLBACK (96.0 / MM_PER_INCH) /* px per mm when the monitor tells no size */

enum { HOVER, VIEW, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrBoard, pr_board, GTK_TYPE_WIDGET)

/* --- view --- */

int
pr_board_sign (PrBoard *board)
{
  const PrJob *job = board->doc ? pr_document_job (board->doc) : NULL;
  return pr_lateral_sign (job ? job->foot : PR_FOOT_ANY, board->face);
}

PrBoardPt
pr_board_from_foot (PrBoard *board, PrPt p)
{
  return (PrBoardPt){ board->x0 + pr_board_sign (board) * board->scale * p.x,
                      board->y0 - board->scale * p.y };
}

PrPt
pr_board_to_foot (PrBoard *board, double x, double y)
{
  return pr_pt ((x - board->x0) / (pr_board_sign (board) * board->scale), (board->y0 - y) / board->scale);
}

void
pr_board_view_changed (PrBoard *board)
{
  pr_board_drop_layers (board);
  gtk_widget_queue_allocate (GTK_WIDGET (board));
  gtk_widget_queue_draw (GTK_WIDGET (board));
  g_signal_emit (board, signals[VIEW], 0);
}

static void
fit_now (PrBoard *board)
{
  const PrJob *job = board->doc ? pr_document_job (board->doc) : NULL;
  int width = gtk_widget_get_width (GTK_WIDGET (board));
  int height = gtk_widget_get_height (GTK_WIDGET (board));
  PrPt low, high;
  double room_x = MAX (width - 2 * FIT_MARGIN_PX, 50),
         room_y = MAX (height - 2 * FIT_MARGIN_PX - FIT_BOTTOM_PX, 50);

  if (!job || width < 1 || height < 1)
    return;
  pr_draw_extent (job, &low, &high);
  board->scale = MIN (room_x / MAX (high.x - low.x, 1), room_y / MAX (high.y - low.y, 1));
  board->scale = CLAMP (board->scale, SCALE_LEAST, SCALE_MOST);
  board->x0 = width / 2.0 - pr_board_sign (board) * board->scale * (low.x + high.x) / 2;
  board->y0 = (height - FIT_BOTTOM_PX) / 2.0 + board->scale * (low.y + high.y) / 2;
}

void
pr_board_fit (PrBoard *board)
{
  board->fitted = true;
  fit_now (board);
  pr_board_view_changed (board);
}

void
pr_board_zoom_at (PrBoard *board, double factor, double x, double y)
{
  PrPt at = pr_board_to_foot (board, x, y);

  board->fitted = false;
  board->scale = CLAMP (board->scale * factor, SCALE_LEAST, SCALE_MOST);
  board->x0 = x - pr_board_sign (board) * board->scale * at.x;
  board->y0 = y + board->scale * at.y;
  pr_board_view_changed (board);
}

void
pr_board_zoom_by (PrBoard *board, double factor)
{
  pr_board_zoom_at (board, factor, gtk_widget_get_width (GTK_WIDGET (board)) / 2.0,
                    gtk_widget_get_height (GTK_WIDGET (board)) / 2.0);
}

static GdkMonitor *
monitor_of (PrBoard *board)
{
  GtkNative *native = gtk_widget_get_native (GTK_WIDGET (board));
  GdkSurface *surface = native ? gtk_native_get_surface (native) : NULL;

  return surface ? gdk_display_get_monitor_at_surface (gdk_surface_get_display (surface), surface) : NULL;
}

bool
pr_board_monitor (PrBoard *board, GdkRectangle *area)
{
  GdkMonitor *monitor = monitor_of (board);

  if (monitor)
    gdk_monitor_get_geometry (monitor, area);
  return monitor != NULL;
}

/* What the monitor says of itself, where that can be. */
double
pr_board_screen (PrBoard *board)
{
  GdkMonitor *monitor = monitor_of (board);
  int width_mm = monitor ? gdk_monitor_get_width_mm (monitor) : 0;
  GdkRectangle area;
  double told;

  if (board->screen > 0)
    return board->screen;
  if (width_mm <= 0)
    return SCREEN_FALLBACK;
  gdk_monitor_get_geometry (monitor, &area);
  told = (double) area.width / width_mm;
  return told >= PR_SCREEN_LEAST && told <= PR_SCREEN_MOST ? told : SCREEN_FALLBACK;
}

bool
pr_board_is_measured (PrBoard *board)
{
  return board->screen > 0;
}

void
pr_board_set_screen (PrBoard *board, double px_per_mm)
{
  board->screen = px_per_mm;
  g_signal_emit (board, signals[VIEW], 0);
}

void
pr_board_true_size (PrBoard *board)
{
  pr_board_zoom_by (board, pr_board_screen (board) / board->scale);
}

double
pr_board_share (PrBoard *board)
{
  return board->scale / pr_board_screen (board);
}

PrFace
pr_board_face (PrBoard *board)
{
  return board->face;
}

/* Turned over about the centre line: what was in the middle stays there. */
void
pr_board_set_face (PrBoard *board, PrFace face)
{
  double middle = gtk_widget_get_width (GTK_WIDGET (board)) / 2.0;

  if (board->face == face)
    return;
  board->face = face;
  if (board->fitted)
    fit_now (board);
  else
    board->x0 = 2 * middle - board->x0;
  pr_board_view_changed (board);
}

void
pr_board_set_dark (PrBoard *board, bool dark)
{
  if (board->dark == dark)
    return;
  board->dark = dark;
  pr_board_drop_layers (board);
  gtk_widget_queue_draw (GTK_WIDGET (board));
}

void
pr_board_set_show_photo (PrBoard *board, bool show)
{
  board->show_photo = show;
  pr_board_drop_layers (board);
  gtk_widget_queue_draw (GTK_WIDGET (board));
}

void
pr_board_set_layers (PrBoard *board, const PrBoardLayers *layers)
{
  board->layers = *layers;
  pr_board_drop_layers (board);
  gtk_widget_queue_draw (GTK_WIDGET (board));
}

const PrBoardLayers *
pr_board_layers (PrBoard *board)
{
  return &board->layers;
}

bool
pr_board_has_photo (PrBoard *board)
{
  return board->photo[0] != NULL;
}

void
pr_board_set_marks (PrBoard *board, bool marks)
{
  board->marks = marks;
  pr_board_update_grips (board);
}

void
pr_board_point_out (PrBoard *board, double s)
{
  if (board->hover_s == s)
    return;
  board->hover_s = s;
  gtk_widget_queue_draw (GTK_WIDGET (board));
}

/* Neither near the edge nor under the buttons in the lower left corner. */
static bool
in_sight (PrBoard *board, PrBoardPt p)
{
  int width = board->width, height = board->height;

  if (p.x < BUTTONS_X_PX && p.y > height - BUTTONS_Y_PX)
    return false;
  return p.x > SEEN_PX && p.y > SEEN_PX && p.x < width - SEEN_PX && p.y < height - SEEN_PX;
}

void
pr_board_ring (PrBoard *board, const PrPt *at)
{
  PrBoardPt p;

  board->ringed = at != NULL;
  if (at) {
    board->ring = *at;
    p = pr_board_from_foot (board, *at);
    if (!in_sight (board, p)) {
      board->fitted = false;
      board->x0 += board->width / 2.0 - p.x;
      board->y0 += board->height / 2.0 - p.y;
      pr_board_view_changed (board);
    }
  }
  gtk_widget_queue_draw (GTK_WIDGET (board));
}

/* --- the document --- */

static void
document_changed (PrBoard *board, guint what)
{
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_PHOTO)) {
    pr_board_load_photo (board);
    pr_board_drop_ground (board);
  }
  if (what & PR_CHANGED_PLACE) {
    board->ringed = false;
    board->fitted = true;
  }
  if (what & (PR_CHANGED_HOOF | PR_CHANGED_PLACE))
    pr_board_drop_layers (board);
  if (what & (PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_PLACE)) {
    g_clear_pointer (&board->shoe, gsk_render_node_unref);
    if (what & PR_CHANGED_PLACE)
      fit_now (board);
    pr_board_update_grips (board);
    g_signal_emit (board, signals[VIEW], 0);
  }
  if (what & PR_CHANGED_HISTORY) /* the edit has ended: every handle tells its value anew */
    pr_board_update_grips (board);
  gtk_widget_queue_draw (GTK_WIDGET (board));
}

void
pr_board_set_document (PrBoard *board, PrDocument *doc)
{
  g_return_if_fail (!board->doc);
  board->doc = g_object_ref (doc);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), board, G_CONNECT_SWAPPED);
  document_changed (board, PR_CHANGED_ALL);
}

/* --- the widget --- */

/* Fits anew only to a new size: a view that followed the shoe would run away under the pointer. */
static void
pr_board_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  PrBoard *board = PR_BOARD (widget);

  if (width != board->width || height != board->height) {
    board->width = width;
    board->height = height;
    if (board->fitted)
      fit_now (board);
    pr_board_drop_layers (board);
    g_signal_emit (board, signals[VIEW], 0);
  }
  pr_board_allocate_grips (board);
}

static void
pr_board_dispose (GObject *object)
{
  PrBoard *board = PR_BOARD (object);

  for (size_t i = 0; i < board->n_grips; i++)
    gtk_widget_unparent (board->widget[i]);
  board->n_grips = 0;
  g_clear_pointer (&board->bubble, gtk_widget_unparent);
  pr_board_drop_layers (board);
  g_clear_pointer (&board->shoe_start, pr_shoe_free);
  pr_board_drop_photo (board);
  g_clear_object (&board->doc);
  G_OBJECT_CLASS (pr_board_parent_class)->dispose (object);
}

static void
pr_board_init (PrBoard *board)
{
  board->scale = 3;
  board->fitted = true;
  board->show_photo = true;
  board->layers = (PrBoardLayers){ .grid = true,
                                   .hoof = true,
                                   .centre_lines = true,
                                   .fill = true,
                                   .crease = true,
                                   .nails = true,
                                   .clips = true,
                                   .photo = 1 };
  board->hover_s = -1;
  board->held = board->bubble_grip = -1;
  board->bubble = gtk_label_new (NULL);
  gtk_widget_add_css_class (board->bubble, "bubble");
  gtk_widget_set_can_target (board->bubble, FALSE);
  gtk_widget_set_visible (board->bubble, FALSE);
  gtk_widget_set_parent (board->bubble, GTK_WIDGET (board));
  gtk_widget_set_overflow (GTK_WIDGET (board), GTK_OVERFLOW_HIDDEN);
  gtk_widget_set_focusable (GTK_WIDGET (board), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (board), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Board"), -1);
  pr_board_add_controllers (board);
  pr_board_tell_doubts (board);
  pr_board_add_measuring (board);
}

static void
pr_board_class_init (PrBoardClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  GType type = G_TYPE_FROM_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_board_dispose;
  widget_class->size_allocate = pr_board_size_allocate;
  widget_class->snapshot = pr_board_snapshot;
  widget_class->focus = pr_board_focus;
  gtk_widget_class_set_css_name (widget_class, "board");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  signals[HOVER]
      = g_signal_new ("hover", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_DOUBLE);
  signals[VIEW] = g_signal_new ("view", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}
