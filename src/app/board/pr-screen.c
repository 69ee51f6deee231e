/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-screen.h"

#include <glib/gi18n-lib.h>
#include "pr-dialogs.h"
#include "pr-settings.h"

/* ISO/IEC 7810, ID-1, mm; the corner may be 2.88 to 3.48 */
#define CARD_WIDTH 85.60
#define CARD_HEIGHT 53.98
#define CARD_CORNER 3.18
#define RULE_MM 100.0

#define FINE_STEP 0.005 /* px per mm by an arrow key: less than half a pixel of the card */
#define COARSE_STEP 0.1
#define LEAST_WIDTH 600  /* px of the drawing */
#define GAP_PX 34        /* between card and rule, with the words in it */
#define TALL_PX 26       /* the rule's longest line */
#define AROUND_PX 340    /* what the dialog has above and below the drawing */
#define SURE_MOST 8.0    /* px per mm that can be reached on any screen, however small */
#define TRUE_SHARE 0.005 /* nearer to 1 than this the board stands at 1:1 */

typedef struct {
  PrBoard *board;
  GtkWidget *window, *scale, *area, *figure;
} Measuring;

static void
measuring_free (Measuring *m)
{
  g_object_unref (m->board);
  g_free (m);
}

static double
px_per_mm (Measuring *m)
{
  return gtk_range_get_value (GTK_RANGE (m->scale));
}

/* --- drawing --- */

/* The filled figure is the card's size; its edge is drawn inside it. */
static void
card_path (cairo_t *cr, double k, double inset)
{
  double w = CARD_WIDTH * k - inset, h = CARD_HEIGHT * k - inset, r = CARD_CORNER * k - inset;

  cairo_new_sub_path (cr);
  cairo_arc (cr, w - r, inset + r, r, -G_PI_2, 0);
  cairo_arc (cr, w - r, h - r, r, 0, G_PI_2);
  cairo_arc (cr, inset + r, h - r, r, G_PI_2, G_PI);
  cairo_arc (cr, inset + r, inset + r, r, G_PI, 3 * G_PI_2);
  cairo_close_path (cr);
}

/* RIGHT: ends at X instead of beginning there. */
static void
draw_words (GtkWidget *widget, cairo_t *cr, const char *text, double x, double y, bool right)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (widget, text);
  int width, height;

  pango_layout_get_pixel_size (layout, &width, &height);
  cairo_move_to (cr, right ? x - width : x, y);
  pango_cairo_show_layout (cr, layout);
}

static void
draw_card (GtkWidget *widget, cairo_t *cr, const GdkRGBA *ink, double k)
{
  card_path (cr, k, 0);
  cairo_set_source_rgba (cr, ink->red, ink->green, ink->blue, 0.16);
  cairo_fill (cr);
  card_path (cr, k, 1);
  gdk_cairo_set_source_rgba (cr, ink);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);
  draw_words (widget, cr, _ ("bank card"), 5 * k, 4 * k, false);
}

static void
draw_rule (GtkWidget *widget, cairo_t *cr, double k, double y)
{
  cairo_set_line_width (cr, 1);
  for (int mm = 0; mm <= (int) RULE_MM; mm++) {
    double x = floor (mm * k) + 0.5, tall = mm % 10 == 0 ? TALL_PX : mm % 5 == 0 ? 18 : 10;

    if (k < 2.2 && mm % 5 != 0)
      continue;
    cairo_move_to (cr, x, y);
    cairo_line_to (cr, x, y - tall);
  }
  cairo_stroke (cr);
  draw_words (widget, cr, "0", 0, y - TALL_PX - 20, false);
  draw_words (widget, cr, _ ("100 mm"), RULE_MM * k + 1, y - TALL_PX - 20, true);
}

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  GtkWidget *widget = GTK_WIDGET (area);
  double k = px_per_mm (data);
  GdkRGBA ink;

  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &ink);
  draw_card (widget, cr, &ink, k);
  draw_rule (widget, cr, k, ceil (CARD_HEIGHT * k) + GAP_PX + TALL_PX);
}

/* --- sliding --- */

static void
size_changed (Measuring *m)
{
  double k = px_per_mm (m);
  g_autofree char *figure = g_strdup_printf (_ ("%.2f pixels in a millimetre"), k);

  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (m->area),
                                      (int) MAX (LEAST_WIDTH, ceil (RULE_MM * k) + 2));
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (m->area),
                                       (int) ceil (CARD_HEIGHT * k) + GAP_PX + TALL_PX + 1);
  gtk_label_set_text (GTK_LABEL (m->figure), figure);
  gtk_widget_queue_draw (m->area);
}

/* As far as card and rule, and the dialog round them, have room on the screen. */
static double
most (PrBoard *board)
{
  GdkRectangle screen;

  if (!pr_board_monitor (board, &screen))
    return SURE_MOST;
  return CLAMP (MIN (screen.width / (RULE_MM + 10), (screen.height - AROUND_PX) / CARD_HEIGHT), SURE_MOST,
                PR_SCREEN_MOST);
}

static GtkWidget *
scale_new (Measuring *m)
{
  GtkWidget *scale
      = gtk_scale_new_with_range (GTK_ORIENTATION_HORIZONTAL, PR_SCREEN_LEAST, most (m->board), FINE_STEP);

  gtk_scale_set_digits (GTK_SCALE (scale), 4);
  gtk_scale_set_draw_value (GTK_SCALE (scale), FALSE);
  gtk_range_set_increments (GTK_RANGE (scale), FINE_STEP, COARSE_STEP);
  gtk_range_set_value (GTK_RANGE (scale), pr_board_screen (m->board));
  gtk_accessible_update_property (GTK_ACCESSIBLE (scale), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Size of the card"), -1);
  g_signal_connect_swapped (scale, "value-changed", G_CALLBACK (size_changed), m);
  return scale;
}

/* --- the dialog --- */

static void
fits (Measuring *m)
{
  bool at_true_size = fabs (pr_board_share (m->board) - 1) < TRUE_SHARE;
  double k = px_per_mm (m);

  pr_settings_keep ("screen-px-per-mm", g_variant_new_double (k));
  pr_board_set_screen (m->board, k);
  if (at_true_size)
    pr_board_true_size (m->board);
  gtk_window_destroy (GTK_WINDOW (m->window));
}

static GtkWidget *
buttons (Measuring *m)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *cancel = gtk_button_new_with_mnemonic (_ ("_Cancel")),
            *done = gtk_button_new_with_mnemonic (_ ("It _fits"));

  m->figure = gtk_label_new (NULL);
  gtk_widget_add_css_class (m->figure, "hint");
  gtk_widget_add_css_class (m->figure, "figure");
  gtk_widget_set_hexpand (m->figure, TRUE);
  gtk_label_set_xalign (GTK_LABEL (m->figure), 0);
  gtk_widget_add_css_class (done, "main");
  g_signal_connect_swapped (cancel, "clicked", G_CALLBACK (gtk_window_destroy), m->window);
  g_signal_connect_swapped (done, "clicked", G_CALLBACK (fits), m);
  gtk_window_set_default_widget (GTK_WINDOW (m->window), done);
  gtk_box_append (GTK_BOX (row), m->figure);
  gtk_box_append (GTK_BOX (row), cancel);
  gtk_box_append (GTK_BOX (row), done);
  return row;
}

/* The slider lies above what grows with it. */
static void
fill (Measuring *m, GtkWidget *box)
{
  GtkWidget *end = buttons (m);

  m->area = gtk_drawing_area_new ();
  m->scale = scale_new (m);
  gtk_widget_add_css_class (m->area, "card");
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (m->area), draw, m, NULL);
  gtk_box_append (GTK_BOX (box),
                  pr_dialog_words (_ ("Lay a bank card on the screen, its left and upper edge on those of "
                                      "the outline, and slide until the outline "
                                      "is as large as the card. Or hold a rule to the line below: it is 100 "
                                      "mm long then. Arrow keys move finely.")));
  gtk_box_append (GTK_BOX (box), m->scale);
  gtk_box_append (GTK_BOX (box), m->area);
  gtk_box_append (GTK_BOX (box), end);
  size_changed (m);
}

void
pr_measure_screen (GtkWindow *parent, PrBoard *board)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  Measuring *m = g_new0 (Measuring, 1);

  m->board = g_object_ref (board);
  m->window = pr_dialog_new (parent, _ ("Measure this screen"), box);
  g_object_set_data_full (G_OBJECT (m->window), "pr-measuring", m, (GDestroyNotify) measuring_free);
  fill (m, box);
  gtk_window_present (GTK_WINDOW (m->window));
  gtk_widget_grab_focus (m->scale);
}
