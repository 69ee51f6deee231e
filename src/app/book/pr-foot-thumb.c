/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-foot-thumb.h"

#include <glib/gi18n-lib.h>
#include "pr-book-trash.h"
#include "pr-colour.h"
#include "pr-context-menu.h"

#define PAD_PX 14.0

struct _PrFootThumb {
  GtkButton parent_instance;
  PrBookId visit, id;
  PrFoot foot;
  GArray *outline; /* NULL: nothing there yet */
  GtkDrawingArea *area;
  GtkLabel *code;
  GtkWidget *plus;
  PrContextMenu *context;
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

PrBookId
pr_foot_thumb_visit (PrFootThumb *thumb)
{
  return thumb->visit;
}

PrFoot
pr_foot_thumb_foot (PrFootThumb *thumb)
{
  return thumb->foot;
}

PrBookId
pr_foot_thumb_id (PrFootThumb *thumb)
{
  return thumb->id;
}

static void
set_outline (PrFootThumb *thumb, GArray *outline)
{
  g_autofree char *spoken = outline ? g_strdup (pr_foot_name (thumb->foot))
                                    : g_strdup_printf (_ ("%s: open a photo"), pr_foot_name (thumb->foot));

  g_clear_pointer (&thumb->outline, g_array_unref);
  thumb->outline = outline ? g_array_ref (outline) : NULL;
  gtk_widget_queue_draw (GTK_WIDGET (thumb->area));
  gtk_widget_set_visible (thumb->plus, !outline);
  if (outline)
    gtk_widget_remove_css_class (GTK_WIDGET (thumb), "empty");
  else
    gtk_widget_add_css_class (GTK_WIDGET (thumb), "empty");
  gtk_widget_set_tooltip_text (GTK_WIDGET (thumb), spoken);
  gtk_accessible_update_property (GTK_ACCESSIBLE (thumb), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

void
pr_foot_thumb_show (PrFootThumb *thumb, PrBookId visit, PrFoot foot, PrBookId id, GArray *outline)
{
  thumb->visit = visit;
  thumb->foot = foot;
  thumb->id = id;
  gtk_label_set_text (thumb->code, pr_foot_letters (foot));
  set_outline (thumb, outline);
  pr_context_menu_set_delete (thumb->context, _ ("_Delete this foot"), "book.delete",
                              id ? g_variant_new ("(ix)", PR_BOOK_FOOT, id) : NULL);
}

PrFootThumb *
pr_foot_thumb_new (void)
{
  return g_object_new (PR_TYPE_FOOT_THUMB, NULL);
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
  gtk_widget_init_template (GTK_WIDGET (thumb));
  thumb->context = pr_context_menu_add (GTK_WIDGET (thumb));
  gtk_drawing_area_set_draw_func (thumb->area, draw, thumb, NULL);
}

static void
pr_foot_thumb_class_init (PrFootThumbClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = pr_foot_thumb_finalize;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/foot-thumb.ui");
  gtk_widget_class_bind_template_child (widget_class, PrFootThumb, area);
  gtk_widget_class_bind_template_child (widget_class, PrFootThumb, code);
  gtk_widget_class_bind_template_child (widget_class, PrFootThumb, plus);
}
