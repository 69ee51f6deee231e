/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-marking-area.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>
#include "pr-colour.h"
#include "pr-handle-widget.h"
#include "pr-quad.h"
#include "pr-snap.h"

#define MOST_POINTS 4
#define GUESS_IN 0.16 /* share of the photo left round the first guess */
#define SNAP_PX 14.0  /* on the screen, at most */
#define STEP_PX 1.0
#define STEP_FINE_PX 0.1
#define STEP_FAR_PX 10.0
#define LINE_PX 1.6

struct _PrMarkingArea {
  PrPicture parent_instance;
  const PrPhoto *photo;
  size_t n;
  PrPx point[MOST_POINTS];
  bool snapped[MOST_POINTS];
  GtkWidget *handle[MOST_POINTS];
  bool snap;
  int held; /* -1: none */
  PrPx held_start, press;
};

G_DEFINE_FINAL_TYPE (PrMarkingArea, pr_marking_area, PR_TYPE_PICTURE)

/* --- points --- */

static const char *
point_name (const PrMarkingArea *area, size_t i)
{
  static const char *const corners[MOST_POINTS]
      = { N_ ("First corner"), N_ ("Second corner"), N_ ("Third corner"), N_ ("Fourth corner") };
  static const char *const ends[2] = { N_ ("First end"), N_ ("Second end") };

  return area->n == 2 ? _ (ends[i]) : _ (corners[i]);
}

static void
describe (PrMarkingArea *area, size_t i)
{
  g_autofree char *value
      = g_strdup_printf (area->snapped[i] ? _ ("%.1f, %.1f, on the edge found") : "%.1f, %.1f",
                         area->point[i].x, area->point[i].y);

  pr_handle_widget_describe (PR_HANDLE_WIDGET (area->handle[i]), point_name (area, i), value);
}

static void
point_moved (PrMarkingArea *area, size_t i)
{
  describe (area, i);
  gtk_widget_queue_allocate (GTK_WIDGET (area));
  gtk_widget_queue_draw (GTK_WIDGET (area));
}

static PrPx
inside (const PrMarkingArea *area, PrPx p)
{
  return (PrPx){ CLAMP (p.x, 0, area->photo->width - 1), CLAMP (p.y, 0, area->photo->height - 1) };
}

/* To the corner or, on a ruler, the mark nearby. */
static void
snap_point (PrMarkingArea *area, size_t i)
{
  double radius = SNAP_PX / pr_picture_scale (PR_PICTURE (area));
  PrPx at;

  if (area->n == 2)
    area->snapped[i] = pr_snap_along (area->photo, area->point[i], area->point[1 - i], radius, &at);
  else
    area->snapped[i] = pr_snap_corner (area->photo, area->point[i], radius, &at);
  if (area->snapped[i])
    area->point[i] = inside (area, at);
}

static void
guess (PrMarkingArea *area)
{
  double w = area->photo->width - 1, h = area->photo->height - 1;
  const PrPx corner[MOST_POINTS] = { { GUESS_IN * w, GUESS_IN * h },
                                     { (1 - GUESS_IN) * w, GUESS_IN * h },
                                     { (1 - GUESS_IN) * w, (1 - GUESS_IN) * h },
                                     { GUESS_IN * w, (1 - GUESS_IN) * h } };
  const PrPx end[2] = { { 0.3 * w, h / 2 }, { 0.7 * w, h / 2 } };

  memcpy (area->point, area->n == 2 ? end : corner, area->n * sizeof *area->point);
}

void
pr_marking_area_set_points (PrMarkingArea *area, size_t n, const PrPx *point)
{
  g_return_if_fail (n == 2 || n == 4);
  if (!area->photo)
    return;
  area->n = n;
  memset (area->snapped, 0, sizeof area->snapped);
  if (point)
    memcpy (area->point, point, n * sizeof *point);
  else
    guess (area);
  for (size_t i = 0; i < MOST_POINTS; i++) {
    gtk_widget_set_visible (area->handle[i], i < n);
    if (i < n)
      point_moved (area, i);
  }
}

void
pr_marking_area_set_photo (PrMarkingArea *area, const PrPhoto *photo)
{
  area->photo = photo;
  area->held = -1;
  pr_picture_lens (PR_PICTURE (area), NULL);
  pr_picture_set_rgb (PR_PICTURE (area), photo ? photo->rgb : NULL, photo ? photo->width : 0,
                      photo ? photo->height : 0, photo ? photo->stride : 0);
}

void
pr_marking_area_set_snap (PrMarkingArea *area, bool snap)
{
  area->snap = snap;
}

size_t
pr_marking_area_points (PrMarkingArea *area, PrPx *point)
{
  memcpy (point, area->point, area->n * sizeof *point);
  if (area->n == MOST_POINTS)
    pr_quad_clockwise (point);
  return area->n;
}

bool
pr_marking_area_snapped (PrMarkingArea *area)
{
  for (size_t i = 0; i < area->n; i++)
    if (!area->snapped[i])
      return false;
  return area->n > 0;
}

/* --- pointer --- */

static int
point_at (PrMarkingArea *area, PrPx at)
{
  double least = PR_GRAB_PX / 2 / pr_picture_scale (PR_PICTURE (area));
  int best = -1;

  for (size_t i = 0; i < area->n; i++) {
    double far = hypot (area->point[i].x - at.x, area->point[i].y - at.y);

    if (far < least) {
      least = far;
      best = (int) i;
    }
  }
  return best;
}

static bool
mark_press (PrPicture *picture, PrPx at)
{
  PrMarkingArea *area = PR_MARKING_AREA (picture);

  area->held = point_at (area, at);
  if (area->held < 0) {
    gtk_widget_grab_focus (GTK_WIDGET (area));
    return false;
  }
  area->held_start = area->point[area->held];
  area->press = at;
  gtk_widget_grab_focus (area->handle[area->held]);
  pr_picture_lens (picture, &area->point[area->held]);
  return true;
}

static void
mark_move (PrPicture *picture, PrPx at, GdkModifierType state)
{
  PrMarkingArea *area = PR_MARKING_AREA (picture);
  PrPx to = { area->held_start.x + at.x - area->press.x, area->held_start.y + at.y - area->press.y };

  area->point[area->held] = inside (area, to);
  area->snapped[area->held] = false;
  point_moved (area, (size_t) area->held);
  pr_picture_lens (picture, &area->point[area->held]);
}

static void
mark_release (PrPicture *picture, bool keep, GdkModifierType state)
{
  PrMarkingArea *area = PR_MARKING_AREA (picture);
  size_t i = (size_t) area->held;
  bool moved = memcmp (&area->point[i], &area->held_start, sizeof *area->point) != 0;

  area->held = -1;
  if (!keep)
    area->point[i] = area->held_start;
  else if (moved && area->snap && !(state & GDK_ALT_MASK))
    snap_point (area, i);
  point_moved (area, i);
  pr_picture_lens (picture, NULL);
}

/* --- keyboard --- */

static int
focused (PrMarkingArea *area)
{
  for (size_t i = 0; i < area->n; i++)
    if (gtk_widget_is_focus (area->handle[i]))
      return (int) i;
  return -1;
}

static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
             PrMarkingArea *area)
{
  double dx = key == GDK_KEY_Right ? 1 : key == GDK_KEY_Left ? -1 : 0;
  double dy = key == GDK_KEY_Down ? 1 : key == GDK_KEY_Up ? -1 : 0;
  double step = state & GDK_CONTROL_MASK ? STEP_FAR_PX : state & GDK_SHIFT_MASK ? STEP_FINE_PX : STEP_PX;
  int i = focused (area);

  if (key == GDK_KEY_Escape && area->held >= 0)
    return pr_picture_drop_drag (PR_PICTURE (area));
  if (i < 0 || area->held >= 0 || (dx == 0 && dy == 0))
    return FALSE;
  area->point[i] = inside (area, (PrPx){ area->point[i].x + dx * step, area->point[i].y + dy * step });
  area->snapped[i] = false;
  point_moved (area, (size_t) i);
  pr_picture_lens (PR_PICTURE (area), &area->point[i]);
  return TRUE;
}

/* The lens stays as long as a point has the keyboard and was moved with it. */
static void
focus_moved (PrMarkingArea *area)
{
  if (area->held < 0)
    pr_picture_lens (PR_PICTURE (area), NULL);
}

static gboolean
mark_focus (GtkWidget *widget, GtkDirectionType direction)
{
  PrMarkingArea *area = PR_MARKING_AREA (widget);
  int at = focused (area), n = (int) area->n, next;

  if (n == 0 || (direction != GTK_DIR_TAB_FORWARD && direction != GTK_DIR_TAB_BACKWARD))
    return FALSE;
  next = direction == GTK_DIR_TAB_FORWARD ? at + 1 : at < 0 ? n - 1 : at - 1;
  return next >= 0 && next < n && gtk_widget_grab_focus (area->handle[next]);
}

/* --- what is drawn --- */

static void
mark_draw (PrPicture *picture, cairo_t *cr)
{
  PrMarkingArea *area = PR_MARKING_AREA (picture);
  GdkRGBA ink = pr_colour (GTK_WIDGET (picture), "pr_handle"), paper = pr_colour (GTK_WIDGET (picture), "pr_paper");

  for (size_t i = 0; i < area->n; i++) {
    double x, y;

    pr_picture_from_px (picture, area->point[i], &x, &y);
    cairo_line_to (cr, x, y);
  }
  if (area->n > 2)
    cairo_close_path (cr);
  gdk_cairo_set_source_rgba (cr, &paper);
  cairo_set_line_width (cr, LINE_PX + 2);
  cairo_stroke_preserve (cr);
  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_set_line_width (cr, LINE_PX);
  cairo_stroke (cr);
}

static void
mark_lay (PrPicture *picture)
{
  PrMarkingArea *area = PR_MARKING_AREA (picture);

  for (size_t i = 0; i < area->n; i++) {
    double x, y;
    graphene_point_t at;

    pr_picture_from_px (picture, area->point[i], &x, &y);
    graphene_point_init (&at, (float) (x - PR_GRAB_PX / 2), (float) (y - PR_GRAB_PX / 2));
    gtk_widget_measure (area->handle[i], GTK_ORIENTATION_HORIZONTAL, -1, NULL, NULL, NULL, NULL);
    gtk_widget_allocate (area->handle[i], (int) PR_GRAB_PX, (int) PR_GRAB_PX, -1,
                         gsk_transform_translate (NULL, &at));
  }
}

/* --- the widget --- */

static void
pr_marking_area_init (PrMarkingArea *area)
{
  GtkEventController *key = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  area->held = -1;
  area->snap = true;
  for (size_t i = 0; i < MOST_POINTS; i++) {
    area->handle[i] = pr_handle_widget_new ("edge");
    gtk_widget_set_visible (area->handle[i], FALSE);
    gtk_widget_set_parent (area->handle[i], GTK_WIDGET (area));
  }
  gtk_accessible_update_property (GTK_ACCESSIBLE (area), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Photo to mark"),
                                  -1);
  gtk_event_controller_set_propagation_phase (key, GTK_PHASE_CAPTURE);
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed), area);
  gtk_widget_add_controller (GTK_WIDGET (area), key);
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (focus_moved), area);
  gtk_widget_add_controller (GTK_WIDGET (area), focus);
}

static void
pr_marking_area_class_init (PrMarkingAreaClass *class)
{
  PrPictureClass *picture = PR_PICTURE_CLASS (class);

  picture->press = mark_press;
  picture->move = mark_move;
  picture->release = mark_release;
  picture->draw = mark_draw;
  picture->lay = mark_lay;
  GTK_WIDGET_CLASS (class)->focus = mark_focus;
}

GtkWidget *
pr_marking_area_new (void)
{
  return g_object_new (PR_TYPE_MARKING_AREA, NULL);
}
