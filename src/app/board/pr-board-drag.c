/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Taking hold: drag, pan, zoom and the keyboard. Hitting, dragging and snapping are the core's;
 * here pixels become millimetres and one drag becomes one undo step. */
#include "pr-board-private.h"

#include <glib/gi18n-lib.h>
#include "pr-handle-widget.h"

#define THRESHOLD_PX 4.0 /* a shaking hand does not move anything */
#define SNAP_PX 6.0
#define ZOOM_STEP 1.15 /* one notch of the wheel */
#define NUDGE_MM 0.5
#define NUDGE_FINE_MM 0.1
#define NUDGE_FAR_MM 5.0
#define PAN_STEP_PX 40.0

/* --- moving a grip --- */

static void
move_mark (PrBoard *board, PrPt to)
{
  const PrJob *job = pr_document_job (board->doc);
  PrLandmarks marks = board->marks_start;
  PrSheetPt at = pr_foot_frame_out (&job->hoof.frame, to);

  if (board->held_start.mark == 0) {
    marks.has_toe = true;
    marks.toe = at;
  } else {
    marks.has_buttress[board->held_start.mark - 1] = true;
    marks.buttress[board->held_start.mark - 1] = at;
  }
  pr_document_preview_marks (board->doc, &marks);
}

static void
move_held (PrBoard *board, PrPt to, double snap, unsigned flags)
{
  const PrJob *job = pr_document_job (board->doc);
  PrPlan plan;

  if (board->held_start.mark >= 0) {
    move_mark (board, to);
    return;
  }
  pr_handle_drag (&board->held_start.handle, &job->hoof, pr_document_start_plan (board->doc),
                  board->shoe_start, to, snap, flags, &plan);
  pr_document_preview (board->doc, &plan);
}

/* Remembers what stands, as the shoe in the job is made anew with each motion. */
static bool
take_hold (PrBoard *board, int grip)
{
  const PrJob *job = pr_document_job (board->doc);

  g_clear_pointer (&board->shoe_start, pr_shoe_free);
  board->shoe_start = pr_shoe_new ();
  if (!pr_shoe_build (board->shoe_start, &job->hoof, &job->plan, NULL))
    return false;
  board->held = grip;
  board->held_start = board->grip[grip];
  board->marks_start = job->marks;
  pr_document_begin (board->doc);
  return true;
}

static void
let_go (PrBoard *board, bool keep, const char *tag)
{
  board->held = -1;
  board->moving = false;
  if (keep)
    pr_document_commit (board->doc, tag);
  else
    pr_document_cancel (board->doc);
  pr_board_update_grips (board);
}

/* --- pointer --- */

static int
grip_at (PrBoard *board, double x, double y)
{
  PrHandle handle[PR_MAX_GRIPS];

  for (size_t i = 0; i < board->n_grips; i++)
    handle[i] = board->grip[i].handle;
  return board->n_grips == 0 ? -1
                             : pr_handle_hit (handle, board->n_grips, pr_board_to_foot (board, x, y),
                                              PR_GRAB_PX / 2 / board->scale);
}

static unsigned
drag_flags (GdkModifierType state)
{
  unsigned flags = PR_DRAG_PLAIN;

  if (state & GDK_SHIFT_MASK)
    flags |= PR_DRAG_FREE;
  if (state & GDK_CONTROL_MASK)
    flags |= PR_DRAG_BOTH;
  return flags;
}

static void
drag_begin (GtkGestureDrag *gesture, double x, double y, PrBoard *board)
{
  int grip = grip_at (board, x, y);

  board->press_x = x;
  board->press_y = y;
  board->pan_x0 = board->x0;
  board->pan_y0 = board->y0;
  board->moving = false;
  board->held = -1;
  if (!pr_document_job (board->doc) || pr_document_editing (board->doc))
    return;
  if (grip >= 0 && gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture)) == 1
      && take_hold (board, grip)) {
    gtk_widget_grab_focus (board->widget[grip]);
    pr_board_tell (board, grip);
  } else if (grip < 0) {
    gtk_widget_grab_focus (GTK_WIDGET (board));
    pr_board_tell (board, -1);
  }
}

static void
pan (PrBoard *board, double dx, double dy)
{
  board->fitted = false;
  board->x0 = board->pan_x0 + dx;
  board->y0 = board->pan_y0 + dy;
  pr_board_view_changed (board);
}

static void
drag_update (GtkGestureDrag *gesture, double dx, double dy, PrBoard *board)
{
  PrPt from, to;

  if (!board->moving && hypot (dx, dy) < THRESHOLD_PX)
    return;
  if (!board->moving)
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  board->moving = true;
  if (board->held < 0) {
    pan (board, dx, dy);
    return;
  }
  from = pr_board_to_foot (board, board->press_x, board->press_y);
  to = pr_board_to_foot (board, board->press_x + dx, board->press_y + dy);
  to = pr_pt_add (board->held_start.handle.at, pr_pt_sub (to, from));
  move_held (board, to, SNAP_PX / board->scale,
             drag_flags (gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture))));
}

static void
drag_end (GtkGestureDrag *gesture, double dx, double dy, PrBoard *board)
{
  if (board->held >= 0)
    let_go (board, board->moving, NULL);
  board->moving = false;
}

/* The pointer was taken away from us: as with Escape, nothing has happened. */
static void
drag_cancel (GtkGesture *gesture, GdkEventSequence *sequence, PrBoard *board)
{
  if (board->held >= 0)
    let_go (board, false, NULL);
  board->moving = false;
}

static void
light_up (PrBoard *board, int grip)
{
  for (int i = 0; i < (int) board->n_grips; i++) {
    if (i == grip)
      gtk_widget_set_state_flags (board->widget[i], GTK_STATE_FLAG_PRELIGHT, FALSE);
    else
      gtk_widget_unset_state_flags (board->widget[i], GTK_STATE_FLAG_PRELIGHT);
  }
  gtk_widget_set_cursor_from_name (GTK_WIDGET (board), grip >= 0 ? "grab" : NULL);
}

/* Middle-line place under the pointer, when it is over the web; negative otherwise. */
static double
place_under (PrBoard *board, double x, double y)
{
  const PrJob *job = pr_document_job (board->doc);

  return job && job->shoe ? pr_shoe_s_under (job->shoe, pr_board_to_foot (board, x, y)) : -1;
}

static void
motion (GtkEventControllerMotion *controller, double x, double y, PrBoard *board)
{
  bool still = board->pointer_x == x && board->pointer_y == y;

  board->pointer_x = x;
  board->pointer_y = y;
  if (still || !board->doc || board->held >= 0 || board->moving)
    return;
  light_up (board, grip_at (board, x, y));
  g_signal_emit_by_name (board, "hover", place_under (board, x, y));
}

static void
leave (GtkEventControllerMotion *controller, PrBoard *board)
{
  if (board->held >= 0)
    return;
  light_up (board, -1);
  g_signal_emit_by_name (board, "hover", -1.0);
}

/* The wheel zooms; two fingers on a touch pad pan, and with Ctrl they zoom too. */
static gboolean
scroll (GtkEventControllerScroll *controller, double dx, double dy, PrBoard *board)
{
  GdkEvent *event = gtk_event_controller_get_current_event (GTK_EVENT_CONTROLLER (controller));
  GdkDevice *device = gdk_event_get_device (event);
  bool pad = device && gdk_device_get_source (device) == GDK_SOURCE_TOUCHPAD;
  bool ctrl = gdk_event_get_modifier_state (event) & GDK_CONTROL_MASK;

  if (board->held >= 0)
    return TRUE;
  if (pad && !ctrl) {
    board->pan_x0 = board->x0;
    board->pan_y0 = board->y0;
    pan (board, -dx * PAN_STEP_PX, -dy * PAN_STEP_PX);
  } else {
    pr_board_zoom_at (board, pow (ZOOM_STEP, -dy), board->pointer_x, board->pointer_y);
  }
  return TRUE;
}

static void
pinch_begin (GtkGesture *gesture, GdkEventSequence *sequence, PrBoard *board)
{
  if (board->held >= 0)
    let_go (board, false, NULL);
  board->zoom_start = board->scale;
}

static void
pinch (GtkGestureZoom *gesture, double factor, PrBoard *board)
{
  double x, y;

  if (gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &x, &y))
    pr_board_zoom_at (board, board->zoom_start * factor / board->scale, x, y);
}

/* --- keyboard --- */

static bool
arrow (guint key, double *dx, double *dy)
{
  *dx = key == GDK_KEY_Right ? 1 : key == GDK_KEY_Left ? -1 : 0;
  *dy = key == GDK_KEY_Up ? 1 : key == GDK_KEY_Down ? -1 : 0;
  return *dx != 0 || *dy != 0;
}

static void
nudge (PrBoard *board, int grip, double dx, double dy, GdkModifierType state)
{
  double step = state & GDK_CONTROL_MASK ? NUDGE_FAR_MM : state & GDK_SHIFT_MASK ? NUDGE_FINE_MM : NUDGE_MM;
  g_autofree char *tag = g_strdup_printf ("nudge %d", grip);
  PrPt to;

  if (!take_hold (board, grip))
    return;
  to = pr_pt_add (board->held_start.handle.at, pr_pt (dx * step * pr_board_sign (board), dy * step));
  move_held (board, to, 0, PR_DRAG_FREE);
  let_go (board, true, tag);
  pr_board_tell (board, grip);
}

static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state, PrBoard *board)
{
  int grip = pr_board_focused_grip (board);
  double dx, dy;

  if (key == GDK_KEY_Escape && board->held >= 0) {
    let_go (board, false, NULL);
    gtk_gesture_set_state (board->drag, GTK_EVENT_SEQUENCE_DENIED);
    return TRUE;
  }
  if (key == GDK_KEY_Escape && (board->bubble_grip >= 0 || board->ringed)) {
    pr_board_tell (board, -1);
    pr_board_ring (board, NULL);
    return TRUE;
  }
  if (grip < 0 || board->held >= 0 || !arrow (key, &dx, &dy))
    return FALSE;
  nudge (board, grip, dx, dy, state);
  return TRUE;
}

/* With the keyboard on no handle, no handle tells its value. */
static void
focus_moved (PrBoard *board)
{
  if (board->held < 0 && pr_board_focused_grip (board) < 0 && board->bubble)
    pr_board_tell (board, -1);
}

void
pr_board_add_controllers (PrBoard *board)
{
  GtkWidget *widget = GTK_WIDGET (board);
  GtkEventController *move = gtk_event_controller_motion_new ();
  GtkEventController *wheel = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  GtkEventController *key = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  board->drag = gtk_gesture_drag_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (board->drag), 0);
  g_signal_connect (board->drag, "drag-begin", G_CALLBACK (drag_begin), board);
  g_signal_connect (board->drag, "drag-update", G_CALLBACK (drag_update), board);
  g_signal_connect (board->drag, "drag-end", G_CALLBACK (drag_end), board);
  g_signal_connect (board->drag, "cancel", G_CALLBACK (drag_cancel), board);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (board->drag));
  board->zoom = gtk_gesture_zoom_new ();
  g_signal_connect (board->zoom, "begin", G_CALLBACK (pinch_begin), board);
  g_signal_connect (board->zoom, "scale-changed", G_CALLBACK (pinch), board);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (board->zoom));
  g_signal_connect (move, "motion", G_CALLBACK (motion), board);
  g_signal_connect (move, "leave", G_CALLBACK (leave), board);
  gtk_widget_add_controller (widget, move);
  g_signal_connect (wheel, "scroll", G_CALLBACK (scroll), board);
  gtk_widget_add_controller (widget, wheel);
  gtk_event_controller_set_propagation_phase (key, GTK_PHASE_CAPTURE);
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed), board);
  gtk_widget_add_controller (widget, key);
  g_signal_connect_swapped (focus, "notify::is-focus", G_CALLBACK (focus_moved), board);
  g_signal_connect_swapped (focus, "notify::contains-focus", G_CALLBACK (focus_moved), board);
  gtk_widget_add_controller (widget, focus);
}
