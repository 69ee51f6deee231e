/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-board-drag.h"

#include <glib/gi18n-lib.h>
#include "pr-board-doubts.h"
#include "pr-document-marking.h"
#include "pr-handle-widget.h"
#include "pr-words.h"

#define THRESHOLD_PX 4.0 /* a shaking hand does not move anything */
#define SNAP_PX 6.0
#define ZOOM_STEP 1.15 /* one notch of the wheel */
#define REST_MS 500    /* the pointer on a handle, until that is named */
#define PAN_STEP_PX 40.0

/* --- moving a grip --- */

static void
move_mark (PrDrag *drag, PrPt to)
{
  PrLandmarks marks = drag->marks_start;
  PrSheetPt at = pr_foot_frame_out (&drag->frame_start, to);

  pr_mark_set (&marks, (PrLandmark) drag->held_start.mark, at);
  pr_document_preview_marks (drag->stage->doc, &marks);
}

static void
move_held (PrDrag *drag, PrPt to, double snap, unsigned flags)
{
  const PrJob *job = pr_board_stage_job (drag->stage);
  PrPlan plan;

  if (drag->held_start.mark >= 0) {
    move_mark (drag, to);
    return;
  }
  pr_handle_drag (&drag->held_start.handle, &job->hoof, pr_document_start_plan (drag->stage->doc),
                  drag->shoe_start, to, snap, flags, &plan);
  pr_document_preview (drag->stage->doc, &plan);
}

/* Remembers what stands, as the shoe in the job is made anew with each motion. */
static bool
take_hold (PrDrag *drag, int grip)
{
  const PrJob *job = pr_board_stage_job (drag->stage);

  g_clear_pointer (&drag->shoe_start, pr_shoe_free);
  drag->shoe_start = pr_shoe_new ();
  if (!pr_shoe_build (drag->shoe_start, &job->hoof, &job->sources.plan, NULL))
    return false;
  drag->held = grip;
  drag->held_start = drag->grips->grip[grip];
  drag->marks_start = job->sources.marks;
  drag->frame_start = job->hoof.frame;
  pr_document_begin (drag->stage->doc);
  return true;
}

static void
let_go (PrDrag *drag, bool keep, const char *tag)
{
  drag->held = -1;
  drag->moving = false;
  if (keep)
    pr_document_commit (drag->stage->doc, tag);
  else
    pr_document_cancel (drag->stage->doc);
  pr_grips_update (drag->grips);
}

/* --- heels that wait to be set --- */

static bool
held_waits (const PrDrag *drag)
{
  return drag->held >= 0 && drag->held_start.mark >= 0
         && pr_mark_waits (pr_board_stage_job (drag->stage), (PrLandmark) drag->held_start.mark);
}

/* Sets the one at GRIP where it stands. */
static void
set_waiting (PrDrag *drag, int grip, PrPt at)
{
  if (!take_hold (drag, grip))
    return;
  move_mark (drag, at);
  let_go (drag, true, NULL);
  pr_grips_tell (drag->grips, -1);
}

/* A click on the line sets the heel that may be there. FALSE: none may. */
static bool
click_sets_heel (PrDrag *drag, PrScreenPt p, double across)
{
  const PrJob *job = pr_board_stage_job (drag->stage);
  PrPt at;
  int mark = job && !drag->stage->under_way
                 ? pr_mark_waiting_at (job, pr_board_stage_in (drag->stage, p.x, p.y),
                                       across / 2 / drag->stage->view.scale, &at)
                 : -1;

  for (size_t i = 0; mark >= 0 && i < drag->grips->n; i++)
    if (drag->grips->grip[i].mark == mark) {
      set_waiting (drag, (int) i, at);
      return true;
    }
  return false;
}

/* --- names of handles, told where the pointer rests --- */

/* Back to the handle with the keyboard, if any has it. */
static void
unname (PrDrag *drag)
{
  g_clear_handle_id (&drag->resting, g_source_remove);
  drag->pointed = -1;
  if (!drag->named)
    return;
  drag->named = false;
  pr_grips_tell (drag->grips, pr_grips_focused (drag->grips));
}

static gboolean
rested (gpointer data)
{
  PrDrag *drag = data;

  drag->resting = 0;
  if (drag->held < 0 && !drag->stage->measuring && drag->pointed >= 0
      && drag->pointed < (int) drag->grips->n) {
    drag->named = true;
    pr_grips_tell (drag->grips, drag->pointed);
  }
  return G_SOURCE_REMOVE;
}

static void
point_at_grip (PrDrag *drag, int grip)
{
  pr_grips_light_up (drag->grips, grip);
  if (grip == drag->pointed)
    return;
  unname (drag);
  drag->pointed = grip;
  if (grip >= 0)
    drag->resting = g_timeout_add (REST_MS, rested, drag);
}

/* --- pointer --- */

/* How far what is pointed with reaches, px across. */
static double
reach (GtkGesture *gesture)
{
  GdkEvent *event = gtk_event_controller_get_current_event (GTK_EVENT_CONTROLLER (gesture));
  GdkDevice *device = event ? gdk_event_get_device (event) : NULL;

  return device && gdk_device_get_source (device) == GDK_SOURCE_TOUCHSCREEN ? PR_THUMB_PX : PR_GRAB_PX;
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
drag_begin (GtkGestureDrag *gesture, double x, double y, PrDrag *drag)
{
  int grip = pr_grips_at (drag->grips, x, y, reach (GTK_GESTURE (gesture)));

  unname (drag);
  drag->press.x = x;
  drag->press.y = y;
  drag->pan.x = drag->stage->view.x0;
  drag->pan.y = drag->stage->view.y0;
  drag->moving = false;
  drag->held = -1;
  if (!pr_board_stage_job (drag->stage) || pr_document_editing (drag->stage->doc))
    return;
  if (grip >= 0 && gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture)) == 1
      && take_hold (drag, grip)) {
    gtk_widget_grab_focus (drag->grips->widget[grip]);
    pr_grips_tell (drag->grips, grip);
  } else if (grip < 0) {
    gtk_widget_grab_focus (drag->stage->widget);
    pr_grips_tell (drag->grips, -1);
  }
}

static void
pan (PrDrag *drag, double dx, double dy)
{
  pr_view_move (&drag->stage->view, drag->pan.x + dx, drag->pan.y + dy);
  pr_board_stage_moved (drag->stage);
}

static void
drag_update (GtkGestureDrag *gesture, double dx, double dy, PrDrag *drag)
{
  PrPt from, to;

  if (!drag->moving && hypot (dx, dy) < THRESHOLD_PX)
    return;
  if (!drag->moving)
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  drag->moving = true;
  if (drag->held < 0) {
    pan (drag, dx, dy);
    return;
  }
  from = pr_board_stage_in (drag->stage, drag->press.x, drag->press.y);
  to = pr_board_stage_in (drag->stage, drag->press.x + dx, drag->press.y + dy);
  to = pr_pt_add (drag->held_start.handle.at, pr_pt_sub (to, from));
  move_held (drag, to, SNAP_PX / drag->stage->view.scale,
             drag_flags (gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture))));
}

/* Another foot's line that was pressed is taken. */
static void
press_other (PrDrag *drag)
{
  int nth = drag->stage->under_way ? -1 : pr_board_other_at (drag->stage, drag->press.x, drag->press.y);
  g_autoptr (GError) error = NULL;

  if (nth >= 0 && !pr_document_take_line (drag->stage->doc, (size_t) nth, &error))
    pr_document_trouble (drag->stage->doc, error->message);
}

static void
drag_end (GtkGestureDrag *gesture, double dx, double dy, PrDrag *drag)
{
  bool click = !drag->moving && gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (gesture)) == 1;

  if (click && held_waits (drag)) {
    move_mark (drag, drag->held_start.handle.at);
    let_go (drag, true, NULL);
    pr_grips_tell (drag->grips, -1);
  } else if (drag->held >= 0) {
    let_go (drag, drag->moving, NULL);
  } else if (click && drag->stage->doc && !pr_document_editing (drag->stage->doc)
             && !click_sets_heel (drag, drag->press, reach (GTK_GESTURE (gesture)))) {
    press_other (drag);
  }
  drag->moving = false;
}

/* The pointer was taken away from us: as with Escape, nothing has happened. */
static void
drag_cancel (GtkGesture *gesture, GdkEventSequence *sequence, PrDrag *drag)
{
  if (drag->held >= 0)
    let_go (drag, false, NULL);
  drag->moving = false;
}

/* Middle-line place under the pointer, when it is over the web; negative otherwise. */
static double
place_under (PrDrag *drag, double x, double y)
{
  const PrJob *job = pr_board_stage_job (drag->stage);

  return job && job->shoe && !drag->stage->under_way
             ? pr_shoe_s_under (job->shoe, pr_board_stage_in (drag->stage, x, y))
             : -1;
}

static void
motion (GtkEventControllerMotion *controller, double x, double y, PrDrag *drag)
{
  bool still = drag->pointer.x == x && drag->pointer.y == y;

  drag->pointer.x = x;
  drag->pointer.y = y;
  if (still || !drag->stage->doc || drag->held >= 0 || drag->moving)
    return;
  point_at_grip (drag, pr_grips_at (drag->grips, x, y, PR_GRAB_PX));
  g_signal_emit_by_name (drag->stage->widget, "hover", place_under (drag, x, y));
}

static void
leave (GtkEventControllerMotion *controller, PrDrag *drag)
{
  if (drag->held >= 0)
    return;
  point_at_grip (drag, -1);
  g_signal_emit_by_name (drag->stage->widget, "hover", -1.0);
}

/* The wheel zooms; two fingers on a touch pad pan, and with Ctrl they zoom too. */
static gboolean
scroll (GtkEventControllerScroll *controller, double dx, double dy, PrDrag *drag)
{
  GdkEvent *event = gtk_event_controller_get_current_event (GTK_EVENT_CONTROLLER (controller));
  GdkDevice *device = gdk_event_get_device (event);
  bool pad = device && gdk_device_get_source (device) == GDK_SOURCE_TOUCHPAD;
  bool ctrl = gdk_event_get_modifier_state (event) & GDK_CONTROL_MASK;

  if (drag->held >= 0)
    return TRUE;
  if (pad && !ctrl) {
    drag->pan.x = drag->stage->view.x0;
    drag->pan.y = drag->stage->view.y0;
    pan (drag, -dx * PAN_STEP_PX, -dy * PAN_STEP_PX);
  } else {
    pr_board_stage_zoom (drag->stage, pow (ZOOM_STEP, -dy), drag->pointer);
  }
  return TRUE;
}

static void
pinch_begin (GtkGesture *gesture, GdkEventSequence *sequence, PrDrag *drag)
{
  if (drag->held >= 0)
    let_go (drag, false, NULL);
  drag->zoom_start = drag->stage->view.scale;
}

static void
pinch (GtkGestureZoom *gesture, double factor, PrDrag *drag)
{
  PrScreenPt at;

  if (gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &at.x, &at.y))
    pr_board_stage_zoom (drag->stage, drag->zoom_start * factor / drag->stage->view.scale, at);
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
nudge (PrDrag *drag, int grip, double dx, double dy, GdkModifierType state)
{
  PrNudge nudge = state & GDK_CONTROL_MASK ? PR_NUDGE_FAR
                  : state & GDK_SHIFT_MASK ? PR_NUDGE_FINE
                                           : PR_NUDGE_USUAL;
  double step = pr_nudge_mm (nudge, pr_board_stage_job (drag->stage)->unit);
  g_autofree char *tag = g_strdup_printf ("nudge %d", grip);
  PrPt to;

  if (!take_hold (drag, grip))
    return;
  to = pr_pt_add (drag->held_start.handle.at, pr_pt (dx * step * drag->stage->view.sx, dy * step));
  move_held (drag, to, 0, PR_DRAG_FREE);
  let_go (drag, true, tag);
  pr_grips_tell (drag->grips, grip);
}

static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state, PrDrag *drag)
{
  int grip = pr_grips_focused (drag->grips);
  double dx, dy;

  if (key == GDK_KEY_Escape && drag->held >= 0) {
    let_go (drag, false, NULL);
    gtk_gesture_set_state (drag->drag, GTK_EVENT_SEQUENCE_DENIED);
    return TRUE;
  }
  if (key == GDK_KEY_Escape && (drag->grips->told >= 0 || drag->stage->ringed)) {
    pr_grips_tell (drag->grips, -1);
    pr_board_stage_ring (drag->stage, NULL, NULL);
    return TRUE;
  }
  if (grip < 0 || drag->held >= 0)
    return FALSE;
  if ((key == GDK_KEY_Return || key == GDK_KEY_KP_Enter || key == GDK_KEY_space)
      && drag->grips->grip[grip].mark >= 0
      && pr_mark_waits (pr_board_stage_job (drag->stage), (PrLandmark) drag->grips->grip[grip].mark)) {
    set_waiting (drag, grip, drag->grips->grip[grip].handle.at);
    return TRUE;
  }
  if (!arrow (key, &dx, &dy))
    return FALSE;
  nudge (drag, grip, dx, dy, state);
  return TRUE;
}

/* With the keyboard on no handle, no handle tells its value. */
static void
focus_moved (PrDrag *drag)
{
  if (drag->held < 0 && !drag->named && pr_grips_focused (drag->grips) < 0 && drag->grips->bubble)
    pr_grips_tell (drag->grips, -1);
}

static void
add_gestures (PrDrag *drag)
{
  GtkGesture *zoom = gtk_gesture_zoom_new ();

  drag->drag = gtk_gesture_drag_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag->drag), 0);
  g_signal_connect (drag->drag, "drag-begin", G_CALLBACK (drag_begin), drag);
  g_signal_connect (drag->drag, "drag-update", G_CALLBACK (drag_update), drag);
  g_signal_connect (drag->drag, "drag-end", G_CALLBACK (drag_end), drag);
  g_signal_connect (drag->drag, "cancel", G_CALLBACK (drag_cancel), drag);
  gtk_widget_add_controller (drag->stage->widget, GTK_EVENT_CONTROLLER (drag->drag));
  g_signal_connect (zoom, "begin", G_CALLBACK (pinch_begin), drag);
  g_signal_connect (zoom, "scale-changed", G_CALLBACK (pinch), drag);
  gtk_widget_add_controller (drag->stage->widget, GTK_EVENT_CONTROLLER (zoom));
}

static void
add_controllers (PrDrag *drag)
{
  GtkWidget *widget = drag->stage->widget;
  GtkEventController *move = gtk_event_controller_motion_new ();
  GtkEventController *wheel = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  GtkEventController *key = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  g_signal_connect (move, "motion", G_CALLBACK (motion), drag);
  g_signal_connect (move, "leave", G_CALLBACK (leave), drag);
  gtk_widget_add_controller (widget, move);
  g_signal_connect (wheel, "scroll", G_CALLBACK (scroll), drag);
  gtk_widget_add_controller (widget, wheel);
  gtk_event_controller_set_propagation_phase (key, GTK_PHASE_CAPTURE);
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed), drag);
  gtk_widget_add_controller (widget, key);
  g_signal_connect_swapped (focus, "notify::is-focus", G_CALLBACK (focus_moved), drag);
  g_signal_connect_swapped (focus, "notify::contains-focus", G_CALLBACK (focus_moved), drag);
  gtk_widget_add_controller (widget, focus);
}

void
pr_drag_start (PrDrag *drag, PrBoardStage *stage, PrGrips *grips)
{
  drag->stage = stage;
  drag->grips = grips;
  drag->held = drag->pointed = -1;
  add_gestures (drag);
  add_controllers (drag);
}

void
pr_drag_clear (PrDrag *drag)
{
  g_clear_handle_id (&drag->resting, g_source_remove);
  g_clear_pointer (&drag->shoe_start, pr_shoe_free);
}
