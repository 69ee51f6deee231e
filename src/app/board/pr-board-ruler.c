/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-board-ruler.h"

#include <glib/gi18n-lib.h>
#include "pr-colour.h"
#include "pr-words.h"

#define CROSS_PX 7.0
#define LINE_PX 2.0
#define BOX_PAD_PX 5.0
#define WORDS_OFF_X_PX 52.0 /* half of “123.4 mm”, and some air */
#define WORDS_OFF_Y_PX 26.0

static char *
distance_text (const PrRuler *ruler)
{
  return pr_words_length (pr_pt_dist (ruler->at[0], ruler->at[1]), pr_document_unit (ruler->stage->doc));
}

/* What is read on the board is told to a screen reader too. */
static void
describe (PrRuler *ruler)
{
  g_autofree char *text = NULL;

  if (ruler->n == 2)
    text = distance_text (ruler);
  else if (ruler->on)
    text = g_strdup (_ ("Click two points; Escape leaves"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (ruler->stage->widget), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  text ? text : "", -1);
  gtk_widget_queue_draw (ruler->stage->widget);
}

void
pr_ruler_set (PrRuler *ruler, bool on)
{
  GtkWidget *widget = ruler->stage->widget;

  if (ruler->on == on)
    return;
  ruler->on = on;
  ruler->n = 0;
  ruler->stage->cursor = on ? "crosshair" : NULL;
  gtk_widget_set_cursor_from_name (widget, ruler->stage->cursor);
  if (on)
    gtk_widget_grab_focus (widget); /* so that Escape comes here */
  describe (ruler);
}

/* --- pointer and keys --- */

static void
pressed (GtkGestureClick *gesture, int n, double x, double y, PrRuler *ruler)
{
  if (!ruler->on) {
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_DENIED);
    return;
  }
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  if (ruler->n == 2)
    ruler->n = 0;
  ruler->at[ruler->n++] = pr_board_stage_in (ruler->stage, x, y);
  ruler->to = ruler->at[0];
  gtk_widget_grab_focus (ruler->stage->widget);
  describe (ruler);
}

static void
motion (GtkEventControllerMotion *controller, double x, double y, PrRuler *ruler)
{
  if (!ruler->on || ruler->n != 1)
    return;
  ruler->to = pr_board_stage_in (ruler->stage, x, y);
  gtk_widget_queue_draw (ruler->stage->widget);
}

static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state, PrRuler *ruler)
{
  bool plain = !(state & (GDK_CONTROL_MASK | GDK_ALT_MASK));

  if (!(plain && (key == GDK_KEY_m || key == GDK_KEY_M)) && !(key == GDK_KEY_Escape && ruler->on))
    return FALSE;
  return gtk_widget_activate_action (ruler->stage->widget, "win.measure", NULL);
}

void
pr_ruler_start (PrRuler *ruler, PrBoardStage *stage)
{
  GtkGesture *click = gtk_gesture_click_new ();
  GtkEventController *move = gtk_event_controller_motion_new (), *key = gtk_event_controller_key_new ();

  ruler->stage = stage;
  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (click), GTK_PHASE_CAPTURE);
  g_signal_connect (click, "pressed", G_CALLBACK (pressed), ruler);
  gtk_widget_add_controller (stage->widget, GTK_EVENT_CONTROLLER (click));
  g_signal_connect (move, "motion", G_CALLBACK (motion), ruler);
  gtk_widget_add_controller (stage->widget, move);
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed), ruler);
  gtk_widget_add_controller (stage->widget, key);
}

/* --- drawing --- */

/* Words on a dark box, their middle at X, Y, kept on the board. */
static void
append_words (const PrRuler *ruler, GtkSnapshot *snapshot, double x, double y, const char *words)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (ruler->stage->widget, words);
  GdkRGBA ink = pr_colour (ruler->stage->widget, "pr_ink"),
          paper = pr_colour (ruler->stage->widget, "pr_paper");
  int width, height;
  double w, h;

  pango_layout_get_pixel_size (layout, &width, &height);
  w = width + 2 * BOX_PAD_PX;
  h = height + 2 * BOX_PAD_PX;
  x = CLAMP (x - w / 2, 0, MAX (ruler->stage->width - w, 0));
  y = CLAMP (y - h / 2, 0, MAX (ruler->stage->height - h, 0));
  gtk_snapshot_append_color (snapshot, &ink,
                             &GRAPHENE_RECT_INIT ((float) x, (float) y, (float) w, (float) h));
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot,
                          &GRAPHENE_POINT_INIT ((float) (x + BOX_PAD_PX), (float) (y + BOX_PAD_PX)));
  gtk_snapshot_append_layout (snapshot, layout, &paper);
  gtk_snapshot_restore (snapshot);
}

static void
cross (cairo_t *cr, PrScreenPt p)
{
  cairo_move_to (cr, p.x - CROSS_PX, p.y);
  cairo_line_to (cr, p.x + CROSS_PX, p.y);
  cairo_move_to (cr, p.x, p.y - CROSS_PX);
  cairo_line_to (cr, p.x, p.y + CROSS_PX);
  cairo_stroke (cr);
}

static void
append_line (const PrRuler *ruler, GtkSnapshot *snapshot, PrScreenPt a, PrScreenPt b)
{
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) ruler->stage->width,
                                                                          (float) ruler->stage->height));

  pr_colour_use (cr, ruler->stage->widget, "pr_teal");
  cairo_set_line_width (cr, LINE_PX);
  cross (cr, a);
  cross (cr, b);
  cairo_move_to (cr, a.x, a.y);
  cairo_line_to (cr, b.x, b.y);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

void
pr_ruler_append (const PrRuler *ruler, GtkSnapshot *snapshot)
{
  g_autofree char *words = NULL;
  PrScreenPt a, b;
  PrPt to;

  if (!ruler->on)
    return;
  if (ruler->n < 2)
    append_words (ruler, snapshot, ruler->stage->width / 2.0, 24, _ ("Click two points; Escape leaves"));
  if (ruler->n == 0)
    return;
  to = ruler->n == 2 ? ruler->at[1] : ruler->to;
  a = pr_board_stage_out (ruler->stage, ruler->at[0]);
  b = pr_board_stage_out (ruler->stage, to);
  append_line (ruler, snapshot, a, b);
  words = pr_words_length (pr_pt_dist (ruler->at[0], to), pr_document_unit (ruler->stage->doc));
  if (fabs (a.x - b.x) > fabs (a.y - b.y)) /* beside the line, not over its ends */
    append_words (ruler, snapshot, (a.x + b.x) / 2, (a.y + b.y) / 2 - WORDS_OFF_Y_PX, words);
  else
    append_words (ruler, snapshot, (a.x + b.x) / 2 + WORDS_OFF_X_PX, (a.y + b.y) / 2, words);
}
