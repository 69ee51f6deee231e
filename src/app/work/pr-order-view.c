/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-order-view.h"

struct _PrOrderView {
  PrFollower parent_instance;
  GtkTextBuffer *text;
  GtkWidget *reset;
  bool showing; /* the text is being filled, not typed */
  bool typing;  /* the document is told of what was typed */
};

G_DEFINE_FINAL_TYPE (PrOrderView, pr_order_view, PR_TYPE_FOLLOWER)

static char *
order_text (const PrJob *job)
{
  g_autoptr (GPtrArray) steps = NULL;

  if (job->sources.order)
    return g_strdup (job->sources.order);
  steps = pr_job_order (job);
  g_ptr_array_add (steps, NULL);
  return g_strjoinv ("\n", (char **) steps->pdata);
}

static void
show (PrOrderView *view)
{
  const PrJob *job = pr_job_of (view);
  g_autofree char *wanted = NULL, *now = NULL;

  if (!job || view->typing || !gtk_widget_get_mapped (GTK_WIDGET (view)))
    return;
  wanted = order_text (job);
  now = pr_typed (view->text);
  view->showing = true;
  if (!g_str_equal (wanted, now))
    gtk_text_buffer_set_text (view->text, wanted, -1);
  view->showing = false;
  gtk_widget_set_sensitive (view->reset, job->sources.order != NULL);
}

static void
changed (PrFollower *follower, guint what)
{
  if (what & (PR_CHANGED_HISTORY | PR_CHANGED_PLACE | PR_CHANGED_UNIT | PR_CHANGED_HOOF))
    show (PR_ORDER_VIEW (follower));
}

static void
typed (PrOrderView *view)
{
  PrDocument *doc = pr_document_of (view);
  g_autofree char *text = NULL;

  if (view->showing || !pr_job_of (view) || pr_document_editing (doc))
    return;
  text = pr_typed (view->text);
  view->typing = true;
  pr_document_set_order (doc, text);
  view->typing = false;
  gtk_widget_set_sensitive (view->reset, TRUE);
}

static void
put_back (PrOrderView *view)
{
  if (pr_job_of (view))
    pr_document_set_order (pr_document_of (view), NULL);
}

static void
pr_order_view_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (pr_order_view_parent_class)->map (widget);
  show (PR_ORDER_VIEW (widget));
}

static void
pr_order_view_init (PrOrderView *view)
{
  gtk_widget_init_template (GTK_WIDGET (view));
}

static void
pr_order_view_class_init (PrOrderViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  widget_class->map = pr_order_view_map;
  PR_FOLLOWER_CLASS (class)->changed = changed;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "order-view.ui");
  gtk_widget_class_bind_template_callback (widget_class, typed);
  gtk_widget_class_bind_template_callback (widget_class, put_back);
  gtk_widget_class_bind_template_child (widget_class, PrOrderView, text);
  gtk_widget_class_bind_template_child (widget_class, PrOrderView, reset);
}
