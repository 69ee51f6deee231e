/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-dialogs.h"

#include <glib/gi18n-lib.h>
#include "pr-look.h"
#include "pr-settings.h"

#define RULE_MM      100.0
#define SCREEN_LEAST   1.5    /* px per mm: a projector's wall */
#define SCREEN_MOST   20.0    /* px per mm: finer than any screen sold */

static GtkWidget *
dialog_new (GtkWindow *parent, const char *title, GtkWidget *child)
{
  GtkWidget *window = gtk_window_new ();

  gtk_window_set_title (GTK_WINDOW (window), title);
  gtk_window_set_transient_for (GTK_WINDOW (window), parent);
  gtk_window_set_modal (GTK_WINDOW (window), TRUE);
  gtk_window_set_resizable (GTK_WINDOW (window), FALSE);
  gtk_widget_add_css_class (window, "pritchel");
  gtk_widget_set_margin_top (child, 20);
  gtk_widget_set_margin_bottom (child, 20);
  gtk_widget_set_margin_start (child, 24);
  gtk_widget_set_margin_end (child, 24);
  gtk_window_set_child (GTK_WINDOW (window), child);
  pr_look_escape_closes (GTK_WINDOW (window));
  return window;
}

static GtkWidget *
words (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 52);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  return label;
}

/* --- which foot --- */

static void
foot_clicked (GtkButton *button, PrDocument *doc)
{
  PrFoot foot = (PrFoot) GPOINTER_TO_INT (g_object_get_data (G_OBJECT (button), "pr-foot"));
  g_autoptr (GError) error = NULL;

  if (pr_document_job (doc) && !pr_document_set_foot (doc, foot, &error))
    pr_document_trouble (doc, error->message);
  gtk_window_destroy (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (button))));
}

void
pr_ask_foot (GtkWindow *parent, PrDocument *doc)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 14), *grid = gtk_grid_new ();

  gtk_box_append (GTK_BOX (box),
                  words (_ ("The sheet does not tell which foot this is. As you stand "
                            "behind the horse and look down on it:")));
  gtk_widget_add_css_class (grid, "feet");
  gtk_widget_set_halign (grid, GTK_ALIGN_CENTER);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 10);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 10);
  for (int i = 0; i < 4; i++) {
    GtkWidget *button = gtk_button_new_with_label (pr_foot_name ((PrFoot) (PR_FOOT_LF + i)));

    g_object_set_data (G_OBJECT (button), "pr-foot", GINT_TO_POINTER (PR_FOOT_LF + i));
    g_signal_connect_object (button, "clicked", G_CALLBACK (foot_clicked), doc, 0);
    gtk_grid_attach (GTK_GRID (grid), button, i % 2, i / 2, 1, 1);
  }
  gtk_box_append (GTK_BOX (box), grid);
  gtk_window_present (GTK_WINDOW (dialog_new (parent, _("Which foot?"), box)));
}

/* --- this screen --- */

typedef struct {
  PrDocument *doc;
  PrBoard    *board;
  GtkWidget  *scale, *rule;
} Measuring;

static void
measuring_free (gpointer data, GClosure *closure)
{
  Measuring *m = data;

  g_object_unref (m->doc);
  g_object_unref (m->board);
  g_free (m);
}

static void
draw_rule (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  Measuring *m = data;
  double k = gtk_range_get_value (GTK_RANGE (m->scale));
  double left = floor ((width - RULE_MM * k) / 2);
  GdkRGBA ink;

  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (area)), &ink);
  gdk_cairo_set_source_rgba (cr, &ink);
  cairo_set_line_width (cr, 1);
  for (int mm = 0; mm <= (int) RULE_MM; mm++) {
    double x = floor (left + mm * k) + 0.5, tall = mm % 10 == 0 ? 26 : mm % 5 == 0 ? 18 : 10;

    if (k < 2.2 && mm % 5 != 0)
      continue;
    cairo_move_to (cr, x, height);
    cairo_line_to (cr, x, height - tall);
  }
  cairo_stroke (cr);
}

static void
rule_changed (Measuring *m)
{
  gtk_widget_queue_draw (m->rule);
}

static void
rule_fits (GtkButton *button, Measuring *m)
{
  double k = gtk_range_get_value (GTK_RANGE (m->scale));

  pr_board_set_screen (m->board, k);
  pr_settings_keep ("screen-px-per-mm", g_variant_new_double (k));
  gtk_window_destroy (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (button))));
}

void
pr_measure_screen (GtkWindow *parent, PrDocument *doc, PrBoard *board)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *done = gtk_button_new_with_label (_("It measures 100 mm"));
  Measuring *m = g_new0 (Measuring, 1);

  m->doc = g_object_ref (doc);
  m->board = g_object_ref (board);
  m->rule = gtk_drawing_area_new ();
  m->scale = gtk_scale_new_with_range (GTK_ORIENTATION_HORIZONTAL, SCREEN_LEAST, SCREEN_MOST, 0.01);
  gtk_range_set_value (GTK_RANGE (m->scale), pr_board_screen (board));
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (m->rule), 820);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (m->rule), 40);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (m->rule), draw_rule, m, NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (m->scale), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _("Length of the rule"), -1);
  gtk_box_append (GTK_BOX (box),
                  words (_ ("Hold a rule to the screen and slide until the line below "
                            "measures 100 mm from end to end.")));
  gtk_box_append (GTK_BOX (box), m->rule);
  gtk_box_append (GTK_BOX (box), m->scale);
  gtk_widget_set_halign (done, GTK_ALIGN_END);
  gtk_widget_add_css_class (done, "main");
  gtk_box_append (GTK_BOX (box), done);
  g_signal_connect_swapped (m->scale, "value-changed", G_CALLBACK (rule_changed), m);
  g_signal_connect_data (done, "clicked", G_CALLBACK (rule_fits), m, measuring_free, 0);
  gtk_window_present (GTK_WINDOW (dialog_new (parent, _("Measure this screen"), box)));
}
