/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-preview.h"

#include <glib/gi18n-lib.h>
#include "pr-print.h"

#define AROUND 18.0 /* pixels left free round the page */
#define START_WIDE 700
#define START_HIGH 680 /* with its frame it stands on a screen 720 pixels high */

typedef struct {
  GtkWindow *parent;
  PrDocument *doc;
  PrSheaf *sheaf;
  PrPageOptions options;
  int page;
  GtkWidget *window, *area, *count, *back, *on, *trouble;
} Preview;

static void
preview_free (Preview *preview)
{
  g_clear_pointer (&preview->sheaf, pr_sheaf_free);
  g_object_unref (preview->doc);
  g_free (preview);
}

/* --- the page --- */

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  Preview *preview = data;
  double w, h, k;

  if (!preview->sheaf || pr_sheaf_count (preview->sheaf) == 0)
    return;
  pr_sheaf_page_size (preview->sheaf, preview->page, &w, &h);
  k = MIN ((width - 2 * AROUND) / w, (height - 2 * AROUND) / h);
  if (k <= 0)
    return;
  cairo_translate (cr, floor ((width - w * k) / 2), floor ((height - h * k) / 2));
  cairo_rectangle (cr, -1, -1, w * k + 2, h * k + 2);
  cairo_set_source_rgba (cr, 0, 0, 0, 0.35);
  cairo_fill (cr);
  cairo_rectangle (cr, 0, 0, w * k, h * k);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_fill_preserve (cr);
  cairo_clip (cr);
  cairo_scale (cr, k, k);
  pr_sheaf_draw (preview->sheaf, preview->page, cr);
}

static void
show_page (Preview *preview)
{
  int n = pr_sheaf_count (preview->sheaf);
  g_autofree char *text = NULL;

  preview->page = CLAMP (preview->page, 0, MAX (n - 1, 0));
  if (n > 0)
    text = g_strdup_printf (_ ("page %d of %d · %s"), preview->page + 1, n,
                            pr_sheaf_page_name (preview->sheaf, preview->page));
  gtk_label_set_text (GTK_LABEL (preview->count), text ? text : "");
  gtk_accessible_update_property (GTK_ACCESSIBLE (preview->area), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  text ? text : _ ("no page"), -1);
  gtk_widget_set_sensitive (preview->back, preview->page > 0);
  gtk_widget_set_sensitive (preview->on, preview->page + 1 < n);
  gtk_widget_queue_draw (preview->area);
}

static void
lay (Preview *preview)
{
  g_autoptr (GError) error = NULL;

  pr_sheaf_lay (preview->sheaf, &preview->options, &error);
  gtk_label_set_text (GTK_LABEL (preview->trouble), error ? error->message : "");
  gtk_widget_set_visible (preview->trouble, error != NULL);
  show_page (preview);
}

static void
turn (Preview *preview, int page)
{
  preview->page = page;
  show_page (preview);
}

static void
turn_back (Preview *preview)
{
  turn (preview, preview->page - 1);
  if (preview->page == 0)
    gtk_widget_grab_focus (preview->area); /* the button can no longer have it */
}

static void
turn_on (Preview *preview)
{
  turn (preview, preview->page + 1);
  if (preview->page + 1 == pr_sheaf_count (preview->sheaf))
    gtk_widget_grab_focus (preview->area);
}

static void
paper_chosen (GtkDropDown *papers, GParamSpec *pspec, Preview *preview)
{
  preview->options.paper = (PrPaper) gtk_drop_down_get_selected (papers);
  lay (preview);
}

/* --- on to the printer --- */

static void
print (Preview *preview)
{
  GtkWindow *parent = preview->parent;
  PrDocument *doc = g_object_ref (preview->doc);
  PrSheaf *sheaf = g_steal_pointer (&preview->sheaf);
  PrPaper paper = preview->options.paper;

  gtk_window_destroy (GTK_WINDOW (preview->window));
  pr_print_sheaf (parent, doc, sheaf, paper, NULL);
  g_object_unref (doc);
}

static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
             Preview *preview)
{
  if (state & GDK_CONTROL_MASK && key == GDK_KEY_p)
    print (preview);
  else if (key == GDK_KEY_Escape)
    gtk_window_destroy (GTK_WINDOW (preview->window));
  else if (key == GDK_KEY_Page_Down || key == GDK_KEY_Right || key == GDK_KEY_Down)
    turn (preview, preview->page + 1);
  else if (key == GDK_KEY_Page_Up || key == GDK_KEY_Left || key == GDK_KEY_Up)
    turn (preview, preview->page - 1);
  else if (key == GDK_KEY_Home || key == GDK_KEY_End)
    turn (preview, key == GDK_KEY_Home ? 0 : G_MAXINT);
  else
    return FALSE;
  return TRUE;
}

/* --- building --- */

static GtkWidget *
paper_choice (Preview *preview)
{
  GtkStringList *papers = gtk_string_list_new (NULL);
  GtkWidget *choice;

  for (int i = 0; i < pr_sheaf_papers (preview->sheaf); i++)
    gtk_string_list_append (papers, pr_paper_name ((PrPaper) i));
  choice = gtk_drop_down_new (G_LIST_MODEL (papers), NULL);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), preview->options.paper);
  gtk_accessible_update_property (GTK_ACCESSIBLE (choice), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Paper"), -1);
  g_signal_connect (choice, "notify::selected", G_CALLBACK (paper_chosen), preview);
  return choice;
}

static GtkWidget *
turning_button (Preview *preview, const char *icon, const char *label, GCallback turned)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_set_tooltip_text (button, label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  g_signal_connect_swapped (button, "clicked", turned, preview);
  return button;
}

static GtkWidget *
pages_box (Preview *preview)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  preview->back
      = turning_button (preview, "go-previous-symbolic", _ ("Page before (Page Up)"), G_CALLBACK (turn_back));
  preview->on
      = turning_button (preview, "go-next-symbolic", _ ("Next page (Page Down)"), G_CALLBACK (turn_on));
  preview->count = gtk_label_new (NULL);
  gtk_label_set_width_chars (GTK_LABEL (preview->count), 28);
  gtk_widget_add_css_class (preview->count, "figure");
  gtk_box_append (GTK_BOX (box), preview->back);
  gtk_box_append (GTK_BOX (box), preview->count);
  gtk_box_append (GTK_BOX (box), preview->on);
  return box;
}

static GtkWidget *
controls (Preview *preview)
{
  GtkWidget *line = gtk_center_box_new (), *paper = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *button = gtk_button_new_with_mnemonic (_ ("_Print…"));

  gtk_box_append (GTK_BOX (paper), gtk_label_new (_ ("Paper")));
  gtk_box_append (GTK_BOX (paper), paper_choice (preview));
  gtk_widget_add_css_class (button, "main");
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (print), preview);
  gtk_center_box_set_start_widget (GTK_CENTER_BOX (line), paper);
  gtk_center_box_set_center_widget (GTK_CENTER_BOX (line), pages_box (preview));
  gtk_center_box_set_end_widget (GTK_CENTER_BOX (line), button);
  return line;
}

static GtkWidget *
page_area (Preview *preview)
{
  GtkWidget *area = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_IMG,
                                  "focusable", TRUE, "vexpand", TRUE, NULL);

  gtk_widget_add_css_class (area, "preview");
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw, preview, NULL);
  return area;
}

static GtkWidget *
content (Preview *preview)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *bar = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  preview->area = page_area (preview);
  preview->trouble = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (preview->trouble), TRUE);
  gtk_label_set_xalign (GTK_LABEL (preview->trouble), 0);
  gtk_widget_add_css_class (preview->trouble, "trouble");
  gtk_widget_add_css_class (bar, "above-board");
  gtk_widget_add_css_class (bar, "working");
  gtk_box_append (GTK_BOX (bar), controls (preview));
  gtk_box_append (GTK_BOX (bar), preview->trouble);
  gtk_box_append (GTK_BOX (box), bar);
  gtk_box_append (GTK_BOX (box), preview->area);
  return box;
}

void
pr_preview_show (GtkWindow *parent, PrDocument *doc, PrSheaf *sheaf, const PrPageOptions *options)
{
  Preview *preview = g_new0 (Preview, 1);
  GtkEventController *keys = gtk_event_controller_key_new ();

  preview->parent = parent;
  preview->doc = g_object_ref (doc);
  preview->sheaf = sheaf;
  preview->options = *options;
  preview->window = gtk_window_new ();
  gtk_window_set_title (GTK_WINDOW (preview->window), _ ("Print preview"));
  gtk_window_set_transient_for (GTK_WINDOW (preview->window), parent);
  gtk_window_set_modal (GTK_WINDOW (preview->window), TRUE);
  gtk_window_set_default_size (GTK_WINDOW (preview->window), START_WIDE, START_HIGH);
  gtk_widget_add_css_class (preview->window, "pritchel");
  gtk_window_set_child (GTK_WINDOW (preview->window), content (preview));
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed), preview);
  gtk_widget_add_controller (preview->window, keys);
  g_object_set_data_full (G_OBJECT (preview->window), "pr-preview", preview, (GDestroyNotify) preview_free);
  lay (preview);
  gtk_widget_grab_focus (preview->area);
  gtk_window_present (GTK_WINDOW (preview->window));
}
