/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-start.h"

#include "pr-recent.h"

struct _PrStart {
  GtkWidget parent_instance;
  GtkWidget *kept;
  GtkMenuButton *recent;
};

G_DEFINE_FINAL_TYPE (PrStart, pr_start, GTK_TYPE_WIDGET)

static GtkSizeRequestMode
pr_start_get_request_mode (GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
pr_start_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                  int *minimum_baseline, int *natural_baseline)
{
  gtk_widget_measure (gtk_widget_get_first_child (widget), orientation, for_size, minimum, natural, NULL,
                      NULL);
}

/* In the middle, as large as it would like to be. The toolkit's own alignment asks how wide it would be at
 * that height, for which each wrapped line is laid out over and over. */
static void
pr_start_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  GtkWidget *content = gtk_widget_get_first_child (widget);
  graphene_point_t at;
  int wide, high;

  gtk_widget_measure (content, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &wide, NULL, NULL);
  wide = MIN (wide, width);
  gtk_widget_measure (content, GTK_ORIENTATION_VERTICAL, wide, NULL, &high, NULL, NULL);
  high = MIN (high, height);
  graphene_point_init (&at, (float) ((width - wide) / 2), (float) ((height - high) / 2));
  gtk_widget_allocate (content, wide, high, -1, gsk_transform_translate (NULL, &at));
}

void
pr_start_set_kept (PrStart *start, bool kept)
{
  gtk_widget_set_visible (start->kept, kept);
}

static void
pr_start_dispose (GObject *object)
{
  GtkWidget *content = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&content, gtk_widget_unparent);
  G_OBJECT_CLASS (pr_start_parent_class)->dispose (object);
}

static void
pr_start_init (PrStart *start)
{
  gtk_widget_init_template (GTK_WIDGET (start));
  pr_recent_serve (start->recent);
  pr_recent_update (start->recent);
}

static void
pr_start_class_init (PrStartClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_start_dispose;
  widget_class->get_request_mode = pr_start_get_request_mode;
  widget_class->measure = pr_start_measure;
  widget_class->size_allocate = pr_start_size_allocate;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/pritchel/Pritchel/ui/start.ui");
  gtk_widget_class_bind_template_child (widget_class, PrStart, kept);
  gtk_widget_class_bind_template_child (widget_class, PrStart, recent);
}
