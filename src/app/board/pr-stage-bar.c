/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stage-bar.h"

#include <glib/gi18n-lib.h>
#include "pr-stage-way.h"

struct _PrStageBar {
  PrFollower parent_instance;
  PrBoard *board;
  GtkLabel *words;
  GtkScale *scale;
  GtkAdjustment *moment; /* in heats */
  PrHeats heats;
};

G_DEFINE_FINAL_TYPE (PrStageBar, pr_stage_bar, PR_TYPE_FOLLOWER)

static double
last_moment (const PrStageBar *bar)
{
  return bar->heats.heats ? bar->heats.heats->len : 0;
}

/* What is done at moment T. Transfer full. */
static char *
words_of (const PrStageBar *bar, double t)
{
  int nr = pr_stage_step_at (&bar->heats, t);

  if (nr < 0)
    return g_strdup (t > 0 ? _ ("The finished shoe") : _ ("The bar stock"));
  return g_strdup_printf (_ ("Heat %d of %d: %s"), (int) t + 1, (int) last_moment (bar),
                          g_array_index (bar->heats.steps, PrStep, nr).text);
}

static void
show_moment (PrStageBar *bar)
{
  double t = gtk_adjustment_get_value (bar->moment);

  if (!bar->board || !gtk_widget_get_visible (GTK_WIDGET (bar)) || last_moment (bar) < 1) {
    if (bar->board)
      pr_board_set_stage (bar->board, NULL, 0);
    return;
  }
  const PrStageProgress at = pr_stage_progress_at (&bar->heats, t);
  g_autofree char *words = words_of (bar, t);
  gtk_label_set_text (bar->words, words);
  gtk_widget_set_tooltip_text (GTK_WIDGET (bar->words), words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (bar->scale), GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, words,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words, -1);
  pr_board_set_stage (bar->board, &at, pr_stage_hot_at (&bar->heats, t));
}

/* A mark where each heat ends, under its number. */
static void
mark_heats (PrStageBar *bar)
{
  gtk_scale_clear_marks (bar->scale);
  for (int i = 0; i <= (int) last_moment (bar); i++) {
    g_autofree char *number = i > 0 ? g_strdup_printf ("%d", i) : NULL;

    gtk_scale_add_mark (bar->scale, i, GTK_POS_BOTTOM, number);
  }
}

static void
take_heats (PrStageBar *bar)
{
  const PrJob *job = pr_job_of (bar);
  double before = last_moment (bar);

  if (!gtk_widget_get_visible (GTK_WIDGET (bar)))
    return;
  pr_heats_clear (&bar->heats);
  if (job && job->shoe && job->shoe->n_st > 1)
    pr_heats_make (&bar->heats, &job->sources.plan, job->shoe, &job->iron, job->unit);
  if (last_moment (bar) != before) {
    gtk_adjustment_set_upper (bar->moment, MAX (last_moment (bar), 1));
    mark_heats (bar);
  }
  show_moment (bar);
}

/* Opened, it begins with the bar. */
static void
shown_or_hidden (PrStageBar *bar)
{
  if (gtk_widget_get_visible (GTK_WIDGET (bar)))
    gtk_adjustment_set_value (bar->moment, 0);
  take_heats (bar);
  show_moment (bar);
}

static void
pr_stage_bar_changed (PrFollower *follower, guint what)
{
  if (what & (PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_PLACE))
    take_heats (PR_STAGE_BAR (follower));
}

void
pr_stage_bar_set_board (PrStageBar *bar, PrBoard *board)
{
  bar->board = board;
  show_moment (bar);
}

static void
pr_stage_bar_finalize (GObject *object)
{
  pr_heats_clear (&PR_STAGE_BAR (object)->heats);
  G_OBJECT_CLASS (pr_stage_bar_parent_class)->finalize (object);
}

static void
pr_stage_bar_init (PrStageBar *bar)
{
  gtk_widget_init_template (GTK_WIDGET (bar));
}

static void
pr_stage_bar_class_init (PrStageBarClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = pr_stage_bar_finalize;
  PR_FOLLOWER_CLASS (class)->changed = pr_stage_bar_changed;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "stage-bar.ui");
  gtk_widget_class_bind_template_child (widget_class, PrStageBar, words);
  gtk_widget_class_bind_template_child (widget_class, PrStageBar, scale);
  gtk_widget_class_bind_template_child (widget_class, PrStageBar, moment);
  gtk_widget_class_bind_template_callback (widget_class, show_moment);
  gtk_widget_class_bind_template_callback (widget_class, shown_or_hidden);
}
