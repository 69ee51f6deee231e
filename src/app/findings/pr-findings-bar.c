/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-findings-bar.h"

#include "pr-findings-chip.h"

struct _PrFindingsBar {
  PrFollower parent_instance;
};

enum { OPENING, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrFindingsBar, pr_findings_bar, PR_TYPE_FOLLOWER)

static void
opening (PrFindingsBar *bar, GtkPopover *list, int group)
{
  g_signal_emit (bar, signals[OPENING], 0, list, group);
}

static void
pr_findings_bar_init (PrFindingsBar *bar)
{
  gtk_widget_init_template (GTK_WIDGET (bar));
  for (int group = 0; group < PR_N_GROUPS; group++) {
    GtkWidget *chip = pr_findings_chip_new ((PrGroup) group);

    g_signal_connect_swapped (chip, "opening", G_CALLBACK (opening), bar);
    gtk_box_append (GTK_BOX (bar), chip);
  }
}

static void
pr_findings_bar_class_init (PrFindingsBarClass *class)
{
  gtk_widget_class_set_template_from_resource (GTK_WIDGET_CLASS (class), PR_UI "findings-bar.ui");
  signals[OPENING] = g_signal_new ("opening", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 2, GTK_TYPE_POPOVER, G_TYPE_INT);
}
