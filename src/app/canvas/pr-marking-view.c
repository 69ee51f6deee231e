/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-marking-view.h"

#include <glib/gi18n-lib.h>
#include "pr-document-marking.h"
#include "pr-error.h"
#include "pr-marking-area.h"

enum { SHEET, CARD, RECTANGLE, RULER };

struct _PrMarkingView {
  GtkBox parent_instance;
  PrDocument *doc;
  const PrPhoto *photo; /* as shown; only compared */
  GtkWidget *why, *what, *paper, *width, *times, *height, *snap, *use, *trouble, *hint;
  PrMarkingArea *area;
};

G_DEFINE_FINAL_TYPE (PrMarkingView, pr_marking_view, GTK_TYPE_BOX)

/* --- what is marked --- */

static void
name (GtkWidget *widget, const char *label)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
}

static guint
chosen (GtkWidget *drop_down)
{
  return gtk_drop_down_get_selected (GTK_DROP_DOWN (drop_down));
}

static const char *
hint_for (guint what)
{
  switch (what) {
  case CARD:
    return _ ("A card the size of a bank card (85.6 × 54 mm): drag a point to where its sides would "
              "meet at each corner, not onto the rounding.");
  case RECTANGLE:
    return _ ("Anything with square corners lying flat beside the line: drag a point to each corner, "
              "then give the upper side and the left side.");
  case RULER:
    return _ ("Drag the points to two marks of the ruler and give the length between them. A ruler "
              "gives scale only: the camera must have looked straight down.");
  default:
    return _ ("Drag a point to each corner of the sheet. A corner outside the photo? Mark a card or "
              "a ruler instead.");
  }
}

static void
what_chosen (PrMarkingView *view)
{
  guint what = chosen (view->what);
  const char *side = what == RULER ? _ ("length") : _ ("upper side");
  PrPx point[4];
  size_t n = what == RULER ? 2 : 4;

  gtk_widget_set_visible (view->paper, what == SHEET);
  gtk_widget_set_visible (view->width, what == RECTANGLE || what == RULER);
  gtk_widget_set_visible (view->times, what == RECTANGLE);
  gtk_widget_set_visible (view->height, what == RECTANGLE);
  gtk_entry_set_placeholder_text (GTK_ENTRY (view->width), side);
  name (view->width, side);
  gtk_label_set_text (GTK_LABEL (view->hint), hint_for (what));
  gtk_label_set_text (GTK_LABEL (view->trouble), "");
  gtk_widget_set_visible (view->trouble, FALSE);
  if (view->photo && pr_marking_area_points (view->area, point) != n)
    pr_marking_area_set_points (view->area, n, NULL);
}

/* --- using it --- */

static bool
read_side (PrMarkingView *view, GtkWidget *entry, double *mm, GError **error)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (entry));

  if (*text)
    return pr_length_parse (text, pr_document_unit (view->doc), mm, error);
  gtk_widget_grab_focus (entry);
  g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                       chosen (view->what) == RULER
                           ? _ ("Give the length between the two points, 100 mm for example.")
                           : _ ("Give both sides of the rectangle, 100 mm for example."));
  return false;
}

/* The sheet as it lies in the photo: upright or across. */
static void
paper_sides (PrPaper paper, const PrPx p[4], double side_mm[2])
{
  double upper = hypot (p[1].x - p[0].x, p[1].y - p[0].y) + hypot (p[2].x - p[3].x, p[2].y - p[3].y);
  double left = hypot (p[3].x - p[0].x, p[3].y - p[0].y) + hypot (p[2].x - p[1].x, p[2].y - p[1].y);
  double w, h;

  pr_paper_size (paper, &w, &h);
  side_mm[0] = upper > left ? h : w;
  side_mm[1] = upper > left ? w : h;
}

static bool
collect (PrMarkingView *view, PrTraceOptions *options, GError **error)
{
  static const PrScaleMethod methods[] = {
    [SHEET] = PR_SCALE_RECT, [CARD] = PR_SCALE_CARD, [RECTANGLE] = PR_SCALE_RECT, [RULER] = PR_SCALE_RULER
  };
  guint what = chosen (view->what);

  *options = pr_document_marking (view->doc)->options;
  options->method = methods[what];
  options->paper = what == SHEET ? (PrPaper) chosen (view->paper) : PR_PAPER_UNKNOWN;
  options->n_points = pr_marking_area_points (view->area, options->point);
  options->snap = pr_marking_area_snapped (view->area);
  if (what == SHEET)
    paper_sides (options->paper, options->point, options->side_mm);
  return (what != RECTANGLE && what != RULER)
         || (read_side (view, view->width, &options->side_mm[0], error)
             && (what == RULER || read_side (view, view->height, &options->side_mm[1], error)));
}

static void
tell (PrMarkingView *view, const char *sentence)
{
  gtk_label_set_text (GTK_LABEL (view->trouble), sentence ? sentence : "");
  gtk_widget_set_visible (view->trouble, sentence && *sentence);
}

static void
use_points (PrMarkingView *view)
{
  PrTraceOptions options;
  g_autoptr (GError) error = NULL;

  if (!pr_document_marking (view->doc))
    return;
  if (collect (view, &options, &error))
    pr_document_use_marks (view->doc, &options);
  tell (view, error ? error->message : NULL);
}

static void
leave (PrMarkingView *view)
{
  pr_document_leave_marking (view->doc);
}

static void
snap_toggled (PrMarkingView *view)
{
  pr_marking_area_set_snap (view->area, gtk_check_button_get_active (GTK_CHECK_BUTTON (view->snap)));
}

static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
             PrMarkingView *view)
{
  if (key != GDK_KEY_Escape)
    return FALSE;
  leave (view);
  return TRUE;
}

/* --- what the document tells --- */

static void
show_options (PrMarkingView *view, const PrTraceOptions *options)
{
  guint what = SHEET;

  if (options->n_points > 0)
    what = options->method == PR_SCALE_CARD     ? CARD
           : options->method == PR_SCALE_RULER  ? RULER
           : options->paper == PR_PAPER_UNKNOWN ? RECTANGLE
                                                : SHEET;
  if (options->paper != PR_PAPER_UNKNOWN)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (view->paper), (guint) options->paper);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (view->what), what);
  pr_marking_area_set_points (view->area, what == RULER ? 2 : 4,
                              options->n_points > 0 ? options->point : NULL);
  what_chosen (view);
}

static void
document_changed (PrMarkingView *view, guint flags)
{
  const PrMarking *marking = pr_document_marking (view->doc);
  double done;
  const char *stage;

  if (flags & PR_CHANGED_BUSY)
    gtk_widget_set_sensitive (view->use, !pr_document_busy (view->doc, &done, &stage));
  if (!(flags & (PR_CHANGED_STAGE | PR_CHANGED_PLACE)))
    return;
  if (!marking) {
    view->photo = NULL;
    pr_marking_area_set_photo (view->area, NULL);
    return;
  }
  if (view->photo != marking->photo) {
    view->photo = marking->photo;
    gtk_label_set_text (GTK_LABEL (view->why), marking->why);
    pr_marking_area_set_photo (view->area, marking->photo);
    show_options (view, &marking->options);
    tell (view, NULL);
    gtk_widget_grab_focus (GTK_WIDGET (view->area));
  } else {
    tell (view, marking->why);
  }
}

void
pr_marking_view_set_document (PrMarkingView *view, PrDocument *doc)
{
  g_return_if_fail (!view->doc);
  view->doc = g_object_ref (doc);
  if (pr_document_unit (doc) == PR_UNIT_INCH)
    gtk_drop_down_set_selected (GTK_DROP_DOWN (view->paper), PR_PAPER_LETTER);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), view, G_CONNECT_SWAPPED);
}

void
pr_marking_view_zoom (PrMarkingView *view, double factor)
{
  if (factor > 0)
    pr_picture_zoom_by (PR_PICTURE (view->area), factor);
  else
    pr_picture_fit (PR_PICTURE (view->area));
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
entry (PrMarkingView *view, const char *label)
{
  GtkWidget *widget = gtk_entry_new ();

  gtk_editable_set_width_chars (GTK_EDITABLE (widget), 9);
  gtk_entry_set_placeholder_text (GTK_ENTRY (widget), label);
  name (widget, label);
  g_signal_connect_swapped (widget, "activate", G_CALLBACK (use_points), view);
  return widget;
}

static GtkWidget *
choices (PrMarkingView *view)
{
  const char *const whats[]
      = { _ ("a sheet of paper"), _ ("a card"), _ ("a rectangle"), _ ("a ruler"), NULL };
  GtkStringList *papers = gtk_string_list_new (NULL);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  view->what = gtk_drop_down_new_from_strings (whats);
  name (view->what, _ ("What is marked"));
  g_signal_connect_swapped (view->what, "notify::selected", G_CALLBACK (what_chosen), view);
  for (int i = 0; i < PR_N_PAPERS; i++)
    gtk_string_list_append (papers, pr_paper_name ((PrPaper) i));
  view->paper = gtk_drop_down_new (G_LIST_MODEL (papers), NULL);
  name (view->paper, _ ("Paper"));
  view->width = entry (view, _ ("upper side"));
  view->times = gtk_label_new ("×");
  view->height = entry (view, _ ("left side"));
  view->snap = gtk_check_button_new_with_label (_ ("Points go to the nearest edge"));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (view->snap), TRUE);
  gtk_widget_set_tooltip_text (view->snap, _ ("Hold Alt to leave a point where you let it go"));
  g_signal_connect_swapped (view->snap, "toggled", G_CALLBACK (snap_toggled), view);
  for (GtkWidget **part = (GtkWidget *[]){ gtk_label_new (_ ("Mark")), view->what, view->paper, view->width,
                                           view->times, view->height, view->snap, NULL };
       *part; part++)
    gtk_box_append (GTK_BOX (line), *part);
  return line;
}

static void
add_buttons (PrMarkingView *view, GtkWidget *line)
{
  GtkWidget *cancel = gtk_button_new_with_label (_ ("Cancel")), *gap = gtk_label_new (NULL);

  gtk_widget_set_hexpand (gap, TRUE);
  view->use = gtk_button_new_with_label (_ ("Use these points"));
  gtk_widget_add_css_class (view->use, "main");
  g_signal_connect_swapped (cancel, "clicked", G_CALLBACK (leave), view);
  g_signal_connect_swapped (view->use, "clicked", G_CALLBACK (use_points), view);
  gtk_box_append (GTK_BOX (line), gap);
  gtk_box_append (GTK_BOX (line), cancel);
  gtk_box_append (GTK_BOX (line), view->use);
}

static void
pr_marking_view_dispose (GObject *object)
{
  g_clear_object (&PR_MARKING_VIEW (object)->doc);
  G_OBJECT_CLASS (pr_marking_view_parent_class)->dispose (object);
}

static void
pr_marking_view_init (PrMarkingView *view)
{
  GtkWidget *bar = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *line;
  GtkEventController *key = gtk_event_controller_key_new ();

  gtk_orientable_set_orientation (GTK_ORIENTABLE (view), GTK_ORIENTATION_VERTICAL);
  gtk_widget_add_css_class (bar, "above-board");
  gtk_widget_add_css_class (bar, "working");
  view->why = words ("head");
  view->hint = words ("soft");
  view->trouble = words ("trouble");
  view->area = PR_MARKING_AREA (pr_marking_area_new ());
  line = choices (view);
  add_buttons (view, line);
  gtk_box_append (GTK_BOX (bar), view->why);
  gtk_box_append (GTK_BOX (bar), line);
  gtk_box_append (GTK_BOX (bar), view->hint);
  gtk_box_append (GTK_BOX (bar), view->trouble);
  gtk_box_append (GTK_BOX (view), bar);
  gtk_box_append (GTK_BOX (view), GTK_WIDGET (view->area));
  what_chosen (view);
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed), view);
  gtk_widget_add_controller (GTK_WIDGET (view), key);
}

static void
pr_marking_view_class_init (PrMarkingViewClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pr_marking_view_dispose;
}
