/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-drawing-view.h"

#include <glib/gi18n-lib.h>
#include "pr-document-marking.h"
#include "pr-drawing-area.h"

struct _PrDrawingView {
  GtkBox parent_instance;
  PrDocument *doc;
  bool shown;
  GtkWidget *why, *hint, *to_ink, *done, *trouble;
  PrDrawingArea *area;
};

enum { DONE, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrDrawingView, pr_drawing_view, GTK_TYPE_BOX)

static void
tell (PrDrawingView *view, const char *sentence)
{
  gtk_label_set_text (GTK_LABEL (view->trouble), sentence ? sentence : "");
  gtk_widget_set_visible (view->trouble, sentence && *sentence);
}

static void
show_words (PrDrawingView *view)
{
  const char *why = NULL;
  bool bare = pr_document_bare (view->doc, &why) != NULL;

  gtk_label_set_text (GTK_LABEL (view->why), bare && why ? why : _ ("Draw the line"));
  gtk_label_set_text (GTK_LABEL (view->hint),
                      bare ? _ ("Draw along the pencil line in one stroke, from one heel round the toe "
                                "to the other. The wheel zooms.")
                           : _ ("Draw along the stretch that is wrong; it is replaced between the two "
                                "ends of your stroke. Dotted stretches are doubtful. The wheel zooms."));
  gtk_widget_set_visible (view->done, !bare);
}

static void
stroke (PrDrawingView *view)
{
  size_t n;
  const PrSheetPt *points = pr_drawing_area_stroke (view->area, &n);
  bool to_ink = gtk_check_button_get_active (GTK_CHECK_BUTTON (view->to_ink));
  g_autoptr (GError) error = NULL;

  pr_document_draw_line (view->doc, points, n, to_ink, &error);
  tell (view, error ? error->message : NULL);
}

static void
document_changed (PrDrawingView *view, guint what)
{
  if (!view->shown)
    return;
  if (what & (PR_CHANGED_PLACE | PR_CHANGED_PHOTO))
    pr_drawing_area_show (view->area, true);
  if (what & PR_CHANGED_PLACE)
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

/* --- building --- */

static GtkWidget *
words (const char *class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, class);
  return label;
}

static GtkWidget *
controls (PrDrawingView *view)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *as_drawn = gtk_check_button_new_with_label (_ ("as I draw it"));
  GtkWidget *gap = gtk_label_new (NULL);
  GtkWidget *mark = gtk_button_new_with_label (_ ("Mark the scale by hand…"));

  view->to_ink = gtk_check_button_new_with_label (_ ("to the ink beside my stroke"));
  gtk_check_button_set_group (GTK_CHECK_BUTTON (as_drawn), GTK_CHECK_BUTTON (view->to_ink));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (view->to_ink), TRUE);
  gtk_widget_set_hexpand (gap, TRUE);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (mark), "win.mark-scale");
  view->done = gtk_button_new_with_label (_ ("Done"));
  gtk_widget_add_css_class (view->done, "main");
  g_signal_connect_swapped (view->done, "clicked", G_CALLBACK (leave), view);
  for (GtkWidget **part = (GtkWidget *[]){ gtk_label_new (_ ("The line goes")), view->to_ink, as_drawn, gap,
                                           mark, view->done, NULL };
       *part; part++)
    gtk_box_append (GTK_BOX (line), *part);
  return line;
}

static void
pr_drawing_view_dispose (GObject *object)
{
  g_clear_object (&PR_DRAWING_VIEW (object)->doc);
  G_OBJECT_CLASS (pr_drawing_view_parent_class)->dispose (object);
}

static void
pr_drawing_view_init (PrDrawingView *view)
{
  GtkWidget *bar = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  GtkEventController *key = gtk_event_controller_key_new ();

  gtk_orientable_set_orientation (GTK_ORIENTABLE (view), GTK_ORIENTATION_VERTICAL);
  gtk_widget_add_css_class (bar, "above-board");
  gtk_widget_add_css_class (bar, "working");
  view->why = words ("head");
  view->hint = words ("soft");
  view->trouble = words ("trouble");
  view->area = PR_DRAWING_AREA (pr_drawing_area_new ());
  g_signal_connect_swapped (view->area, "stroke", G_CALLBACK (stroke), view);
  gtk_box_append (GTK_BOX (bar), view->why);
  gtk_box_append (GTK_BOX (bar), controls (view));
  gtk_box_append (GTK_BOX (bar), view->hint);
  gtk_box_append (GTK_BOX (bar), view->trouble);
  gtk_box_append (GTK_BOX (view), bar);
  gtk_box_append (GTK_BOX (view), GTK_WIDGET (view->area));
  tell (view, NULL);
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed), view);
  gtk_widget_add_controller (GTK_WIDGET (view), key);
}

static void
pr_drawing_view_class_init (PrDrawingViewClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pr_drawing_view_dispose;
  signals[DONE] = g_signal_new ("done", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
}
