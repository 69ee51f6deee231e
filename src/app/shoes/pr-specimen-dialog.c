/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-specimen-dialog.h"

#include <glib/gi18n-lib.h>
#include "pr-document-specimen.h"
#include "pr-shoe-laid.h"
#include "pr-ui.h"

struct _PrSpecimenDialog {
  GtkDialog parent_instance;
  PrDocument *doc;
  GtkDropDown *foot;
  GtkStringList *feet;
  PrShoeLaid *laid;
  GtkWidget *trouble;
};

G_DEFINE_FINAL_TYPE (PrSpecimenDialog, pr_specimen_dialog, GTK_TYPE_DIALOG)

static void
photo_chosen (GObject *object, GFile *photo)
{
  PrSpecimenDialog *dialog = PR_SPECIMEN_DIALOG (object);
  PrFoot foot = (PrFoot) (PR_FOOT_LF + gtk_drop_down_get_selected (dialog->foot));
  PrSeenOptions how;

  if (pr_shoe_laid_read (dialog->laid, pr_document_unit (dialog->doc), &how, NULL))
    pr_document_take_specimen (dialog->doc, photo, foot, &how);
  gtk_window_destroy (GTK_WINDOW (dialog));
}

/* What cannot be is told here, before a photo is looked for. */
static void
answered (PrSpecimenDialog *dialog, int response, gpointer data)
{
  PrSeenOptions how;
  g_autoptr (GError) error = NULL;

  if (response != GTK_RESPONSE_OK) {
    gtk_window_destroy (GTK_WINDOW (dialog));
    return;
  }
  if (pr_shoe_laid_read (dialog->laid, pr_document_unit (dialog->doc), &how, &error))
    pr_shoe_photo_choose (GTK_WINDOW (dialog), _ ("Open a photo of the specimen"), photo_chosen, dialog);
  pr_tell (dialog->trouble, error ? error->message : NULL);
}

void
pr_specimen_dialog_show (GtkWindow *parent, PrDocument *doc)
{
  PrSpecimenDialog *dialog = g_object_new (PR_TYPE_SPECIMEN_DIALOG, "transient-for", parent, NULL);

  dialog->doc = g_object_ref (doc);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
pr_specimen_dialog_dispose (GObject *object)
{
  g_clear_object (&PR_SPECIMEN_DIALOG (object)->doc);
  G_OBJECT_CLASS (pr_specimen_dialog_parent_class)->dispose (object);
}

static void
pr_specimen_dialog_init (PrSpecimenDialog *dialog)
{
  gtk_widget_init_template (GTK_WIDGET (dialog));
  for (int i = PR_FOOT_LF; i < PR_N_FEET; i++)
    gtk_string_list_append (dialog->feet, pr_foot_name ((PrFoot) i));
}

static void
pr_specimen_dialog_class_init (PrSpecimenDialogClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_specimen_dialog_dispose;
  g_type_ensure (PR_TYPE_SHOE_LAID);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "specimen-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, PrSpecimenDialog, foot);
  gtk_widget_class_bind_template_child (widget_class, PrSpecimenDialog, feet);
  gtk_widget_class_bind_template_child (widget_class, PrSpecimenDialog, laid);
  gtk_widget_class_bind_template_child (widget_class, PrSpecimenDialog, trouble);
  gtk_widget_class_bind_template_callback (widget_class, answered);
}
