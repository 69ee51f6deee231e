/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-losses-page.h"

#include "pr-figure-entry.h"
#include "pr-plan.h"
#include "pr-settings.h"
#include "pr-words.h"

struct _PrLossesPage {
  PrFollower parent_instance;
  GtkWidget *loss, *weld, *trouble;
};

G_DEFINE_FINAL_TYPE (PrLossesPage, pr_losses_page, PR_TYPE_FOLLOWER)

/* ENTRY's parameter, and the setting that keeps what is usual of it. */
static const PrParam *
param_of (PrLossesPage *page, gpointer entry, const char **key)
{
  *key = entry == page->loss ? "usual-loss" : "usual-weld";
  return pr_param_find (entry == page->loss ? "loss" : "weld_allowance");
}

/* Transfer full. */
static char *
usual_text (PrLossesPage *page, gpointer entry)
{
  const char *key;
  const PrParam *param = param_of (page, entry, &key);
  double value = pr_settings_double (key);

  return param->kind == PR_PARAM_SHARE ? g_strdup_printf ("%.3g %%", 100 * value)
                                       : pr_words_length (value, pr_document_unit (pr_document_of (page)));
}

static void
show (PrLossesPage *page)
{
  GtkWidget *const entries[] = { page->loss, page->weld };

  for (size_t i = 0; i < G_N_ELEMENTS (entries); i++) {
    g_autofree char *text = usual_text (page, entries[i]);

    pr_figure_entry_show (PR_FIGURE_ENTRY (entries[i]), text);
    gtk_widget_remove_css_class (entries[i], "error");
  }
  pr_tell (page->trouble, NULL);
}

static void
changed (PrFollower *follower, guint what)
{
  if (what & PR_CHANGED_UNIT)
    show (PR_LOSSES_PAGE (follower));
}

static void
entry_taken (GtkWidget *entry, PrLossesPage *page)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (entry)), *key;
  const PrParam *param = param_of (page, entry, &key);
  g_autofree char *label = pr_param_label (param), *now = usual_text (page, entry);
  g_autoptr (GError) error = NULL;
  PrPlan plan;

  pr_plan_init (&plan);
  if (g_str_equal (text, now)
      || (pr_param_set_text (&plan, param, label, text, pr_document_unit (pr_document_of (page)), &error)
          && pr_settings_keep (key, g_variant_new_double (pr_param_get (&plan, param))))) {
    show (page);
    return;
  }
  gtk_widget_add_css_class (entry, "error");
  pr_tell (page->trouble, error ? error->message : NULL);
}

static void
pr_losses_page_init (PrLossesPage *page)
{
  gtk_widget_init_template (GTK_WIDGET (page));
}

static void
pr_losses_page_class_init (PrLossesPageClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  PR_FOLLOWER_CLASS (class)->changed = changed;
  g_type_ensure (PR_TYPE_FIGURE_ENTRY);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "losses-page.ui");
  gtk_widget_class_bind_template_callback (widget_class, entry_taken);
  gtk_widget_class_bind_template_callback (widget_class, show);
  gtk_widget_class_bind_template_child (widget_class, PrLossesPage, loss);
  gtk_widget_class_bind_template_child (widget_class, PrLossesPage, weld);
  gtk_widget_class_bind_template_child (widget_class, PrLossesPage, trouble);
}
