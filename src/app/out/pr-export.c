/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-export.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-atomic-file.h"
#include "pr-document-forged.h"
#include "pr-error.h"
#include "pr-export-names.h"
#include "pr-forged-write.h"
#include "pr-print.h"

#define FACE_CHOICE "face" /* its two options are "foot" and "ground" */

/* One taking out, from the first question on; the dialog that is open holds it. */
struct _PrExport {
  GObject parent_instance;
  PrDocument *doc;
  PrExportKind kind;
  GtkWindow *parent;   /* weak */
  char *folder, *stem; /* of everything at once */
};

#define PR_TYPE_EXPORT (pr_export_get_type ())
G_DECLARE_FINAL_TYPE (PrExport, pr_export, PR, EXPORT, GObject)
G_DEFINE_FINAL_TYPE (PrExport, pr_export, G_TYPE_OBJECT)

static const struct {
  const char *part, *ending, *title, *kind;
} kinds[] = {
  [PR_EXPORT_PDF] = { "-template", ".pdf", N_ ("Export the template"), N_ ("PDF pages") },
  [PR_EXPORT_SVG] = { "-template", ".svg", N_ ("Export the template"), N_ ("SVG drawings") },
  [PR_EXPORT_PNG] = { "-template", ".png", N_ ("Export the template"), N_ ("PNG pictures") },
  [PR_EXPORT_DXF] = { "-template", ".dxf", N_ ("Export the template"), N_ ("DXF drawings") },
  [PR_EXPORT_COMPARED] = { "-comparison", ".pdf", N_ ("Export the comparison"), N_ ("PDF pages") },
  [PR_EXPORT_FOOT] = { "", ".pritchel", N_ ("Export this foot for a colleague"), NULL },
};

/* --- one file --- */

static PrPageOptions
page_options (PrDocument *doc)
{
  return pr_print_options (doc, pr_print_default_paper ());
}

/* Gone meanwhile: nothing is written, and it is said. */
static bool
write_compared (PrExport *export, const PrPageOptions *options, const char *file, GError **error)
{
  const PrComparison *c = pr_document_forged (export->doc);
  g_autoptr (GByteArray) pdf = g_byte_array_new ();

  if (!c) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_FILE,
                         _ ("The forged shoe is no longer on its plan; open its photo again."));
    return false;
  }
  return pr_forged_pdf (pr_document_job (export->doc), c, options, pdf, error)
         && pr_atomic_file_write (file, (const char *) pdf->data, pdf->len, error);
}

static bool
write_one (PrExport *export, PrFace face, const char *file, GError **error)
{
  const PrJob *job = pr_document_job (export->doc);
  PrPageOptions options = page_options (export->doc);
  g_autofree char *day = NULL, *horse = pr_print_horse (export->doc, &day);

  options.horse = horse;
  options.date = day;
  options.colour = pr_print_colour (export->doc);
  switch (export->kind) {
  case PR_EXPORT_SVG:
    return pr_write_template_svg (job, face, &options, file, error);
  case PR_EXPORT_PNG:
    return pr_write_template_png (job, face, &options, PR_PNG_PX_PER_MM, file, error);
  case PR_EXPORT_DXF:
    return pr_write_template_dxf (job, face, file, error);
  case PR_EXPORT_COMPARED:
    return write_compared (export, &options, file, error);
  case PR_EXPORT_FOOT:
    return pr_book_send_foot (pr_document_book (export->doc), pr_document_foot_id (export->doc), file, error);
  default:
    return pr_write_template_pdf (job, &options, file, error);
  }
}

/* PDF holds both faces, and so does a foot. */
static bool
has_face (const PrExport *export)
{
  return export->kind == PR_EXPORT_SVG || export->kind == PR_EXPORT_PNG || export->kind == PR_EXPORT_DXF;
}

static PrFace
chosen_face (const PrExport *export, GtkFileChooser *chooser)
{
  const char *face = has_face (export) ? gtk_file_chooser_get_choice (chooser, FACE_CHOICE) : NULL;

  return g_strcmp0 (face, "ground") == 0 ? PR_FACE_GROUND : PR_FACE_FOOT;
}

/* Where FILE can be found again. */
static void
say_written (PrExport *export, const char *file)
{
  g_autofree char *said = pr_export_said (file);

  pr_document_say (export->doc, said);
}

/* What the dialog answers is written to; FALSE with error. */
static bool
write_chosen (PrExport *export, GtkFileChooser *chooser, GError **error)
{
  g_autoptr (GFile) chosen = gtk_file_chooser_get_file (chooser);
  g_autofree char *path = chosen ? g_file_get_path (chosen) : NULL, *file = NULL;
  PrFace face = chosen_face (export, chooser);

  if (!path) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_FILE,
                         _ ("Nothing can be written there; choose a folder of this computer."));
    return false;
  }
  file = pr_export_with_ending (path, kinds[export->kind].ending, error);
  if (!file || !write_one (export, face, file, error))
    return false;
  say_written (export, file);
  return true;
}

static void
file_chosen (GtkNativeDialog *dialog, int response, PrExport *export)
{
  g_autoptr (GError) error = NULL;

  if (response == GTK_RESPONSE_ACCEPT && pr_document_job (export->doc)
      && !write_chosen (export, GTK_FILE_CHOOSER (dialog), &error))
    pr_document_trouble (export->doc, error->message);
  g_object_unref (dialog);
}

/* --- everything in a folder --- */

static void
write_all (PrExport *export)
{
  PrPageOptions options = page_options (export->doc);
  g_autofree char *day = NULL, *horse = pr_print_horse (export->doc, &day);
  g_autoptr (GError) error = NULL;

  options.horse = horse;
  options.date = day;
  options.colour = pr_print_colour (export->doc);
  options.dxf = true;
  options.stem = export->stem;
  if (!pr_document_job (export->doc))
    return;
  g_autofree char *where = g_filename_display_name (export->folder);
  g_autofree char *said = g_strdup_printf (_ ("Everything was written to %s."), where);
  if (pr_write_all (pr_document_job (export->doc), &options, export->folder, &error))
    pr_document_say (export->doc, said);
  else
    pr_document_trouble (export->doc, error->message);
}

enum { ANSWER_REPLACE = 1, ANSWER_KEEP_BOTH };

static void
taken_answered (GtkDialog *dialog, int response, PrExport *export)
{
  g_autoptr (PrExport) held = g_object_ref (export); /* the dialog lets go of it */
  char *stem = export->stem;

  gtk_window_destroy (GTK_WINDOW (dialog));
  if (response == ANSWER_KEEP_BOTH) {
    held->stem = pr_export_free_stem (held->folder, stem, pr_write_all_names ());
    g_free (stem);
  }
  if (response == ANSWER_REPLACE || response == ANSWER_KEEP_BOTH)
    write_all (held);
}

/* Connects ANSWERED to DIALOG, which holds EXPORT from now on. */
static void
hold (gpointer dialog, GCallback answered, PrExport *export)
{
  g_signal_connect_data (dialog, "response", answered, g_object_ref (export),
                         (GClosureNotify) (void (*) (void)) g_object_unref, 0);
}

static void
ask_about_taken (PrExport *export)
{
  GtkWidget *dialog
      = gtk_message_dialog_new (export->parent, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                GTK_MESSAGE_OTHER, GTK_BUTTONS_NONE, _ ("Files called %s are there already"),
                                export->stem);

  gtk_window_set_title (GTK_WINDOW (dialog), _ ("Replace what is there?"));
  gtk_widget_add_css_class (dialog, "pritchel");
  gtk_message_dialog_format_secondary_text (
      GTK_MESSAGE_DIALOG (dialog), "%s",
      _ ("Replaced, what is in them is lost. Keep both puts a number behind the name of the new ones."));
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _ ("_Cancel"), GTK_RESPONSE_CANCEL, _ ("_Replace"),
                          ANSWER_REPLACE, _ ("_Keep both"), ANSWER_KEEP_BOTH, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), ANSWER_KEEP_BOTH);
  hold (dialog, G_CALLBACK (taken_answered), export);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
folder_chosen (GtkNativeDialog *dialog, int response, PrExport *export)
{
  g_autoptr (GFile) folder = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));

  export->folder = response == GTK_RESPONSE_ACCEPT && folder ? g_file_get_path (folder) : NULL;
  if (export->folder && pr_document_job (export->doc)) {
    if (pr_export_is_taken (export->folder, export->stem, pr_write_all_names ()))
      ask_about_taken (export);
    else
      write_all (export);
  }
  g_object_unref (dialog);
}

/* --- asking --- */

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
add_kind (GtkFileChooser *chooser, PrExportKind kind)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, _ (kinds[kind].kind));
  gtk_file_filter_add_suffix (filter, kinds[kind].ending + 1);
  gtk_file_chooser_add_filter (chooser, filter);
}

static GtkFileChooserNative *
file_dialog (PrExport *export)
{
  GtkFileChooserNative *dialog
      = gtk_file_chooser_native_new (_ (kinds[export->kind].title), export->parent,
                                     GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));
  g_autofree char *name
      = g_strconcat (export->stem, kinds[export->kind].part, kinds[export->kind].ending, NULL);

  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), name);
  if (kinds[export->kind].kind)
    add_kind (GTK_FILE_CHOOSER (dialog), export->kind);
  if (has_face (export))
    add_face_choice (GTK_FILE_CHOOSER (dialog));
  hold (dialog, G_CALLBACK (file_chosen), export);
  return dialog;
}

static GtkFileChooserNative *
folder_dialog (PrExport *export)
{
  GtkFileChooserNative *dialog
      = gtk_file_chooser_native_new (_ ("Export everything to a folder"), export->parent,
                                     GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, _ ("_Save here"), _ ("_Cancel"));

  hold (dialog, G_CALLBACK (folder_chosen), export);
  return dialog;
}

void
pr_export (GtkWindow *parent, PrDocument *doc, PrExportKind kind)
{
  g_autoptr (PrExport) export = NULL;
  GtkFileChooserNative *dialog;

  if (!pr_document_job (doc) || (kind == PR_EXPORT_FOOT && !pr_document_foot_id (doc))
      || (kind == PR_EXPORT_COMPARED && !pr_document_forged (doc)))
    return;
  export = g_object_new (PR_TYPE_EXPORT, NULL);
  export->doc = g_object_ref (doc);
  export->kind = kind;
  export->stem = pr_print_stem (doc);
  g_set_weak_pointer (&export->parent, parent);
  dialog = kind == PR_EXPORT_ALL ? folder_dialog (export) : file_dialog (export);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

static void
pr_export_finalize (GObject *object)
{
  PrExport *export = PR_EXPORT (object);

  g_clear_weak_pointer (&export->parent);
  g_clear_object (&export->doc);
  g_free (export->folder);
  g_free (export->stem);
  G_OBJECT_CLASS (pr_export_parent_class)->finalize (object);
}

static void
pr_export_init (PrExport *export)
{
}

static void
pr_export_class_init (PrExportClass *class)
{
  G_OBJECT_CLASS (class)->finalize = pr_export_finalize;
}
