/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-loss-dialog.h"

#include "pr-ui.h"

struct _PrLossDialog {
  GtkWindow parent_instance;
  GtkLabel *text;
  GtkButton *lose, *save;
};

enum { LOSE, SAVE, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrLossDialog, pr_loss_dialog, GTK_TYPE_WINDOW)

static void
answer (GtkWidget *widget, guint signal)
{
  g_autoptr (GtkWidget) held = g_object_ref (widget);

  gtk_window_destroy (GTK_WINDOW (widget));
  g_signal_emit (held, signals[signal], 0);
}

static void
lose (GtkWidget *widget, const char *action, GVariant *parameter)
{
  answer (widget, LOSE);
}

static void
save (GtkWidget *widget, const char *action, GVariant *parameter)
{
  answer (widget, SAVE);
}

PrLossDialog *
pr_loss_dialog_ask (GtkWindow *parent, const char *text, const char *lose_label)
{
  PrLossDialog *dialog = g_object_new (PR_TYPE_LOSS_DIALOG, "transient-for", parent, NULL);

  if (text)
    gtk_label_set_text (dialog->text, text);
  gtk_button_set_label (dialog->lose, lose_label);
  gtk_window_set_focus (GTK_WINDOW (dialog), GTK_WIDGET (dialog->save));
  gtk_window_present (GTK_WINDOW (dialog));
  return dialog;
}

static void
pr_loss_dialog_init (PrLossDialog *dialog)
{
  gtk_widget_init_template (GTK_WIDGET (dialog));
}

static void
pr_loss_dialog_class_init (PrLossDialogClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  GType type = G_TYPE_FROM_CLASS (class);

  gtk_widget_class_install_action (widget_class, "loss.lose", NULL, lose);
  gtk_widget_class_install_action (widget_class, "loss.save", NULL, save);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "loss-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, PrLossDialog, text);
  gtk_widget_class_bind_template_child (widget_class, PrLossDialog, lose);
  gtk_widget_class_bind_template_child (widget_class, PrLossDialog, save);
  signals[LOSE] = g_signal_new ("lose", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SAVE] = g_signal_new ("save", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}
