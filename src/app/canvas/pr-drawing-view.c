/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-drawing-view.h"

#include <glib/gi18n-lib.h>
#include "pr-document-forged.h"
#include "pr-document-marking.h"
#include "pr-drawing-area.h"

struct _PrDrawingView {
  GtkBox parent_instance;
  PrDocument *doc;
  bool shown;
  GtkLabel *why, *hint, *trouble;
  GtkCheckButton *to_ink;
  GtkWidget *done, *ways, *mark;
  PrDrawingArea *area;
};

enum { DONE, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrDrawingView, pr_drawing_view, GTK_TYPE_BOX)

static void
tell (PrDrawingView *view, const char *sentence)
{
  gtk_label_set_text (view->trouble, sentence ? sentence : "");
  gtk_widget_set_visible (GTK_WIDGET (view->trouble), sentence && *sentence);
}

/* What the photo is, and what is drawn on it. */
static void
say (PrDrawingView *view, const char *why, const char *hint)
{
  gtk_label_set_text (view->why, why);
  gtk_label_set_text (view->hint, hint);
}

static void
show_words (PrDrawingView *view)
{
  const char *why = NULL;
  bool bare = pr_document_bare (view->doc, &why) != NULL, edges = pr_document_forged_is_drawn (view->doc);

  if (edges)
    say (view, _ ("Draw the edges of the shoe"),
         _ ("Draw along the stretch that is wrong, outside or inside, where the photo shows it; it is "
            "replaced "
            "between the two ends of your stroke. Dotted stretches are doubtful. The wheel zooms."));
  else if (bare)
    say (view, why ? why : _ ("Draw the outline"),
         _ ("Draw along the pen line in one stroke, from one heel round the toe to the other. The wheel "
            "zooms."));
  else
    say (view, _ ("Draw the outline"),
         _ ("Draw along the stretch that is wrong; it is replaced between the two "
            "ends of your stroke. Dotted stretches are doubtful. The wheel zooms."));
  gtk_widget_set_visible (view->done, !bare || edges);
  gtk_widget_set_visible (view->ways, !edges);
  gtk_widget_set_visible (view->mark, !edges);
}

static void
stroke (PrDrawingView *view)
{
  size_t n;
  const PrSheetPt *points = pr_drawing_area_stroke (view->area, &n);
  bool to_ink = gtk_check_button_get_active (view->to_ink);
  g_autoptr (GError) error = NULL;

  if (pr_document_forged_is_drawn (view->doc))
    pr_document_redraw_forged (view->doc, points, n, &error);
  else
    pr_document_draw_line (view->doc, points, n, to_ink, &error);
  tell (view, error ? error->message : NULL);
}

bool
pr_drawing_view_is_needed (PrDocument *doc)
{
  return pr_document_bare (doc, NULL) || pr_document_forged_is_drawn (doc);
}

static void
document_changed (PrDrawingView *view, guint what)
{
  if (!view->shown)
    return;
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_PHOTO | PR_CHANGED_STAGE))
    pr_drawing_area_show (view->area, true);
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_STAGE))
    show_words (view);
  if (what & PR_CHANGED_HISTORY)
    tell (view, NULL);
  gtk_widget_queue_draw (GTK_WIDGET (view->area));
}

void
pr_drawing_view_show (PrDrawingView *view, bool show)
{
  if (view->shown == show)
    return;
  view->shown = show;
  pr_drawing_area_show (view->area, show);
  if (!show)
    return;
  tell (view, NULL);
  show_words (view);
  gtk_widget_grab_focus (GTK_WIDGET (view->area));
}

void
pr_drawing_view_zoom (PrDrawingView *view, double factor)
{
  if (factor > 0)
    pr_picture_zoom_by (PR_PICTURE (view->area), factor);
  else
    pr_picture_fit (PR_PICTURE (view->area));
}

void
pr_drawing_view_set_document (PrDrawingView *view, PrDocument *doc)
{
  g_return_if_fail (!view->doc);
  view->doc = g_object_ref (doc);
  pr_drawing_area_set_document (view->area, doc);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), view, G_CONNECT_SWAPPED);
}

static void
leave (PrDrawingView *view)
{
  pr_document_draw_forged (view->doc, false);
  g_signal_emit (view, signals[DONE], 0);
}

/* Escape puts a stroke back; with none under way it leaves. */
static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
             PrDrawingView *view)
{
  if (key != GDK_KEY_Escape)
    return FALSE;
  if (!pr_picture_drop_drag (PR_PICTURE (view->area)))
    leave (view);
  return TRUE;
}

/* --- the widget --- */

static void
pr_drawing_view_dispose (GObject *object)
{
  g_clear_object (&PR_DRAWING_VIEW (object)->doc);
  G_OBJECT_CLASS (pr_drawing_view_parent_class)->dispose (object);
}

static void
pr_drawing_view_init (PrDrawingView *view)
{
  gtk_widget_init_template (GTK_WIDGET (view));
}

static void
pr_drawing_view_class_init (PrDrawingViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_drawing_view_dispose;
  signals[DONE] = g_signal_new ("done", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
  g_type_ensure (PR_TYPE_DRAWING_AREA);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/drawing-view.ui");
  gtk_widget_class_bind_template_child (widget_class, PrDrawingView, why);
  gtk_widget_class_bind_template_child (widget_class, PrDrawingView, hint);
  gtk_widget_class_bind_template_child (widget_class, PrDrawingView, to_ink);
  gtk_widget_class_bind_template_child (widget_class, PrDrawingView, ways);
  gtk_widget_class_bind_template_child (widget_class, PrDrawingView, mark);
  gtk_widget_class_bind_template_child (widget_class, PrDrawingView, done);
  gtk_widget_class_bind_template_child (widget_class, PrDrawingView, trouble);
  gtk_widget_class_bind_template_child (widget_class, PrDrawingView, area);
  gtk_widget_class_bind_template_callback (widget_class, stroke);
  gtk_widget_class_bind_template_callback (widget_class, leave);
  gtk_widget_class_bind_template_callback (widget_class, key_pressed);
}
