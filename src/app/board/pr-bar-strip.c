/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-bar-strip.h"

#include <glib/gi18n-lib.h>
#include "pr-screen-flags.h"
#include "pr-words.h"

#define SIDE_PX 20.0 /* left free at both ends */
#define TOP_PX 27.0  /* title */
#define FLAG_ROWS 2  /* rows of names above, of distances below */
#define ROW_PX 15.0
#define BAR_PX 30.0
#define PIECE_PX 16.0    /* further pieces, each a thinner bar */
#define MAX_STOPS 64     /* of the gradient: finer than the eye sees */
#define STRAIN_FULL 0.30 /* e at which the colour is at its strongest */
#define STRAIN_SAME 0.02 /* smaller than this is "as the bar" */

struct _PrBarStrip {
  GtkWidget parent_instance;
  PrDocument *doc;
  GskRenderNode *drawn; /* kept until the job or the size changes */
  double hover_s;
};

enum { HOVER, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrBarStrip, pr_bar_strip, GTK_TYPE_WIDGET)

static const PrJob *
strip_job (PrBarStrip *strip)
{
  const PrJob *job = strip->doc ? pr_document_job (strip->doc) : NULL;
  return job && job->shoe && job->iron.n_pieces > 0 ? job : NULL;
}

/* What the strip's width stands for: what is given or what is needed, whichever is longer. */
static double
shown_length (const PrJob *job)
{
  return MAX (MAX (job->iron.given, job->iron.needed), 1);
}

static double
px_per_mm (PrBarStrip *strip, const PrJob *job)
{
  return MAX (gtk_widget_get_width (GTK_WIDGET (strip)) - 2 * SIDE_PX, 1) / shown_length (job);
}

static double
bar_top (void)
{
  return TOP_PX + FLAG_ROWS * ROW_PX + 5;
}

/* --- drawing --- */

typedef struct {
  cairo_t *cr;
  GtkWidget *widget;
  const PrJob *job;
  double k; /* px per mm */
  GdkRGBA ink, soft, steel, draw, upset;
} Pen;

static void
colour (Pen *pen, const char *name, GdkRGBA *out)
{
  if (!gtk_style_context_lookup_color (gtk_widget_get_style_context (pen->widget), name, out))
    gdk_rgba_parse (out, "gray");
}

static void
rgba_mix (const GdkRGBA *a, const GdkRGBA *b, double t, GdkRGBA *out)
{
  float k = (float) t;

  *out = (GdkRGBA){ a->red + (b->red - a->red) * k, a->green + (b->green - a->green) * k,
                    a->blue + (b->blue - a->blue) * k, 1 };
}

static double
text (Pen *pen, double x, double y, double align, const GdkRGBA *ink, const char *markup)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (pen->widget, NULL);
  int width, height;

  pango_layout_set_markup (layout, markup, -1);
  pango_layout_get_pixel_size (layout, &width, &height);
  gdk_cairo_set_source_rgba (pen->cr, ink);
  cairo_move_to (pen->cr, x - align * width, y - height / 2.0);
  pango_cairo_show_layout (pen->cr, layout);
  return width;
}

/* Colour along the bar: neighbouring stations make one gradient. */
static void
draw_strain (Pen *pen, double top)
{
  const PrIron *iron = &pen->job->iron;
  double length = iron->piece[0].length;
  cairo_pattern_t *shade = cairo_pattern_create_linear (SIDE_PX, 0, SIDE_PX + length * pen->k, 0);
  size_t step = MAX (iron->n_st / MAX_STOPS, 1);
  GdkRGBA c = pen->steel;

  for (size_t i = 0; i < iron->n_st; i += i + step < iron->n_st ? step : 1) {
    double e = CLAMP (iron->strain[i] / STRAIN_FULL, -1, 1);

    rgba_mix (&pen->steel, e > 0 ? &pen->draw : &pen->upset, fabs (e), &c);
    cairo_pattern_add_color_stop_rgb (shade, CLAMP (iron->bar_at[i] / MAX (length, 1), 0, 1), c.red, c.green,
                                      c.blue);
  }
  if (iron->n_st == 0)
    cairo_pattern_add_color_stop_rgb (shade, 0, c.red, c.green, c.blue);
  cairo_set_source (pen->cr, shade);
  cairo_rectangle (pen->cr, SIDE_PX, top, length * pen->k, BAR_PX);
  cairo_fill (pen->cr);
  cairo_pattern_destroy (shade);
}

static int
strain_sign (double e)
{
  return e > STRAIN_SAME ? 1 : e < -STRAIN_SAME ? -1 : 0;
}

/* The same in words, in every stretch long enough to hold one. */
static void
draw_words (Pen *pen, double top)
{
  const PrIron *iron = &pen->job->iron;

  for (size_t i = 0, end; i + 1 < iron->n_st; i = end) {
    int sign = strain_sign (iron->strain[i]);
    const char *word = sign > 0 ? _ ("draw") : _ ("upset");
    double from, to;

    for (end = i + 1; end + 1 < iron->n_st && strain_sign (iron->strain[end]) == sign;)
      end++;
    from = iron->bar_at[i] * pen->k;
    to = iron->bar_at[end] * pen->k;
    if (sign != 0 && to - from > 60)
      text (pen, SIDE_PX + from + 5, top + BAR_PX / 2, 0, &pen->ink, word);
  }
}

static void
draw_box (Pen *pen, double from, double to, double top, double height, bool dashed)
{
  const double dash[2] = { 5, 4 };

  if (dashed)
    cairo_set_dash (pen->cr, dash, 2, 0);
  gdk_cairo_set_source_rgba (pen->cr, dashed ? &pen->soft : &pen->ink);
  cairo_set_line_width (pen->cr, 1);
  cairo_rectangle (pen->cr, SIDE_PX + from * pen->k + 0.5, floor (top) + 0.5, (to - from) * pen->k - 1,
                   height - 1);
  cairo_stroke (pen->cr);
  cairo_set_dash (pen->cr, NULL, 0, 0);
}

static void
draw_left_over (Pen *pen, double top)
{
  const PrIron *iron = &pen->job->iron;
  double x = SIDE_PX + (iron->needed + iron->given) / 2 * pen->k;

  if (iron->given <= 0 || iron->spare <= 0)
    return;
  draw_box (pen, iron->needed, iron->given, top, BAR_PX, true);
  if (iron->spare * pen->k > 64)
    text (pen, x, top + BAR_PX / 2, 0.5, &pen->soft, _ ("left over"));
}

/* A short word for the narrow room on the bar; the mark's own name otherwise. */
static char *
short_name (const PrMark *mark)
{
  int number = 0;

  if (sscanf (mark->id, "nail.%d", &number) == 1)
    return g_strdup_printf ("%d", number);
  if (g_str_has_prefix (mark->id, "crease"))
    return g_strdup (_ ("crease"));
  if (g_str_has_prefix (mark->id, "clip"))
    return g_strdup (_ ("clip"));
  if (g_str_has_prefix (mark->id, "heel"))
    return g_strdup_printf (_ ("heel %s"),
                            g_str_has_suffix (mark->id, "medial") ? C_ ("medial", "M") : C_ ("lateral", "L"));
  if (g_str_equal (mark->id, "toe"))
    return g_strdup (_ ("centre"));
  return g_strdup (mark->name);
}

static void
draw_marks (Pen *pen, double top)
{
  const PrPiece *piece = &pen->job->iron.piece[0];
  double length = shown_length (pen->job) * pen->k + 2 * SIDE_PX;
  PrScreenFlags names = { .widget = pen->widget,
                          .cr = pen->cr,
                          .ink = pen->ink,
                          .from = 4,
                          .to = length - 4,
                          .rows = FLAG_ROWS,
                          .row_px = ROW_PX,
                          .edge = top,
                          .up = true };
  PrScreenFlags numbers = names;

  numbers.up = false;
  numbers.edge = top + BAR_PX;
  numbers.ink = pen->soft;
  for (size_t i = 0; i < piece->n_marks; i++) {
    const PrMark *mark = &piece->mark[i];
    g_autofree char *name = short_name (mark);
    g_autofree char *number = pr_words_number (mark->from_end, pen->job->unit);
    bool bold = g_str_equal (mark->id, "toe");
    double x = SIDE_PX + mark->from_end * pen->k;

    pr_screen_flags_add (&names, x, name, bold);
    pr_screen_flags_add (&numbers, x, number, bold);
    gdk_cairo_set_source_rgba (pen->cr, &pen->ink);
    cairo_set_line_width (pen->cr, bold ? 2 : 1);
    cairo_move_to (pen->cr, x, top);
    cairo_line_to (pen->cr, x, top + BAR_PX);
    cairo_stroke (pen->cr);
  }
  pr_screen_flags_draw (&names);
  pr_screen_flags_draw (&numbers);
}

static void
draw_more_pieces (Pen *pen)
{
  double y = bar_top () + BAR_PX + FLAG_ROWS * ROW_PX + 10;

  for (size_t i = 1; i < pen->job->iron.n_pieces; i++, y += PIECE_PX + 6) {
    const PrPiece *piece = &pen->job->iron.piece[i];
    g_autofree char *length = pr_words_length (piece->length, pen->job->unit);
    g_autofree char *words = g_markup_printf_escaped ("%s  %s", piece->name, length);
    double width = piece->length * pen->k;

    gdk_cairo_set_source_rgba (pen->cr, &pen->steel);
    cairo_rectangle (pen->cr, SIDE_PX, y, width, PIECE_PX);
    cairo_fill (pen->cr);
    draw_box (pen, 0, piece->length, y, PIECE_PX, false);
    text (pen, SIDE_PX + width + 8, y + PIECE_PX / 2, 0, &pen->ink, words);
  }
}

static void
draw_title (Pen *pen)
{
  const PrJob *job = pen->job;
  const PrIron *iron = &job->iron;
  g_autofree char *width = pr_words_number (job->plan.stock_width, job->unit);
  g_autofree char *thick = pr_words_length (job->plan.stock_thick, job->unit);
  g_autofree char *needed = pr_words_length (iron->needed, job->unit);
  g_autofree char *given = pr_words_length (iron->given, job->unit);
  g_autofree char *spare = pr_words_length (fabs (iron->spare), job->unit);
  g_autofree char *left = NULL, *right = NULL;
  double end = gtk_widget_get_width (pen->widget) - SIDE_PX;

  if (iron->given > 0)
    left = g_markup_printf_escaped (_ ("<b>Bar %s × %s, given %s</b>"), width, thick, given);
  else
    left = g_markup_printf_escaped (_ ("<b>Bar %s × %s</b>"), width, thick);
  if (iron->given <= 0)
    right = g_markup_printf_escaped (_ ("cut <b>%s</b>"), needed);
  else if (iron->spare < 0)
    right = g_markup_printf_escaped (_ ("%s needed · <b>%s missing</b>"), needed, spare);
  else
    right = g_markup_printf_escaped (_ ("%s needed · %s left"), needed, spare);
  text (pen, SIDE_PX, TOP_PX / 2 + 2, 0, &pen->ink, left);
  text (pen, end, TOP_PX / 2 + 2, 1, &pen->ink, right);
}

/* What the colours mean, in the middle of the title's line. */
static void
draw_legend (Pen *pen)
{
  const char *const words[3] = { _ ("draw"), _ ("as the bar"), _ ("upset") };
  const GdkRGBA *const shades[3] = { &pen->draw, &pen->steel, &pen->upset };
  double x = gtk_widget_get_width (pen->widget) / 2.0 - 110, y = TOP_PX / 2 + 2;

  for (int i = 0; i < 3; i++) {
    g_autofree char *markup = g_markup_printf_escaped ("<small>%s</small>", words[i]);

    gdk_cairo_set_source_rgba (pen->cr, shades[i]);
    cairo_rectangle (pen->cr, x, y - 5, 16, 10);
    cairo_fill (pen->cr);
    x += 22 + text (pen, x + 22, y, 0, &pen->soft, markup) + 18;
  }
}

static void
draw_all (Pen *pen)
{
  double top = bar_top ();

  draw_title (pen);
  draw_legend (pen);
  draw_strain (pen, top);
  draw_left_over (pen, top);
  draw_box (pen, 0, pen->job->iron.piece[0].length, top, BAR_PX, false);
  draw_marks (pen, top);
  draw_words (pen, top);
  draw_more_pieces (pen);
}

static GskRenderNode *
draw (PrBarStrip *strip, const PrJob *job)
{
  GtkWidget *widget = GTK_WIDGET (strip);
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, (float) gtk_widget_get_width (widget),
                                               (float) gtk_widget_get_height (widget));
  GskRenderNode *node = gsk_cairo_node_new (&bounds);
  Pen pen = {
    .cr = gsk_cairo_node_get_draw_context (node), .widget = widget, .job = job, .k = px_per_mm (strip, job)
  };

  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &pen.ink);
  colour (&pen, "pr_soft", &pen.soft);
  colour (&pen, "pr_steel", &pen.steel);
  colour (&pen, "pr_draw", &pen.draw);
  colour (&pen, "pr_upset", &pen.upset);
  draw_all (&pen);
  cairo_destroy (pen.cr);
  return node;
}

static void
pr_bar_strip_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  PrBarStrip *strip = PR_BAR_STRIP (widget);
  const PrJob *job = strip_job (strip);
  GdkRGBA teal = { 0, 0.4f, 0.4f, 1 };
  double x;

  if (!job)
    return;
  if (!strip->drawn)
    strip->drawn = draw (strip, job);
  gtk_snapshot_append_node (snapshot, strip->drawn);
  if (strip->hover_s < 0)
    return;
  gtk_style_context_lookup_color (gtk_widget_get_style_context (widget), "pr_teal", &teal);
  x = SIDE_PX + pr_iron_bar_at (&job->iron, job->shoe, strip->hover_s) * px_per_mm (strip, job);
  gtk_snapshot_append_color (
      snapshot, &teal, &GRAPHENE_RECT_INIT ((float) x - 1.5f, (float) bar_top () - 4, 3, (float) BAR_PX + 8));
}

/* --- pointer --- */

static void
motion (GtkEventControllerMotion *controller, double x, double y, PrBarStrip *strip)
{
  const PrJob *job = strip_job (strip);
  double at;

  if (!job)
    return;
  at = (x - SIDE_PX) / px_per_mm (strip, job);
  g_signal_emit (strip, signals[HOVER], 0,
                 at >= 0 && at <= job->iron.piece[0].length ? pr_iron_s_at (&job->iron, job->shoe, at)
                                                            : -1.0);
}

static void
leave (GtkEventControllerMotion *controller, PrBarStrip *strip)
{
  g_signal_emit (strip, signals[HOVER], 0, -1.0);
}

/* --- the widget --- */

void
pr_bar_strip_point_out (PrBarStrip *strip, double s)
{
  if (strip->hover_s == s)
    return;
  strip->hover_s = s;
  gtk_widget_queue_draw (GTK_WIDGET (strip));
}

static void
redraw (PrBarStrip *strip)
{
  g_clear_pointer (&strip->drawn, gsk_render_node_unref);
  gtk_widget_queue_draw (GTK_WIDGET (strip));
}

static void
document_changed (PrBarStrip *strip, guint what)
{
  const PrJob *job = strip_job (strip);
  g_autofree char *length = NULL, *words = NULL;

  if (what & (PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_PLACE))
    redraw (strip);
  if (what & PR_CHANGED_PLACE)
    gtk_widget_queue_resize (GTK_WIDGET (strip));
  if (!job || pr_document_editing (strip->doc))
    return;
  length = pr_words_length (job->iron.needed, job->unit);
  words = g_strdup_printf (_ ("Bar needed: %s"), length);
  gtk_accessible_update_property (GTK_ACCESSIBLE (strip), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  if (job->iron.n_pieces > 1)
    gtk_widget_queue_resize (GTK_WIDGET (strip));
}

void
pr_bar_strip_set_document (PrBarStrip *strip, PrDocument *doc)
{
  g_return_if_fail (!strip->doc);
  strip->doc = g_object_ref (doc);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), strip, G_CONNECT_SWAPPED);
}

static void
pr_bar_strip_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                      int *minimum_baseline, int *natural_baseline)
{
  const PrJob *job = strip_job (PR_BAR_STRIP (widget));
  double more = job ? (double) (job->iron.n_pieces - 1) * (PIECE_PX + 6) : 0;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    *minimum = *natural = 400;
  else
    *minimum = *natural = (int) (bar_top () + BAR_PX + FLAG_ROWS * ROW_PX + 10 + more);
}

static void
pr_bar_strip_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  g_clear_pointer (&PR_BAR_STRIP (widget)->drawn, gsk_render_node_unref);
}

static void
pr_bar_strip_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (pr_bar_strip_parent_class)->css_changed (widget, change);
  redraw (PR_BAR_STRIP (widget));
}

static void
pr_bar_strip_dispose (GObject *object)
{
  PrBarStrip *strip = PR_BAR_STRIP (object);

  g_clear_pointer (&strip->drawn, gsk_render_node_unref);
  g_clear_object (&strip->doc);
  G_OBJECT_CLASS (pr_bar_strip_parent_class)->dispose (object);
}

static void
pr_bar_strip_init (PrBarStrip *strip)
{
  GtkEventController *move = gtk_event_controller_motion_new ();

  strip->hover_s = -1;
  g_signal_connect (move, "motion", G_CALLBACK (motion), strip);
  g_signal_connect (move, "leave", G_CALLBACK (leave), strip);
  gtk_widget_add_controller (GTK_WIDGET (strip), move);
}

static void
pr_bar_strip_class_init (PrBarStripClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_bar_strip_dispose;
  widget_class->measure = pr_bar_strip_measure;
  widget_class->size_allocate = pr_bar_strip_size_allocate;
  widget_class->snapshot = pr_bar_strip_snapshot;
  widget_class->css_changed = pr_bar_strip_css_changed;
  gtk_widget_class_set_css_name (widget_class, "barstrip");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  signals[HOVER] = g_signal_new ("hover", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 1, G_TYPE_DOUBLE);
}
