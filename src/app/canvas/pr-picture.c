/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-picture.h"

#include <math.h>
#include "pr-colour.h"
#include "pr-levels.h"
#include "pr-view.h"

#define FIT_MARGIN_PX 24.0
#define ZOOM_STEP 1.15   /* one notch of the wheel */
#define LENS_PX 74.0     /* radius */
#define LENS_GAP_PX 44.0 /* from the place under the hand to the lens's edge */
#define LENS_TIMES 6.0   /* as large as on the screen */
#define CROSS_GAP_PX 5.0 /* left free in the cross's middle */

/* Screen pixels to one of the picture's: at most, its pixels are seen. */
static const PrViewLimits limits = { .least = 0.02, .most = 8 };

typedef struct {
  PrLevels levels;
  int width, height; /* of the picture */
  PrView view;       /* its origin is the first pixel's outer corner */
  GtkGesture *drag, *zoom;
  bool taken, panned;
  double press_x, press_y, pan_x0, pan_y0, pointer_x, pointer_y, zoom_start;
  bool lens;
  PrPx lens_at;
} PrPicturePrivate;

G_DEFINE_TYPE_WITH_PRIVATE (PrPicture, pr_picture, GTK_TYPE_WIDGET)

static PrPicturePrivate *
own (PrPicture *picture)
{
  return pr_picture_get_instance_private (picture);
}

/* --- view --- */

PrPx
pr_picture_to_px (PrPicture *picture, double x, double y)
{
  double px, py;

  pr_view_in (&own (picture)->view, (PrScreenPt){ x, y }, &px, &py);
  return (PrPx){ px - 0.5, py - 0.5 };
}

void
pr_picture_from_px (PrPicture *picture, PrPx at, double *x, double *y)
{
  PrScreenPt to = pr_view_out (&own (picture)->view, at.x + 0.5, at.y + 0.5);

  *x = to.x;
  *y = to.y;
}

double
pr_picture_scale (PrPicture *picture)
{
  return own (picture)->view.scale;
}

bool
pr_picture_shows (PrPicture *picture)
{
  return own (picture)->width > 0;
}

static void
view_changed (PrPicture *picture)
{
  gtk_widget_queue_allocate (GTK_WIDGET (picture));
  gtk_widget_queue_draw (GTK_WIDGET (picture));
}

static void
fit_now (PrPicture *picture)
{
  PrPicturePrivate *p = own (picture);
  double room_x = gtk_widget_get_width (GTK_WIDGET (picture)) - 2 * FIT_MARGIN_PX;
  double room_y = gtk_widget_get_height (GTK_WIDGET (picture)) - 2 * FIT_MARGIN_PX;

  if (p->width < 1 || room_x < 1 || room_y < 1)
    return;
  pr_view_fit (&p->view, &limits, (PrViewBox){ 0, 0, p->width, p->height },
               (PrViewBox){ FIT_MARGIN_PX, FIT_MARGIN_PX, room_x, room_y });
}

void
pr_picture_fit (PrPicture *picture)
{
  own (picture)->view.fitted = true;
  fit_now (picture);
  view_changed (picture);
}

static void
zoom_at (PrPicture *picture, double factor, double x, double y)
{
  pr_view_zoom (&own (picture)->view, &limits, factor, (PrScreenPt){ x, y });
  view_changed (picture);
}

void
pr_picture_zoom_by (PrPicture *picture, double factor)
{
  zoom_at (picture, factor, gtk_widget_get_width (GTK_WIDGET (picture)) / 2.0,
           gtk_widget_get_height (GTK_WIDGET (picture)) / 2.0);
}

void
pr_picture_set_rgb (PrPicture *picture, const uint8_t *rgb, int width, int height, size_t stride)
{
  PrPicturePrivate *p = own (picture);

  pr_levels_clear (&p->levels);
  p->width = rgb ? width : 0;
  p->height = rgb ? height : 0;
  if (rgb)
    pr_levels_fill (&p->levels, rgb, width, height, stride);
  pr_picture_fit (picture);
}

void
pr_picture_lens (PrPicture *picture, const PrPx *at)
{
  PrPicturePrivate *p = own (picture);

  p->lens = at != NULL;
  if (at)
    p->lens_at = *at;
  gtk_widget_queue_draw (GTK_WIDGET (picture));
}

/* --- pointer --- */

static GdkModifierType
state_of (void *gesture)
{
  return gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));
}

static void
drag_begin (GtkGestureDrag *gesture, double x, double y, PrPicture *picture)
{
  PrPicturePrivate *p = own (picture);
  PrPictureClass *class = PR_PICTURE_GET_CLASS (picture);

  if (!pr_picture_shows (picture))
    return;
  p->press_x = x;
  p->press_y = y;
  p->pan_x0 = p->view.x0;
  p->pan_y0 = p->view.y0;
  p->taken = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture)) <= 1 && class->press
             && class->press (picture, pr_picture_to_px (picture, x, y));
  if (p->taken)
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
}

static void
drag_update (GtkGestureDrag *gesture, double dx, double dy, PrPicture *picture)
{
  PrPicturePrivate *p = own (picture);

  if (!pr_picture_shows (picture))
    return;
  if (p->taken) {
    PR_PICTURE_GET_CLASS (picture)->move (picture,
                                          pr_picture_to_px (picture, p->press_x + dx, p->press_y + dy),
                                          state_of (gesture));
    return;
  }
  pr_view_move (&p->view, p->pan_x0 + dx, p->pan_y0 + dy);
  view_changed (picture);
}

static void
end_drag (PrPicture *picture, bool keep, GdkModifierType state)
{
  PrPicturePrivate *p = own (picture);
  bool taken = p->taken;

  p->taken = false;
  if (taken)
    PR_PICTURE_GET_CLASS (picture)->release (picture, keep, state);
}

static void
drag_end (GtkGestureDrag *gesture, double dx, double dy, PrPicture *picture)
{
  end_drag (picture, true, state_of (gesture));
}

static void
drag_cancel (GtkGesture *gesture, GdkEventSequence *sequence, PrPicture *picture)
{
  end_drag (picture, false, 0);
}

bool
pr_picture_drop_drag (PrPicture *picture)
{
  if (!own (picture)->taken)
    return false;
  end_drag (picture, false, 0);
  gtk_gesture_set_state (own (picture)->drag, GTK_EVENT_SEQUENCE_DENIED);
  return true;
}

static void
motion (GtkEventControllerMotion *controller, double x, double y, PrPicture *picture)
{
  own (picture)->pointer_x = x;
  own (picture)->pointer_y = y;
}

static gboolean
scroll (GtkEventControllerScroll *controller, double dx, double dy, PrPicture *picture)
{
  if (!own (picture)->taken)
    zoom_at (picture, pow (ZOOM_STEP, -dy), own (picture)->pointer_x, own (picture)->pointer_y);
  return TRUE;
}

static void
pinch_begin (GtkGesture *gesture, GdkEventSequence *sequence, PrPicture *picture)
{
  end_drag (picture, false, 0);
  own (picture)->zoom_start = own (picture)->view.scale;
}

static void
pinch (GtkGestureZoom *gesture, double factor, PrPicture *picture)
{
  double x, y;

  if (gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &x, &y))
    zoom_at (picture, own (picture)->zoom_start * factor / own (picture)->view.scale, x, y);
}

static void
add_controllers (PrPicture *picture)
{
  PrPicturePrivate *p = own (picture);
  GtkWidget *widget = GTK_WIDGET (picture);
  GtkEventController *move = gtk_event_controller_motion_new ();
  GtkEventController *wheel = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);

  p->drag = gtk_gesture_drag_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (p->drag), 0);
  g_signal_connect (p->drag, "drag-begin", G_CALLBACK (drag_begin), picture);
  g_signal_connect (p->drag, "drag-update", G_CALLBACK (drag_update), picture);
  g_signal_connect (p->drag, "drag-end", G_CALLBACK (drag_end), picture);
  g_signal_connect (p->drag, "cancel", G_CALLBACK (drag_cancel), picture);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (p->drag));
  p->zoom = gtk_gesture_zoom_new ();
  g_signal_connect (p->zoom, "begin", G_CALLBACK (pinch_begin), picture);
  g_signal_connect (p->zoom, "scale-changed", G_CALLBACK (pinch), picture);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (p->zoom));
  g_signal_connect (move, "motion", G_CALLBACK (motion), picture);
  gtk_widget_add_controller (widget, move);
  g_signal_connect (wheel, "scroll", G_CALLBACK (scroll), picture);
  gtk_widget_add_controller (widget, wheel);
}

/* --- drawing --- */

/* Beside the place, on the side where there is room. */
static graphene_rect_t
lens_place (PrPicture *picture)
{
  PrPicturePrivate *p = own (picture);
  double x, y, middle_x, middle_y, far = LENS_GAP_PX + LENS_PX;

  pr_picture_from_px (picture, p->lens_at, &x, &y);
  middle_x = x + far + LENS_PX < gtk_widget_get_width (GTK_WIDGET (picture)) ? x + far : x - far;
  middle_y = y - far - LENS_PX > 0 ? y - far : y + far;
  return GRAPHENE_RECT_INIT ((float) (middle_x - LENS_PX), (float) (middle_y - LENS_PX),
                             (float) (2 * LENS_PX), (float) (2 * LENS_PX));
}

static void
draw_cross (PrPicture *picture, cairo_t *cr)
{
  const double dir[4][2] = { { 1, 0 }, { -1, 0 }, { 0, 1 }, { 0, -1 } };
  GdkRGBA paper = pr_colour (GTK_WIDGET (picture), "pr_paper"), ink = pr_colour (GTK_WIDGET (picture), "pr_handle");

  for (int pass = 0; pass < 2; pass++) {
    for (int i = 0; i < 4; i++) {
      cairo_move_to (cr, dir[i][0] * CROSS_GAP_PX, dir[i][1] * CROSS_GAP_PX);
      cairo_line_to (cr, dir[i][0] * LENS_PX, dir[i][1] * LENS_PX);
    }
    gdk_cairo_set_source_rgba (cr, pass ? &ink : &paper);
    cairo_set_line_width (cr, pass ? 1.2 : 3);
    cairo_stroke (cr);
  }
  cairo_arc (cr, 0, 0, LENS_PX - 1.5, 0, 2 * G_PI);
  cairo_set_line_width (cr, 3);
  cairo_stroke (cr);
}

static void
append_lens (PrPicture *picture, GtkSnapshot *snapshot)
{
  PrPicturePrivate *p = own (picture);
  graphene_rect_t place = lens_place (picture);
  double x = place.origin.x + LENS_PX, y = place.origin.y + LENS_PX, k = p->view.scale * LENS_TIMES;
  GdkRGBA ground = pr_colour (GTK_WIDGET (picture), "pr_deep");
  GskRoundedRect round;
  cairo_t *cr;

  gsk_rounded_rect_init_from_rect (&round, &place, (float) LENS_PX);
  gtk_snapshot_push_rounded_clip (snapshot, &round);
  gtk_snapshot_append_color (snapshot, &ground, &place);
  pr_levels_append (&p->levels, snapshot, x - k * (p->lens_at.x + 0.5), y - k * (p->lens_at.y + 0.5), k,
                    &place);
  gtk_snapshot_pop (snapshot);
  cr = gtk_snapshot_append_cairo (snapshot, &place);
  cairo_translate (cr, x, y);
  draw_cross (picture, cr);
  cairo_destroy (cr);
}

static void
pr_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  PrPicture *picture = PR_PICTURE (widget);
  PrPicturePrivate *p = own (picture);
  graphene_rect_t all = GRAPHENE_RECT_INIT (0, 0, (float) gtk_widget_get_width (widget),
                                            (float) gtk_widget_get_height (widget));
  cairo_t *cr;

  pr_levels_append (&p->levels, snapshot, p->view.x0, p->view.y0, p->view.scale, &all);
  if (pr_picture_shows (picture) && PR_PICTURE_GET_CLASS (picture)->draw) {
    cr = gtk_snapshot_append_cairo (snapshot, &all);
    PR_PICTURE_GET_CLASS (picture)->draw (picture, cr);
    cairo_destroy (cr);
  }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    gtk_widget_snapshot_child (widget, child, snapshot);
  if (p->lens)
    append_lens (picture, snapshot);
}

/* --- the widget --- */

static void
pr_picture_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  PrPicture *picture = PR_PICTURE (widget);

  if (own (picture)->view.fitted)
    fit_now (picture);
  if (PR_PICTURE_GET_CLASS (picture)->lay)
    PR_PICTURE_GET_CLASS (picture)->lay (picture);
}

static void
pr_picture_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  pr_levels_clear (&own (PR_PICTURE (object))->levels);
  G_OBJECT_CLASS (pr_picture_parent_class)->dispose (object);
}

static void
pr_picture_init (PrPicture *picture)
{
  own (picture)->view = (PrView){ .scale = 1, .sx = 1, .sy = 1, .fitted = true };
  gtk_widget_set_overflow (GTK_WIDGET (picture), GTK_OVERFLOW_HIDDEN);
  gtk_widget_set_focusable (GTK_WIDGET (picture), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (picture), TRUE);
  gtk_widget_set_hexpand (GTK_WIDGET (picture), TRUE);
  add_controllers (picture);
}

static void
pr_picture_class_init (PrPictureClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_picture_dispose;
  widget_class->size_allocate = pr_picture_size_allocate;
  widget_class->snapshot = pr_picture_snapshot;
  gtk_widget_class_set_css_name (widget_class, "board");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
}
