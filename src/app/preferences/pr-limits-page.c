/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-limits-page.h"

#include "pr-limit-row.h"
#include "pr-limits.h"
#include "pr-ui.h"

struct _PrLimitsPage {
  PrFollower parent_instance;
  GtkEditable *search;
  GtkWidget *rows, *none;
};

G_DEFINE_FINAL_TYPE (PrLimitsPage, pr_limits_page, PR_TYPE_FOLLOWER)

static void
look_for (PrLimitsPage *page)
{
  g_autofree char *words = g_utf8_strdown (gtk_editable_get_text (page->search), -1);
  bool any = false;

  g_strstrip (words);
  for (GtkWidget *row = gtk_widget_get_first_child (page->rows); row;
       row = gtk_widget_get_next_sibling (row)) {
    bool is = pr_limit_row_is (PR_LIMIT_ROW (row), words);

    gtk_widget_set_visible (row, is);
    any |= is;
  }
  gtk_widget_set_visible (page->none, !any);
}

static void
fill (PrLimitsPage *page, PrUnit unit)
{
  g_autofree const char **ids = pr_limits_named ();

  for (size_t i = 0; ids[i]; i++)
    gtk_box_append (GTK_BOX (page->rows), pr_limit_row_new (ids[i], unit));
}

static void
changed (PrFollower *follower, guint what)
{
  PrLimitsPage *page = PR_LIMITS_PAGE (follower);
  PrUnit unit = pr_document_unit (pr_document_of (follower));
  GtkWidget *row = gtk_widget_get_first_child (page->rows);

  if (!row)
    fill (page, unit);
  for (; row && what & PR_CHANGED_UNIT; row = gtk_widget_get_next_sibling (row))
    pr_limit_row_show (PR_LIMIT_ROW (row), unit);
}

/* The action "limits.changed". */
static void
limit_changed (GtkWidget *widget, const char *name, GVariant *parameter)
{
  PrLimitsPage *page = PR_LIMITS_PAGE (widget);
  PrDocument *doc = pr_document_of (page);

  for (GtkWidget *row = gtk_widget_get_first_child (page->rows); row; row = gtk_widget_get_next_sibling (row))
    pr_limit_row_show (PR_LIMIT_ROW (row), pr_document_unit (doc));
  pr_document_limits_changed (doc);
}

static void
pr_limits_page_init (PrLimitsPage *page)
{
  gtk_widget_init_template (GTK_WIDGET (page));
}

static void
pr_limits_page_class_init (PrLimitsPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  PR_FOLLOWER_CLASS (class)->changed = changed;
  gtk_widget_class_install_action (widget_class, "limits.changed", NULL, limit_changed);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "limits-page.ui");
  gtk_widget_class_bind_template_callback (widget_class, look_for);
  gtk_widget_class_bind_template_child (widget_class, PrLimitsPage, search);
  gtk_widget_class_bind_template_child (widget_class, PrLimitsPage, rows);
  gtk_widget_class_bind_template_child (widget_class, PrLimitsPage, none);
}
