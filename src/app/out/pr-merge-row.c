/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-merge-row.h"

#include <glib/gi18n-lib.h>
#include "pr-colour.h"
#include "pr-draw.h"
#include "pr-ui.h"

#define PAD_PX 8.0
#define LINE_PX 1.1

struct _PrMergeRow {
  GtkBox parent_instance;
  PrMergeItem *item;
  GtkLabel *title, *mine_says, *theirs_says;
  GtkDrawingArea *mine, *theirs;
  GtkCheckButton *both, *keep, *take;
  bool showing;
};

G_DEFINE_FINAL_TYPE (PrMergeRow, pr_merge_row, GTK_TYPE_BOX)

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  PrMergeRow *row = data;
  const PrJob *job = row->item ? pr_merge_item_job (row->item, area == row->theirs) : NULL;

  if (job && job->hoof.outline.n > 0)
    pr_draw_small (cr, job, width, height, PAD_PX, LINE_PX, pr_colour_is_dark (GTK_WIDGET (area)));
}

static void
chosen (PrMergeRow *row)
{
  if (row->item && !row->showing)
    pr_merge_item_choose (row->item, gtk_check_button_get_active (row->keep)   ? PR_MERGE_MINE
                                     : gtk_check_button_get_active (row->take) ? PR_MERGE_THEIRS
                                                                               : PR_MERGE_BOTH);
}

static void
show_choice (PrMergeRow *row)
{
  GtkCheckButton *const button[PR_N_MERGE_CHOICES]
      = { [PR_MERGE_BOTH] = row->both, [PR_MERGE_MINE] = row->keep, [PR_MERGE_THEIRS] = row->take };

  row->showing = true;
  gtk_check_button_set_active (button[pr_merge_item_choice (row->item)], TRUE);
  row->showing = false;
}

void
pr_merge_row_show (PrMergeRow *row, PrMergeItem *item)
{
  g_set_object (&row->item, item);
  if (!item)
    return;
  g_autofree char *title = pr_merge_item_title (item), *mine = pr_merge_item_says (item, 0),
                  *theirs = pr_merge_item_says (item, 1);
  bool foot = pr_merge_item_is_foot (item);

  gtk_label_set_text (row->title, title);
  gtk_label_set_text (row->mine_says, mine);
  gtk_label_set_text (row->theirs_says, theirs);
  gtk_widget_set_visible (GTK_WIDGET (row->mine), foot);
  gtk_widget_set_visible (GTK_WIDGET (row->theirs), foot);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  show_choice (row);
  gtk_widget_queue_draw (GTK_WIDGET (row->mine));
  gtk_widget_queue_draw (GTK_WIDGET (row->theirs));
}

static void
pr_merge_row_dispose (GObject *object)
{
  g_clear_object (&PR_MERGE_ROW (object)->item);
  G_OBJECT_CLASS (pr_merge_row_parent_class)->dispose (object);
}

static void
pr_merge_row_init (PrMergeRow *row)
{
  gtk_widget_init_template (GTK_WIDGET (row));
  gtk_drawing_area_set_draw_func (row->mine, draw, row, NULL);
  gtk_drawing_area_set_draw_func (row->theirs, draw, row, NULL);
}

static void
pr_merge_row_class_init (PrMergeRowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_merge_row_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "merge-row.ui");
  gtk_widget_class_bind_template_callback (widget_class, chosen);
  gtk_widget_class_bind_template_child (widget_class, PrMergeRow, title);
  gtk_widget_class_bind_template_child (widget_class, PrMergeRow, mine_says);
  gtk_widget_class_bind_template_child (widget_class, PrMergeRow, theirs_says);
  gtk_widget_class_bind_template_child (widget_class, PrMergeRow, mine);
  gtk_widget_class_bind_template_child (widget_class, PrMergeRow, theirs);
  gtk_widget_class_bind_template_child (widget_class, PrMergeRow, both);
  gtk_widget_class_bind_template_child (widget_class, PrMergeRow, keep);
  gtk_widget_class_bind_template_child (widget_class, PrMergeRow, take);
}
