/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-screen.h"

#include <glib/gi18n-lib.h>
#include "pr-colour.h"
#include "pr-look.h"
#include "pr-settings.h"
#include "pr-sheet.h"

#define RULE_MM 100.0
#define RULE_INCHES 4

#define FINE_STEP 0.005 /* px per mm by an arrow key: less than half a pixel of the card */
#define COARSE_STEP 0.1
#define LEAST_WIDTH 600  /* px of the drawing */
#define GAP_PX 34        /* between card and rule, with the words in it */
#define TALL_PX 26       /* the rule's longest line */
#define AROUND_PX 340    /* what the dialog has above and below the drawing */
#define SURE_MOST 8.0    /* px per mm that can be reached on any screen, however small */
#define TRUE_SHARE 0.005 /* nearer to 1 than this the board stands at 1:1 */

struct _PrScreen {
  GtkWindow parent_instance;
  PrBoard *board;
  GtkAdjustment *size; /* px per mm */
  GtkDrawingArea *area;
  GtkLabel *figure;
};

G_DEFINE_FINAL_TYPE (PrScreen, pr_screen, GTK_TYPE_WINDOW)

/* --- drawing --- */

static bool
in_inches (void)
{
  return pr_settings_unit () == PR_UNIT_INCH;
}

static double
rule_mm (void)
{
  return in_inches () ? RULE_INCHES * PR_MM_PER_INCH : RULE_MM;
}

/* The filled figure is the card's size; its edge is drawn inside it. */
static void
card_path (cairo_t *cr, double k, double inset)
{
  double w = PR_CARD_LONG_MM * k - inset, h = PR_CARD_SHORT_MM * k - inset, r = PR_CARD_CORNER_MM * k - inset;

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
  bool inch = in_inches ();
  int steps = inch ? 16 : 10, half = steps / 2;
  double step = inch ? PR_MM_PER_INCH / steps * k : k;

  cairo_set_line_width (cr, 1);
  for (int i = 0; i <= (inch ? RULE_INCHES * steps : (int) RULE_MM); i++) {
    double x = floor (i * step) + 0.5, tall = i % steps == 0 ? TALL_PX : i % half == 0 ? 18 : 10;

    if (step < 2.2 && i % half != 0)
      continue;
    cairo_move_to (cr, x, y);
    cairo_line_to (cr, x, y - tall);
  }
  cairo_stroke (cr);
  draw_words (widget, cr, "0", 0, y - TALL_PX - 20, false);
  draw_words (widget, cr, inch ? _ ("4 in") : _ ("100 mm"), rule_mm () * k + 1, y - TALL_PX - 20, true);
}

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  GtkWidget *widget = GTK_WIDGET (area);
  double k = gtk_adjustment_get_value (((PrScreen *) data)->size);
  GdkRGBA ink = pr_colour_of_text (widget);

  draw_card (widget, cr, &ink, k);
  draw_rule (widget, cr, k, ceil (PR_CARD_SHORT_MM * k) + GAP_PX + TALL_PX);
}

/* --- sliding --- */

static void
size_changed (PrScreen *self)
{
  double k = gtk_adjustment_get_value (self->size);
  g_autofree char *figure = in_inches () ? g_strdup_printf (_ ("%.1f pixels in an inch"), k * PR_MM_PER_INCH)
                                         : g_strdup_printf (_ ("%.2f pixels in a millimetre"), k);

  gtk_drawing_area_set_content_width (self->area, (int) MAX (LEAST_WIDTH, ceil (rule_mm () * k) + 2));
  gtk_drawing_area_set_content_height (self->area, (int) ceil (PR_CARD_SHORT_MM * k) + GAP_PX + TALL_PX + 1);
  gtk_label_set_text (self->figure, figure);
  gtk_widget_queue_draw (GTK_WIDGET (self->area));
}

/* As far as card and rule, and the dialog round them, have room on the screen. */
static double
most (PrBoard *board)
{
  GdkRectangle screen;

  if (!pr_board_monitor (board, &screen))
    return SURE_MOST;
  return CLAMP (MIN (screen.width / (rule_mm () + 10), (screen.height - AROUND_PX) / PR_CARD_SHORT_MM),
                SURE_MOST, PR_SCREEN_MOST);
}

/* --- the dialog --- */

static void
fits (PrScreen *self)
{
  bool at_true_size = fabs (pr_board_share (self->board) - 1) < TRUE_SHARE;
  double k = gtk_adjustment_get_value (self->size);

  pr_settings_keep ("screen-px-per-mm", g_variant_new_double (k));
  pr_board_set_screen (self->board, k);
  if (at_true_size)
    pr_board_true_size (self->board);
  gtk_window_destroy (GTK_WINDOW (self));
}

static void
pr_screen_dispose (GObject *object)
{
  g_clear_object (&PR_SCREEN (object)->board);
  G_OBJECT_CLASS (pr_screen_parent_class)->dispose (object);
}

static void
pr_screen_init (PrScreen *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_drawing_area_set_draw_func (self->area, draw, self, NULL);
  pr_look_escape_closes (GTK_WINDOW (self));
}

static void
pr_screen_class_init (PrScreenClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_screen_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/screen.ui");
  gtk_widget_class_bind_template_child (widget_class, PrScreen, size);
  gtk_widget_class_bind_template_child (widget_class, PrScreen, area);
  gtk_widget_class_bind_template_child (widget_class, PrScreen, figure);
  gtk_widget_class_bind_template_callback (widget_class, size_changed);
  gtk_widget_class_bind_template_callback (widget_class, fits);
}

void
pr_measure_screen (GtkWindow *parent, PrBoard *board)
{
  PrScreen *self = g_object_new (PR_TYPE_SCREEN, "transient-for", parent, NULL);

  self->board = g_object_ref (board);
  gtk_adjustment_configure (self->size, pr_board_screen (board), PR_SCREEN_LEAST, most (board), FINE_STEP,
                            COARSE_STEP, 0);
  size_changed (self);
  gtk_window_present (GTK_WINDOW (self));
}
