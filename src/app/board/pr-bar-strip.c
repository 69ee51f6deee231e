/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-bar-strip.h"

#include <glib/gi18n-lib.h>
#include "pr-bar.h"
#include "pr-colour.h"
#include "pr-words.h"

#define SIDE_PX 20.0   /* left free at both ends */
#define BEYOND_PX 16.0 /* of which words may take */
#define LEAST_WIDTH_PX 400
#define TITLE_PX 27.0
#define BAR_PX 30.0
#define BELOW_PX 6.0
#define FLAG_ROWS 2      /* of names above, of distances below */
#define LEGEND_GAP_PX 24 /* at least, between the title's words and the legend */

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

static double
px_per_mm (PrBarStrip *strip, const PrJob *job)
{
  return MAX (gtk_widget_get_width (GTK_WIDGET (strip)) - 2 * SIDE_PX, 1) / pr_bar_shown (job);
}

/* --- drawing --- */

/* The bar as it looks on this strip; INK is filled in and lent to it. */
static PrBarLook
bar_look (PrBarStrip *strip, const PrJob *job, PrInk *ink)
{
  PangoContext *pango = gtk_widget_get_pango_context (GTK_WIDGET (strip));
  const PangoFontDescription *font = pango_context_get_font_description (pango);
  double size = pango_font_description_get_size (font) / (double) PANGO_SCALE;

  if (!pango_font_description_get_size_is_absolute (font))
    size *= pango_cairo_context_get_resolution (pango) / 72;
  *ink = pr_colour_ink (GTK_WIDGET (strip));
  return (PrBarLook){ .ink = ink,
                      .family = pango_font_description_get_family (font),
                      .text = size,
                      .scale = px_per_mm (strip, job),
                      .thick = BAR_PX,
                      .beyond = BEYOND_PX,
                      .rows = FLAG_ROWS };
}

typedef struct {
  cairo_t *cr;
  GtkWidget *widget;
  const PrJob *job;
  GdkRGBA ink;
} Pen;

/* Its beginning (ALIGN 0) or end (1) at X; returns its width. */
static double
text (Pen *pen, double x, double align, const char *markup)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (pen->widget, NULL);
  int width, height;

  pango_layout_set_markup (layout, markup, -1);
  pango_layout_get_pixel_size (layout, &width, &height);
  gdk_cairo_set_source_rgba (pen->cr, &pen->ink);
  cairo_move_to (pen->cr, x - align * width, (TITLE_PX - height) / 2);
  pango_cairo_show_layout (pen->cr, layout);
  return width;
}

/* What is needed on the left, what it leaves on the right; gives what stays free between them. */
static void
draw_title (Pen *pen, double *low, double *high)
{
  const PrJob *job = pen->job;
  const PrIron *iron = &job->iron;
  g_autofree char *stock
      = pr_section_as_called (job->sources.plan.stock_width, job->sources.plan.stock_thick, job->unit);
  g_autofree char *needed = pr_iron_cut_text (iron, job->unit);
  g_autofree char *given = pr_words_length (iron->given, job->unit);
  g_autofree char *spare = pr_words_length (fabs (iron->spare), job->unit);
  g_autofree char *left = NULL, *right = NULL;
  double end = gtk_widget_get_width (pen->widget) - SIDE_PX;

  if (iron->given > 0)
    left = g_markup_printf_escaped (_ ("<b>Stock %s, given %s</b>"), stock, given);
  else
    left = g_markup_printf_escaped (_ ("<b>Stock %s</b>"), stock);
  if (iron->given <= 0)
    right = g_markup_printf_escaped (_ ("cut <b>%s</b>"), needed);
  else if (iron->spare < 0)
    right = g_markup_printf_escaped (_ ("%s needed · <b>%s missing</b>"), needed, spare);
  else
    right = g_markup_printf_escaped (_ ("%s needed · %s left"), needed, spare);
  *low = SIDE_PX + text (pen, SIDE_PX, 0, left) + LEGEND_GAP_PX;
  *high = end - text (pen, end, 1, right) - LEGEND_GAP_PX;
}

/* In the middle of the title's line, where there is room for it. */
static void
draw_legend (cairo_t *cr, const PrBarLook *look, double middle, double low, double high)
{
  double width = pr_bar_legend (NULL, look), x = CLAMP (middle - width / 2, low, MAX (high - width, low));

  if (x + width > high)
    return;
  cairo_save (cr);
  cairo_translate (cr, x, (TITLE_PX - look->text) / 2);
  pr_bar_legend (cr, look);
  cairo_restore (cr);
}

static GskRenderNode *
draw (PrBarStrip *strip, const PrJob *job)
{
  GtkWidget *widget = GTK_WIDGET (strip);
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, (float) gtk_widget_get_width (widget),
                                               (float) gtk_widget_get_height (widget));
  GskRenderNode *node = gsk_cairo_node_new (&bounds);
  Pen pen = { gsk_cairo_node_get_draw_context (node), widget, job, pr_colour_of_text (widget) };
  PrInk ink;
  PrBarLook look = bar_look (strip, job, &ink);
  double low, high;

  draw_title (&pen, &low, &high);
  draw_legend (pen.cr, &look, gtk_widget_get_width (widget) / 2.0, low, high);
  cairo_translate (pen.cr, SIDE_PX, TITLE_PX);
  pr_draw_bar_ink (pen.cr, job, &look, NULL);
  cairo_destroy (pen.cr);
  return node;
}

static void
append_hover (PrBarStrip *strip, const PrJob *job, GtkSnapshot *snapshot)
{
  PrInk ink;
  PrBarLook look = bar_look (strip, job, &ink);
  GdkRGBA teal = pr_colour (GTK_WIDGET (strip), "pr_teal");
  double x = SIDE_PX + pr_iron_bar_at (&job->iron, job->shoe, strip->hover_s) * look.scale;
  double top = TITLE_PX + pr_bar_top (&look);

  gtk_snapshot_append_color (snapshot, &teal,
                             &GRAPHENE_RECT_INIT ((float) x - 1.5f, (float) top - 4, 3, (float) BAR_PX + 8));
}

static void
pr_bar_strip_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  PrBarStrip *strip = PR_BAR_STRIP (widget);
  const PrJob *job = strip_job (strip);

  if (!job)
    return;
  if (!strip->drawn)
    strip->drawn = draw (strip, job);
  gtk_snapshot_append_node (snapshot, strip->drawn);
  if (strip->hover_s >= 0)
    append_hover (strip, job, snapshot);
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
  length = pr_length_cut (job->iron.needed, job->unit);
  words = g_strdup_printf (_ ("Stock needed: %s"), length);
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
  PrBarStrip *strip = PR_BAR_STRIP (widget);
  const PrJob *job = strip_job (strip);
  double height = 0;
  PrInk ink;

  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = *natural = LEAST_WIDTH_PX;
    return;
  }
  if (job) {
    PrBarLook look = bar_look (strip, job, &ink);
    pr_draw_bar_ink (NULL, job, &look, &height);
  }
  *minimum = *natural = (int) ceil (TITLE_PX + height + BELOW_PX);
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
