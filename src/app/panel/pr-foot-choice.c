/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-foot-choice.h"

struct _PrFootChoice {
  PrFollower parent_instance;
  GtkDropDown *foot;
  GtkStringList *names; /* by PrFoot */
  GtkWidget *trouble, *new_visit;
  PrFoot wanted; /* which the visit has already */
  bool showing;  /* the choice is being filled, not made */
};

G_DEFINE_FINAL_TYPE (PrFootChoice, pr_foot_choice, PR_TYPE_FOLLOWER)

static void
show (PrFootChoice *choice)
{
  const char *names[PR_N_FEET] = { NULL };

  choice->showing = true;
  for (int foot = PR_FOOT_LF; foot < PR_N_FEET; foot++)
    names[foot - 1] = pr_foot_name ((PrFoot) foot);
  gtk_string_list_splice (choice->names, 1, PR_N_FEET - 1, names);
  gtk_drop_down_set_selected (choice->foot, (guint) pr_job_of (choice)->sources.foot);
  choice->showing = false;
  pr_tell (choice->trouble, NULL);
  gtk_widget_set_visible (choice->new_visit, FALSE);
}

static void
changed (PrFollower *follower, guint what)
{
  if (what & (PR_CHANGED_HOOF | PR_CHANGED_UNIT | PR_CHANGED_PLACE) && pr_job_of (follower))
    show (PR_FOOT_CHOICE (follower));
}

static void
chosen (PrFootChoice *choice)
{
  PrFoot foot = (PrFoot) gtk_drop_down_get_selected (choice->foot);
  g_autoptr (GError) error = NULL;

  if (choice->showing || !pr_job_of (choice) || pr_document_set_foot (pr_document_of (choice), foot, &error))
    return;
  show (choice);
  pr_tell (choice->trouble, error->message);
  choice->wanted = foot;
  gtk_widget_set_visible (choice->new_visit, pr_document_is_taken (pr_document_of (choice), foot));
}

static void
move (PrFootChoice *choice)
{
  g_autoptr (GError) error = NULL;

  if (!pr_document_move_to_new_visit (pr_document_of (choice), choice->wanted, &error))
    pr_tell (choice->trouble, error->message);
}

static void
pr_foot_choice_init (PrFootChoice *choice)
{
  gtk_widget_init_template (GTK_WIDGET (choice));
  for (int foot = PR_FOOT_LF; foot < PR_N_FEET; foot++)
    gtk_string_list_append (choice->names, pr_foot_name ((PrFoot) foot));
}

static void
pr_foot_choice_class_init (PrFootChoiceClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  PR_FOLLOWER_CLASS (class)->changed = changed;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "foot-choice.ui");
  gtk_widget_class_bind_template_callback (widget_class, chosen);
  gtk_widget_class_bind_template_child (widget_class, PrFootChoice, foot);
  gtk_widget_class_bind_template_child (widget_class, PrFootChoice, names);
  gtk_widget_class_bind_template_callback (widget_class, move);
  gtk_widget_class_bind_template_child (widget_class, PrFootChoice, trouble);
  gtk_widget_class_bind_template_child (widget_class, PrFootChoice, new_visit);
}
