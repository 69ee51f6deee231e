/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-nail-choice.h"

#include <glib/gi18n-lib.h>
#include "pr-names.h"
#include "pr-own-nails.h"

#define SAME_MM 0.01
#define BY_SIZE 0 /* first in the list; the farrier's own follow, and last what is neither */

struct _PrNailChoice {
  PrFollower parent_instance;
  GtkDropDown *nails;
  GtkMenuButton *button;
  GtkEditable *name;
  GtkWidget *forget, *trouble;
  bool showing; /* the choice is being filled, not made */
};

G_DEFINE_FINAL_TYPE (PrNailChoice, pr_nail_choice, PR_TYPE_FOLLOWER)

static const GPtrArray *
own (PrNailChoice *choice)
{
  return pr_document_nails (pr_document_of (choice));
}

static void
list_nails (PrNailChoice *choice)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  const GPtrArray *nails = own (choice);

  gtk_string_list_append (names, _ ("by the size of the foot"));
  for (guint i = 0; i < nails->len; i++)
    gtk_string_list_append (names, ((PrOwnNail *) g_ptr_array_index (nails, i))->name);
  gtk_string_list_append (names, _ ("the figures below"));
  gtk_drop_down_set_model (choice->nails, G_LIST_MODEL (names));
}

static bool
by_size (PrNailChoice *choice, const PrPlan *plan)
{
  const PrPlan *usual = pr_document_usual (pr_document_of (choice));

  for (size_t i = 0; usual && i < pr_n_params; i++)
    if (pr_param_of_nail (&pr_params[i])
        && fabs (pr_param_get (plan, &pr_params[i]) - pr_param_get (usual, &pr_params[i])) > SAME_MM)
      return false;
  return usual != NULL;
}

/* Place in the list of what PLAN is nailed with. */
static guint
place_of (PrNailChoice *choice, const PrPlan *plan)
{
  const GPtrArray *nails = own (choice);
  const PrOwnNail *nail = *plan->nail ? pr_own_nails_find (nails, plan->nail) : NULL;
  guint at = 0;

  if (nail && g_ptr_array_find ((GPtrArray *) nails, nail, &at))
    return 1 + at;
  return !*plan->nail && by_size (choice, plan) ? BY_SIZE : nails->len + 1;
}

static void
show (PrNailChoice *choice)
{
  guint at = place_of (choice, &pr_job_of (choice)->sources.plan);

  choice->showing = true;
  gtk_drop_down_set_selected (choice->nails, at);
  choice->showing = false;
  gtk_widget_set_visible (choice->forget, at > BY_SIZE && at <= own (choice)->len);
  pr_tell (choice->trouble, NULL);
}

static void
changed (PrFollower *follower, guint what)
{
  PrNailChoice *choice = PR_NAIL_CHOICE (follower);

  choice->showing = true;
  if (what & PR_CHANGED_STYLES)
    list_nails (choice);
  choice->showing = false;
  if (pr_job_of (choice) && !pr_document_editing (pr_document_of (choice))
      && what
             & (PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_PLACE | PR_CHANGED_HISTORY
                | PR_CHANGED_STYLES))
    show (choice);
}

static void
chosen (PrNailChoice *choice)
{
  guint i = gtk_drop_down_get_selected (choice->nails);
  g_autoptr (GError) error = NULL;

  if (choice->showing || !pr_job_of (choice) || i > own (choice)->len)
    return;
  const PrOwnNail *nail = i == BY_SIZE ? NULL : g_ptr_array_index (own (choice), i - 1);
  if (!pr_document_use_nails (pr_document_of (choice), nail ? nail->name : NULL, &error))
    pr_tell (choice->trouble, error->message);
}

static void
keep (PrNailChoice *choice)
{
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (choice->name)));
  g_autoptr (GError) error = NULL;

  if (!*name || !pr_job_of (choice))
    return;
  gtk_menu_button_popdown (choice->button);
  gtk_editable_set_text (choice->name, "");
  if (!pr_document_keep_nails (pr_document_of (choice), name, &error))
    pr_tell (choice->trouble, error->message);
}

static void
forget (PrNailChoice *choice)
{
  guint i = gtk_drop_down_get_selected (choice->nails);
  g_autoptr (GError) error = NULL;

  if (!pr_job_of (choice) || i == BY_SIZE || i > own (choice)->len)
    return;
  g_autofree char *name = g_strdup (((PrOwnNail *) g_ptr_array_index (own (choice), i - 1))->name);
  bool done = pr_document_forget_nails (pr_document_of (choice), name, &error);
  g_autofree char *said = g_strdup_printf (
      _ ("“%s” is forgotten. Its figures are still in this shoe: save them again if that was a mistake."),
      name);
  pr_tell (choice->trouble, done ? said : error->message);
}

static void
pr_nail_choice_init (PrNailChoice *choice)
{
  gtk_widget_init_template (GTK_WIDGET (choice));
  pr_drop_down_cut (choice->nails);
}

static void
pr_nail_choice_class_init (PrNailChoiceClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  PR_FOLLOWER_CLASS (class)->changed = changed;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "nail-choice.ui");
  gtk_widget_class_bind_template_callback (widget_class, chosen);
  gtk_widget_class_bind_template_callback (widget_class, keep);
  gtk_widget_class_bind_template_callback (widget_class, forget);
  gtk_widget_class_bind_template_child (widget_class, PrNailChoice, nails);
  gtk_widget_class_bind_template_child (widget_class, PrNailChoice, button);
  gtk_widget_class_bind_template_child (widget_class, PrNailChoice, name);
  gtk_widget_class_bind_template_child (widget_class, PrNailChoice, forget);
  gtk_widget_class_bind_template_child (widget_class, PrNailChoice, trouble);
}
