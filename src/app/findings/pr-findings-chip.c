/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-findings-chip.h"

#include "pr-finding-row.h"
#include "pr-paper-offer.h"

struct _PrFindingsChip {
  PrFollower parent_instance;
  PrGroup group;
  PrState state;
  int count;
  GtkWidget *button, *icon, *word, *list;
};

enum { OPENING, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrFindingsChip, pr_findings_chip, PR_TYPE_FOLLOWER)

static void
fill_list (GtkMenuButton *button, gpointer data)
{
  PrFindingsChip *chip = data;
  const PrJob *job = pr_job_of (chip);

  pr_empty (chip->list);
  for (guint i = 0; job && job->findings && i < job->findings->len; i++) {
    PrFinding *finding = g_ptr_array_index (job->findings, i);

    if (finding->group == chip->group)
      gtk_box_append (GTK_BOX (chip->list), pr_finding_row_new (job, finding));
    if (finding->group == chip->group && g_str_equal (finding->id, "photo.residual")
        && pr_paper_offer_is_due (pr_document_of (chip)))
      pr_paper_offer_add (GTK_BOX (chip->list), pr_document_of (chip));
  }
  g_signal_emit (chip, signals[OPENING], 0, gtk_menu_button_get_popover (button), (int) chip->group);
}

static void
show_state (PrFindingsChip *chip, PrState state, int count)
{
  const char *group = pr_group_name (chip->group);
  g_autofree char *words = NULL, *spoken = NULL;

  if (chip->state == state && chip->count == count)
    return;
  gtk_widget_remove_css_class (chip->button, pr_state_code (chip->state));
  gtk_widget_add_css_class (chip->button, pr_state_code (state));
  chip->state = state;
  chip->count = count;
  words = count > 0 ? g_strdup_printf ("%s %d", group, count) : g_strdup (group);
  spoken = g_strdup_printf ("%s: %s", words, pr_state_name (state));
  gtk_image_set_from_icon_name (GTK_IMAGE (chip->icon), pr_finding_icon (state));
  gtk_label_set_text (GTK_LABEL (chip->word), words);
  gtk_widget_set_tooltip_text (chip->button, spoken); /* where there is little room the words are cut */
  gtk_accessible_update_property (GTK_ACCESSIBLE (chip->button), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

static void
changed (PrFollower *follower, guint what)
{
  PrFindingsChip *chip = PR_FINDINGS_CHIP (follower);
  const PrJob *job = pr_job_of (chip);
  int count = 0;

  if (what & (PR_CHANGED_PLAN | PR_CHANGED_HOOF | PR_CHANGED_PLACE) && job && job->findings) {
    PrState state = pr_checks_group (job->findings, chip->group, &count);

    show_state (chip, state, count);
  }
}

GtkWidget *
pr_findings_chip_new (PrGroup group)
{
  PrFindingsChip *chip = g_object_new (PR_TYPE_FINDINGS_CHIP, NULL);

  chip->group = group;
  gtk_label_set_text (GTK_LABEL (chip->word), pr_group_name (group));
  return GTK_WIDGET (chip);
}

static void
pr_findings_chip_init (PrFindingsChip *chip)
{
  chip->count = -1; /* nothing is told yet */
  gtk_widget_init_template (GTK_WIDGET (chip));
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (chip->button), fill_list, chip, NULL);
}

static void
pr_findings_chip_class_init (PrFindingsChipClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  PR_FOLLOWER_CLASS (class)->changed = changed;
  signals[OPENING] = g_signal_new ("opening", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 2, GTK_TYPE_POPOVER, G_TYPE_INT);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "findings-chip.ui");
  gtk_widget_class_bind_template_child (widget_class, PrFindingsChip, button);
  gtk_widget_class_bind_template_child (widget_class, PrFindingsChip, icon);
  gtk_widget_class_bind_template_child (widget_class, PrFindingsChip, word);
  gtk_widget_class_bind_template_child (widget_class, PrFindingsChip, list);
}
