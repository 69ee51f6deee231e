/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-own-bar.h"

#include "pr-document-forged.h"

struct _PrOwnBar {
  PrFollower parent_instance;
  GtkCheckButton *use;
  GtkWidget *told, *trouble;
  bool showing; /* its own doing: no tick of a person's */
};

G_DEFINE_FINAL_TYPE (PrOwnBar, pr_own_bar, PR_TYPE_FOLLOWER)

static void
show (PrOwnBar *bar)
{
  PrDocument *doc = pr_document_of (bar);
  g_autofree char *text = pr_document_own_bar (doc);
  bool used = pr_document_uses_own (doc);

  bar->showing = true;
  gtk_widget_set_visible (GTK_WIDGET (bar), text || used);
  pr_tell (bar->told, text);
  gtk_check_button_set_active (bar->use, used);
  pr_tell (bar->trouble, NULL);
  bar->showing = false;
}

static void
toggled (PrOwnBar *bar)
{
  g_autoptr (GError) error = NULL;

  if (bar->showing || !pr_job_of (bar))
    return;
  if (pr_document_use_own (pr_document_of (bar), gtk_check_button_get_active (bar->use), &error))
    return;
  show (bar);
  pr_tell (bar->trouble, error ? error->message : NULL);
}

static void
changed (PrFollower *follower, guint what)
{
  if (!pr_job_of (follower) || pr_document_editing (pr_document_of (follower)))
    return;
  if (what & (PR_CHANGED_PLAN | PR_CHANGED_FORGED | PR_CHANGED_PLACE | PR_CHANGED_UNIT | PR_CHANGED_HISTORY))
    show (PR_OWN_BAR (follower));
}

static void
pr_own_bar_init (PrOwnBar *bar)
{
  gtk_widget_init_template (GTK_WIDGET (bar));
}

static void
pr_own_bar_class_init (PrOwnBarClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  PR_FOLLOWER_CLASS (class)->changed = changed;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "own-bar.ui");
  gtk_widget_class_bind_template_child (widget_class, PrOwnBar, use);
  gtk_widget_class_bind_template_child (widget_class, PrOwnBar, told);
  gtk_widget_class_bind_template_child (widget_class, PrOwnBar, trouble);
  gtk_widget_class_bind_template_callback (widget_class, toggled);
}
