/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-save.h"

#include <glib/gi18n-lib.h>
#include "pr-atomic-file.h"
#include "pr-error.h"
#include "pr-export-names.h"

static const struct {
  const char *ending, *kind;
} kinds[] = {
  [PR_VISIT_SAVE_CSV] = { ".csv", N_ ("Comma separated values") },
  [PR_VISIT_SAVE_PNG] = { ".png", N_ ("PNG pictures") },
  [PR_VISIT_SAVE_PDF] = { ".pdf", N_ ("PDF pages") },
};

/* One saving, from the question on; the dialog that asks holds it. */
typedef struct {
  PrDocument *doc;
  PrVisitSaveAs as;
  GByteArray *bytes;
  GWeakRef data;
  void (*failed) (GObject *data, const char *sentence);
} Saving;

static void
saving_free (Saving *saving)
{
  g_object_unref (saving->doc);
  g_byte_array_unref (saving->bytes);
  g_weak_ref_clear (&saving->data);
  g_free (saving);
}

static void
say_written (const Saving *saving, const char *file)
{
  g_autofree char *folder = g_path_get_dirname (file), *base = g_path_get_basename (file);
  g_autofree char *name = g_filename_display_name (base), *where = g_filename_display_name (folder);
  g_autofree char *said = g_strdup_printf (_ ("%s was written to %s."), name, where);

  pr_document_say (saving->doc, said);
}

static bool
write_to (const Saving *saving, GFile *chosen, GError **error)
{
  g_autofree char *path = g_file_get_path (chosen), *file = NULL;

  if (!path) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_FILE,
                         _ ("Nothing can be written there; choose a folder of this computer."));
    return false;
  }
  file = pr_export_with_ending (path, kinds[saving->as].ending, error);
  if (!file || !pr_atomic_file_write (file, (const char *) saving->bytes->data, saving->bytes->len, error))
    return false;
  say_written (saving, file);
  return true;
}

static void
answered (GtkNativeDialog *dialog, int response, Saving *saving)
{
  g_autoptr (GFile) chosen = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  g_autoptr (GObject) data = g_weak_ref_get (&saving->data);
  g_autoptr (GError) error = NULL;

  if (response == GTK_RESPONSE_ACCEPT && chosen && !write_to (saving, chosen, &error) && data)
    saving->failed (data, error->message);
  saving_free (saving);
  g_object_unref (dialog);
}

void
pr_visit_save (GtkWindow *parent, PrDocument *doc, PrVisitSaveAs as, const char *stem, GByteArray *bytes,
               void (*failed) (GObject *data, const char *sentence), GObject *data)
{
  GtkFileChooserNative *dialog
      = gtk_file_chooser_native_new (_ ("Save what is shown of the visits"), parent,
                                     GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  g_autofree char *name = g_strconcat (stem, "-visits", kinds[as].ending, NULL);
  Saving *saving = g_new0 (Saving, 1);

  *saving
      = (Saving){ .doc = g_object_ref (doc), .as = as, .bytes = g_byte_array_ref (bytes), .failed = failed };
  g_weak_ref_init (&saving->data, data);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), name);
  gtk_file_filter_set_name (filter, _ (kinds[as].kind));
  gtk_file_filter_add_suffix (filter, kinds[as].ending + 1);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), filter);
  g_signal_connect (dialog, "response", G_CALLBACK (answered), saving);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}
