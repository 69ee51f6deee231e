/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sheet-dialog.h"

#include <glib/gi18n-lib.h>
#include "pr-paper.h"
#include "pr-print.h"
#include "pr-settings.h"

enum { ANY_FOOT, ALL_FOUR = PR_N_FEET }; /* between them the feet, as PrFoot */

struct _PrSheetDialog {
  GtkDialog parent_instance;
  PrDocument *doc;
  GtkDropDown *paper, *foot;
  GtkStringList *papers, *feet;
};

G_DEFINE_FINAL_TYPE (PrSheetDialog, pr_sheet_dialog, GTK_TYPE_DIALOG)

static void
print_sheets (GtkWindow *parent, PrDocument *doc, PrPaper paper, guint foot)
{
  PrFoot feet[4];
  int n = foot == ALL_FOUR ? 4 : 1;

  for (int i = 0; i < n; i++)
    feet[i] = foot == ALL_FOUR ? (PrFoot) (PR_FOOT_LF + i) : (PrFoot) foot;
  pr_settings_keep ("sheet-paper", g_variant_new_string (pr_paper_name (paper)));
  pr_print_sheaf (parent, doc, pr_sheaf_new_sheets (feet, n), paper, NULL);
}

static void
answered (PrSheetDialog *dialog, int response, gpointer data)
{
  guint foot = gtk_drop_down_get_selected (dialog->foot);
  guint paper = gtk_drop_down_get_selected (dialog->paper);
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (dialog));
  g_autoptr (PrDocument) doc = g_object_ref (dialog->doc);

  gtk_window_destroy (GTK_WINDOW (dialog));
  if (response == GTK_RESPONSE_OK)
    print_sheets (parent, doc, (PrPaper) paper, foot);
}

static PrPaper
first_paper (void)
{
  g_autofree char *kept = pr_settings_string ("sheet-paper");
  PrPaper paper;

  if (!pr_paper_parse (kept, &paper))
    paper = pr_print_default_paper ();
  return paper < (PrPaper) PR_N_SHEET_PAPERS ? paper : PR_PAPER_A4;
}

void
pr_print_sheet (GtkWindow *parent, PrDocument *doc)
{
  PrSheetDialog *dialog = g_object_new (PR_TYPE_SHEET_DIALOG, "transient-for", parent, NULL);

  dialog->doc = g_object_ref (doc);
  gtk_drop_down_set_selected (dialog->paper, first_paper ());
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
pr_sheet_dialog_dispose (GObject *object)
{
  g_clear_object (&PR_SHEET_DIALOG (object)->doc);
  G_OBJECT_CLASS (pr_sheet_dialog_parent_class)->dispose (object);
}

static void
pr_sheet_dialog_init (PrSheetDialog *dialog)
{
  gtk_widget_init_template (GTK_WIDGET (dialog));
  for (int i = 0; i < PR_N_SHEET_PAPERS; i++)
    gtk_string_list_append (dialog->papers, pr_paper_name ((PrPaper) i));
  gtk_string_list_append (dialog->feet, _ ("any foot"));
  for (int i = PR_FOOT_LF; i < PR_N_FEET; i++)
    gtk_string_list_append (dialog->feet, pr_foot_name ((PrFoot) i));
  gtk_string_list_append (dialog->feet, _ ("all four, a sheet each"));
}

static void
pr_sheet_dialog_class_init (PrSheetDialogClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_sheet_dialog_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/sheet-dialog.ui");
  gtk_widget_class_bind_template_child (widget_class, PrSheetDialog, paper);
  gtk_widget_class_bind_template_child (widget_class, PrSheetDialog, papers);
  gtk_widget_class_bind_template_child (widget_class, PrSheetDialog, foot);
  gtk_widget_class_bind_template_child (widget_class, PrSheetDialog, feet);
  gtk_widget_class_bind_template_callback (widget_class, answered);
}
