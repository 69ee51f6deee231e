/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-heat-list.h"

#include <string.h>

#include "pr-heat-row.h"
#include "pr-step-row.h"

struct _PrHeatList {
  PrFollower parent_instance;
  PrHeats heats; /* as shown */
  GtkWidget *lines, *reset;
};

G_DEFINE_FINAL_TYPE (PrHeatList, pr_heat_list, PR_TYPE_FOLLOWER)

/* TEXT is taken over; NULL changes nothing. */
static void
set (PrHeatList *list, char *text)
{
  g_autofree char *heats = text;

  if (heats && pr_job_of (list) && !pr_document_editing (pr_document_of (list)))
    pr_document_set_heats (pr_document_of (list), heats);
}

static const char *
id_of (const PrHeatList *list, guint nr)
{
  return g_array_index (list->heats.steps, PrStep, nr).id;
}

/* The rows are new, and the keyboard stays with the step. */
static void
follow (PrHeatList *list, const char *id, int by)
{
  for (GtkWidget *row = gtk_widget_get_first_child (list->lines); row;
       row = gtk_widget_get_next_sibling (row))
    if (PR_IS_STEP_ROW (row) && strcmp (id_of (list, pr_step_row_nr (PR_STEP_ROW (row))), id) == 0)
      pr_step_row_focus (PR_STEP_ROW (row), by);
}

static void
moved (PrStepRow *row, int by, PrHeatList *list)
{
  g_autofree char *id = g_strdup (id_of (list, pr_step_row_nr (row)));

  set (list, pr_heats_moved (&list->heats, pr_step_row_nr (row), by));
  follow (list, id, by);
}

static void
parted (PrStepRow *row, PrHeatList *list)
{
  g_autofree char *id = g_strdup (id_of (list, pr_step_row_nr (row)));

  set (list, pr_heats_parted (&list->heats, pr_step_row_nr (row)));
  follow (list, id, 0);
}

static void
put_back (PrHeatList *list)
{
  set (list, g_strdup (""));
}

static void
add_step (PrHeatList *list, guint nr)
{
  GtkWidget *row = pr_step_row_new (&list->heats, nr);

  g_signal_connect (row, "moved", G_CALLBACK (moved), list);
  g_signal_connect (row, "parted", G_CALLBACK (parted), list);
  gtk_box_append (GTK_BOX (list->lines), row);
}

/* The rows are built anew: that is done where nothing waits for them. */
static void
show (PrHeatList *list)
{
  const PrJob *job = pr_job_of (list);

  if (!job || !job->shoe || job->shoe->n_st < 2 || !gtk_widget_get_mapped (GTK_WIDGET (list))
      || pr_document_editing (pr_document_of (list)))
    return;
  pr_heats_clear (&list->heats);
  pr_heats_make (&list->heats, &job->sources.plan, job->shoe, &job->iron, job->unit);
  pr_empty (list->lines);
  for (guint i = 0, shown = G_MAXUINT; i < list->heats.steps->len; i++) {
    guint of = pr_heats_of_step (&list->heats, i);

    if (of != shown)
      gtk_box_append (GTK_BOX (list->lines), pr_heat_row_new (&list->heats, of));
    add_step (list, i);
    shown = of;
  }
  gtk_widget_set_sensitive (list->reset, *job->sources.plan.heats != '\0');
}

static void
changed (PrFollower *follower, guint what)
{
  if (what & (PR_CHANGED_PLAN | PR_CHANGED_HISTORY | PR_CHANGED_PLACE | PR_CHANGED_UNIT | PR_CHANGED_HOOF))
    show (PR_HEAT_LIST (follower));
}

static void
pr_heat_list_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (pr_heat_list_parent_class)->map (widget);
  show (PR_HEAT_LIST (widget));
}

static void
pr_heat_list_finalize (GObject *object)
{
  pr_heats_clear (&PR_HEAT_LIST (object)->heats);
  G_OBJECT_CLASS (pr_heat_list_parent_class)->finalize (object);
}

static void
pr_heat_list_init (PrHeatList *list)
{
  gtk_widget_init_template (GTK_WIDGET (list));
}

static void
pr_heat_list_class_init (PrHeatListClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = pr_heat_list_finalize;
  widget_class->map = pr_heat_list_map;
  PR_FOLLOWER_CLASS (class)->changed = changed;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "heat-list.ui");
  gtk_widget_class_bind_template_callback (widget_class, put_back);
  gtk_widget_class_bind_template_child (widget_class, PrHeatList, lines);
  gtk_widget_class_bind_template_child (widget_class, PrHeatList, reset);
}
