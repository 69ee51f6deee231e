/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-season-view.h"

#include <glib/gi18n-lib.h>
#include "pr-class-dialog.h"
#include "pr-names.h"
#include "pr-practice-words.h"
#include "pr-run-row.h"
#include "pr-run-sheet.h"
#include "pr-season-plot.h"
#include "pr-ui.h"

#define RUNS_TO_DRAW 2

struct _PrSeasonView {
  GtkBox parent_instance;
  PrPracticeDesk *desk;
  GtkLabel *name, *make, *what, *source;
  GtkWidget *lines, *trend, *plot, *plot_box, *rows, *away, *table;
  GtkDropDown *kind;
};

G_DEFINE_FINAL_TYPE (PrSeasonView, pr_season_view, GTK_TYPE_BOX)

static PrUnit
unit_of (PrSeasonView *view)
{
  return pr_document_unit (pr_practice_desk_document (view->desk));
}

static GtkWindow *
window_of (PrSeasonView *view)
{
  return GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (view)));
}

/* ERROR (transfer full, may be NULL) is told. */
static void
tell (PrSeasonView *view, GError *error)
{
  g_autoptr (GError) owned = error;

  if (owned)
    pr_document_trouble (pr_practice_desk_document (view->desk), owned->message);
}

/* --- filling --- */

static PrSeasonKind
kind_of (PrSeasonView *view)
{
  return (PrSeasonKind) gtk_drop_down_get_selected (view->kind);
}

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  PrSeasonView *view = data;

  if (view->desk)
    pr_season_plot_draw (cr, GTK_WIDGET (area), pr_practice_desk_season (view->desk), kind_of (view),
                         unit_of (view), width, height);
}

/* For who does not see it: the plot says what its line of figures says. */
static void
kind_chosen (PrSeasonView *view)
{
  if (!view->desk)
    return;
  g_autofree char *told
      = pr_season_words (pr_practice_desk_season (view->desk), kind_of (view), unit_of (view));

  gtk_accessible_update_property (GTK_ACCESSIBLE (view->plot), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  *told ? told : _ ("Nothing to draw yet"), -1);
  gtk_widget_queue_draw (view->plot);
}

static void
show_class (PrSeasonView *view, const PrPracticeClass *class)
{
  g_autofree char *what = pr_practice_class_words (class);
  g_autofree char *source
      = *class->source ? g_strdup_printf (_ ("Times and heats: %s"), _ (class->source)) : NULL;

  gtk_label_set_text (view->name, pr_practice_text (class, class->name));
  pr_tell (GTK_WIDGET (view->make), pr_practice_text (class, class->make));
  gtk_label_set_text (view->what, what);
  pr_tell (GTK_WIDGET (view->source), source);
  gtk_widget_set_sensitive (view->away, class->id != 0);
}

static void
show_figures (PrSeasonView *view, const GPtrArray *runs)
{
  g_autofree char *trend = pr_season_trend_words (runs);

  pr_empty (view->lines);
  for (PrSeasonKind kind = 0; kind < PR_N_SEASON; kind++) {
    g_autofree char *line = pr_season_words (runs, kind, unit_of (view));
    GtkWidget *label = *line ? gtk_label_new (line) : NULL;

    if (!label)
      continue;
    gtk_label_set_xalign (GTK_LABEL (label), 0);
    gtk_label_set_wrap (GTK_LABEL (label), TRUE);
    gtk_box_append (GTK_BOX (view->lines), label);
  }
  pr_tell (view->trend, runs->len > 0 ? trend : _ ("No run yet. Start the clock when you light the fire."));
  gtk_widget_set_visible (view->plot_box, pr_season_figure (runs, PR_SEASON_TIME).n >= RUNS_TO_DRAW);
}

/* The newest first: it is the one that is looked for. */
static void
show_rows (PrSeasonView *view, const GPtrArray *runs)
{
  pr_empty (view->rows);
  for (guint i = runs->len; i > 0; i--)
    gtk_box_append (GTK_BOX (view->rows), pr_run_row_new (runs->pdata[i - 1], unit_of (view)));
  gtk_widget_set_visible (view->table, runs->len > 0);
}

static void
changed (PrSeasonView *view)
{
  const PrPracticeClass *class = pr_practice_desk_class (view->desk);
  const GPtrArray *runs = pr_practice_desk_season (view->desk);

  if (!class)
    return;
  show_class (view, class);
  show_figures (view, runs);
  show_rows (view, runs);
  kind_chosen (view);
}

/* --- what is pressed --- */

static void
start (PrSeasonView *view)
{
  GError *error = NULL;

  pr_practice_desk_start (view->desk, &error);
  tell (view, error);
}

static void
change (PrSeasonView *view)
{
  pr_class_dialog_show (window_of (view), view->desk, pr_practice_desk_class (view->desk));
}

static void
delete_class (PrSeasonView *view)
{
  const PrPracticeClass *class = pr_practice_desk_class (view->desk);
  GError *error = NULL;

  if (class && class->id != 0)
    pr_practice_desk_delete (view->desk, PR_BOOK_CLASS, class->id, &error);
  tell (view, error);
}

/* The action "practice.sheet": of which run. */
static void
sheet (GtkWidget *widget, const char *name, GVariant *run)
{
  PrSeasonView *view = PR_SEASON_VIEW (widget);

  pr_run_sheet_show (window_of (view), view->desk, g_variant_get_int64 (run));
}

/* The action "practice.delete-run". */
static void
delete_run (GtkWidget *widget, const char *name, GVariant *run)
{
  PrSeasonView *view = PR_SEASON_VIEW (widget);
  GError *error = NULL;

  pr_practice_desk_delete (view->desk, PR_BOOK_RUN, g_variant_get_int64 (run), &error);
  tell (view, error);
}

static void
file_chosen (GtkNativeDialog *native, int response, PrSeasonView *view)
{
  g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (native));
  g_autofree char *path = file ? g_file_get_path (file) : NULL;
  PrDocument *doc = pr_practice_desk_document (view->desk);
  GError *error = NULL;

  if (response == GTK_RESPONSE_ACCEPT && !path)
    pr_document_trouble (doc, _ ("Nothing can be written there; choose a folder of this computer."));
  else if (response == GTK_RESPONSE_ACCEPT && pr_practice_desk_write_csv (view->desk, path, &error))
    pr_document_say (doc, _ ("The table was written."));
  tell (view, error);
  g_object_unref (native);
}

static void
choose_file (PrSeasonView *view)
{
  GtkFileChooserNative *native
      = gtk_file_chooser_native_new (_ ("Save the runs as a table"), window_of (view),
                                     GTK_FILE_CHOOSER_ACTION_SAVE, _ ("_Save"), _ ("_Cancel"));

  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (native), _ ("practice.csv"));
  g_signal_connect_object (native, "response", G_CALLBACK (file_chosen), view, 0);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (native), TRUE);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (native));
}

/* --- the widget --- */

void
pr_season_view_set_desk (PrSeasonView *view, PrPracticeDesk *desk)
{
  view->desk = g_object_ref (desk);
  g_signal_connect_object (desk, "changed", G_CALLBACK (changed), view, G_CONNECT_SWAPPED);
  changed (view);
}

static void
pr_season_view_dispose (GObject *object)
{
  g_clear_object (&PR_SEASON_VIEW (object)->desk);
  G_OBJECT_CLASS (pr_season_view_parent_class)->dispose (object);
}

static void
pr_season_view_init (PrSeasonView *view)
{
  gtk_widget_init_template (GTK_WIDGET (view));
  pr_label_cut (view->name, 1);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (view->plot), draw, view, NULL);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, PrSeasonView, name);
  gtk_widget_class_bind_template_child (widget_class, PrSeasonView, make);
  gtk_widget_class_bind_template_child (widget_class, PrSeasonView, what);
  gtk_widget_class_bind_template_child (widget_class, PrSeasonView, source);
  gtk_widget_class_bind_template_child (widget_class, PrSeasonView, lines);
  gtk_widget_class_bind_template_child (widget_class, PrSeasonView, trend);
  gtk_widget_class_bind_template_child (widget_class, PrSeasonView, plot);
  gtk_widget_class_bind_template_child (widget_class, PrSeasonView, plot_box);
  gtk_widget_class_bind_template_child (widget_class, PrSeasonView, rows);
  gtk_widget_class_bind_template_child (widget_class, PrSeasonView, away);
  gtk_widget_class_bind_template_child (widget_class, PrSeasonView, table);
  gtk_widget_class_bind_template_child (widget_class, PrSeasonView, kind);
}

static void
pr_season_view_class_init (PrSeasonViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_season_view_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "season-view.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, start);
  gtk_widget_class_bind_template_callback (widget_class, change);
  gtk_widget_class_bind_template_callback (widget_class, delete_class);
  gtk_widget_class_bind_template_callback (widget_class, choose_file);
  gtk_widget_class_bind_template_callback (widget_class, kind_chosen);
  gtk_widget_class_install_action (widget_class, "practice.sheet", "x", sheet);
  gtk_widget_class_install_action (widget_class, "practice.delete-run", "x", delete_run);
}
