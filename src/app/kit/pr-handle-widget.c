/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-handle-widget.h"

#include "pr-colour.h"

#define RADIUS_PX 5.0
#define WAITING_OUT 1.6 /* radius of what waits to be put, against that */
#define GROWN_PX 6.5    /* under the pointer or with the keyboard on it */

struct _PrHandleWidget {
  GtkWidget parent_instance;
  const char *kind; /* static */
  char *name, *value;
  bool locked;
};

G_DEFINE_FINAL_TYPE (PrHandleWidget, pr_handle_widget, GTK_TYPE_WIDGET)

static void
pr_handle_widget_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                          int *natural, int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = (int) PR_GRAB_PX;
}

static void
append_shape (GtkSnapshot *snapshot, double radius, bool square, const GdkRGBA *fill, const GdkRGBA *edge)
{
  double middle = PR_GRAB_PX / 2;
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, PR_GRAB_PX, PR_GRAB_PX));

  if (square)
    cairo_rectangle (cr, middle - radius + 1, middle - radius + 1, 2 * radius - 2, 2 * radius - 2);
  else
    cairo_arc (cr, middle, middle, radius - 1, 0, 2 * G_PI);
  gdk_cairo_set_source_rgba (cr, fill);
  cairo_fill_preserve (cr);
  gdk_cairo_set_source_rgba (cr, edge);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

/* A filled padlock: told by its shape as well as by its colour. */
static void
append_padlock (GtkSnapshot *snapshot, double radius, const GdkRGBA *fill, const GdkRGBA *edge)
{
  double middle = PR_GRAB_PX / 2;
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, PR_GRAB_PX, PR_GRAB_PX));

  cairo_arc (cr, middle, middle - radius + 2, radius - 2, G_PI, 2 * G_PI);
  gdk_cairo_set_source_rgba (cr, edge);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);
  cairo_rectangle (cr, middle - radius, middle - radius + 2, 2 * radius, 2 * radius - 2);
  cairo_fill_preserve (cr);
  gdk_cairo_set_source_rgba (cr, fill);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

/* A broken ring round a dot: something is to be put here. */
static void
append_waiting (GtkSnapshot *snapshot, double radius, const GdkRGBA *fill, const GdkRGBA *edge)
{
  const double dash = 3, middle = PR_GRAB_PX / 2;
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, PR_GRAB_PX, PR_GRAB_PX));

  cairo_arc (cr, middle, middle, WAITING_OUT * radius, 0, 2 * G_PI);
  gdk_cairo_set_source_rgba (cr, fill);
  cairo_set_line_width (cr, 4);
  cairo_stroke_preserve (cr);
  gdk_cairo_set_source_rgba (cr, edge);
  cairo_set_line_width (cr, 2);
  cairo_set_dash (cr, &dash, 1, 0);
  cairo_stroke (cr);
  cairo_arc (cr, middle, middle, 2, 0, 2 * G_PI);
  cairo_fill (cr);
  cairo_destroy (cr);
}

static void
pr_handle_widget_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  PrHandleWidget *self = PR_HANDLE_WIDGET (widget);
  GtkStateFlags state = gtk_widget_get_state_flags (widget);
  bool grown = state & (GTK_STATE_FLAG_PRELIGHT | GTK_STATE_FLAG_FOCUSED | GTK_STATE_FLAG_ACTIVE);
  bool square = g_str_equal (self->kind, "nail") || g_str_equal (self->kind, "crease");
  GdkRGBA edge = pr_colour_of_text (widget), paper = pr_colour (widget, "pr_paper");

  if (self->locked) {
    append_padlock (snapshot, grown ? GROWN_PX : RADIUS_PX, &paper, &edge);
    return;
  }
  if (g_str_equal (self->kind, "waiting")) {
    append_waiting (snapshot, grown ? GROWN_PX : RADIUS_PX, &paper, &edge);
    return;
  }
  if (state & GTK_STATE_FLAG_FOCUSED)
    paper = edge;
  append_shape (snapshot, grown ? GROWN_PX : RADIUS_PX, square, &paper, &edge);
}

static void
pr_handle_widget_finalize (GObject *object)
{
  PrHandleWidget *self = PR_HANDLE_WIDGET (object);

  g_free (self->name);
  g_free (self->value);
  G_OBJECT_CLASS (pr_handle_widget_parent_class)->finalize (object);
}

static void
pr_handle_widget_init (PrHandleWidget *self)
{
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE); /* the board finds what is under the pointer */
}

static void
pr_handle_widget_class_init (PrHandleWidgetClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->finalize = pr_handle_widget_finalize;
  widget_class->measure = pr_handle_widget_measure;
  widget_class->snapshot = pr_handle_widget_snapshot;
  gtk_widget_class_set_css_name (widget_class, "handle");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_BUTTON);
}

GtkWidget *
pr_handle_widget_new (const char *kind)
{
  PrHandleWidget *self = g_object_new (PR_TYPE_HANDLE_WIDGET, NULL);

  pr_handle_widget_set_kind (self, kind);
  return GTK_WIDGET (self);
}

void
pr_handle_widget_set_kind (PrHandleWidget *self, const char *kind)
{
  if (self->kind == kind)
    return;
  if (self->kind)
    gtk_widget_remove_css_class (GTK_WIDGET (self), self->kind);
  gtk_widget_add_css_class (GTK_WIDGET (self), kind);
  self->kind = kind;
  gtk_widget_queue_draw (
      GTK_WIDGET (self)); /* the shape is ours: a class that changes no colour draws nothing anew */
}

void
pr_handle_widget_set_locked (PrHandleWidget *self, bool locked)
{
  if (self->locked == locked)
    return;
  self->locked = locked;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
pr_handle_widget_describe (PrHandleWidget *self, const char *name, const char *value)
{
  if (g_strcmp0 (self->name, name) != 0) {
    g_free (self->name);
    self->name = g_strdup (name);
    gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  }
  if (g_strcmp0 (self->value, value) != 0) {
    g_free (self->value);
    self->value = g_strdup (value);
    gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, value,
                                    GTK_ACCESSIBLE_PROPERTY_VALUE_TEXT, value, -1);
  }
}
