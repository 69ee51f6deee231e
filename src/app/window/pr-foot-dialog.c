/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-foot-dialog.h"

#include "pr-ui.h"

struct _PrFootDialog {
  GtkWindow parent_instance;
  PrDocument *doc;
  PrFoot wanted; /* which the visit has already */
  GtkWidget *trouble, *new_visit;
};

G_DEFINE_FINAL_TYPE (PrFootDialog, pr_foot_dialog, GTK_TYPE_WINDOW)

/* It is told which foot this is, and the next one of those that came together is asked about. */
static void
leave (PrFootDialog *dialog)
{
  g_autoptr (PrDocument) doc = g_object_ref (dialog->doc);

  gtk_window_destroy (GTK_WINDOW (dialog));
  pr_document_ask_next (doc);
}

/* The visit has that foot: another answer can be given, or a new visit made. */
static void
tell_taken (PrFootDialog *dialog, PrFoot foot, const char *sentence)
{
  dialog->wanted = foot;
  pr_tell (dialog->trouble, sentence);
  gtk_widget_set_visible (dialog->new_visit, TRUE);
  gtk_widget_grab_focus (dialog->new_visit);
}

static void
choose (GtkWidget *widget, const char *action, GVariant *answer)
{
  PrFootDialog *dialog = PR_FOOT_DIALOG (widget);
  PrDocument *doc = dialog->doc;
  PrFoot foot = (PrFoot) g_variant_get_int32 (answer);
  g_autoptr (GError) error = NULL;

  if (pr_document_job (doc) && !pr_document_set_foot (doc, foot, &error)) {
    if (pr_document_is_taken (doc, foot)) {
      tell_taken (dialog, foot, error->message);
      return;
    }
    pr_document_trouble (doc, error->message);
  }
  leave (dialog);
}

static void
move (GtkWidget *widget, const char *action, GVariant *none)
{
  PrFootDialog *dialog = PR_FOOT_DIALOG (widget);
  g_autoptr (GError) error = NULL;

  if (pr_document_job (dialog->doc) && !pr_document_move_to_new_visit (dialog->doc, dialog->wanted, &error))
    pr_document_trouble (dialog->doc, error->message);
  leave (dialog);
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
  gtk_widget_class_install_action (widget_class, "foot.new-visit", NULL, move);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "foot-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, PrFootDialog, trouble);
  gtk_widget_class_bind_template_child (widget_class, PrFootDialog, new_visit);
}
