/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-findings-bar.h"

#include "pr-findings-chip.h"

struct _PrFindingsBar {
  PrFollower parent_instance;
};

G_DEFINE_FINAL_TYPE (PrFindingsBar, pr_findings_bar, PR_TYPE_FOLLOWER)

static void
pr_findings_bar_init (PrFindingsBar *bar)
{
  gtk_widget_init_template (GTK_WIDGET (bar));
  for (int group = 0; group < PR_N_GROUPS; group++)
    gtk_box_append (GTK_BOX (bar), pr_findings_chip_new ((PrGroup) group));
}

static void
pr_findings_bar_class_init (PrFindingsBarClass *class)
{
  gtk_widget_class_set_template_from_resource (GTK_WIDGET_CLASS (class), PR_UI "findings-bar.ui");
}
