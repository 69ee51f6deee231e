/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-style-picture.h"

#include <glib/gi18n-lib.h>
#include "pr-colour.h"
#include "pr-draw.h"
#include "pr-ui.h"

#define PAD_PX 8.0
#define LINE_PX 1.1

struct _PrStylePicture {
  GtkFlowBoxChild parent_instance;
  const PrStyle *style;
  PrJob *job; /* NULL: not laid yet, or it cannot be */
  GtkDrawingArea *area;
  GtkLabel *name, *trouble;
};

G_DEFINE_FINAL_TYPE (PrStylePicture, pr_style_picture, GTK_TYPE_FLOW_BOX_CHILD)

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  PrStylePicture *picture = data;

  if (picture->job)
    pr_draw_small (cr, picture->job, width, height, PAD_PX, LINE_PX, pr_colour_is_dark (GTK_WIDGET (area)));
}

const PrStyle *
pr_style_picture_style (PrStylePicture *picture)
{
  return picture->style;
}

void
pr_style_picture_take (PrStylePicture *picture, PrJob *job)
{
  g_clear_pointer (&picture->job, pr_job_free);
  picture->job = job;
  gtk_widget_set_visible (GTK_WIDGET (picture->trouble), job == NULL);
  gtk_widget_queue_draw (GTK_WIDGET (picture->area));
}

PrStylePicture *
pr_style_picture_new (const PrStyle *style, bool chosen)
{
  PrStylePicture *picture = g_object_new (PR_TYPE_STYLE_PICTURE, NULL);
  g_autofree char *tip = g_strjoin (style->caution && *style->caution ? " " : "",
                                    style->purpose ? style->purpose : "", style->caution, NULL);

  picture->style = style;
  gtk_label_set_text (picture->name, style->name);
  gtk_widget_set_tooltip_text (GTK_WIDGET (picture), tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (picture), GTK_ACCESSIBLE_PROPERTY_LABEL, style->name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, tip, -1);
  if (chosen)
    gtk_widget_add_css_class (GTK_WIDGET (picture), "chosen");
  return picture;
}

static void
pr_style_picture_finalize (GObject *object)
{
  g_clear_pointer (&PR_STYLE_PICTURE (object)->job, pr_job_free);
  G_OBJECT_CLASS (pr_style_picture_parent_class)->finalize (object);
}

static void
pr_style_picture_init (PrStylePicture *picture)
{
  gtk_widget_init_template (GTK_WIDGET (picture));
  gtk_drawing_area_set_draw_func (picture->area, draw, picture, NULL);
}

static void
pr_style_picture_class_init (PrStylePictureClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = pr_style_picture_finalize;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "style-picture.ui");
  gtk_widget_class_bind_template_child (widget_class, PrStylePicture, area);
  gtk_widget_class_bind_template_child (widget_class, PrStylePicture, name);
  gtk_widget_class_bind_template_child (widget_class, PrStylePicture, trouble);
}
