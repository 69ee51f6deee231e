/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-foot-thumb.h"

#include <glib/gi18n-lib.h>
#include "pr-colour.h"

#define SIZE_PX 74
#define PAD_PX 14.0

struct _PrFootThumb {
  GtkButton parent_instance;
  GArray *outline;
};

G_DEFINE_FINAL_TYPE (PrFootThumb, pr_foot_thumb, GTK_TYPE_BUTTON)

static void
extent (const GArray *outline, PrSheetPt *low, PrSheetPt *high)
{
  *low = *high = g_array_index (outline, PrSheetPt, 0);
  for (guint i = 1; i < outline->len; i++) {
    PrSheetPt p = g_array_index (outline, PrSheetPt, i);

    low->x = MIN (low->x, p.x);
    low->y = MIN (low->y, p.y);
    high->x = MAX (high->x, p.x);
    high->y = MAX (high->y, p.y);
  }
}

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  PrFootThumb *thumb = data;
  PrSheetPt low, high;
  double k;

  if (!thumb->outline || thumb->outline->len < 2)
    return;
  extent (thumb->outline, &low, &high);
  k = MIN ((width - 2 * PAD_PX) / MAX (high.x - low.x, 1), (height - 2 * PAD_PX) / MAX (high.y - low.y, 1));
  pr_colour_use (cr, GTK_WIDGET (area), "pr_wall");
  cairo_translate (cr, width / 2.0 - k * (low.x + high.x) / 2, height / 2.0 - k * (low.y + high.y) / 2);
  for (guint i = 0; i < thumb->outline->len; i++) {
    PrSheetPt p = g_array_index (thumb->outline, PrSheetPt, i);

    cairo_line_to (cr, p.x * k, p.y * k);
  }
  cairo_set_line_width (cr, 2);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_stroke (cr);
}

GtkWidget *
pr_foot_thumb_new (PrFoot foot, GArray *outline)
{
  PrFootThumb *thumb = g_object_new (PR_TYPE_FOOT_THUMB, NULL);
  GtkWidget *overlay = gtk_overlay_new (), *area = gtk_drawing_area_new ();
  GtkWidget *code = gtk_label_new (pr_foot_code (foot));
  g_autofree char *spoken = NULL;

  thumb->outline = outline;
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (area), SIZE_PX);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area), SIZE_PX);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw, thumb, NULL);
  gtk_widget_set_halign (code, GTK_ALIGN_START);
  gtk_widget_set_valign (code, GTK_ALIGN_START);
  gtk_widget_add_css_class (code, "code");
  gtk_overlay_set_child (GTK_OVERLAY (overlay), area);
  gtk_overlay_add_overlay (GTK_OVERLAY (overlay), code);
  if (!outline) {
    GtkWidget *plus = gtk_image_new_from_icon_name ("pr-plus-symbolic");

    gtk_widget_set_halign (plus, GTK_ALIGN_CENTER);
    gtk_widget_set_valign (plus, GTK_ALIGN_CENTER);
    gtk_overlay_add_overlay (GTK_OVERLAY (overlay), plus);
    gtk_widget_add_css_class (GTK_WIDGET (thumb), "empty");
  }
  gtk_button_set_child (GTK_BUTTON (thumb), overlay);
  spoken = outline ? g_strdup (pr_foot_name (foot))
                   : g_strdup_printf (_ ("%s: open a photo"), pr_foot_name (foot));
  gtk_widget_set_tooltip_text (GTK_WIDGET (thumb), spoken);
  gtk_accessible_update_property (GTK_ACCESSIBLE (thumb), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  return GTK_WIDGET (thumb);
}

static void
pr_foot_thumb_finalize (GObject *object)
{
  g_clear_pointer (&PR_FOOT_THUMB (object)->outline, g_array_unref);
  G_OBJECT_CLASS (pr_foot_thumb_parent_class)->finalize (object);
}

static void
pr_foot_thumb_init (PrFootThumb *thumb)
{
  gtk_widget_add_css_class (GTK_WIDGET (thumb), "thumb");
}

static void
pr_foot_thumb_class_init (PrFootThumbClass *class)
{
  G_OBJECT_CLASS (class)->finalize = pr_foot_thumb_finalize;
}
