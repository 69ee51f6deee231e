/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-fact-line.h"

#include "pr-ui.h"

struct _PrFactLine {
  GtkBox parent_instance;
  GtkWidget *label, *value;
};

G_DEFINE_FINAL_TYPE (PrFactLine, pr_fact_line, GTK_TYPE_BOX)

GtkWidget *
pr_fact_line_new (const char *label, const char *value)
{
  PrFactLine *line = g_object_new (PR_TYPE_FACT_LINE, NULL);

  pr_tell (line->label, label);
  pr_tell (line->value, value);
  return GTK_WIDGET (line);
}

static void
pr_fact_line_init (PrFactLine *line)
{
  gtk_widget_init_template (GTK_WIDGET (line));
}

static void
pr_fact_line_class_init (PrFactLineClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "fact-line.ui");
  gtk_widget_class_bind_template_child (widget_class, PrFactLine, label);
  gtk_widget_class_bind_template_child (widget_class, PrFactLine, value);
}
