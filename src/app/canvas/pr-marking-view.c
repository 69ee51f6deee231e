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
  GtkLabel *why, *trouble, *hint;
  GtkDropDown *what, *paper;
  GtkStringList *papers;
  GtkCheckButton *snap;
  GtkWidget *width, *times, *height, *use;
  PrMarkingArea *area;
};

G_DEFINE_FINAL_TYPE (PrMarkingView, pr_marking_view, GTK_TYPE_BOX)

/* --- what is marked --- */

static const char *
hint_for (guint what, PrUnit unit)
{
  switch (what) {
  case CARD:
    return unit == PR_UNIT_INCH
               ? _ ("A card the size of a bank card (3.37 × 2.125 in): drag a point to where its sides would "
                    "meet at each corner, not onto the rounding.")
               : _ ("A card the size of a bank card (85.6 × 54 mm): drag a point to where its sides would "
                    "meet at each corner, not onto the rounding.");
  case RECTANGLE:
    return _ ("Anything with square corners lying flat beside the tracing: drag a point to each corner, then "
              "give the upper side and the left side.");
  case RULER:
    return _ ("Drag the points to two marks of the ruler and give the length between them. A ruler "
              "gives scale only: the camera must have looked straight down.");
  default:
    return _ ("Drag a point to each corner of the sheet. A corner outside the photo? Mark a card or "
              "a ruler instead.");
  }
}

static void
tell (PrMarkingView *view, const char *sentence)
{
  gtk_label_set_text (view->trouble, sentence ? sentence : "");
  gtk_widget_set_visible (GTK_WIDGET (view->trouble), sentence && *sentence);
}

static void
what_chosen (PrMarkingView *view)
{
  guint what = gtk_drop_down_get_selected (view->what);
  const char *side = what == RULER ? _ ("length") : _ ("upper side");
  PrPx point[4];
  size_t n = what == RULER ? 2 : 4;

  gtk_widget_set_visible (GTK_WIDGET (view->paper), what == SHEET);
  gtk_widget_set_visible (view->width, what == RECTANGLE || what == RULER);
  gtk_widget_set_visible (view->times, what == RECTANGLE);
  gtk_widget_set_visible (view->height, what == RECTANGLE);
  gtk_entry_set_placeholder_text (GTK_ENTRY (view->width), side);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view->width), GTK_ACCESSIBLE_PROPERTY_LABEL, side, -1);
  gtk_label_set_text (view->hint, hint_for (what, view->doc ? pr_document_unit (view->doc) : PR_UNIT_MM));
  tell (view, NULL);
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
                       gtk_drop_down_get_selected (view->what) == RULER
                           ? _ ("Give the length between the two points.")
                           : _ ("Give both sides of the rectangle."));
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
  guint what = gtk_drop_down_get_selected (view->what);

  *options = pr_document_marking (view->doc)->options;
  options->method = methods[what];
  options->paper = what == SHEET ? (PrPaper) gtk_drop_down_get_selected (view->paper) : PR_PAPER_UNKNOWN;
  options->n_points = pr_marking_area_points (view->area, options->point);
  options->snap = pr_marking_area_snapped (view->area);
  if (what == SHEET)
    paper_sides (options->paper, options->point, options->side_mm);
  return (what != RECTANGLE && what != RULER)
         || (read_side (view, view->width, &options->side_mm[0], error)
             && (what == RULER || read_side (view, view->height, &options->side_mm[1], error)));
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
  pr_marking_area_set_snap (view->area, gtk_check_button_get_active (view->snap));
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
    gtk_drop_down_set_selected (view->paper, (guint) options->paper);
  gtk_drop_down_set_selected (view->what, what);
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
    gtk_label_set_text (view->why, marking->why);
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
    gtk_drop_down_set_selected (view->paper, PR_PAPER_LETTER);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), view, G_CONNECT_SWAPPED);
  document_changed (view, PR_CHANGED_ALL);
}

void
pr_marking_view_zoom (PrMarkingView *view, double factor)
{
  if (factor > 0)
    pr_picture_zoom_by (PR_PICTURE (view->area), factor);
  else
    pr_picture_fit (PR_PICTURE (view->area));
}

/* --- the widget --- */

static void
pr_marking_view_dispose (GObject *object)
{
  g_clear_object (&PR_MARKING_VIEW (object)->doc);
  G_OBJECT_CLASS (pr_marking_view_parent_class)->dispose (object);
}

static void
pr_marking_view_init (PrMarkingView *view)
{
  gtk_widget_init_template (GTK_WIDGET (view));
  for (int i = 0; i < PR_N_PAPERS; i++)
    gtk_string_list_append (view->papers, pr_paper_name ((PrPaper) i));
  what_chosen (view);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrMarkingView, name)

static void
pr_marking_view_class_init (PrMarkingViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_marking_view_dispose;
  g_type_ensure (PR_TYPE_MARKING_AREA);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/marking-view.ui");
  BIND (why);
  BIND (what);
  BIND (paper);
  BIND (papers);
  BIND (width);
  BIND (times);
  BIND (height);
  BIND (snap);
  BIND (use);
  BIND (hint);
  BIND (trouble);
  BIND (area);
  gtk_widget_class_bind_template_callback (widget_class, what_chosen);
  gtk_widget_class_bind_template_callback (widget_class, use_points);
  gtk_widget_class_bind_template_callback (widget_class, snap_toggled);
  gtk_widget_class_bind_template_callback (widget_class, leave);
  gtk_widget_class_bind_template_callback (widget_class, key_pressed);
}
