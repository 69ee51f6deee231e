/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-drawing-area.h"

#include <glib/gi18n-lib.h>
#include "pr-colour.h"
#include "pr-document-forged.h"
#include "pr-document-marking.h"
#include "pr-doubt-line.h"
#include "pr-doubts.h"
#include "pr-drawing-edges.h"
#include "pr-words.h"

#define LINE_PX 2.0
#define STROKE_PX 3.0
#define SHORTEST_PX 12.0 /* a stroke shorter than this was a slip of the hand */
#define PEN_PX 9.0
#define STEP_MM 2.0 /* of the pen, by an arrow; finer with Shift, farther with Control */
#define STEP_FINE_MM 0.25
#define STEP_FAR_MM 10.0
#define LETTER_PX 20.0
#define LETTER_OUT 34.0 /* pixels outside the buttress */

struct _PrDrawingArea {
  PrPicture parent_instance;
  PrDocument *doc;
  GArray *stroke; /* PrSheetPt */
  PrPx pen;       /* moved by keyboard */
  enum { PEN_NONE, PEN_UP, PEN_DOWN } how;
};

enum { STROKE, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrDrawingArea, pr_drawing_area, PR_TYPE_PICTURE)

static const PrTracing *
tracing_of (PrDrawingArea *area)
{
  const PrJob *job = pr_document_job (area->doc);

  if (pr_document_forged_is_drawn (area->doc))
    return pr_document_forged_sheet (area->doc);
  return job ? job->sources.tracing : pr_document_bare (area->doc, NULL);
}

static void
at_sheet (PrDrawingArea *area, PrSheetPt p, double *x, double *y)
{
  double k = tracing_of (area)->raster;

  pr_picture_from_px (PR_PICTURE (area), (PrPx){ p.x * k - 0.5, p.y * k - 0.5 }, x, y);
}

/* --- the stroke --- */

static void
add_point (PrDrawingArea *area, PrPx at)
{
  double k = tracing_of (area)->raster;
  PrSheetPt p = { (at.x + 0.5) / k, (at.y + 0.5) / k };

  g_array_append_val (area->stroke, p);
  gtk_widget_queue_draw (GTK_WIDGET (area));
}

static bool
draw_press (PrPicture *picture, PrPx at)
{
  PrDrawingArea *area = PR_DRAWING_AREA (picture);

  gtk_widget_grab_focus (GTK_WIDGET (area));
  g_array_set_size (area->stroke, 0);
  add_point (area, at);
  return true;
}

/* Of an edge a tenth of a millimetre matters: it is drawn under the lens. */
static void
draw_move (PrPicture *picture, PrPx at, GdkModifierType state)
{
  add_point (PR_DRAWING_AREA (picture), at);
  if (pr_document_forged_is_drawn (PR_DRAWING_AREA (picture)->doc))
    pr_picture_lens (picture, &at);
}

static double
stroke_px (PrDrawingArea *area)
{
  double k = tracing_of (area)->raster * pr_picture_scale (PR_PICTURE (area)), sum = 0;

  for (guint i = 1; i < area->stroke->len; i++) {
    PrSheetPt a = g_array_index (area->stroke, PrSheetPt, i - 1),
              b = g_array_index (area->stroke, PrSheetPt, i);

    sum += hypot (b.x - a.x, b.y - a.y) * k;
  }
  return sum;
}

static void
draw_release (PrPicture *picture, bool keep, GdkModifierType state)
{
  PrDrawingArea *area = PR_DRAWING_AREA (picture);

  pr_picture_lens (picture, NULL);
  if (keep && stroke_px (area) >= SHORTEST_PX)
    g_signal_emit (area, signals[STROKE], 0);
  g_array_set_size (area->stroke, 0);
  gtk_widget_queue_draw (GTK_WIDGET (area));
}

/* --- the pen, by keyboard --- */

static double
step_mm (GdkModifierType state)
{
  return state & GDK_CONTROL_MASK ? STEP_FAR_MM : state & GDK_SHIFT_MASK ? STEP_FINE_MM : STEP_MM;
}

/* It begins in the middle of what is seen. */
static void
need_pen (PrDrawingArea *area)
{
  GtkWidget *widget = GTK_WIDGET (area);

  if (area->how != PEN_NONE)
    return;
  area->how = PEN_UP;
  area->pen = pr_picture_to_px (PR_PICTURE (area), gtk_widget_get_width (widget) / 2.0,
                                gtk_widget_get_height (widget) / 2.0);
}

static void
tell_pen (PrDrawingArea *area)
{
  const PrTracing *t = tracing_of (area);
  PrUnit unit = pr_document_unit (area->doc);
  g_autofree char *x = pr_words_length ((area->pen.x + 0.5) / t->raster, unit),
                  *y = pr_words_length ((area->pen.y + 0.5) / t->raster, unit);
  g_autofree char *told
      = g_strdup_printf (area->how == PEN_DOWN ? _ ("Pen down, %s from the left, %s from the top")
                                               : _ ("Pen up, %s from the left, %s from the top"),
                         x, y);

  gtk_accessible_update_property (GTK_ACCESSIBLE (area), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, told, -1);
  gtk_widget_queue_draw (GTK_WIDGET (area));
}

static void
move_pen (PrDrawingArea *area, double dx, double dy)
{
  const PrTracing *t = tracing_of (area);

  area->pen.x = CLAMP (area->pen.x + dx * t->raster, 0, t->raster_width - 1.0);
  area->pen.y = CLAMP (area->pen.y + dy * t->raster, 0, t->raster_height - 1.0);
  if (area->how == PEN_DOWN)
    add_point (area, area->pen);
  tell_pen (area);
}

/* Put down it begins a stroke, lifted it ends it. */
static void
turn_pen (PrDrawingArea *area)
{
  if (area->how == PEN_DOWN) {
    area->how = PEN_UP;
    draw_release (PR_PICTURE (area), true, 0);
  } else {
    area->how = PEN_DOWN;
    g_array_set_size (area->stroke, 0);
    add_point (area, area->pen);
  }
  tell_pen (area);
}

static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
             PrDrawingArea *area)
{
  double dx = key == GDK_KEY_Right ? 1 : key == GDK_KEY_Left ? -1 : 0;
  double dy = key == GDK_KEY_Down ? 1 : key == GDK_KEY_Up ? -1 : 0;
  bool turn = key == GDK_KEY_space || key == GDK_KEY_Return || key == GDK_KEY_KP_Enter;

  if (key == GDK_KEY_Escape && area->how == PEN_DOWN) {
    area->how = PEN_UP;
    draw_release (PR_PICTURE (area), false, 0);
    return TRUE;
  }
  if (!tracing_of (area) || !tracing_of (area)->raster_rgb || (dx == 0 && dy == 0 && !turn))
    return FALSE;
  need_pen (area);
  if (turn)
    turn_pen (area);
  else
    move_pen (area, dx * step_mm (state), dy * step_mm (state));
  return TRUE;
}

const PrSheetPt *
pr_drawing_area_stroke (PrDrawingArea *area, size_t *n)
{
  *n = area->stroke->len;
  return (const PrSheetPt *) (void *) area->stroke->data;
}

/* --- what is drawn --- */

static void
path_of (PrDrawingArea *area, cairo_t *cr, const PrSheetPt *p, size_t n)
{
  for (size_t i = 0; i < n; i++) {
    double x, y;

    at_sheet (area, p[i], &x, &y);
    cairo_line_to (cr, x, y);
  }
}

static void
stroke_in (PrDrawingArea *area, cairo_t *cr, const char *ink, double width)
{
  pr_colour_use (cr, GTK_WIDGET (area), ink);
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
}

/* M and L beside the buttresses: which way round the foot lies. */
static void
draw_letters (PrDrawingArea *area, cairo_t *cr, const PrJob *job)
{
  static const char *const letters[2] = { N_ ("M"), N_ ("L") };
  double x[2], y[2];

  for (int i = 0; i < 2; i++)
    at_sheet (area, pr_foot_frame_out (&job->hoof.frame, job->hoof.buttress[i]), &x[i], &y[i]);
  pr_colour_use (cr, GTK_WIDGET (area), "pr_teal");
  cairo_select_font_face (cr, "sans-serif", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_BOLD);
  cairo_set_font_size (cr, LETTER_PX);
  for (int i = 0; i < 2; i++) {
    double out = LETTER_OUT / MAX (hypot (x[i] - x[1 - i], y[i] - y[1 - i]), 1);

    cairo_move_to (cr, x[i] + (x[i] - x[1 - i]) * out - LETTER_PX / 2.5,
                   y[i] + (y[i] - y[1 - i]) * out + LETTER_PX / 2.5);
    cairo_show_text (cr, _ (letters[i]));
  }
}

static void
draw_job (PrDrawingArea *area, cairo_t *cr, const PrJob *job)
{
  g_autoptr (GArray) part = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));

  path_of (area, cr, job->sources.tracing->outline, job->sources.tracing->n_outline);
  stroke_in (area, cr, "pr_wall", LINE_PX);
  for (size_t i = 0; i < job->sources.tracing->n_doubt; i++) {
    pr_doubt_path (job, i, part);
    path_of (area, cr, (const PrSheetPt *) (void *) part->data, part->len);
    pr_doubt_line_stroke (cr, pr_colour (GTK_WIDGET (area), "pr_paper"),
                          pr_colour (GTK_WIDGET (area), "pr_amber"));
  }
  draw_letters (area, cr, job);
}

/* A cross, and a dot in it while it draws. */
static void
draw_pen (PrDrawingArea *area, cairo_t *cr)
{
  static const char *const inks[] = { "pr_paper", "pr_teal" };
  double x, y;

  pr_picture_from_px (PR_PICTURE (area), area->pen, &x, &y);
  for (int i = 0; i < 2; i++) {
    cairo_move_to (cr, x - PEN_PX, y);
    cairo_line_to (cr, x + PEN_PX, y);
    cairo_move_to (cr, x, y - PEN_PX);
    cairo_line_to (cr, x, y + PEN_PX);
    stroke_in (area, cr, inks[i], i ? LINE_PX : 3 * LINE_PX);
  }
  if (area->how != PEN_DOWN)
    return;
  cairo_arc (cr, x, y, PEN_PX / 2, 0, 2 * G_PI);
  cairo_fill (cr);
}

static void
draw_draw (PrPicture *picture, cairo_t *cr)
{
  PrDrawingArea *area = PR_DRAWING_AREA (picture);
  const PrJob *job = pr_document_job (area->doc);

  if (!tracing_of (area))
    return;
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  if (pr_document_forged_is_drawn (area->doc))
    pr_drawing_edges (picture, cr, pr_document_forged_seen (area->doc), tracing_of (area)->raster);
  else if (job && job->sources.tracing)
    draw_job (area, cr, job);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  path_of (area, cr, (const PrSheetPt *) (void *) area->stroke->data, area->stroke->len);
  stroke_in (area, cr, "pr_teal", STROKE_PX);
  if (area->how != PEN_NONE && gtk_widget_has_focus (GTK_WIDGET (area)))
    draw_pen (area, cr);
}

static gboolean
query_edges (PrDrawingArea *area, int x, int y, GtkTooltip *tooltip)
{
  double k = tracing_of (area)->raster;
  PrPx px = pr_picture_to_px (PR_PICTURE (area), x, y);
  const char *why = pr_drawing_edges_why (pr_document_forged_seen (area->doc),
                                          (PrSheetPt){ (px.x + 0.5) / k, (px.y + 0.5) / k },
                                          PR_DOUBT_NEAR_PX / (k * pr_picture_scale (PR_PICTURE (area))));

  gtk_tooltip_set_text (tooltip, why);
  return why != NULL;
}

static gboolean
query_tooltip (PrDrawingArea *area, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  const PrJob *job = pr_document_job (area->doc);
  PrPx px = pr_picture_to_px (PR_PICTURE (area), x, y);
  double k = job && job->sources.tracing ? job->sources.tracing->raster : 1;
  int i;

  if (!keyboard && pr_document_forged_is_drawn (area->doc))
    return query_edges (area, x, y, tooltip);
  if (keyboard || !job || !job->sources.tracing)
    return FALSE;
  i = pr_doubt_at (job, (PrSheetPt){ (px.x + 0.5) / k, (px.y + 0.5) / k },
                   PR_DOUBT_NEAR_PX / (k * pr_picture_scale (PR_PICTURE (area))));
  if (i >= 0)
    gtk_tooltip_set_text (tooltip, job->sources.tracing->doubt[i].why);
  return i >= 0;
}

/* --- the widget --- */

void
pr_drawing_area_show (PrDrawingArea *area, bool show)
{
  const PrTracing *t = show ? tracing_of (area) : NULL;
  const uint8_t *rgb = t ? t->raster_rgb : NULL;

  g_array_set_size (area->stroke, 0);
  area->how = PEN_NONE;
  pr_picture_set_rgb (PR_PICTURE (area), rgb, rgb ? t->raster_width : 0, rgb ? t->raster_height : 0,
                      rgb ? (size_t) t->raster_width * 3 : 0);
}

void
pr_drawing_area_set_document (PrDrawingArea *area, PrDocument *doc)
{
  area->doc = g_object_ref (doc);
}

static void
pr_drawing_area_dispose (GObject *object)
{
  g_clear_object (&PR_DRAWING_AREA (object)->doc);
  G_OBJECT_CLASS (pr_drawing_area_parent_class)->dispose (object);
}

static void
pr_drawing_area_finalize (GObject *object)
{
  g_array_unref (PR_DRAWING_AREA (object)->stroke);
  G_OBJECT_CLASS (pr_drawing_area_parent_class)->finalize (object);
}

static void
pr_drawing_area_init (PrDrawingArea *area)
{
  GtkEventController *key = gtk_event_controller_key_new ();

  area->stroke = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed), area);
  gtk_widget_add_controller (GTK_WIDGET (area), key);
  gtk_widget_set_focusable (GTK_WIDGET (area), TRUE);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (area), "crosshair");
  gtk_widget_set_has_tooltip (GTK_WIDGET (area), TRUE);
  g_signal_connect (area, "query-tooltip", G_CALLBACK (query_tooltip), NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (area), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Photo to draw on"), -1);
}

static void
pr_drawing_area_class_init (PrDrawingAreaClass *class)
{
  PrPictureClass *picture = PR_PICTURE_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_drawing_area_dispose;
  G_OBJECT_CLASS (class)->finalize = pr_drawing_area_finalize;
  picture->press = draw_press;
  picture->move = draw_move;
  picture->release = draw_release;
  picture->draw = draw_draw;
  signals[STROKE] = g_signal_new ("stroke", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                  G_TYPE_NONE, 0);
}
