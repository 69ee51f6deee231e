/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-keep-style.h"

struct _PrKeepStyle {
  PrFollower parent_instance;
  GtkMenuButton *button;
  GtkEditable *name;
  GtkWidget *trouble;
};

G_DEFINE_FINAL_TYPE (PrKeepStyle, pr_keep_style, PR_TYPE_FOLLOWER)

static void
keep (PrKeepStyle *keeper)
{
  g_autofree char *name = g_strstrip (g_strdup (gtk_editable_get_text (keeper->name)));
  g_autoptr (GError) error = NULL;

  if (!*name || !pr_job_of (keeper))
    return;
  gtk_menu_button_popdown (keeper->button);
  gtk_editable_set_text (keeper->name, "");
  pr_document_keep_style (pr_document_of (keeper), name, &error);
  pr_tell (keeper->trouble, error ? error->message : NULL);
}

static void
pr_keep_style_init (PrKeepStyle *keeper)
{
  gtk_widget_init_template (GTK_WIDGET (keeper));
}

static void
pr_keep_style_class_init (PrKeepStyleClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "keep-style.ui");
  gtk_widget_class_bind_template_callback (widget_class, keep);
  gtk_widget_class_bind_template_child (widget_class, PrKeepStyle, button);
  gtk_widget_class_bind_template_child (widget_class, PrKeepStyle, name);
  gtk_widget_class_bind_template_child (widget_class, PrKeepStyle, trouble);
}
