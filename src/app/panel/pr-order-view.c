/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-order-view.h"

#include <glib/gi18n-lib.h>

#define LEAST_PX 120
#define MOST_PX 260 /* what is longer scrolls, so that the reset stays in sight */

struct _PrOrderView {
  GtkBox parent_instance;
  PrDocument *doc;
  GtkWidget *text, *reset;
  bool showing; /* the text is being filled, not typed */
  bool typing;  /* the document is told of what was typed */
};

G_DEFINE_FINAL_TYPE (PrOrderView, pr_order_view, GTK_TYPE_BOX)

static char *
order_text (const PrJob *job)
{
  g_autoptr (GPtrArray) steps = NULL;

  if (job->order)
    return g_strdup (job->order);
  steps = pr_job_order (job);
  g_ptr_array_add (steps, NULL);
  return g_strjoinv ("\n", (char **) steps->pdata);
}

static char *
typed_text (GtkTextBuffer *buffer)
{
  GtkTextIter from, to;

  gtk_text_buffer_get_bounds (buffer, &from, &to);
  return gtk_text_buffer_get_text (buffer, &from, &to, FALSE);
}

static void
show (PrOrderView *view)
{
  const PrJob *job = pr_document_job (view->doc);
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (GTK_TEXT_VIEW (view->text));
  g_autofree char *wanted = NULL, *now = NULL;

  if (!job || view->typing || !gtk_widget_get_mapped (GTK_WIDGET (view)))
    return;
  wanted = order_text (job);
  now = typed_text (buffer);
  view->showing = true;
  if (!g_str_equal (wanted, now))
    gtk_text_buffer_set_text (buffer, wanted, -1);
  view->showing = false;
  gtk_widget_set_sensitive (view->reset, job->order != NULL);
}

static void
document_changed (PrOrderView *view, guint what)
{
  if (what & (PR_CHANGED_HISTORY | PR_CHANGED_PLACE | PR_CHANGED_UNIT | PR_CHANGED_HOOF))
    show (view);
}

static void
typed (GtkTextBuffer *buffer, PrOrderView *view)
{
  g_autofree char *text = NULL;

  if (view->showing || !pr_document_job (view->doc) || pr_document_editing (view->doc))
    return;
  text = typed_text (buffer);
  view->typing = true;
  pr_document_set_order (view->doc, text);
  view->typing = false;
  gtk_widget_set_sensitive (view->reset, TRUE);
}

static void
reset (PrOrderView *view)
{
  if (pr_document_job (view->doc))
    pr_document_set_order (view->doc, NULL);
}

GtkWidget *
pr_order_view_new (PrDocument *doc)
{
  PrOrderView *view = g_object_new (PR_TYPE_ORDER_VIEW, NULL);

  view->doc = g_object_ref (doc);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), view, G_CONNECT_SWAPPED);
  return GTK_WIDGET (view);
}

static void
pr_order_view_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (pr_order_view_parent_class)->map (widget);
  show (PR_ORDER_VIEW (widget));
}

static void
pr_order_view_dispose (GObject *object)
{
  g_clear_object (&PR_ORDER_VIEW (object)->doc);
  G_OBJECT_CLASS (pr_order_view_parent_class)->dispose (object);
}

static void
build_text (PrOrderView *view)
{
  view->text = gtk_text_view_new ();
  gtk_text_view_set_wrap_mode (GTK_TEXT_VIEW (view->text), GTK_WRAP_WORD_CHAR);
  gtk_text_view_set_accepts_tab (GTK_TEXT_VIEW (view->text), FALSE); /* Tab leaves it */
  gtk_text_view_set_pixels_below_lines (GTK_TEXT_VIEW (view->text), 5);
  gtk_text_view_set_indent (GTK_TEXT_VIEW (view->text), -12);
  gtk_text_buffer_set_enable_undo (gtk_text_view_get_buffer (GTK_TEXT_VIEW (view->text)), FALSE);
  gtk_widget_add_css_class (view->text, "order");
  gtk_accessible_update_property (GTK_ACCESSIBLE (view->text), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Order of work, a step a line"), -1);
  g_signal_connect (gtk_text_view_get_buffer (GTK_TEXT_VIEW (view->text)), "changed", G_CALLBACK (typed),
                    view);
}

static void
pr_order_view_init (PrOrderView *view)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();

  gtk_orientable_set_orientation (GTK_ORIENTABLE (view), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (view), 6);
  build_text (view);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scroller), TRUE);
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroller), LEAST_PX);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scroller), MOST_PX);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), view->text);
  gtk_box_append (GTK_BOX (view), scroller);
  view->reset = gtk_button_new_with_label (_ ("As the plan gives it"));
  gtk_widget_set_halign (view->reset, GTK_ALIGN_START);
  g_signal_connect_swapped (view->reset, "clicked", G_CALLBACK (reset), view);
  gtk_box_append (GTK_BOX (view), view->reset);
}

static void
pr_order_view_class_init (PrOrderViewClass *class)
{
  G_OBJECT_CLASS (class)->dispose = pr_order_view_dispose;
  GTK_WIDGET_CLASS (class)->map = pr_order_view_map;
}
