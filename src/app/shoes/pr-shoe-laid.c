/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shoe-laid.h"

#include <glib/gi18n-lib.h>
#include "pr-error.h"
#include "pr-figure-entry.h"
#include "pr-limits.h"
#include "pr-ui.h"
#include "pr-words.h"

struct _PrShoeLaid {
  GtkBox parent_instance;
  GtkDropDown *face;
  GtkEditable *thickness;
  GtkLabel *thickness_name;
  GtkCheckButton *drawn;
};

G_DEFINE_FINAL_TYPE (PrShoeLaid, pr_shoe_laid, GTK_TYPE_BOX)

void
pr_shoe_laid_offer (PrShoeLaid *laid, double mm, PrUnit unit)
{
  g_autofree char *text = pr_words_length (mm, unit);
  const char *name
      = unit == PR_UNIT_INCH ? _ ("Thickness of the shoe, inches") : _ ("Thickness of the shoe, mm");

  gtk_label_set_label (laid->thickness_name, name);
  pr_figure_entry_show (PR_FIGURE_ENTRY (laid->thickness), text);
}

/* Nothing of the line drawn round a shoe asks for it. */
static bool
read_thickness (PrShoeLaid *laid, PrUnit unit, double *mm, GError **error)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (laid->thickness)));
  double least, most;

  if (!*text && !gtk_check_button_get_active (laid->drawn)) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("Say how thick the shoe is; measure it at the toe."));
    return false;
  }
  if (*text && !pr_length_parse (text, unit, mm, error))
    return false;
  if (!*text || pr_limit_takes ("compare.thickness", *mm, &least, &most))
    return true;
  g_autofree char *low = pr_length_text (least, unit), *high = pr_length_text (most, unit);
  g_set_error (error, PR_ERROR, PR_ERROR_INPUT, _ ("No shoe is %s thick; give a thickness from %s to %s"),
               text, low, high);
  return false;
}

bool
pr_shoe_laid_read (PrShoeLaid *laid, PrUnit unit, PrSeenOptions *how, GError **error)
{
  *how
      = (PrSeenOptions){ .face = gtk_drop_down_get_selected (laid->face) == 0 ? PR_FACE_GROUND : PR_FACE_FOOT,
                         .drawn = gtk_check_button_get_active (laid->drawn) };
  return read_thickness (laid, unit, &how->thickness_mm, error);
}

/* --- the photo --- */

typedef struct {
  GWeakRef data;
  void (*chosen) (GObject *data, GFile *photo);
} Wanted;

static void
answered (GtkNativeDialog *dialog, int response, Wanted *wanted)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  g_autoptr (GObject) data = g_weak_ref_get (&wanted->data);

  if (response == GTK_RESPONSE_ACCEPT && file && data)
    wanted->chosen (data, file);
  g_weak_ref_clear (&wanted->data);
  g_free (wanted);
  g_object_unref (dialog);
}

void
pr_shoe_photo_choose (GtkWindow *parent, const char *title, void (*chosen) (GObject *data, GFile *photo),
                      gpointer data)
{
  GtkFileChooserNative *dialog
      = gtk_file_chooser_native_new (title, parent, GTK_FILE_CHOOSER_ACTION_OPEN, _ ("_Open"), _ ("_Cancel"));
  g_autoptr (GtkFileFilter) photos = gtk_file_filter_new ();
  Wanted *wanted = g_new0 (Wanted, 1);

  g_weak_ref_init (&wanted->data, data);
  wanted->chosen = chosen;
  gtk_file_filter_set_name (photos, _ ("Photos"));
  gtk_file_filter_add_mime_type (photos, "image/*");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), photos);
  g_signal_connect (dialog, "response", G_CALLBACK (answered), wanted);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

/* --- the class --- */

static void
pr_shoe_laid_init (PrShoeLaid *laid)
{
  gtk_widget_init_template (GTK_WIDGET (laid));
}

static void
pr_shoe_laid_class_init (PrShoeLaidClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  g_type_ensure (PR_TYPE_FIGURE_ENTRY);
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "shoe-laid.ui");
  gtk_widget_class_bind_template_child (widget_class, PrShoeLaid, face);
  gtk_widget_class_bind_template_child (widget_class, PrShoeLaid, thickness);
  gtk_widget_class_bind_template_child (widget_class, PrShoeLaid, thickness_name);
  gtk_widget_class_bind_template_child (widget_class, PrShoeLaid, drawn);
}
