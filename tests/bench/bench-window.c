/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a drag costs in a real window, and what the window costs when nothing happens. Arguments: PHOTO [WIDTH HEIGHT].
 * A frame's stages come from the frame clock: recompute is plan to shoe, iron and findings; update and layout are the
 * widgets'; the snapshot is what every widget adds to the picture, asked for here once the layout stands, so that the
 * paint that follows finds it kept and is the renderer's alone (GSK_RENDERER chooses it). Recompute and snapshot are
 * counted in the thread's own processor time, which another program's load does not lengthen; the rest by the clock on
 * the wall, as a renderer may use threads of its own. What the whole frame takes of this thread is told too: for the
 * cairo renderer, which has one thread, that is all but the display's own work. Printed, never asserted. */
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "by-value.h"
#include "pr-document.h"
#include "pr-look.h"
#include "pr-stage-bar.h"
#include "pr-window.h"

#define DRAGS 200
#define IDLE_US (3 * G_USEC_PER_SEC)

typedef struct {
  GtkWidget *window;
  gint64 before, layout, snapped, after;
  double snapshot_ms, before_ms, after_ms;
  int frames;
} Clock;

static void
report (const char *name, double *ms)
{
  qsort (ms, DRAGS, sizeof *ms, by_value);
  printf ("%-34s median %7.2f ms   99th %7.2f ms\n", name, ms[DRAGS / 2], ms[DRAGS * 99 / 100]);
}

static void
stamp (gint64 *at)
{
  *at = g_get_monotonic_time ();
}

/* Processor time of this thread. */
static double
own_ms (void)
{
  struct timespec t;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &t);
  return (double) t.tv_sec * 1e3 + (double) t.tv_nsec / 1e6;
}

static void
take_snapshot (Clock *c)
{
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  double start = own_ms ();

  for (GtkWidget *child = gtk_widget_get_first_child (c->window); child;
       child = gtk_widget_get_next_sibling (child))
    gtk_widget_snapshot_child (c->window, child, snapshot);
  c->snapshot_ms = own_ms () - start;
  g_object_unref (snapshot);
}

static void
on_after (GdkFrameClock *clock, Clock *c)
{
  stamp (&c->after);
  c->after_ms = own_ms ();
  c->frames++;
}

static void
on_before (GdkFrameClock *clock, Clock *c)
{
  stamp (&c->before);
  c->before_ms = own_ms ();
}

/* Runs after the window's own handler. */
static void
on_layout (GdkFrameClock *clock, Clock *c)
{
  stamp (&c->layout);
  take_snapshot (c);
  stamp (&c->snapped);
}

static void
spin (gint64 us)
{
  gint64 end = g_get_monotonic_time () + us;

  while (g_get_monotonic_time () < end) {
    while (g_main_context_iteration (NULL, FALSE))
      ;
    g_usleep (500);
  }
}

static void
next_frame (Clock *c)
{
  int n = c->frames;

  while (c->frames == n)
    g_main_context_iteration (NULL, TRUE);
}

static void
drag (PrDocument *doc, Clock *c)
{
  static double recompute[DRAGS], layout[DRAGS], snapshot[DRAGS], share[DRAGS], renderer[DRAGS], own[DRAGS];

  pr_document_begin (doc);
  for (int i = 0; i < DRAGS; i++) {
    PrPlan plan = *pr_document_start_plan (doc);

    plan.knot[PR_KNOT_TOE].y += 3 * sin (i * 0.3);
    plan.heel_past[PR_LATERAL] += 2 * cos (i * 0.2);
    double start = own_ms ();
    pr_document_preview (doc, &plan);
    recompute[i] = own_ms () - start;
    next_frame (c);
    layout[i] = (double) (c->layout - c->before) / 1000;
    snapshot[i] = c->snapshot_ms;
    share[i] = recompute[i] + snapshot[i];
    renderer[i] = (double) (c->after - c->snapped) / 1000;
    own[i] = recompute[i] + c->after_ms - c->before_ms;
  }
  pr_document_cancel (doc);
  report ("recompute, and tell the window", recompute);
  report ("snapshot", snapshot);
  report ("the program's share: both", share);
  report ("update and layout", layout);
  report ("renderer", renderer);
  report ("the whole frame, of this thread", own);
}

static GtkWidget *
find_kind (GtkWidget *root, GType type)
{
  if (G_TYPE_CHECK_INSTANCE_TYPE (root, type))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child)) {
    GtkWidget *found = find_kind (child, type);

    if (found)
      return found;
  }
  return NULL;
}

/* Bar into shoe: a picture for each place of the slider. */
static void
slide (Clock *c)
{
  static double share[DRAGS], frame[DRAGS];
  GtkWidget *bar = find_kind (c->window, PR_TYPE_STAGE_BAR), *scale = find_kind (bar, GTK_TYPE_SCALE);

  gtk_widget_set_visible (bar, TRUE);
  next_frame (c);
  double last = gtk_adjustment_get_upper (gtk_range_get_adjustment (GTK_RANGE (scale)));
  for (int i = 0; i < DRAGS; i++) {
    double start = own_ms ();

    gtk_range_set_value (GTK_RANGE (scale), last * (i + 1) / DRAGS);
    double moved = own_ms () - start;
    next_frame (c);
    share[i] = moved + c->snapshot_ms;
    frame[i] = moved + (double) (c->after - c->before) / 1000;
  }
  gtk_widget_set_visible (bar, FALSE);
  report ("bar into shoe: the program's share", share);
  report ("bar into shoe: the whole picture", frame);
}

int
main (int argc, char **argv)
{
  g_autoptr (GtkApplication) app = NULL;
  g_autoptr (PrDocument) doc = NULL;
  Clock c = { 0 };
  int width = argc > 3 ? atoi (argv[2]) : 1920, height = argc > 3 ? atoi (argv[3]) : 1080;

  setlocale (LC_ALL, "");
  if (argc < 2 || !gtk_init_check ()) {
    fprintf (stderr, "Use: bench-window PHOTO [WIDTH HEIGHT], with a display\n");
    return 2;
  }
  app = gtk_application_new ("org.pritchel.Bench", G_APPLICATION_NON_UNIQUE);
  g_application_register (G_APPLICATION (app), NULL, NULL);
  pr_look_start (gdk_display_get_default ());
  doc = pr_document_new (NULL, PR_UNIT_MM);
  GtkWidget *window = pr_window_new (app, doc, false);
  gtk_window_set_default_size (GTK_WINDOW (window), width, height);
  gtk_window_present (GTK_WINDOW (window));
  spin (G_USEC_PER_SEC);
  g_autoptr (GFile) file = g_file_new_for_commandline_arg (argv[1]);
  pr_document_take_photo (doc, file, PR_FOOT_LF, NULL);
  double done;
  const char *what;
  while (!pr_document_job (doc) || pr_document_busy (doc, &done, &what))
    spin (G_USEC_PER_SEC / 10);
  spin (2 * G_USEC_PER_SEC);
  c.window = window;
  GdkFrameClock *clock = gtk_widget_get_frame_clock (window);
  g_signal_connect (clock, "before-paint", G_CALLBACK (on_before), &c);
  g_signal_connect_after (clock, "layout", G_CALLBACK (on_layout), &c);
  g_signal_connect_after (clock, "after-paint", G_CALLBACK (on_after), &c);
  printf ("%d x %d, renderer %s\n", gtk_widget_get_width (window), gtk_widget_get_height (window),
          G_OBJECT_TYPE_NAME (gtk_native_get_renderer (GTK_NATIVE (window))));
  drag (doc, &c);
  slide (&c);
  spin (G_USEC_PER_SEC);
  int frames = c.frames;
  spin (IDLE_US);
  printf ("frames in %d s of doing nothing: %d\n", (int) (IDLE_US / G_USEC_PER_SEC), c.frames - frames);
  gtk_window_destroy (GTK_WINDOW (window));
  return 0;
}
