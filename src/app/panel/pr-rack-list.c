/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-rack-list.h"

#include <glib/gi18n-lib.h>
#include "pr-rack-row.h"

#define MOST_LINES 8 /* what lies further down asks for far more work; the bar in hand is always shown */

struct _PrRackList {
  PrFollower parent_instance;
  GArray *rack;      /* PrRackBar, as it was when last shown */
  PrRackBar dropped; /* what was taken off last */
  GtkWidget *expander, *lines, *button, *drop, *trouble, *back;
  GtkEditable *section, *length;
};

G_DEFINE_FINAL_TYPE (PrRackList, pr_rack_list, PR_TYPE_FOLLOWER)

/* The bar in hand, where it is on the rack. */
static const PrRackBar *
bar_in_hand (const PrRackList *list, const PrPlan *plan)
{
  return pr_rack_find (list->rack, plan->stock_width, plan->stock_thick, plan->material);
}

static bool
is_bar (const PrRackBar *a, const PrRackBar *b)
{
  return b && a->material == b->material && g_str_equal (a->name, b->name);
}

/* The bars called by the reader's unit, and the one in hand whatever it is called. */
static GArray *
shown_bars (const PrRackList *list, const PrJob *job, const PrRackBar *held)
{
  GArray *bars = pr_rack_of_unit (list->rack, job->unit, job->sources.plan.material);

  for (guint i = 0; i < bars->len; i++)
    if (is_bar (&g_array_index (bars, PrRackBar, i), held))
      return bars;
  if (held)
    g_array_append_vals (bars, held, 1);
  return bars;
}

static void
fill (PrRackList *list)
{
  const PrJob *job = pr_job_of (list);
  if (!job || !gtk_expander_get_expanded (GTK_EXPANDER (list->expander))
      || pr_document_editing (pr_document_of (list)))
    return;
  g_clear_pointer (&list->rack, g_array_unref);
  list->rack = pr_rack_load (NULL); /* it may have been changed elsewhere */
  const PrRackBar *in_hand = bar_in_hand (list, &job->sources.plan);
  g_autoptr (GArray) bars = shown_bars (list, job, in_hand);
  g_autoptr (GArray) ranked = pr_rack_rank (bars, &job->hoof, &job->sources.plan, job->shoe);
  gtk_widget_set_visible (list->drop, in_hand != NULL);
  pr_empty (list->lines);
  for (guint i = 0; i < ranked->len; i++) {
    const PrRackLine *line = &g_array_index (ranked, PrRackLine, i);
    bool held = is_bar (&line->bar, in_hand);

    if (i < MOST_LINES || held)
      gtk_box_append (GTK_BOX (list->lines), pr_rack_row_new (line, job->unit, held));
  }
}

/* The rack is read anew; SENTENCE (may be NULL) is told, with a way back where a bar has gone. */
static void
rack_changed (PrRackList *list, const char *sentence, bool gone)
{
  fill (list);
  pr_tell (list->trouble, sentence);
  gtk_widget_set_visible (list->back, gone);
}

static void
keep (PrRackList *list)
{
  const PrJob *job = pr_job_of (list);
  g_autofree char *section = g_strstrip (g_strdup (gtk_editable_get_text (list->section)));
  g_autofree char *length = g_strstrip (g_strdup (gtk_editable_get_text (list->length)));
  g_autoptr (GError) error = NULL;

  if (!*section || !job)
    return;
  gtk_menu_button_popdown (GTK_MENU_BUTTON (list->button));
  if (pr_rack_keep (section, length, (PrMaterial) job->sources.plan.material, job->unit, &error)) {
    gtk_editable_set_text (list->section, "");
    gtk_editable_set_text (list->length, "");
  }
  rack_changed (list, error ? error->message : NULL, false);
}

static void
drop (PrRackList *list)
{
  const PrJob *job = pr_job_of (list);
  const PrRackBar *bar = job && list->rack ? bar_in_hand (list, &job->sources.plan) : NULL;
  g_autoptr (GError) error = NULL;

  if (!bar)
    return;
  list->dropped = *bar;
  bool done = pr_rack_drop (&list->dropped, &error);
  g_autofree char *said
      = g_strdup_printf (_ ("“%s” is off the rack; this shoe stays on it."), list->dropped.name);
  rack_changed (list, done ? said : error->message, done);
}

static void
put_back (PrRackList *list)
{
  g_autoptr (GError) error = NULL;

  pr_rack_put_back (&list->dropped, &error);
  rack_changed (list, error ? error->message : NULL, false);
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
  gtk_widget_class_bind_template_callback (widget_class, keep);
  gtk_widget_class_bind_template_callback (widget_class, drop);
  gtk_widget_class_bind_template_callback (widget_class, put_back);
  gtk_widget_class_bind_template_child (widget_class, PrRackList, button);
  gtk_widget_class_bind_template_child (widget_class, PrRackList, drop);
  gtk_widget_class_bind_template_child (widget_class, PrRackList, trouble);
  gtk_widget_class_bind_template_child (widget_class, PrRackList, back);
  gtk_widget_class_bind_template_child (widget_class, PrRackList, section);
  gtk_widget_class_bind_template_child (widget_class, PrRackList, length);
}
