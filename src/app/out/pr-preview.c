/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-preview.h"

#include <glib/gi18n-lib.h>

#include "pr-page-choice.h"

#define AROUND 18.0 /* pixels left free round the page */

struct _PrPreview {
  GtkWindow parent_instance;
  PrSheaf *sheaf; /* NULL once it was taken out */
  PrPageOptions options;
  int page;
  GtkDropDown *paper;
  GtkStringList *papers;
  GtkDrawingArea *area;
  GtkLabel *count, *trouble;
  GtkWidget *back, *on, *pages;
  PrPageChoice *choice;
};

enum { PRINT, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrPreview, pr_preview, GTK_TYPE_WINDOW)

/* --- the page --- */

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  PrPreview *preview = data;
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
show_page (PrPreview *preview)
{
  int n = pr_sheaf_count (preview->sheaf);
  g_autofree char *text = NULL;

  preview->page = CLAMP (preview->page, 0, MAX (n - 1, 0));
  if (n > 0)
    text = g_strdup_printf (_ ("page %d of %d · %s"), preview->page + 1, n,
                            pr_sheaf_page_name (preview->sheaf, preview->page));
  gtk_label_set_text (preview->count, text ? text : "");
  gtk_accessible_update_property (GTK_ACCESSIBLE (preview->area), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  text ? text : _ ("no page"), -1);
  gtk_widget_set_sensitive (preview->back, preview->page > 0);
  gtk_widget_set_sensitive (preview->on, preview->page + 1 < n);
  gtk_widget_queue_draw (GTK_WIDGET (preview->area));
}

static void
lay (PrPreview *preview)
{
  g_autoptr (GError) error = NULL;

  pr_sheaf_lay (preview->sheaf, &preview->options, &error);
  gtk_label_set_text (preview->trouble, error ? error->message : "");
  gtk_widget_set_visible (GTK_WIDGET (preview->trouble), error != NULL);
  show_page (preview);
}

static void
turn (PrPreview *preview, int page)
{
  preview->page = page;
  show_page (preview);
}

static void
turn_back (PrPreview *preview)
{
  turn (preview, preview->page - 1);
  if (preview->page == 0)
    gtk_widget_grab_focus (GTK_WIDGET (preview->area)); /* the button can no longer have it */
}

static void
turn_on (PrPreview *preview)
{
  turn (preview, preview->page + 1);
  if (preview->page + 1 == pr_sheaf_count (preview->sheaf))
    gtk_widget_grab_focus (GTK_WIDGET (preview->area));
}

static void
paper_chosen (PrPreview *preview)
{
  preview->options.paper = (PrPaper) gtk_drop_down_get_selected (preview->paper);
  if (preview->sheaf)
    lay (preview);
}

static void
pages_chosen (PrPreview *preview)
{
  if (!preview->sheaf)
    return;
  pr_page_choice_apply (preview->choice, preview->sheaf);
  lay (preview);
}

/* --- on to the printer --- */

static void
print (PrPreview *preview)
{
  g_signal_emit (preview, signals[PRINT], 0);
}

PrSheaf *
pr_preview_take_sheaf (PrPreview *preview)
{
  return g_steal_pointer (&preview->sheaf);
}

PrPaper
pr_preview_paper (PrPreview *preview)
{
  return preview->options.paper;
}

static gboolean
key_pressed (GtkEventControllerKey *controller, guint key, guint code, GdkModifierType state,
             PrPreview *preview)
{
  if (state & GDK_CONTROL_MASK && key == GDK_KEY_p)
    print (preview);
  else if (key == GDK_KEY_Escape)
    gtk_window_destroy (GTK_WINDOW (preview));
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

/* --- the window --- */

PrPreview *
pr_preview_new (GtkWindow *parent, PrSheaf *sheaf, const PrPageOptions *options)
{
  PrPreview *preview = g_object_new (PR_TYPE_PREVIEW, "transient-for", parent, NULL);

  for (int i = 0; i < pr_sheaf_papers (sheaf); i++)
    gtk_string_list_append (preview->papers, pr_paper_name ((PrPaper) i));
  gtk_drop_down_set_selected (preview->paper, options->paper);
  preview->sheaf = sheaf;
  preview->options = *options;
  gtk_widget_set_visible (preview->pages, pr_sheaf_is_shoe (sheaf));
  pr_page_choice_show (preview->choice, sheaf);
  lay (preview);
  return preview;
}

static void
pr_preview_finalize (GObject *object)
{
  g_clear_pointer (&PR_PREVIEW (object)->sheaf, pr_sheaf_free);
  G_OBJECT_CLASS (pr_preview_parent_class)->finalize (object);
}

static void
pr_preview_init (PrPreview *preview)
{
  gtk_widget_init_template (GTK_WIDGET (preview));
  gtk_drawing_area_set_draw_func (preview->area, draw, preview, NULL);
}

static void
pr_preview_class_init (PrPreviewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = pr_preview_finalize;
  signals[PRINT] = g_signal_new ("print", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                 G_TYPE_NONE, 0);
  g_type_ensure (PR_TYPE_PAGE_CHOICE);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/preview.ui");
  gtk_widget_class_bind_template_child (widget_class, PrPreview, paper);
  gtk_widget_class_bind_template_child (widget_class, PrPreview, papers);
  gtk_widget_class_bind_template_child (widget_class, PrPreview, area);
  gtk_widget_class_bind_template_child (widget_class, PrPreview, count);
  gtk_widget_class_bind_template_child (widget_class, PrPreview, trouble);
  gtk_widget_class_bind_template_child (widget_class, PrPreview, back);
  gtk_widget_class_bind_template_child (widget_class, PrPreview, on);
  gtk_widget_class_bind_template_child (widget_class, PrPreview, pages);
  gtk_widget_class_bind_template_child (widget_class, PrPreview, choice);
  gtk_widget_class_bind_template_callback (widget_class, paper_chosen);
  gtk_widget_class_bind_template_callback (widget_class, pages_chosen);
  gtk_widget_class_bind_template_callback (widget_class, turn_back);
  gtk_widget_class_bind_template_callback (widget_class, turn_on);
  gtk_widget_class_bind_template_callback (widget_class, print);
  gtk_widget_class_bind_template_callback (widget_class, key_pressed);
}
