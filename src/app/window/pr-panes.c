/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-panes.h"

struct _PrPanes {
  GtkWidget parent_instance;
  bool room;  /* for both panes, as last told */
  guint tell; /* 0: nothing new to tell */
};

enum { ROOM, N_SIGNALS };
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (PrPanes, pr_panes, GTK_TYPE_WIDGET)

typedef struct {
  GtkWidget *left, *middle, *right;
} Parts;

static Parts
parts_of (PrPanes *panes)
{
  Parts parts = { .left = gtk_widget_get_first_child (GTK_WIDGET (panes)) };

  parts.middle = gtk_widget_get_next_sibling (parts.left);
  parts.right = gtk_widget_get_next_sibling (parts.middle);
  return parts;
}

static int
least_width (GtkWidget *child)
{
  int least = 0;

  if (gtk_widget_should_layout (child))
    gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  return least;
}

bool
pr_panes_room (PrPanes *panes)
{
  return panes->room;
}

void
pr_panes_expect (PrPanes *panes, int width)
{
  panes->room = width >= PR_PANES_ROOM_PX;
}

/* Not while the layout is under way: what is told changes it. */
static gboolean
tell_room (gpointer data)
{
  PrPanes *panes = data;

  panes->tell = 0;
  g_signal_emit (panes, signals[ROOM], 0, panes->room);
  return G_SOURCE_REMOVE;
}

static void
pr_panes_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  PrPanes *panes = PR_PANES (widget);
  Parts parts = parts_of (panes);
  int left = least_width (parts.left), right = least_width (parts.right);
  int middle = MAX (width - left - right, least_width (parts.middle));

  if (gtk_widget_should_layout (parts.middle))
    gtk_widget_allocate (parts.middle, middle, height, -1,
                         gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT ((float) left, 0)));
  if (gtk_widget_should_layout (parts.left))
    gtk_widget_allocate (parts.left, left, height, -1, NULL);
  if (gtk_widget_should_layout (parts.right))
    gtk_widget_allocate (parts.right, right, height, -1,
                         gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT ((float) (width - right), 0)));
  if ((width >= PR_PANES_ROOM_PX) == panes->room)
    return;
  panes->room = !panes->room;
  if (panes->tell == 0)
    panes->tell = g_idle_add_full (GDK_PRIORITY_REDRAW - 1, tell_room, panes, NULL);
}

/* The window may become narrower than both panes ask for: one of them goes before that. */
static void
pr_panes_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                  int *minimum_baseline, int *natural_baseline)
{
  Parts parts = parts_of (PR_PANES (widget));
  int least = 0, usual = 0;

  *minimum = *natural = 0;
  if (orientation == GTK_ORIENTATION_HORIZONTAL) {
    *minimum = least_width (parts.middle) + MAX (least_width (parts.left), least_width (parts.right));
    *natural = least_width (parts.middle) + least_width (parts.left) + least_width (parts.right);
    return;
  }
  for (GtkWidget *child = parts.left; child; child = gtk_widget_get_next_sibling (child)) {
    if (!gtk_widget_should_layout (child))
      continue;
    gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, -1, &least, &usual, NULL, NULL);
    *minimum = MAX (*minimum, least);
    *natural = MAX (*natural, usual);
  }
}

static void
pr_panes_dispose (GObject *object)
{
  PrPanes *panes = PR_PANES (object);
  GtkWidget *child;

  g_clear_handle_id (&panes->tell, g_source_remove);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (panes))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (pr_panes_parent_class)->dispose (object);
}

static void
pr_panes_init (PrPanes *panes)
{
  panes->room = true;
}

static void
pr_panes_class_init (PrPanesClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_panes_dispose;
  widget_class->measure = pr_panes_measure;
  widget_class->size_allocate = pr_panes_size_allocate;
  signals[ROOM] = g_signal_new ("room", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 1, G_TYPE_BOOLEAN);
}
