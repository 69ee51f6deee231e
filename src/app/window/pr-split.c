/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-split.h"

#include <glib/gi18n-lib.h>
#include "pr-colour.h"

#define WIDE_PX 32 /* what a thumb takes hold of */
#define KNOB_PX 11.0
#define LINE_PX 2.0f
#define HALO_PX 6.0f /* the line is seen on any photo */
#define STEP 0.02

struct _PrSplit {
  GtkWidget parent_instance;
  PrBoard *board; /* beside it in the same view, which both go with */
  double share;   /* of the width that is without the shoe */
  double from;    /* where a drag began */
};

G_DEFINE_FINAL_TYPE (PrSplit, pr_split, GTK_TYPE_WIDGET)

/* What the board does about it: nothing while the line is hidden. */
static void
tell_board (PrSplit *split)
{
  if (split->board)
    pr_board_set_split (split->board, gtk_widget_get_visible (GTK_WIDGET (split)) ? split->share : 0);
}

static void
move_to (PrSplit *split, double share)
{
  g_autofree char *told = NULL;

  split->share = CLAMP (share, 0, 1);
  told = g_strdup_printf (_ ("%.0f %% without the shoe"), 100 * split->share);
  gtk_accessible_update_property (GTK_ACCESSIBLE (split), GTK_ACCESSIBLE_PROPERTY_VALUE_NOW,
                                  100 * split->share, GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, told, -1);
  gtk_widget_queue_draw (GTK_WIDGET (split));
  tell_board (split);
}

static double
line_px (PrSplit *split)
{
  return split->share * gtk_widget_get_width (GTK_WIDGET (split));
}

static void
drag_begin (PrSplit *split)
{
  split->from = line_px (split);
  gtk_widget_grab_focus (GTK_WIDGET (split));
}

static void
drag_update (GtkGestureDrag *gesture, double dx, double dy, PrSplit *split)
{
  move_to (split, (split->from + dx) / MAX (gtk_widget_get_width (GTK_WIDGET (split)), 1));
}

static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state, PrSplit *split)
{
  static const struct {
    guint key;
    double by, to; /* TO counts where BY is 0 */
  } keys[] = {
    { GDK_KEY_Left, -STEP, 0 }, { GDK_KEY_Right, STEP, 0 }, { GDK_KEY_Home, 0, 0 }, { GDK_KEY_End, 0, 1 }
  };

  for (size_t i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i].key == key) {
      move_to (split, keys[i].by != 0 ? split->share + keys[i].by : keys[i].to);
      return TRUE;
    }
  return FALSE;
}

/* --- the widget --- */

/* Only the line itself is in the way of the board below. */
static gboolean
pr_split_contains (GtkWidget *widget, double x, double y)
{
  return fabs (x - line_px (PR_SPLIT (widget))) <= WIDE_PX / 2.0;
}

static void
append_knob (PrSplit *split, GtkSnapshot *snapshot, float x, const GdkRGBA *paper, const GdkRGBA *ink)
{
  GtkWidget *widget = GTK_WIDGET (split);
  double y = gtk_widget_get_height (widget) / 2.0, r = KNOB_PX + (gtk_widget_has_focus (widget) ? 3 : 0);
  cairo_t *cr
      = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (x - (float) r - 2, (float) (y - r) - 2,
                                                                  2 * (float) r + 4, 2 * (float) r + 4));

  cairo_arc (cr, (double) x, y, r, 0, 2 * G_PI);
  gdk_cairo_set_source_rgba (cr, paper);
  cairo_fill_preserve (cr);
  gdk_cairo_set_source_rgba (cr, ink);
  cairo_set_line_width (cr, LINE_PX);
  cairo_stroke (cr);
  for (int side = -1; side <= 1; side += 2) { /* an arrow each way */
    cairo_move_to (cr, (double) x + side * 3, y - 4);
    cairo_line_to (cr, (double) x + side * 7, y);
    cairo_line_to (cr, (double) x + side * 3, y + 4);
    cairo_fill (cr);
  }
  cairo_destroy (cr);
}

static void
pr_split_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  GdkRGBA paper = pr_colour (widget, "pr_paper"), ink = pr_colour (widget, "pr_teal");
  float x = (float) line_px (PR_SPLIT (widget)), height = (float) gtk_widget_get_height (widget);

  gtk_snapshot_append_color (snapshot, &paper, &GRAPHENE_RECT_INIT (x - HALO_PX / 2, 0, HALO_PX, height));
  gtk_snapshot_append_color (snapshot, &ink, &GRAPHENE_RECT_INIT (x - LINE_PX / 2, 0, LINE_PX, height));
  append_knob (PR_SPLIT (widget), snapshot, x, &paper, &ink);
}

void
pr_split_set_board (PrSplit *split, PrBoard *board)
{
  split->board = board;
  tell_board (split);
}

static void
pr_split_init (PrSplit *split)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  GtkEventController *key = gtk_event_controller_key_new ();

  g_signal_connect_swapped (drag, "drag-begin", G_CALLBACK (drag_begin), split);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update), split);
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed), split);
  g_signal_connect (split, "notify::visible", G_CALLBACK (tell_board), NULL);
  gtk_widget_add_controller (GTK_WIDGET (split), GTK_EVENT_CONTROLLER (drag));
  gtk_widget_add_controller (GTK_WIDGET (split), key);
  gtk_widget_set_focusable (GTK_WIDGET (split), TRUE);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (split), "ew-resize");
  gtk_accessible_update_property (GTK_ACCESSIBLE (split), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Before and after"), GTK_ACCESSIBLE_PROPERTY_VALUE_MIN, 0.0,
                                  GTK_ACCESSIBLE_PROPERTY_VALUE_MAX, 100.0, -1);
  move_to (split, 0.5);
}

static void
pr_split_class_init (PrSplitClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  widget_class->contains = pr_split_contains;
  widget_class->snapshot = pr_split_snapshot;
  gtk_widget_class_set_css_name (widget_class, "split");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_SLIDER);
}
