/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-print.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-bounds.h"
#include "pr-cautions.h"
#include "pr-document-forged.h"
#include "pr-export-names.h"
#include "pr-forged-sheaf.h"
#include "pr-page-choice.h"
#include "pr-preview.h"
#include "pr-printers.h"
#include "pr-settings.h"
#include "pr-words.h"

#define SAME_PAPER_MM 6.0 /* a printer's name for a paper may differ by this */

/* One print, from the dialog on. */
struct _PrPrinting {
  GtkPrintOperation parent_instance;
  GtkWindow *parent; /* weak */
  PrDocument *doc;
  PrSheaf *sheaf; /* NULL once the preview has it */
  PrPaper paper;
  bool cautions;
};

#define PR_TYPE_PRINTING (pr_printing_get_type ())
G_DECLARE_FINAL_TYPE (PrPrinting, pr_printing, PR, PRINTING, GtkPrintOperation)
G_DEFINE_FINAL_TYPE (PrPrinting, pr_printing, GTK_TYPE_PRINT_OPERATION)

bool
pr_print_cautions_due (void)
{
  return !pr_settings_bool ("cautions-seen");
}

/* --- papers --- */

static PrPaper
paper_of (GtkPageSetup *setup)
{
  double width = gtk_page_setup_get_paper_width (setup, GTK_UNIT_MM);
  double height = gtk_page_setup_get_paper_height (setup, GTK_UNIT_MM);

  for (int i = 0; i < PR_N_PAPERS; i++) {
    double w, h;

    pr_paper_size ((PrPaper) i, &w, &h);
    if (fabs (MIN (width, height) - w) < SAME_PAPER_MM && fabs (MAX (width, height) - h) < SAME_PAPER_MM)
      return (PrPaper) i;
  }
  return PR_PAPER_A4;
}

PrPaper
pr_print_default_paper (void)
{
  g_autoptr (GtkPageSetup) setup = gtk_page_setup_new ();

  return paper_of (setup);
}

/* The desktop's description of PAPER. Transfer full. */
static GtkPageSetup *
setup_of (PrPaper paper)
{
  static const char *const names[PR_N_PAPERS] = {
    [PR_PAPER_A4] = GTK_PAPER_NAME_A4,       [PR_PAPER_LETTER] = GTK_PAPER_NAME_LETTER,
    [PR_PAPER_A3] = GTK_PAPER_NAME_A3,       [PR_PAPER_TABLOID] = "na_ledger",
    [PR_PAPER_LEGAL] = GTK_PAPER_NAME_LEGAL, [PR_PAPER_A5] = GTK_PAPER_NAME_A5,
    [PR_PAPER_B5] = GTK_PAPER_NAME_B5,       [PR_PAPER_C5] = "iso_c5",
  };
  GtkPageSetup *setup = gtk_page_setup_new ();
  g_autoptr (GtkPaperSize) size = gtk_paper_size_new (names[paper]);

  gtk_page_setup_set_paper_size_and_default_margins (setup, size);
  return setup;
}

PrPageOptions
pr_print_options (PrDocument *doc, PrPaper paper)
{
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  options.paper = paper;
  options.unit = pr_document_unit (doc);
  options.cautions = pr_print_cautions_due ();
  return options;
}

/* What was chosen in the dialog: its paper, and what its printer is off by. */
static PrPageOptions
chosen_options (PrPrinting *printing, GtkPrintContext *context)
{
  GtkPrintSettings *settings = gtk_print_operation_get_print_settings (GTK_PRINT_OPERATION (printing));
  const char *printer = settings ? gtk_print_settings_get_printer (settings) : NULL;
  PrPageOptions options
      = pr_print_options (printing->doc, paper_of (gtk_print_context_get_page_setup (context)));
  g_autoptr (GError) error = NULL;

  options.cautions = printing->cautions;
  if (!pr_printers_correction (printer, &options.correct_x, &options.correct_y, &error))
    pr_document_trouble (printing->doc, error->message);
  return options;
}

/* --- the desktop's print operation --- */

static void
pr_printing_begin_print (GtkPrintOperation *op, GtkPrintContext *context)
{
  PrPrinting *printing = PR_PRINTING (op);
  PrPageOptions options = chosen_options (printing, context);
  g_autoptr (GError) error = NULL;

  gtk_print_operation_set_n_pages (op, 1);
  if (!printing->sheaf)
    return;
  if (pr_sheaf_lay (printing->sheaf, &options, &error)) {
    gtk_print_operation_set_n_pages (op, pr_sheaf_count (printing->sheaf));
    return;
  }
  pr_document_trouble (printing->doc, error->message);
  gtk_print_operation_cancel (op);
}

/* Pages stand as they are laid out, however the dialog's paper was turned. */
static void
pr_printing_request_page_setup (GtkPrintOperation *op, GtkPrintContext *context, int nr, GtkPageSetup *setup)
{
  PrSheaf *sheaf = PR_PRINTING (op)->sheaf;
  double width, height;

  if (!sheaf || nr >= pr_sheaf_count (sheaf))
    return;
  pr_sheaf_page_size (sheaf, nr, &width, &height);
  gtk_page_setup_set_orientation (setup, width > height ? GTK_PAGE_ORIENTATION_LANDSCAPE
                                                        : GTK_PAGE_ORIENTATION_PORTRAIT);
}

static void
pr_printing_draw_page (GtkPrintOperation *op, GtkPrintContext *context, int nr)
{
  PrSheaf *sheaf = PR_PRINTING (op)->sheaf;

  if (sheaf && nr < pr_sheaf_count (sheaf))
    pr_sheaf_draw (sheaf, nr, gtk_print_context_get_cairo_context (context));
}

/* The operation wants something to draw on, though our preview has its own. */
static void
give_it_a_context (GtkPrintContext *context)
{
  cairo_surface_t *nowhere = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (nowhere);

  gtk_print_context_set_cairo_context (context, cr, 72, 72);
  cairo_destroy (cr);
  cairo_surface_destroy (nowhere);
}

/* From the preview on to paper. */
static void
print_previewed (PrPreview *preview, PrDocument *doc)
{
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (preview));
  PrPaper paper = pr_preview_paper (preview);
  PrSheaf *sheaf = pr_preview_take_sheaf (preview);

  gtk_window_destroy (GTK_WINDOW (preview));
  pr_print_sheaf (parent, doc, sheaf, paper, NULL);
}

static void
show_preview (GtkWindow *parent, PrDocument *doc, PrSheaf *sheaf, const PrPageOptions *options)
{
  PrPreview *preview = pr_preview_new (parent, sheaf, options);

  g_signal_connect_object (preview, "print", G_CALLBACK (print_previewed), doc, 0);
  gtk_window_present (GTK_WINDOW (preview));
}

/* The dialog's own preview would start another program, which may not be there. */
static gboolean
pr_printing_preview (GtkPrintOperation *op, GtkPrintOperationPreview *unused, GtkPrintContext *context,
                     GtkWindow *parent)
{
  PrPrinting *printing = PR_PRINTING (op);
  PrPageOptions options = chosen_options (printing, context);

  give_it_a_context (context);
  show_preview (printing->parent, printing->doc, g_steal_pointer (&printing->sheaf), &options);
  return TRUE;
}

/* A tab of the dialog: which pages of the shoe. */
static GtkWidget *
pr_printing_create_custom_widget (GtkPrintOperation *op)
{
  PrSheaf *sheaf = PR_PRINTING (op)->sheaf;

  return sheaf && pr_sheaf_is_shoe (sheaf) ? pr_page_choice_new (sheaf) : NULL;
}

/* The dialog was answered; printing and its own preview both begin with this. */
static void
pr_printing_custom_widget_apply (GtkPrintOperation *op, GtkWidget *choice)
{
  PrSheaf *sheaf = PR_PRINTING (op)->sheaf;

  if (sheaf && PR_IS_PAGE_CHOICE (choice))
    pr_page_choice_apply (PR_PAGE_CHOICE (choice), sheaf);
}

static void
preview_ready (GtkPrintOperationPreview *op)
{
  gtk_print_operation_preview_end_preview (op);
}

/* To a file is not on paper: what is said then is where it lies. Transfer full. */
static char *
said_of (GtkPrintOperation *op)
{
  GtkPrintSettings *settings = gtk_print_operation_get_print_settings (op);
  const char *uri = settings ? gtk_print_settings_get (settings, GTK_PRINT_SETTINGS_OUTPUT_URI) : NULL;
  g_autofree char *file = uri ? g_filename_from_uri (uri, NULL, NULL) : NULL;

  return file ? pr_export_said (file)
              : g_strdup_printf (_ ("“%s” was printed."), pr_sheaf_title (PR_PRINTING (op)->sheaf));
}

static void
pr_printing_done (GtkPrintOperation *op, GtkPrintOperationResult result)
{
  g_autoptr (GError) error = NULL;

  if (result == GTK_PRINT_OPERATION_RESULT_APPLY && PR_PRINTING (op)->sheaf) {
    g_autofree char *said = said_of (op);
    pr_document_say (PR_PRINTING (op)->doc, said);
  }
  if (result != GTK_PRINT_OPERATION_RESULT_ERROR)
    return;
  gtk_print_operation_get_error (op, &error);
  pr_document_trouble (PR_PRINTING (op)->doc, error->message);
}

static void
start_with (GtkPrintOperation *op, const char *title, PrPaper paper, const char *printer)
{
  g_autoptr (GtkPrintSettings) settings = gtk_print_settings_new ();

  gtk_print_settings_set_scale (settings, 100);
  gtk_print_settings_set (settings, GTK_PRINT_SETTINGS_OUTPUT_BASENAME, title);
  if (printer)
    gtk_print_settings_set_printer (settings, printer);
  if (paper < PR_N_PAPERS) {
    g_autoptr (GtkPageSetup) setup = setup_of (paper);

    gtk_print_operation_set_default_page_setup (op, setup);
  }
  gtk_print_operation_set_print_settings (op, settings);
  gtk_print_operation_set_job_name (op, title);
}

static void
run (PrPrinting *printing, const char *printer)
{
  GtkPrintOperation *op = GTK_PRINT_OPERATION (printing);

  start_with (op, pr_sheaf_title (printing->sheaf), printing->paper, printer);
  gtk_print_operation_run (op, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, printing->parent, NULL);
}

static void
pr_printing_dispose (GObject *object)
{
  PrPrinting *printing = PR_PRINTING (object);

  g_clear_weak_pointer (&printing->parent);
  g_clear_pointer (&printing->sheaf, pr_sheaf_free);
  g_clear_object (&printing->doc);
  G_OBJECT_CLASS (pr_printing_parent_class)->dispose (object);
}

static void
pr_printing_init (PrPrinting *printing)
{
  GtkPrintOperation *op = GTK_PRINT_OPERATION (printing);

  gtk_print_operation_set_use_full_page (op, TRUE);
  gtk_print_operation_set_unit (op, GTK_UNIT_MM);
  gtk_print_operation_set_allow_async (op, TRUE);
  gtk_print_operation_set_custom_tab_label (op, _ ("Pages of the shoe"));
  g_signal_connect (op, "ready", G_CALLBACK (preview_ready), NULL);
}

static void
pr_printing_class_init (PrPrintingClass *class)
{
  GtkPrintOperationClass *op_class = GTK_PRINT_OPERATION_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_printing_dispose;
  op_class->begin_print = pr_printing_begin_print;
  op_class->request_page_setup = pr_printing_request_page_setup;
  op_class->draw_page = pr_printing_draw_page;
  op_class->preview = pr_printing_preview;
  op_class->done = pr_printing_done;
  op_class->create_custom_widget = pr_printing_create_custom_widget;
  op_class->custom_widget_apply = pr_printing_custom_widget_apply;
}

/* --- cautions, once --- */

static void
cautions_read (GtkDialog *dialog, int response, PrPrinting *printing)
{
  g_autoptr (PrPrinting) held = g_object_ref (printing); /* the dialog lets go of it */

  gtk_window_destroy (GTK_WINDOW (dialog));
  if (response != GTK_RESPONSE_OK)
    return;
  pr_settings_keep ("cautions-seen", g_variant_new_boolean (TRUE));
  run (held, NULL);
}

static void
show_cautions (PrPrinting *printing)
{
  GtkWidget *dialog
      = gtk_message_dialog_new (printing->parent, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                GTK_MESSAGE_OTHER, GTK_BUTTONS_NONE, "%s", _ ("Before the first print"));

  gtk_window_set_title (GTK_WINDOW (dialog), _ ("Before the first print"));
  gtk_widget_add_css_class (dialog, "pritchel");
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s", pr_cautions ());
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _ ("_Not now"), GTK_RESPONSE_CANCEL, _ ("_Go on"),
                          GTK_RESPONSE_OK, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), GTK_RESPONSE_OK);
  g_signal_connect_data (dialog, "response", G_CALLBACK (cautions_read), g_object_ref (printing),
                         (GClosureNotify) (void (*) (void)) g_object_unref, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* --- doors --- */

void
pr_print_sheaf (GtkWindow *parent, PrDocument *doc, PrSheaf *sheaf, PrPaper paper, const char *printer)
{
  g_autoptr (PrPrinting) printing = g_object_new (PR_TYPE_PRINTING, NULL);

  g_set_weak_pointer (&printing->parent, parent);
  printing->doc = g_object_ref (doc);
  printing->sheaf = sheaf;
  printing->paper = paper;
  printing->cautions = pr_print_cautions_due ();
  if (printing->cautions && pr_sheaf_is_shoe (sheaf))
    show_cautions (printing);
  else
    run (printing, printer);
}

char *
pr_print_stem (PrDocument *doc)
{
  g_autofree char *date = NULL, *horse = pr_document_horse_name (doc, &date);

  if (!date)
    date = pr_words_today ();
  return pr_export_stem (horse, pr_document_job (doc)->sources.foot, date);
}

char *
pr_print_horse (PrDocument *doc, char **day)
{
  g_autofree char *date = NULL;
  char *horse = pr_document_horse_name (doc, &date);

  *day = date && pr_date_holds (date) ? g_strndup (date, strlen ("2024-11-30")) : NULL;
  return horse;
}

int
pr_print_colour (PrDocument *doc)
{
  g_auto (PrBookVisit) visit = { 0 };
  PrBookId foot = pr_document_foot_id (doc);

  return foot && pr_book_get_foot (pr_document_book (doc), foot, NULL, &visit, NULL, NULL) ? visit.colour : 0;
}

static void
name_sheaf (PrSheaf *sheaf, PrDocument *doc)
{
  g_autofree char *stem = pr_print_stem (doc), *title = g_strconcat (stem, "-template", NULL);
  g_autofree char *day = NULL, *horse = pr_print_horse (doc, &day);

  pr_sheaf_set_title (sheaf, title);
  pr_sheaf_set_horse (sheaf, horse, day);
  pr_sheaf_set_colour (sheaf, pr_print_colour (doc));
  pr_sheaf_choose (sheaf, pr_page_choice_last ());
}

static void
add_other_feet (PrSheaf *sheaf, PrDocument *doc)
{
  g_autoptr (GPtrArray) feet = pr_document_other_feet (doc);

  for (guint i = 0; i < feet->len; i++)
    pr_sheaf_add_foot (sheaf, feet->pdata[i]);
}

/* The shoe that is open, ready to be laid out; NULL while none is. Transfer full. */
static PrSheaf *
shoe_sheaf (PrDocument *doc)
{
  PrSheaf *sheaf = pr_document_job (doc) ? pr_sheaf_new_job (pr_document_job (doc)) : NULL;

  if (!sheaf)
    return NULL;
  name_sheaf (sheaf, doc);
  add_other_feet (sheaf, doc);
  return sheaf;
}

void
pr_print_job (GtkWindow *parent, PrDocument *doc)
{
  PrSheaf *sheaf = shoe_sheaf (doc);

  if (sheaf)
    pr_print_sheaf (parent, doc, sheaf, PR_PAPER_UNKNOWN, NULL);
}

void
pr_print_forged (GtkWindow *parent, PrDocument *doc)
{
  const PrComparison *c = pr_document_forged (doc);
  g_autoptr (GError) error = NULL;
  PrSheaf *sheaf
      = c ? pr_forged_sheaf_new (pr_document_job (doc), pr_document_forged_seen (doc), c->lay, &error) : NULL;

  if (error)
    pr_document_trouble (doc, error->message);
  if (!sheaf)
    return;
  g_autofree char *stem = pr_print_stem (doc), *title = g_strconcat (stem, "-comparison", NULL);
  g_autofree char *day = NULL, *horse = pr_print_horse (doc, &day);

  pr_sheaf_set_title (sheaf, title);
  pr_sheaf_set_horse (sheaf, horse, day);
  pr_print_sheaf (parent, doc, sheaf, PR_PAPER_UNKNOWN, NULL);
}

void
pr_print_preview (GtkWindow *parent, PrDocument *doc)
{
  PrPageOptions options = pr_print_options (doc, pr_print_default_paper ());
  PrSheaf *sheaf = shoe_sheaf (doc);

  if (sheaf)
    show_preview (parent, doc, sheaf, &options);
}
