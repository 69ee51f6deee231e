/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-wall-row.h"

#include "pr-figure-entry.h"
#include "pr-words.h"

enum { TOE, QUARTERS, HEELS, N_WALLS };

struct _PrWallRow {
  PrFollower parent_instance;
  GtkWidget *entry[N_WALLS], *trouble;
};

G_DEFINE_FINAL_TYPE (PrWallRow, pr_wall_row, PR_TYPE_FOLLOWER)

static char *
wall_text (PrWallRow *row, int which)
{
  return pr_words_length (pr_job_of (row)->hoof.wall[which], pr_document_unit (pr_document_of (row)));
}

static void
show_trouble (PrWallRow *row, gpointer entry, const char *sentence)
{
  pr_tell (row->trouble, sentence);
  for (int i = 0; i < N_WALLS; i++)
    gtk_widget_remove_css_class (row->entry[i], "error");
  if (entry)
    gtk_widget_add_css_class (entry, "error");
}

static void
show (PrWallRow *row)
{
  for (int i = 0; pr_job_of (row) && i < N_WALLS; i++) {
    g_autofree char *text = wall_text (row, i);

    pr_figure_entry_show (PR_FIGURE_ENTRY (row->entry[i]), text);
  }
  show_trouble (row, NULL, NULL);
}

static void
changed (PrFollower *follower, guint what)
{
  if (what & (PR_CHANGED_HOOF | PR_CHANGED_UNIT | PR_CHANGED_PLACE))
    show (PR_WALL_ROW (follower));
}

static int
index_of (PrWallRow *row, gpointer entry)
{
  return entry == row->entry[TOE] ? TOE : entry == row->entry[QUARTERS] ? QUARTERS : HEELS;
}

static void
entry_taken (GtkEditable *entry, PrWallRow *row)
{
  PrDocument *doc = pr_document_of (row);
  int which = index_of (row, entry);
  const char *text = gtk_editable_get_text (entry);
  g_autofree char *now = NULL;
  g_autoptr (GError) error = NULL;
  double mm = 0;

  if (!pr_job_of (row) || pr_document_editing (doc))
    return;
  now = wall_text (row, which);
  if (g_str_equal (now, text)
      || ((!*text || pr_length_parse (text, pr_document_unit (doc), &mm, &error))
          && pr_document_set_wall (doc, which, mm, &error)))
    show (row);
  else
    show_trouble (row, entry, error->message);
}

static void
pr_wall_row_init (PrWallRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
}

static void
pr_wall_row_class_init (PrWallRowClass *class)
{
  static const char *const names[N_WALLS] = { "toe", "quarters", "heels" };
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  PR_FOLLOWER_CLASS (class)->changed = changed;
  g_type_ensure (PR_TYPE_FIGURE_ENTRY);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "wall-row.ui");
  gtk_widget_class_bind_template_callback (widget_class, entry_taken);
  gtk_widget_class_bind_template_callback (widget_class, show);
  for (int i = 0; i < N_WALLS; i++)
    gtk_widget_class_bind_template_child_full (widget_class, names[i], FALSE,
                                               G_STRUCT_OFFSET (PrWallRow, entry) + i * sizeof (GtkWidget *));
  gtk_widget_class_bind_template_child (widget_class, PrWallRow, trouble);
}
