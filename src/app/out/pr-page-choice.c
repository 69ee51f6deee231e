/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-page-choice.h"

#include "pr-settings.h"
#include "pr-ui.h"

G_STATIC_ASSERT (PR_ALL_SHOE_DOCS == 31); /* the range of the setting */

struct _PrPageChoice {
  GtkBox parent_instance;
  GtkCheckButton *doc[PR_N_SHOE_DOCS], *all_feet;
  bool showing; /* its own doing: no tick of a person's */
};

enum { CHANGED, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrPageChoice, pr_page_choice, GTK_TYPE_BOX)

guint
pr_page_choice_last (void)
{
  return (guint) pr_settings_int ("print-pages");
}

static guint
ticked (PrPageChoice *choice)
{
  guint docs = 0;

  for (int i = 0; i < PR_N_SHOE_DOCS; i++)
    if (gtk_check_button_get_active (choice->doc[i]))
      docs |= 1u << i;
  return docs;
}

static void
toggled (PrPageChoice *choice)
{
  if (!choice->showing)
    g_signal_emit (choice, signals[CHANGED], 0);
}

void
pr_page_choice_show (PrPageChoice *choice, const PrSheaf *sheaf)
{
  choice->showing = true;
  for (int i = 0; i < PR_N_SHOE_DOCS; i++)
    gtk_check_button_set_active (choice->doc[i], (pr_sheaf_chosen (sheaf) & 1u << i) != 0);
  gtk_check_button_set_active (choice->all_feet, pr_sheaf_all_feet (sheaf));
  gtk_widget_set_visible (GTK_WIDGET (choice->all_feet), pr_sheaf_feet (sheaf) > 1);
  choice->showing = false;
}

void
pr_page_choice_apply (PrPageChoice *choice, PrSheaf *sheaf)
{
  guint docs = ticked (choice);

  pr_sheaf_choose (sheaf, docs);
  pr_sheaf_set_all_feet (sheaf, gtk_check_button_get_active (choice->all_feet));
  /* nothing ticked prints nothing: the next print does not begin with that */
  if (docs)
    pr_settings_keep ("print-pages", g_variant_new_int32 ((gint32) docs));
}

GtkWidget *
pr_page_choice_new (const PrSheaf *sheaf)
{
  PrPageChoice *choice = g_object_new (PR_TYPE_PAGE_CHOICE, NULL);

  pr_page_choice_show (choice, sheaf);
  return GTK_WIDGET (choice);
}

static void
pr_page_choice_init (PrPageChoice *choice)
{
  gtk_widget_init_template (GTK_WIDGET (choice));
}

static void
pr_page_choice_class_init (PrPageChoiceClass *class)
{
  static const char *const names[PR_N_SHOE_DOCS] = {
    [PR_DOC_TEMPLATE] = "foot_surface",
    [PR_DOC_GROUND] = "ground_surface",
    [PR_DOC_SILHOUETTE] = "silhouette",
    [PR_DOC_BAR] = "bar",
    [PR_DOC_CARD] = "card",
  };
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  signals[CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "page-choice.ui");
  for (size_t i = 0; i < PR_N_SHOE_DOCS; i++)
    gtk_widget_class_bind_template_child_full (widget_class, names[i], FALSE,
                                               (gssize) (G_STRUCT_OFFSET (PrPageChoice, doc)
                                                         + i * sizeof (GtkCheckButton *)));
  gtk_widget_class_bind_template_child (widget_class, PrPageChoice, all_feet);
  gtk_widget_class_bind_template_callback (widget_class, toggled);
}
