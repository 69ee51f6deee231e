/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-print.h"

#include <glib/gi18n-lib.h>
#include "pr-cautions.h"
#include "pr-paper.h"

#define SAME_PAPER_MM 6.0    /* a printer's name for a paper may differ by this */

static const PrDoc job_docs[] = { PR_DOC_TEMPLATE, PR_DOC_GROUND, PR_DOC_BAR, PR_DOC_CARD };

typedef struct {
  PrDocument  *doc;
  PrJob       *job;            /* copy */
  const PrDoc *docs;
  int          n_docs;
  PrPages     *pages[G_N_ELEMENTS (job_docs)];
  bool         cautions;
} Printing;

static void
printing_free (Printing *printing)
{
  for (int i = 0; i < printing->n_docs; i++)
    g_clear_pointer (&printing->pages[i], pr_pages_free);
  g_clear_pointer (&printing->job, pr_job_free);
  g_object_unref (printing->doc);
  g_free (printing);
}

/* What stands in the document, as a job of its own. Transfer full. */
static PrJob *
job_copy (const PrJob *from, GError **error)
{
  g_autoptr (PrJob) job = pr_job_new ();
  g_autoptr (JsonNode) trace = pr_job_trace_json (from);

  job->foot = from->foot;
  job->unit = from->unit;
  if (!pr_job_take_trace_json (job, trace, error))
    return NULL;
  job->plan = from->plan;
  return pr_job_refresh (job, error) ? g_steal_pointer (&job) : NULL;
}

static bool
cautions_due (PrDocument *doc)
{
  g_autofree char *seen = pr_document_setting (doc, "cautions-seen");

  return seen == NULL;
}

/* --- pages --- */

static PrPaper
paper_of (GtkPageSetup *setup)
{
  double width = gtk_page_setup_get_paper_width (setup, GTK_UNIT_MM);
  double height = gtk_page_setup_get_paper_height (setup, GTK_UNIT_MM);

  for (int i = 0; i < PR_N_PAPERS; i++) {
    double w, h;

    pr_paper_size ((PrPaper) i, &w, &h);
    if (fabs (MIN (width, height) - w) < SAME_PAPER_MM
        && fabs (MAX (width, height) - h) < SAME_PAPER_MM)
      return (PrPaper) i;
  }
  return PR_PAPER_A4;
}

static PrPageOptions
page_options (Printing *printing, PrPaper paper)
{
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  options.paper = paper;
  options.unit = pr_document_unit (printing->doc);
  options.cautions = printing->cautions;
  return options;
}

static void
begin_print (GtkPrintOperation *op, GtkPrintContext *context, Printing *printing)
{
  PrPageOptions options
    = page_options (printing, paper_of (gtk_print_context_get_page_setup (context)));
  int n = 0;

  for (int i = 0; i < printing->n_docs; i++) {
    printing->pages[i] = pr_pages_new (printing->docs[i], printing->job, &options);
    n += pr_pages_count (printing->pages[i]);
  }
  gtk_print_operation_set_n_pages (op, n);
}

/* Which document's which page is page NR of all. */
static const PrPages *
find_page (Printing *printing, int *nr)
{
  for (int i = 0; i < printing->n_docs; i++) {
    int n = pr_pages_count (printing->pages[i]);

    if (*nr < n)
      return printing->pages[i];
    *nr -= n;
  }
  return NULL;
}

static void
request_setup (GtkPrintOperation *op, GtkPrintContext *context, int nr, GtkPageSetup *setup,
               Printing *printing)
{
  const PrPages *pages = find_page (printing, &nr);
  double width, height;
  g_autoptr (GtkPaperSize) size = NULL;

  pr_pages_size (pages, &width, &height);
  if (width <= height)
    return;
  gtk_page_setup_set_orientation (setup, GTK_PAGE_ORIENTATION_LANDSCAPE);
}

static void
draw_page (GtkPrintOperation *op, GtkPrintContext *context, int nr, Printing *printing)
{
  const PrPages *pages = find_page (printing, &nr);

  pr_pages_draw (pages, nr, gtk_print_context_get_cairo_context (context));
}

static void
printed (GtkPrintOperation *op, GtkPrintOperationResult result, Printing *printing)
{
  g_autoptr (GError) error = NULL;

  if (result == GTK_PRINT_OPERATION_RESULT_ERROR) {
    gtk_print_operation_get_error (op, &error);
    pr_document_trouble (printing->doc, error->message);
  }
  printing_free (printing);
}

static void
run (GtkWindow *parent, Printing *printing, const char *name)
{
  g_autoptr (GtkPrintOperation) op = gtk_print_operation_new ();
  g_autoptr (GtkPrintSettings) settings = gtk_print_settings_new ();
  g_autoptr (GError) error = NULL;

  gtk_print_settings_set_scale (settings, 100);
  gtk_print_settings_set (settings, GTK_PRINT_SETTINGS_OUTPUT_BASENAME, name);
  gtk_print_operation_set_print_settings (op, settings);
  gtk_print_operation_set_use_full_page (op, TRUE);
  gtk_print_operation_set_unit (op, GTK_UNIT_MM);
  gtk_print_operation_set_job_name (op, name);
  gtk_print_operation_set_allow_async (op, TRUE);
  g_signal_connect (op, "begin-print", G_CALLBACK (begin_print), printing);
  g_signal_connect (op, "request-page-setup", G_CALLBACK (request_setup), printing);
  g_signal_connect (op, "draw-page", G_CALLBACK (draw_page), printing);
  g_signal_connect (op, "done", G_CALLBACK (printed), printing);
  gtk_print_operation_run (op, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, parent, NULL);
}

static Printing *
printing_new (PrDocument *doc, const PrDoc *docs, int n_docs)
{
  Printing *printing = g_new0 (Printing, 1);

  printing->doc = g_object_ref (doc);
  printing->docs = docs;
  printing->n_docs = n_docs;
  return printing;
}

/* --- cautions, once --- */

typedef struct {
  GtkWindow  *parent;
  PrDocument *doc;
} Asked;

static void
print_now (GtkWindow *parent, PrDocument *doc, bool cautions)
{
  Printing *printing = printing_new (doc, job_docs, G_N_ELEMENTS (job_docs));
  g_autoptr (GError) error = NULL;

  printing->cautions = cautions;
  printing->job = job_copy (pr_document_job (doc), &error);
  if (!printing->job) {
    pr_document_trouble (doc, error->message);
    printing_free (printing);
    return;
  }
  run (parent, printing, _("Shoe template"));
}

static void
cautions_read (GtkDialog *dialog, int response, Asked *asked)
{
  gtk_window_destroy (GTK_WINDOW (dialog));
  if (response == GTK_RESPONSE_OK && pr_document_job (asked->doc)) {
    pr_document_keep_setting (asked->doc, "cautions-seen", "1");
    print_now (asked->parent, asked->doc, true);
  }
  g_object_unref (asked->doc);
  g_free (asked);
}

void
pr_print_job (GtkWindow *parent, PrDocument *doc)
{
  GtkWidget *dialog;
  Asked *asked;

  if (!pr_document_job (doc))
    return;
  if (!cautions_due (doc)) {
    print_now (parent, doc, false);
    return;
  }
  asked = g_new0 (Asked, 1);
  asked->parent = parent;
  asked->doc = g_object_ref (doc);
  dialog = gtk_message_dialog_new (parent, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                   GTK_MESSAGE_OTHER, GTK_BUTTONS_NONE, "%s",
                                   _("Before the first print"));
  gtk_window_set_title (GTK_WINDOW (dialog), _("Before the first print"));
  gtk_widget_add_css_class (dialog, "pritchel");
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s", pr_cautions ());
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _("_Not now"), GTK_RESPONSE_CANCEL, _("_Go on"),
                          GTK_RESPONSE_OK, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), GTK_RESPONSE_OK);
  g_signal_connect (dialog, "response", G_CALLBACK (cautions_read), asked);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* --- files --- */

static char *
proposed_name (PrDocument *doc, const char *ending)
{
  const char *side = pr_foot_name (pr_document_job (doc)->foot);
  g_autofree char *horse = pr_document_horse_name (doc, NULL);

  if (!horse)
    return g_strdup_printf ("%s.%s", side, ending);
  return g_strdelimit (g_strdup_printf ("%s, %s.%s", horse, side, ending), "/", '-');
}

/* ENDING "pdf" or "dxf"; NULL: PATH is a folder for everything. */
static void
write_to (PrDocument *doc, const char *path, const char *ending)
{
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  const PrJob *job = pr_document_job (doc);
  g_autoptr (GError) error = NULL;
  bool ok;

  options.unit = pr_document_unit (doc);
  options.paper = options.unit == PR_UNIT_INCH ? PR_PAPER_LETTER : PR_PAPER_A4;
  options.cautions = cautions_due (doc);
  if (!ending)
    ok = pr_write_all (job, &options, path, &error);
  else if (g_str_equal (ending, "dxf"))
    ok = pr_write_template_dxf (job, PR_FACE_FOOT, path, &error);
  else
    ok = pr_write_template_pdf (job, &options, path, &error);
  if (!ok)
    pr_document_trouble (doc, error->message);
}

static void
chosen (GtkNativeDialog *dialog, int response, PrDocument *doc)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
  g_autofree char *path = file ? g_file_get_path (file) : NULL;

  if (response == GTK_RESPONSE_ACCEPT && path && pr_document_job (doc))
    write_to (doc, path, g_object_get_data (G_OBJECT (dialog), "pr-ending"));
  g_object_unref (dialog);
}

static void
save_template (GtkWindow *parent, PrDocument *doc, const char *ending)
{
  GtkFileChooserNative *dialog;
  g_autofree char *name = NULL;

  if (!pr_document_job (doc))
    return;
  name = proposed_name (doc, ending);
  dialog = gtk_file_chooser_native_new (_("Save the template"), parent,
                                        GTK_FILE_CHOOSER_ACTION_SAVE, _("_Save"), _("_Cancel"));
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), name);
  g_object_set_data (G_OBJECT (dialog), "pr-ending", (gpointer) ending);
  g_signal_connect (dialog, "response", G_CALLBACK (chosen), doc);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

void
pr_save_pdf (GtkWindow *parent, PrDocument *doc)
{
  save_template (parent, doc, "pdf");
}

void
pr_save_dxf (GtkWindow *parent, PrDocument *doc)
{
  save_template (parent, doc, "dxf");
}

void
pr_save_all (GtkWindow *parent, PrDocument *doc)
{
  GtkFileChooserNative *dialog;

  if (!pr_document_job (doc))
    return;
  dialog = gtk_file_chooser_native_new (_("Save everything in a folder"), parent,
                                        GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, _("_Save here"),
                                        _("_Cancel"));
  g_signal_connect (dialog, "response", G_CALLBACK (chosen), doc);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}
