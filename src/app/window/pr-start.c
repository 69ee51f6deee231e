/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-start.h"

struct _PrStart {
  GtkBox parent_instance;
};

G_DEFINE_FINAL_TYPE (PrStart, pr_start, GTK_TYPE_BOX)

static void
pr_start_init (PrStart *start)
{
  gtk_widget_init_template (GTK_WIDGET (start));
}

static void
pr_start_class_init (PrStartClass *class)
{
  gtk_widget_class_set_template_from_resource (GTK_WIDGET_CLASS (class),
                                               "/org/pritchel/Pritchel/ui/start.ui");
}
