/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-printer-dialog.h"

#include <glib/gi18n-lib.h>
#include <gtk/gtkunixprint.h>
#include "pr-error.h"
#include "pr-length.h"
#include "pr-names.h"
#include "pr-print.h"
#include "pr-printers.h"

#define BAR_MM 100.0
#define BAR_INCH_MM (4 * PR_MM_PER_INCH)

struct _PrPrinterDialog {
  GtkWindow parent_instance;
  PrDocument *doc;
  PrUnit unit;
  GtkStringList *printers;
  GtkDropDown *printer;
  GtkLabel *kept, *across_name, *down_name, *trouble;
  GtkWidget *across, *down, *check, *none, *keep;
};

G_DEFINE_FINAL_TYPE (PrPrinterDialog, pr_printer_dialog, GTK_TYPE_WINDOW)

/* --- which printers there are --- */

/* They come one by one, some after a while, perhaps when the window has gone. */
static gboolean
printer_found (GtkPrinter *printer, gpointer list)
{
  const char *name = gtk_printer_get_name (printer);

  if (gtk_printer_is_virtual (printer))
    return FALSE; /* a file has no paper to measure */
  gtk_string_list_splice (list, gtk_printer_is_default (printer) ? 0 : g_list_model_get_n_items (list), 0,
                          (const char *[]){ name, NULL });
  return FALSE;
}

/* NULL while none is known. */
static const char *
chosen (PrPrinterDialog *m)
{
  guint at = gtk_drop_down_get_selected (m->printer);

  return at == GTK_INVALID_LIST_POSITION ? NULL : gtk_string_list_get_string (m->printers, at);
}

/* --- what is kept --- */

static void
tell (PrPrinterDialog *m, const char *sentence)
{
  gtk_label_set_text (m->trouble, sentence ? sentence : "");
  gtk_widget_set_visible (GTK_WIDGET (m->trouble), sentence != NULL);
}

/* Transfer full. */
static char *
kept_text (double x, double y)
{
  char across[16], down[16];

  if (x == 1 && y == 1)
    return g_strdup (_ ("No correction is saved."));
  g_ascii_formatd (across, sizeof across, "%.4f", x);
  g_ascii_formatd (down, sizeof down, "%.4f", y);
  return g_strdup_printf (_ ("Saved: × %s across, × %s down."), across, down);
}

static void
show_kept (PrPrinterDialog *m)
{
  const char *name = chosen (m);
  double x = 1, y = 1;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;

  if (name && !pr_printers_correction (name, &x, &y, &error))
    tell (m, error->message);
  text = name ? kept_text (x, y) : g_strdup (_ ("No printer is known to this computer yet."));
  gtk_label_set_text (m->kept, text);
  for (GtkWidget **part
       = (GtkWidget *[]){ m->across, m->down, m->check, m->keep, GTK_WIDGET (m->printer), NULL };
       *part; part++)
    gtk_widget_set_sensitive (*part, name != NULL);
  gtk_widget_set_sensitive (m->none, x != 1 || y != 1 || error);
}

static void
printer_chosen (PrPrinterDialog *m)
{
  tell (m, NULL);
  show_kept (m);
}

static void
keep (PrPrinterDialog *m, double x, double y)
{
  g_autoptr (GError) error = NULL;
  bool kept = pr_printers_keep (chosen (m), x, y, &error);

  tell (m, error ? error->message : NULL);
  if (!kept)
    return;
  gtk_editable_set_text (GTK_EDITABLE (m->across), "");
  gtk_editable_set_text (GTK_EDITABLE (m->down), "");
  show_kept (m);
}

/* The factor for a bar that measures what ENTRY says; on FALSE the entry has the focus. */
static bool
factor (PrPrinterDialog *m, GtkWidget *entry, double *value, GError **error)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (entry));
  double bar = m->unit == PR_UNIT_INCH ? BAR_INCH_MM : BAR_MM, mm;
  bool ok = *text && pr_length_parse (text, m->unit, &mm, error);

  if (!*text)
    g_set_error_literal (
        error, PR_ERROR, PR_ERROR_INPUT,
        _ ("Type what the check line measures across the page, and what the one down the page measures."));
  if (ok && !(mm > 0 && pr_correction_usable (bar / mm))) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("No printer that prints at actual size makes that line %s long; print the check page at "
                    "100 %% and measure the %s line from end to end."),
                 text, m->unit == PR_UNIT_INCH ? _ ("4 in") : _ ("100 mm"));
    ok = false;
  }
  if (ok)
    *value = bar / mm;
  else
    gtk_widget_grab_focus (entry);
  return ok;
}

static void
keep_typed (PrPrinterDialog *m)
{
  g_autoptr (GError) error = NULL;
  double x, y;

  if (!chosen (m))
    return;
  if (factor (m, m->across, &x, &error) && factor (m, m->down, &y, &error))
    keep (m, x, y);
  else
    tell (m, error->message);
}

static void
keep_none (PrPrinterDialog *m)
{
  if (chosen (m))
    keep (m, 1, 1);
}

static void
print_check (PrPrinterDialog *m)
{
  if (chosen (m))
    pr_print_sheaf (GTK_WINDOW (m), m->doc, pr_sheaf_new_check (), PR_PAPER_UNKNOWN, chosen (m));
}

/* --- the window --- */

static void
name_entry (GtkWidget *entry, GtkLabel *label, const char *name, const char *as)
{
  gtk_label_set_text (label, name);
  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), as);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
set_unit (PrPrinterDialog *m, PrUnit unit)
{
  bool inch = unit == PR_UNIT_INCH;
  const char *as = inch ? _ ("as 3.95 in") : _ ("as 98.7 mm");

  m->unit = unit;
  name_entry (m->across, m->across_name,
              inch ? _ ("4 in line across measures") : _ ("100 mm line across measures"), as);
  name_entry (m->down, m->down_name, inch ? _ ("4 in line down measures") : _ ("100 mm line down measures"),
              as);
}

void
pr_measure_printer (GtkWindow *parent, PrDocument *doc)
{
  PrPrinterDialog *m = g_object_new (PR_TYPE_PRINTER_DIALOG, "transient-for", parent, NULL);

  m->doc = g_object_ref (doc);
  set_unit (m, pr_document_unit (doc));
  printer_chosen (m);
  gtk_enumerate_printers (printer_found, g_object_ref (m->printers), g_object_unref, FALSE);
  gtk_window_present (GTK_WINDOW (m));
}

static void
pr_printer_dialog_dispose (GObject *object)
{
  g_clear_object (&PR_PRINTER_DIALOG (object)->doc);
  G_OBJECT_CLASS (pr_printer_dialog_parent_class)->dispose (object);
}

static void
pr_printer_dialog_init (PrPrinterDialog *m)
{
  gtk_widget_init_template (GTK_WIDGET (m));
  pr_drop_down_cut (m->printer);
}

#define BIND(name) gtk_widget_class_bind_template_child (widget_class, PrPrinterDialog, name)

static void
pr_printer_dialog_class_init (PrPrinterDialogClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_printer_dialog_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/printer-dialog.ui");
  BIND (printers);
  BIND (printer);
  BIND (kept);
  BIND (across_name);
  BIND (across);
  BIND (down_name);
  BIND (down);
  BIND (trouble);
  BIND (check);
  BIND (none);
  BIND (keep);
  gtk_widget_class_bind_template_callback (widget_class, printer_chosen);
  gtk_widget_class_bind_template_callback (widget_class, keep_typed);
  gtk_widget_class_bind_template_callback (widget_class, keep_none);
  gtk_widget_class_bind_template_callback (widget_class, print_check);
}
