/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-export.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-error.h"
#include "pr-print.h"

#define FACE_CHOICE "face" /* its two options are "foot" and "ground" */

static const char *const endings[PR_N_EXPORTS] = { ".pdf", ".svg", ".png", ".dxf" };
static const char *const kinds[PR_N_EXPORTS]
    = { N_ ("PDF pages"), N_ ("SVG drawings"), N_ ("PNG pictures"), N_ ("DXF drawings") };

/* --- names --- */

char *
pr_export_name (PrDocument *doc, const char *ending)
{
  const char *side = pr_foot_name (pr_document_job (doc)->foot);
  g_autofree char *horse = pr_document_horse_name (doc, NULL);

  if (!horse)
    return g_strdup_printf ("%s%s", side, ending);
  return g_strdelimit (g_strdup_printf ("%s, %s%s", horse, side, ending), "/", '-');
}

static bool
has_ending (const char *path, const char *ending)
{
  size_t n = strlen (path), len = strlen (ending);

  return n > len && g_ascii_strcasecmp (path + n - len, ending) == 0;
}

/* PATH, with ENDING where it was not typed. The desktop has asked about a file called PATH only: one
 * that stands at the longer name is not written over. Transfer full. */
static char *
with_ending (const char *path, const char *ending, GError **error)
{
  g_autofree char *whole = NULL, *name = NULL;

  if (has_ending (path, ending))
    return g_strdup (path);
  whole = g_strconcat (path, ending, NULL);
  if (!g_file_test (whole, G_FILE_TEST_EXISTS))
    return g_steal_pointer (&whole);
  name = g_filename_display_basename (whole);
  g_set_error (error, PR_ERROR, PR_ERROR_FILE,
               _ ("%s is there already; type the name with its ending to write over it."), name);
  return NULL;
}

/* --- writing --- */

static PrPageOptions
page_options (PrDocument *doc)
{
  bool inch = pr_document_unit (doc) == PR_UNIT_INCH;

  return pr_print_options (doc, inch ? PR_PAPER_LETTER : PR_PAPER_A4);
}

static bool
write_template (PrDocument *doc, PrExport what, PrFace face, const char *file, GError **error)
{
  const PrJob *job = pr_document_job (doc);
  const PrPageOptions options = page_options (doc);

  switch (what) {
  case PR_EXPORT_SVG:
    return pr_write_template_svg (job, face, file, error);
  case PR_EXPORT_PNG:
    return pr_write_template_png (job, face, PR_PNG_PX_PER_MM, file, error);
  case PR_EXPORT_DXF:
    return pr_write_template_dxf (job, face, file, error);
  default:
    return pr_write_template_pdf (job, &options, file, error);
  }
}

/* Where the dialog's answer goes; NULL when there is none. Transfer full. */
static char *
chosen_path (GtkNativeDialog *dialog, int response)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));

  return response == GTK_RESPONSE_ACCEPT && file ? g_file_get_path (file) : NULL;
}

static PrFace
chosen_face (GtkFileChooser *chooser, PrExport what)
{
  const char *face = what == PR_EXPORT_PDF ? NULL : gtk_file_chooser_get_choice (chooser, FACE_CHOICE);

  return g_strcmp0 (face, "ground") == 0 ? PR_FACE_GROUND : PR_FACE_FOOT;
}

static void
template_chosen (GtkNativeDialog *dialog, int response, PrDocument *doc)
{
  PrExport what = (PrExport) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (dialog), "pr-export"));
  g_autofree char *path = chosen_path (dialog, response), *file = NULL;
  PrFace face = chosen_face (GTK_FILE_CHOOSER (dialog), what);
  g_autoptr (GError) error = NULL;

  if (path && pr_document_job (doc)) {
    file = with_ending (path, endings[what], &error);
    if (!file || !write_template (doc, what, face, file, &error))
      pr_document_trouble (doc, error->message);
  }
  g_object_unref (dialog);
}

static void
all_chosen (GtkNativeDialog *dialog, int response, PrDocument *doc)
{
  g_autofree char *path = chosen_path (dialog, response);
  PrPageOptions options = page_options (doc);
  g_autoptr (GError) error = NULL;

  options.dxf = true;
  if (path && pr_document_job (doc) && !pr_write_all (pr_document_job (doc), &options, path, &error))
    pr_document_trouble (doc, error->message);
  g_object_unref (dialog);
}

/* --- asking --- */

static void
ask (GtkFileChooserNative *dialog, GCallback answered, PrDocument *doc)
{
  g_signal_connect (dialog, "response", answered, doc);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static void
add_face_choice (GtkFileChooser *chooser)
{
  static const char *const ids[] = { "foot", "ground", NULL };
  const char *const labels[] = { pr_face_name (PR_FACE_FOOT), pr_face_name (PR_FACE_GROUND), NULL };

  gtk_file_chooser_add_choice (chooser, FACE_CHOICE, _ ("Side shown"), (const char **) ids,
                               (const char **) labels);
  gtk_file_chooser_set_choice (chooser, FACE_CHOICE, ids[0]);
}

static void
add_kind (GtkFileChooser *chooser, PrExport what)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, _ (kinds[what]));
  gtk_file_filter_add_suffix (filter, endings[what] + 1);
  gtk_file_chooser_add_filter (chooser, filter);
}

void
pr_export_template (GtkWindow *parent, PrDocument *doc, PrExport what)
{
  GtkFileChooserNative *dialog;
  g_autofree char *name = NULL;

  if (!pr_document_job (doc))
    return;
  name = pr_export_name (doc, endings[what]);
  dialog = gtk_file_chooser_native_new (_ ("Save the template"), parent, GTK_FILE_CHOOSER_ACTION_SAVE,
                                        _ ("_Save"), _ ("_Cancel"));
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), name);
  add_kind (GTK_FILE_CHOOSER (dialog), what);
  if (what != PR_EXPORT_PDF)
    add_face_choice (GTK_FILE_CHOOSER (dialog));
  g_object_set_data (G_OBJECT (dialog), "pr-export", GINT_TO_POINTER (what));
  ask (dialog, G_CALLBACK (template_chosen), doc);
}

void
pr_export_all (GtkWindow *parent, PrDocument *doc)
{
  if (!pr_document_job (doc))
    return;
  ask (gtk_file_chooser_native_new (_ ("Save everything in a folder"), parent,
                                    GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, _ ("_Save here"), _ ("_Cancel")),
       G_CALLBACK (all_chosen), doc);
}
