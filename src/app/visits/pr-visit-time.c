/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-time.h"

#include <glib/gi18n-lib.h>
#include "pr-colour.h"
#include "pr-ui.h"
#include "pr-visit-plot.h"
#include "pr-visit-text.h"
#include "pr-words.h"

#define TEXT_PX 14.7 /* 11 pt */
#define LINE_PX 1.2

struct _PrVisitTime {
  GtkBox parent_instance;
  PrVisitTable table;
  PrUnit unit;
  GtkDropDown *measure;
  GtkStringList *measures;
  GtkStringList *rows; /* each a row's cells with tabs between them */
  GtkDrawingArea *plot;
  GtkColumnView *view;
  GtkWidget *band;
};

G_DEFINE_FINAL_TYPE (PrVisitTime, pr_visit_time, GTK_TYPE_BOX)

static PrVisitMeasure
measure_of (PrVisitTime *time)
{
  guint chosen = gtk_drop_down_get_selected (time->measure);

  return chosen < PR_N_VISIT_MEASURES ? (PrVisitMeasure) chosen : PR_VISIT_LENGTH;
}

PrVisitPages
pr_visit_time_pages (PrVisitTime *time)
{
  return (PrVisitPages){ .table = &time->table, .measure = measure_of (time), .unit = time->unit };
}

/* --- the plot --- */

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  PrVisitTime *time = data;
  const PrInk ink = pr_colour_ink (GTK_WIDGET (area));
  const PrVisitPlotLook look = { &ink, time->unit, TEXT_PX, LINE_PX };

  if (time->table.row)
    pr_visit_plot_draw (cr, &time->table, measure_of (time), &look, width, height);
}

/* The plot in words, for who cannot see it. */
static char *
plot_words (PrVisitTime *time)
{
  g_autofree char *name = pr_visit_measure_words (measure_of (time));
  double median = pr_visit_table_median (&time->table, measure_of (time));
  g_autofree char *amount = isfinite (median) ? pr_words_length (median, time->unit) : g_strdup ("–");
  g_autofree char *own = g_strdup_printf (_ ("its own median, %s"), amount);

  return g_strdup_printf ("%s: %s", name, own);
}

static void
measure_chosen (PrVisitTime *time)
{
  g_autofree char *band = pr_visit_band_words (measure_of (time), time->unit), *words = NULL;

  if (!time->table.row)
    return;
  words = plot_words (time);
  pr_tell (time->band, band);
  gtk_accessible_update_property (GTK_ACCESSIBLE (time->plot), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_widget_queue_draw (GTK_WIDGET (time->plot));
}

/* --- the table --- */

static char *
row_words (const PrVisitTime *time, const PrVisitFigures *row)
{
  g_autofree char *day = pr_words_date (row->date);
  GString *out = g_string_new (day);

  for (PrVisitMeasure m = 0; m < PR_N_VISIT_MEASURES; m++) {
    g_autofree char *cell = pr_visit_cell (row->mm[m], time->unit);
    g_string_append_printf (out, "\t%s", cell);
  }
  return g_string_free (out, FALSE);
}

static void
fill_rows (PrVisitTime *time)
{
  g_autoptr (GStrvBuilder) rows = g_strv_builder_new ();

  for (guint i = time->table.row ? time->table.row->len : 0; i > 0; i--) { /* the newest on top */
    g_autofree char *words = row_words (time, g_ptr_array_index (time->table.row, i - 1));
    g_strv_builder_add (rows, words);
  }
  g_auto (GStrv) all = g_strv_builder_end (rows);
  gtk_string_list_splice (time->rows, 0, g_list_model_get_n_items (G_LIST_MODEL (time->rows)),
                          (const char *const *) all);
}

static void
set_up_cell (GtkListItemFactory *factory, GtkListItem *item)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_list_item_set_child (item, label);
}

/* COLUMN: of the row's cells, the day the first. */
static void
bind_cell (GtkListItemFactory *factory, GtkListItem *item, gpointer column)
{
  GtkStringObject *row = gtk_list_item_get_item (item);
  g_auto (GStrv) cell = g_strsplit (gtk_string_object_get_string (row), "\t", -1);
  guint nr = GPOINTER_TO_UINT (column);

  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)), nr < g_strv_length (cell) ? cell[nr] : "");
}

static void
add_column (PrVisitTime *time, guint nr, const char *title)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  GtkColumnViewColumn *column;

  g_signal_connect (factory, "setup", G_CALLBACK (set_up_cell), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cell), GUINT_TO_POINTER (nr));
  column = gtk_column_view_column_new (title, factory);
  gtk_column_view_column_set_resizable (column, TRUE);
  gtk_column_view_append_column (time->view, column);
  g_object_unref (column);
}

static void
add_columns (PrVisitTime *time)
{
  add_column (time, 0, _ ("Visit"));
  for (guint m = 0; m < PR_N_VISIT_MEASURES; m++) {
    g_autofree char *words = pr_visit_measure_words ((PrVisitMeasure) m);

    add_column (time, 1 + m, words);
    gtk_string_list_append (time->measures, words);
  }
}

/* --- the class --- */

bool
pr_visit_time_show (PrVisitTime *time, PrBook *book, PrBookId horse, PrFoot foot, PrUnit unit, GError **error)
{
  bool read = pr_visit_table_read (&time->table, book, horse, foot, error);

  time->unit = unit;
  fill_rows (time);
  measure_chosen (time);
  return read;
}

static void
pr_visit_time_finalize (GObject *object)
{
  pr_visit_table_clear (&PR_VISIT_TIME (object)->table);
  G_OBJECT_CLASS (pr_visit_time_parent_class)->finalize (object);
}

static void
pr_visit_time_init (PrVisitTime *time)
{
  gtk_widget_init_template (GTK_WIDGET (time));
  add_columns (time);
  gtk_drop_down_set_selected (time->measure, PR_VISIT_WIDTH);
  gtk_drawing_area_set_draw_func (time->plot, draw, time, NULL);
}

static void
pr_visit_time_class_init (PrVisitTimeClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = pr_visit_time_finalize;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "visit-time.ui");
  gtk_widget_class_bind_template_callback (widget_class, measure_chosen);
  gtk_widget_class_bind_template_child (widget_class, PrVisitTime, measure);
  gtk_widget_class_bind_template_child (widget_class, PrVisitTime, measures);
  gtk_widget_class_bind_template_child (widget_class, PrVisitTime, rows);
  gtk_widget_class_bind_template_child (widget_class, PrVisitTime, plot);
  gtk_widget_class_bind_template_child (widget_class, PrVisitTime, view);
  gtk_widget_class_bind_template_child (widget_class, PrVisitTime, band);
}
