/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-foot-dialog.h"

#include "pr-ui.h"

struct _PrFootDialog {
  GtkWindow parent_instance;
  PrDocument *doc;
};

G_DEFINE_FINAL_TYPE (PrFootDialog, pr_foot_dialog, GTK_TYPE_WINDOW)

static void
choose (GtkWidget *widget, const char *action, GVariant *foot)
{
  PrDocument *doc = PR_FOOT_DIALOG (widget)->doc;
  g_autoptr (GError) error = NULL;

  if (pr_document_job (doc) && !pr_document_set_foot (doc, (PrFoot) g_variant_get_int32 (foot), &error))
    pr_document_trouble (doc, error->message);
  gtk_window_destroy (GTK_WINDOW (widget));
}

void
pr_ask_foot (GtkWindow *parent, PrDocument *doc)
{
  PrFootDialog *dialog = g_object_new (PR_TYPE_FOOT_DIALOG, "transient-for", parent, NULL);

  dialog->doc = g_object_ref (doc);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
pr_foot_dialog_dispose (GObject *object)
{
  g_clear_object (&PR_FOOT_DIALOG (object)->doc);
  G_OBJECT_CLASS (pr_foot_dialog_parent_class)->dispose (object);
}

static void
pr_foot_dialog_init (PrFootDialog *dialog)
{
  gtk_widget_init_template (GTK_WIDGET (dialog));
}

static void
pr_foot_dialog_class_init (PrFootDialogClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_foot_dialog_dispose;
  gtk_widget_class_install_action (widget_class, "foot.choose", "i", choose);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "foot-dialog.ui");
}
