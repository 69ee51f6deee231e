/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-clock-view.h"

#include <glib/gi18n-lib.h>
#include "pr-colour.h"
#include "pr-practice-draw.h"
#include "pr-ui.h"

#define TICK_MS 100 /* the figures change with the second; the eye sees a tenth of it late */

struct _PrClockView {
  GtkBox parent_instance;
  PrPracticeDesk *desk;
  GtkWidget *found, *face, *step;
  char *spoken, *figures; /* as they were told last */
  guint held;             /* the key that is down: it repeats, and counts once; 0: none */
  guint tick;
};

G_DEFINE_FINAL_TYPE (PrClockView, pr_clock_view, GTK_TYPE_BOX)

/* --- the face --- */

static PrFaceColour
colour (GtkWidget *widget, const char *name)
{
  GdkRGBA c = pr_colour (widget, name);

  return (PrFaceColour){ c.red, c.green, c.blue };
}

/* What the clock says NOW; FALSE: no run is going. */
static bool
face_now (PrClockView *view, PrPracticeFace *face, PrPracticeMoment *now)
{
  const PrPracticeRun *run = view->desk ? pr_practice_desk_run (view->desk) : NULL;

  if (!run)
    return false;
  pr_practice_desk_now (view->desk, now);
  pr_practice_face_tell (face, run, now);
  return true;
}

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  PrClockView *view = data;
  GtkWidget *widget = GTK_WIDGET (area);
  const PrFaceColours colours = { .ground = colour (widget, "pr_paper"),
                                  .ink = colour (widget, "pr_ink"),
                                  .soft = colour (widget, "pr_soft"),
                                  .bar = colour (widget, "pr_teal"),
                                  .over = colour (widget, "pr_red") };
  g_auto (PrPracticeFace) face = { 0 };
  PrPracticeMoment now;

  if (face_now (view, &face, &now))
    pr_practice_face_draw (cr, &face, width, height, &colours);
}

/* TEXT (transfer full) in place of *WAS. Is it another one? */
static bool
differs (char **was, char *text)
{
  if (g_strcmp0 (*was, text) == 0) {
    g_free (text);
    return false;
  }
  g_free (*was);
  *was = text;
  return true;
}

/* Drawn when the figures change; told, to who does not see them, once a minute. */
static void
show (PrClockView *view)
{
  g_auto (PrPracticeFace) face = { 0 };
  PrPracticeMoment now;

  if (!face_now (view, &face, &now))
    return;
  if (differs (&view->figures, g_strjoin ("\n", face.word, face.figures, face.heat, face.step, NULL)))
    gtk_widget_queue_draw (view->face);
  if (differs (&view->spoken, pr_practice_spoken (pr_practice_desk_run (view->desk), &now)))
    gtk_accessible_update_property (GTK_ACCESSIBLE (view->face), GTK_ACCESSIBLE_PROPERTY_LABEL, view->spoken,
                                    -1);
}

static gboolean
tick (gpointer data)
{
  show (data);
  return G_SOURCE_CONTINUE;
}

static void
changed (PrClockView *view)
{
  const PrPracticeRun *run = pr_practice_desk_run (view->desk);

  gtk_widget_set_visible (view->found, run && pr_practice_desk_asks (view->desk));
  gtk_widget_set_sensitive (view->step, run && run->steps->len > 0);
  show (view);
}

/* --- pressing --- */

static void
press (PrClockView *view, PrPressedKind kind)
{
  gtk_widget_grab_focus (view->face);
  pr_practice_desk_press (view->desk, kind);
}

static void
heat (PrClockView *view)
{
  press (view, PR_PRESSED_HEAT);
}

static void
step (PrClockView *view)
{
  if (gtk_widget_is_sensitive (view->step))
    press (view, PR_PRESSED_STEP);
}

static void
stop (PrClockView *view)
{
  press (view, PR_PRESSED_STOP);
}

static void
take_back (PrClockView *view)
{
  pr_practice_desk_take_back (view->desk);
  gtk_widget_grab_focus (view->face);
}

static void
face_pressed (PrClockView *view, int n, double x, double y)
{
  heat (view);
}

static const struct {
  guint key;
  void (*act) (PrClockView *view);
} keys[] = {
  { GDK_KEY_space, heat },          { GDK_KEY_KP_Space, heat },  { GDK_KEY_Return, step },
  { GDK_KEY_KP_Enter, step },       { GDK_KEY_ISO_Enter, step }, { GDK_KEY_s, stop },
  { GDK_KEY_BackSpace, take_back },
};

/* A gloved hand leans on the key: what repeats is one press. */
static gboolean
key_pressed (PrClockView *view, guint key, guint code, GdkModifierType state)
{
  for (size_t i = 0; i < G_N_ELEMENTS (keys); i++) {
    if (keys[i].key != gdk_keyval_to_lower (key) || state & (GDK_CONTROL_MASK | GDK_ALT_MASK))
      continue;
    if (view->held != key)
      keys[i].act (view);
    view->held = key;
    return TRUE;
  }
  return FALSE;
}

static void
key_released (PrClockView *view, guint key)
{
  view->held = 0;
}

static void
face_left (PrClockView *view)
{
  view->held = 0;
}

/* --- what was found --- */

static void
go_on (PrClockView *view)
{
  pr_practice_desk_answer (view->desk);
  gtk_widget_grab_focus (view->face);
}

static void
end_there (PrClockView *view)
{
  pr_practice_desk_break_off (view->desk);
}

/* --- the widget --- */

void
pr_clock_view_set_desk (PrClockView *view, PrPracticeDesk *desk)
{
  view->desk = g_object_ref (desk);
  g_signal_connect_object (desk, "changed", G_CALLBACK (changed), view, G_CONNECT_SWAPPED);
  changed (view);
}

void
pr_clock_view_focus (PrClockView *view)
{
  gtk_widget_grab_focus (view->face);
}

static void
pr_clock_view_map (GtkWidget *widget)
{
  PrClockView *view = PR_CLOCK_VIEW (widget);

  GTK_WIDGET_CLASS (pr_clock_view_parent_class)->map (widget);
  view->tick = g_timeout_add (TICK_MS, tick, view);
}

static void
pr_clock_view_unmap (GtkWidget *widget)
{
  g_clear_handle_id (&PR_CLOCK_VIEW (widget)->tick, g_source_remove);
  GTK_WIDGET_CLASS (pr_clock_view_parent_class)->unmap (widget);
}

static void
pr_clock_view_dispose (GObject *object)
{
  PrClockView *view = PR_CLOCK_VIEW (object);

  g_clear_handle_id (&view->tick, g_source_remove);
  g_clear_object (&view->desk);
  g_clear_pointer (&view->spoken, g_free);
  g_clear_pointer (&view->figures, g_free);
  G_OBJECT_CLASS (pr_clock_view_parent_class)->dispose (object);
}

static void
pr_clock_view_init (PrClockView *view)
{
  gtk_widget_init_template (GTK_WIDGET (view));
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (view->face), draw, view, NULL);
}

static void
pr_clock_view_class_init (PrClockViewClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);

  G_OBJECT_CLASS (class)->dispose = pr_clock_view_dispose;
  widget_class->map = pr_clock_view_map;
  widget_class->unmap = pr_clock_view_unmap;
  gtk_widget_class_set_template_from_resource (widget_class, PR_UI "clock-view.ui");
  gtk_widget_class_bind_template_callback (widget_class, heat);
  gtk_widget_class_bind_template_callback (widget_class, step);
  gtk_widget_class_bind_template_callback (widget_class, stop);
  gtk_widget_class_bind_template_callback (widget_class, take_back);
  gtk_widget_class_bind_template_callback (widget_class, face_pressed);
  gtk_widget_class_bind_template_callback (widget_class, face_left);
  gtk_widget_class_bind_template_callback (widget_class, key_pressed);
  gtk_widget_class_bind_template_callback (widget_class, key_released);
  gtk_widget_class_bind_template_callback (widget_class, go_on);
  gtk_widget_class_bind_template_callback (widget_class, end_there);
  gtk_widget_class_bind_template_child (widget_class, PrClockView, found);
  gtk_widget_class_bind_template_child (widget_class, PrClockView, face);
  gtk_widget_class_bind_template_child (widget_class, PrClockView, step);
}
