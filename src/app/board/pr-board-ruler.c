/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measuring between two points of the board: click, click, read. While it lasts no handle is taken hold of. */
#include "pr-board-private.h"

#include <glib/gi18n-lib.h>
#include "pr-words.h"

#define CROSS_PX 7.0
#define LINE_PX 2.0
#define BOX_PAD_PX 5.0
#define WORDS_OFF_X_PX 52.0 /* half of “123.4 mm”, and some air */
#define WORDS_OFF_Y_PX 26.0

static GdkRGBA
colour (PrBoard *board, const char *name)
{
  GdkRGBA found = { 0.5f, 0.5f, 0.5f, 1 };

  gtk_style_context_lookup_color (gtk_widget_get_style_context (GTK_WIDGET (board)), name, &found);
  return found;
}

static char *
distance_text (PrBoard *board)
{
  return pr_words_length (pr_pt_dist (board->measured[0], board->measured[1]), pr_document_unit (board->doc));
}

/* What is read on the board is told to a screen reader too. */
static void
describe (PrBoard *board)
{
  g_autofree char *text = NULL;

  if (board->n_measured == 2)
    text = distance_text (board);
  else if (board->measuring)
    text = g_strdup (_ ("Click two points; Escape leaves"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (board), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  text ? text : "", -1);
  gtk_widget_queue_draw (GTK_WIDGET (board));
}

void
pr_board_set_measuring (PrBoard *board, bool measuring)
{
  if (board->measuring == measuring)
    return;
  board->measuring = measuring;
  board->n_measured = 0;
  gtk_widget_set_cursor_from_name (GTK_WIDGET (board), measuring ? "crosshair" : NULL);
  if (measuring)
    gtk_widget_grab_focus (GTK_WIDGET (board)); /* so that Escape comes here */
  pr_board_update_grips (board);
  describe (board);
}

/* --- pointer and keys --- */

static void
pressed (GtkGestureClick *gesture, int n, double x, double y, PrBoard *board)
{
  if (!board->measuring) {
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_DENIED);
    return;
  }
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  if (board->n_measured == 2)
    board->n_measured = 0;
  board->measured[board->n_measured++] = pr_board_to_foot (board, x, y);
  board->measure_to = board->measured[0];
  gtk_widget_grab_focus (GTK_WIDGET (board));
  describe (board);
}

static void
motion (GtkEventControllerMotion *controller, double x, double y, PrBoard *board)
{
  if (!board->measuring || board->n_measured != 1)
    return;
  board->measure_to = pr_board_to_foot (board, x, y);
  gtk_widget_queue_draw (GTK_WIDGET (board));
}

static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state, PrBoard *board)
{
  bool plain = !(state & (GDK_CONTROL_MASK | GDK_ALT_MASK));

  if (!(plain && (key == GDK_KEY_m || key == GDK_KEY_M)) && !(key == GDK_KEY_Escape && board->measuring))
    return FALSE;
  return gtk_widget_activate_action (GTK_WIDGET (board), "win.measure", NULL);
}

void
pr_board_add_measuring (PrBoard *board)
{
  GtkGesture *click = gtk_gesture_click_new ();
  GtkEventController *move = gtk_event_controller_motion_new (), *key = gtk_event_controller_key_new ();

  gtk_event_controller_set_propagation_phase (GTK_EVENT_CONTROLLER (click), GTK_PHASE_CAPTURE);
  g_signal_connect (click, "pressed", G_CALLBACK (pressed), board);
  gtk_widget_add_controller (GTK_WIDGET (board), GTK_EVENT_CONTROLLER (click));
  g_signal_connect (move, "motion", G_CALLBACK (motion), board);
  gtk_widget_add_controller (GTK_WIDGET (board), move);
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed), board);
  gtk_widget_add_controller (GTK_WIDGET (board), key);
}

/* --- drawing --- */

/* Words on a dark box, their middle at X, Y, kept on the board. */
static void
append_words (PrBoard *board, GtkSnapshot *snapshot, double x, double y, const char *words)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (board), words);
  GdkRGBA ink = colour (board, "pr_ink"), paper = colour (board, "pr_paper");
  int width, height;
  double w, h;

  pango_layout_get_pixel_size (layout, &width, &height);
  w = width + 2 * BOX_PAD_PX;
  h = height + 2 * BOX_PAD_PX;
  x = CLAMP (x - w / 2, 0, MAX (board->width - w, 0));
  y = CLAMP (y - h / 2, 0, MAX (board->height - h, 0));
  gtk_snapshot_append_color (snapshot, &ink,
                             &GRAPHENE_RECT_INIT ((float) x, (float) y, (float) w, (float) h));
  gtk_snapshot_save (snapshot);
  gtk_snapshot_translate (snapshot,
                          &GRAPHENE_POINT_INIT ((float) (x + BOX_PAD_PX), (float) (y + BOX_PAD_PX)));
  gtk_snapshot_append_layout (snapshot, layout, &paper);
  gtk_snapshot_restore (snapshot);
}

static void
cross (cairo_t *cr, PrBoardPt p)
{
  cairo_move_to (cr, p.x - CROSS_PX, p.y);
  cairo_line_to (cr, p.x + CROSS_PX, p.y);
  cairo_move_to (cr, p.x, p.y - CROSS_PX);
  cairo_line_to (cr, p.x, p.y + CROSS_PX);
  cairo_stroke (cr);
}

static void
append_line (PrBoard *board, GtkSnapshot *snapshot, PrBoardPt a, PrBoardPt b)
{
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) board->width,
                                                                          (float) board->height));
  GdkRGBA teal = colour (board, "pr_teal");

  gdk_cairo_set_source_rgba (cr, &teal);
  cairo_set_line_width (cr, LINE_PX);
  cross (cr, a);
  cross (cr, b);
  cairo_move_to (cr, a.x, a.y);
  cairo_line_to (cr, b.x, b.y);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

void
pr_board_append_measure (PrBoard *board, GtkSnapshot *snapshot)
{
  g_autofree char *words = NULL;
  PrBoardPt a, b;
  PrPt to;

  if (!board->measuring)
    return;
  if (board->n_measured < 2)
    append_words (board, snapshot, board->width / 2.0, 24, _ ("Click two points; Escape leaves"));
  if (board->n_measured == 0)
    return;
  to = board->n_measured == 2 ? board->measured[1] : board->measure_to;
  a = pr_board_from_foot (board, board->measured[0]);
  b = pr_board_from_foot (board, to);
  append_line (board, snapshot, a, b);
  words = pr_words_length (pr_pt_dist (board->measured[0], to), pr_document_unit (board->doc));
  if (fabs (a.x - b.x) > fabs (a.y - b.y)) /* beside the line, not over its ends */
    append_words (board, snapshot, (a.x + b.x) / 2, (a.y + b.y) / 2 - WORDS_OFF_Y_PX, words);
  else
    append_words (board, snapshot, (a.x + b.x) / 2 + WORDS_OFF_X_PX, (a.y + b.y) / 2, words);
}
