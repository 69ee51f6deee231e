/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-rack-list.h"

#include "pr-rack-row.h"

#define MOST_LINES 8 /* what lies further down asks for far more work; the bar in hand is always shown */
#define SAME_MM 0.01 /* sections typed in inches and in mm are the same bar */

struct _PrRackList {
  PrFollower parent_instance;
  GArray *rack; /* PrRackBar, read when first unfolded */
  GtkWidget *expander, *lines;
};

G_DEFINE_FINAL_TYPE (PrRackList, pr_rack_list, PR_TYPE_FOLLOWER)

static bool
in_hand (const PrRackLine *line, const PrPlan *plan)
{
  return fabs (line->bar.width - plan->stock_width) < SAME_MM
         && fabs (line->bar.thickness - plan->stock_thick) < SAME_MM;
}

static void
fill (PrRackList *list)
{
  const PrJob *job = pr_job_of (list);
  g_autoptr (GArray) ranked = NULL;

  if (!job || !gtk_expander_get_expanded (GTK_EXPANDER (list->expander))
      || pr_document_editing (pr_document_of (list)))
    return;
  if (!list->rack)
    list->rack = pr_rack_load (NULL);
  ranked = pr_rack_rank (list->rack, &job->hoof, &job->sources.plan, job->shoe);
  pr_empty (list->lines);
  for (guint i = 0; i < ranked->len; i++) {
    const PrRackLine *line = &g_array_index (ranked, PrRackLine, i);
    bool held = in_hand (line, &job->sources.plan);

    if (i < MOST_LINES || held)
      gtk_box_append (GTK_BOX (list->lines), pr_rack_row_new (line, job->unit, held));
  }
}

static void
changed (PrFollower *follower, guint what)
{
  if (what & (PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_PLACE | PR_CHANGED_UNIT | PR_CHANGED_HISTORY))
    fill (PR_RACK_LIST (follower));
}

static void
pr_rack_list_dispose (GObject *object)
{
  g_clear_pointer (&PR_RACK_LIST (object)->rack, g_array_unref);
  G_OBJECT_CLASS (pr_rack_list_parent_class)->dispose (object);
}

static void
pr_rack_list_init (PrRackList *list)
{
  gtk_widget_init_template (GTK_WIDGET (list));
}

static void
pr_rack_list_class_init (PrRackListClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_rack_list_dispose;
  PR_FOLLOWER_CLASS (class)->changed = changed;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "rack-list.ui");
  gtk_widget_class_bind_template_callback (widget_class, fill);
  gtk_widget_class_bind_template_child (widget_class, PrRackList, expander);
  gtk_widget_class_bind_template_child (widget_class, PrRackList, lines);
}
