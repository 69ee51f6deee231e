/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-printer-dialog.h"

#include <glib/gi18n-lib.h>
#include <gtk/gtkunixprint.h>
#include "pr-error.h"
#include "pr-length.h"
#include "pr-print.h"
#include "pr-printers.h"

#define BAR_MM 100.0
#define BAR_INCH_MM (4 * PR_MM_PER_INCH)
#define WIDE 64 /* characters */
#define KEPT_WIDE 40

typedef struct {
  PrDocument *doc;
  PrUnit unit;
  GtkStringList *printers;
  GtkWidget *window, *printer, *kept, *across, *down, *trouble, *check, *none, *keep;
} Measuring;

static void
measuring_free (Measuring *m)
{
  g_object_unref (m->printers);
  g_object_unref (m->doc);
  g_free (m);
}

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
chosen (Measuring *m)
{
  guint at = gtk_drop_down_get_selected (GTK_DROP_DOWN (m->printer));

  return at == GTK_INVALID_LIST_POSITION ? NULL : gtk_string_list_get_string (m->printers, at);
}

/* --- what is kept --- */

static void
tell (Measuring *m, const char *sentence)
{
  gtk_label_set_text (GTK_LABEL (m->trouble), sentence ? sentence : "");
  gtk_widget_set_visible (m->trouble, sentence != NULL);
}

/* Transfer full. */
static char *
kept_text (double x, double y)
{
  char across[16], down[16];

  if (x == 1 && y == 1)
    return g_strdup (_ ("No correction is kept."));
  g_ascii_formatd (across, sizeof across, "%.4f", x);
  g_ascii_formatd (down, sizeof down, "%.4f", y);
  return g_strdup_printf (_ ("Kept: × %s across, × %s down."), across, down);
}

static void
show_kept (Measuring *m)
{
  const char *name = chosen (m);
  double x = 1, y = 1;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;

  if (name && !pr_printers_correction (name, &x, &y, &error))
    tell (m, error->message);
  text = name ? kept_text (x, y) : g_strdup (_ ("No printer is known to this computer yet."));
  gtk_label_set_text (GTK_LABEL (m->kept), text);
  for (GtkWidget **part = (GtkWidget *[]){ m->across, m->down, m->check, m->keep, m->printer, NULL }; *part;
       part++)
    gtk_widget_set_sensitive (*part, name != NULL);
  gtk_widget_set_sensitive (m->none, x != 1 || y != 1 || error);
}

static void
printer_chosen (Measuring *m)
{
  tell (m, NULL);
  show_kept (m);
}

static void
keep (Measuring *m, double x, double y)
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
factor (Measuring *m, GtkWidget *entry, double *value, GError **error)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (entry));
  double bar = m->unit == PR_UNIT_INCH ? BAR_INCH_MM : BAR_MM, mm;
  bool ok = *text && pr_length_parse (text, m->unit, &mm, error);

  if (!*text)
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("Type what the bar measures across the page, and what the one down it does."));
  if (ok && !(mm > 0 && pr_correction_usable (bar / mm))) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("No printer that prints at actual size makes that bar %s long; print the check page "
                    "at 100 %% and measure the %s bar from end to end."),
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
keep_typed (Measuring *m)
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
keep_none (Measuring *m)
{
  if (chosen (m))
    keep (m, 1, 1);
}

static void
print_check (Measuring *m)
{
  if (chosen (m))
    pr_print_sheaf (GTK_WINDOW (m->window), m->doc, pr_sheaf_new_check (), PR_PAPER_UNKNOWN, chosen (m));
}

/* --- building --- */

static GtkWidget *
words (const char *text, const char *class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_width_chars (GTK_LABEL (label), WIDE); /* as narrow as wide: no room is left below */
  gtk_label_set_max_width_chars (GTK_LABEL (label), WIDE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  if (class)
    gtk_widget_add_css_class (label, class);
  return label;
}

static void
add_line (GtkWidget *grid, int row, const char *label, GtkWidget *part)
{
  GtkWidget *name = gtk_label_new (label);

  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_grid_attach (GTK_GRID (grid), name, 0, row, 1, 1);
  gtk_widget_set_hexpand (part, TRUE);
  gtk_grid_attach (GTK_GRID (grid), part, 1, row, 1, 1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (part), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
}

static GtkWidget *
entry_new (Measuring *m)
{
  GtkWidget *entry = gtk_entry_new ();

  gtk_entry_set_placeholder_text (GTK_ENTRY (entry),
                                  m->unit == PR_UNIT_INCH ? _ ("as 3.95 in") : _ ("as 98.7 mm"));
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (keep_typed), m);
  return entry;
}

static GtkWidget *
lines (Measuring *m)
{
  GtkWidget *grid = gtk_grid_new ();
  bool inch = m->unit == PR_UNIT_INCH;

  m->printer = gtk_drop_down_new (G_LIST_MODEL (g_object_ref (m->printers)), NULL);
  m->kept = words (NULL, "soft");
  m->across = entry_new (m);
  m->down = entry_new (m);
  gtk_label_set_width_chars (GTK_LABEL (m->kept), KEPT_WIDE);
  gtk_label_set_max_width_chars (GTK_LABEL (m->kept), KEPT_WIDE);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  add_line (grid, 0, _ ("Printer"), m->printer);
  gtk_grid_attach (GTK_GRID (grid), m->kept, 1, 1, 1, 1);
  add_line (grid, 2, inch ? _ ("4 in bar across measures") : _ ("100 mm bar across measures"), m->across);
  add_line (grid, 3, inch ? _ ("4 in bar down measures") : _ ("100 mm bar down measures"), m->down);
  return grid;
}

static GtkWidget *
button_new (Measuring *m, const char *label, GCallback pressed)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  g_signal_connect_swapped (button, "clicked", pressed, m);
  return button;
}

static GtkWidget *
buttons (Measuring *m)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *gap = gtk_label_new (NULL);

  m->check = button_new (m, _ ("_Print the check page…"), G_CALLBACK (print_check));
  m->none = button_new (m, _ ("_No correction"), G_CALLBACK (keep_none));
  m->keep = button_new (m, _ ("_Keep"), G_CALLBACK (keep_typed));
  gtk_widget_add_css_class (m->keep, "main");
  gtk_widget_set_hexpand (gap, TRUE);
  for (GtkWidget **part = (GtkWidget *[]){ m->check, gap, m->none, m->keep, NULL }; *part; part++)
    gtk_box_append (GTK_BOX (line), *part);
  return line;
}

static GtkWidget *
content (Measuring *m)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14);

  m->trouble = words (NULL, "trouble");
  gtk_widget_add_css_class (box, "asking");
  gtk_box_append (GTK_BOX (box),
                  /* xgettext:no-c-format */
                  words (_ ("Print the check page at 100 % and lay a steel rule to its bars. What they "
                            "measure is kept for this printer, and every later page on it comes out at "
                            "true size. The check page itself is never corrected."),
                         NULL));
  gtk_box_append (GTK_BOX (box), lines (m));
  gtk_box_append (GTK_BOX (box), m->trouble);
  gtk_box_append (GTK_BOX (box), buttons (m));
  return box;
}

static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
             GtkWindow *window)
{
  if (key != GDK_KEY_Escape)
    return FALSE;
  gtk_window_destroy (window);
  return TRUE;
}

void
pr_measure_printer (GtkWindow *parent, PrDocument *doc)
{
  Measuring *m = g_new0 (Measuring, 1);
  GtkEventController *keys = gtk_event_controller_key_new ();

  m->doc = g_object_ref (doc);
  m->unit = pr_document_unit (doc);
  m->printers = gtk_string_list_new (NULL);
  m->window = gtk_window_new ();
  gtk_window_set_title (GTK_WINDOW (m->window), _ ("Measure this printer"));
  gtk_window_set_transient_for (GTK_WINDOW (m->window), parent);
  gtk_window_set_modal (GTK_WINDOW (m->window), TRUE);
  gtk_window_set_resizable (GTK_WINDOW (m->window), FALSE);
  gtk_widget_add_css_class (m->window, "pritchel");
  gtk_window_set_child (GTK_WINDOW (m->window), content (m));
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed), m->window);
  gtk_widget_add_controller (m->window, keys);
  g_signal_connect_swapped (m->printer, "notify::selected", G_CALLBACK (printer_chosen), m);
  g_object_set_data_full (G_OBJECT (m->window), "pr-measuring", m, (GDestroyNotify) measuring_free);
  printer_chosen (m);
  gtk_enumerate_printers (printer_found, g_object_ref (m->printers), g_object_unref, FALSE);
  gtk_window_present (GTK_WINDOW (m->window));
}
