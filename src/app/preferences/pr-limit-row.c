/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-limit-row.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-figure-entry.h"
#include "pr-limit-words.h"
#include "pr-ui.h"

struct _PrLimitRow {
  GtkBox parent_instance;
  const char *id;
  PrUnit unit;
  GtkLabel *name, *source;
  GtkWidget *look, *mend, *look_word, *back, *trouble;
};

G_DEFINE_FINAL_TYPE (PrLimitRow, pr_limit_row, GTK_TYPE_BOX)

static double
figure_of (const PrLimit *limit, bool look)
{
  return look ? limit->look : limit->mend;
}

static void
show_figure (PrLimitRow *row, GtkWidget *entry, bool look)
{
  const PrLimit *limit = pr_limit (row->id);
  g_autofree char *text = pr_limit_words (limit, figure_of (limit, look), row->unit);

  pr_figure_entry_show (PR_FIGURE_ENTRY (entry), text);
  gtk_widget_remove_css_class (entry, "error");
}

static void
show (PrLimitRow *row)
{
  const PrLimit *limit = pr_limit (row->id);

  show_figure (row, row->look, true);
  show_figure (row, row->mend, false);
  gtk_label_set_text (row->source, limit->source);
  gtk_widget_set_visible (row->back, limit->own);
  pr_tell (row->trouble, NULL);
}

void
pr_limit_row_show (PrLimitRow *row, PrUnit unit)
{
  row->unit = unit;
  show (row);
}

bool
pr_limit_row_is (PrLimitRow *row, const char *words)
{
  g_autofree char *name = g_utf8_strdown (gtk_label_get_text (row->name), -1);

  return strstr (name, words) != NULL;
}

static void
refuse (PrLimitRow *row, GtkWidget *entry, const char *sentence)
{
  gtk_widget_add_css_class (entry, "error");
  pr_tell (row->trouble, sentence);
}

/* FALSE where what ENTRY says is no figure, which is told. FIGURE is left alone where it was not typed anew. */
static bool
read_figure (PrLimitRow *row, GtkWidget *entry, double *figure)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (entry));
  const PrLimit *limit = pr_limit (row->id);
  g_autofree char *now = pr_limit_words (limit, *figure, row->unit);
  g_autoptr (GError) error = NULL;

  if (g_str_equal (text, now) || pr_limit_read (limit, *figure, text, row->unit, figure, &error))
    return true;
  refuse (row, entry, error->message);
  return false;
}

static void
entry_taken (GtkWidget *entry, PrLimitRow *row)
{
  const PrLimit *limit = pr_limit (row->id);
  double look = limit->look, mend = limit->mend;
  g_autoptr (GError) error = NULL;

  if (!read_figure (row, row->look, &look) || !read_figure (row, row->mend, &mend))
    return;
  if (limit->single)
    look = mend;
  if (look == limit->look && mend == limit->mend)
    show (row);
  else if (pr_limit_keep (row->id, look, mend, &error))
    gtk_widget_activate_action (GTK_WIDGET (row), "limits.changed", NULL);
  else
    refuse (row, entry, error->message);
}

static void
give_back (PrLimitRow *row)
{
  g_autoptr (GError) error = NULL;

  if (pr_limit_give_back (row->id, &error))
    gtk_widget_activate_action (GTK_WIDGET (row), "limits.changed", NULL);
  else
    pr_tell (row->trouble, error->message);
}

/* What NAME's entry is, in one breath, for who cannot see what stands around it. */
static void
speak (GtkWidget *entry, const char *form, const char *name)
{
  g_autofree char *spoken = g_strdup_printf ("%s: %s", name, form);

  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

GtkWidget *
pr_limit_row_new (const char *id, PrUnit unit)
{
  PrLimitRow *row = g_object_new (PR_TYPE_LIMIT_ROW, NULL);
  const PrLimit *limit = pr_limit (id);

  row->id = id;
  gtk_label_set_text (row->name, limit->name);
  gtk_widget_set_visible (row->look, !limit->single);
  gtk_widget_set_visible (row->look_word, !limit->single);
  speak (row->look, _ ("to check"), limit->name);
  speak (row->mend, limit->single ? _ ("figure") : _ ("to fix"), limit->name);
  speak (row->back, _ ("Back to the program's own"), limit->name);
  pr_limit_row_show (row, unit);
  return GTK_WIDGET (row);
}

static void
pr_limit_row_init (PrLimitRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrLimitRow, name)

static void
pr_limit_row_class_init (PrLimitRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  g_type_ensure (PR_TYPE_FIGURE_ENTRY);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "limit-row.ui");
  gtk_widget_class_bind_template_callback (widget_class, entry_taken);
  gtk_widget_class_bind_template_callback (widget_class, show);
  gtk_widget_class_bind_template_callback (widget_class, give_back);
  BIND (name);
  BIND (source);
  BIND (look);
  BIND (mend);
  BIND (look_word);
  BIND (back);
  BIND (trouble);
}
