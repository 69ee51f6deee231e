/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet to trace a foot on: which paper and which feet, then the desktop's print dialog. */
#include "pr-print.h"

#include <glib/gi18n-lib.h>
#include "pr-paper.h"
#include "pr-settings.h"

enum { ANY_FOOT, ALL_FOUR = PR_N_FEET }; /* between them the feet, as PrFoot */

typedef struct {
  GtkWindow *parent;
  PrDocument *doc;
  GtkWidget *paper, *foot;
} Asking;

static void
print_sheets (Asking *asking, PrPaper paper, guint foot)
{
  PrFoot feet[4];
  int n = foot == ALL_FOUR ? 4 : 1;

  for (int i = 0; i < n; i++)
    feet[i] = foot == ALL_FOUR ? (PrFoot) (PR_FOOT_LF + i) : (PrFoot) foot;
  pr_settings_keep ("sheet-paper", g_variant_new_string (pr_paper_name (paper)));
  pr_print_sheaf (asking->parent, asking->doc, pr_sheaf_new_sheets (feet, n), paper, NULL);
}

static void
answered (GtkDialog *dialog, int response, Asking *asking)
{
  guint foot = gtk_drop_down_get_selected (GTK_DROP_DOWN (asking->foot));
  guint paper = gtk_drop_down_get_selected (GTK_DROP_DOWN (asking->paper));

  gtk_window_destroy (GTK_WINDOW (dialog));
  if (response == GTK_RESPONSE_OK)
    print_sheets (asking, (PrPaper) paper, foot);
  g_object_unref (asking->doc);
  g_free (asking);
}

static PrPaper
first_paper (PrDocument *doc)
{
  g_autofree char *kept = pr_settings_string ("sheet-paper");
  PrPaper paper;

  if (pr_paper_parse (kept, &paper) && paper < (PrPaper) PR_N_SHEET_PAPERS)
    return paper;
  return pr_document_unit (doc) == PR_UNIT_INCH ? PR_PAPER_LETTER : PR_PAPER_A4;
}

static void
add_line (GtkWidget *grid, int row, const char *label, GtkWidget *choice)
{
  GtkWidget *words = gtk_label_new (label);

  gtk_label_set_xalign (GTK_LABEL (words), 0);
  gtk_widget_set_hexpand (choice, TRUE);
  gtk_grid_attach (GTK_GRID (grid), words, 0, row, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), choice, 1, row, 1, 1);
  gtk_accessible_update_property (GTK_ACCESSIBLE (choice), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
}

static GtkWidget *
choices (Asking *asking)
{
  GtkWidget *grid = gtk_grid_new ();
  GtkStringList *papers = gtk_string_list_new (NULL), *feet = gtk_string_list_new (NULL);

  for (int i = 0; i < PR_N_SHEET_PAPERS; i++)
    gtk_string_list_append (papers, pr_paper_name ((PrPaper) i));
  gtk_string_list_append (feet, _ ("any foot"));
  for (int i = PR_FOOT_LF; i < PR_N_FEET; i++)
    gtk_string_list_append (feet, pr_foot_name ((PrFoot) i));
  gtk_string_list_append (feet, _ ("all four, a sheet each"));
  asking->paper = gtk_drop_down_new (G_LIST_MODEL (papers), NULL);
  asking->foot = gtk_drop_down_new (G_LIST_MODEL (feet), NULL);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (asking->paper), first_paper (asking->doc));
  gtk_grid_set_row_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  add_line (grid, 0, _ ("Paper"), asking->paper);
  add_line (grid, 1, _ ("Foot"), asking->foot);
  return grid;
}

void
pr_print_sheet (GtkWindow *parent, PrDocument *doc)
{
  Asking *asking = g_new0 (Asking, 1);
  GtkWidget *dialog
      = gtk_message_dialog_new (parent, GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT, GTK_MESSAGE_OTHER,
                                GTK_BUTTONS_NONE, "%s", _ ("Print a tracing sheet"));

  asking->parent = parent;
  asking->doc = g_object_ref (doc);
  gtk_window_set_title (GTK_WINDOW (dialog), _ ("Print a tracing sheet"));
  gtk_widget_add_css_class (dialog, "pritchel");
  gtk_message_dialog_format_secondary_text (
      GTK_MESSAGE_DIALOG (dialog), "%s",
      _ ("The numbers in its corners tell the program paper and foot, so that photos sort themselves."));
  gtk_box_append (GTK_BOX (gtk_message_dialog_get_message_area (GTK_MESSAGE_DIALOG (dialog))),
                  choices (asking));
  gtk_dialog_add_buttons (GTK_DIALOG (dialog), _ ("_Cancel"), GTK_RESPONSE_CANCEL, _ ("_Print…"),
                          GTK_RESPONSE_OK, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), GTK_RESPONSE_OK);
  g_signal_connect (dialog, "response", G_CALLBACK (answered), asking);
  gtk_window_present (GTK_WINDOW (dialog));
}
