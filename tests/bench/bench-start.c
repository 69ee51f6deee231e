/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the start of the process to the first drawn frame: this program, with an empty book, and a
 * bare window of the toolkit, in turn, each in a process of its own. Printed, never asserted. Needs
 * a display. */
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <glib/gstdio.h>

#include "pr-application.h"

#define RUNS 15

static void
drawn (GdkFrameClock *clock, GtkApplication *app)
{
  exit (0);
}

static void
window_added (GtkApplication *app, GtkWindow *window)
{
  gtk_widget_realize (GTK_WIDGET (window));
  g_signal_connect (gtk_widget_get_frame_clock (GTK_WIDGET (window)), "after-paint", G_CALLBACK (drawn), app);
}

static void
bare_window (GtkApplication *app)
{
  GtkWidget *window = gtk_application_window_new (app);

  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 720);
  gtk_window_present (GTK_WINDOW (window));
}

static int
start (bool bare)
{
  GtkApplication *app
      = bare ? gtk_application_new ("org.pritchel.Bare", G_APPLICATION_NON_UNIQUE) : pr_application_new ();

  setlocale (LC_ALL, "");
  if (bare)
    g_signal_connect (app, "activate", G_CALLBACK (bare_window), NULL);
  else
    g_application_set_flags (G_APPLICATION (app), G_APPLICATION_NON_UNIQUE);
  g_signal_connect_after (app, "window-added", G_CALLBACK (window_added), NULL);
  return g_application_run (G_APPLICATION (app), 0, NULL);
}

static double
timed_ms (const char *self, const char *which)
{
  const char *argv[] = { self, which, NULL };
  gint64 begin = g_get_monotonic_time ();
  int status;
  g_autoptr (GError) error = NULL;

  if (!g_spawn_sync (NULL, (char **) argv, NULL, 0, NULL, NULL, NULL, NULL, &status, &error) || status != 0) {
    fprintf (stderr, "%s did not draw: %s\n", which, error ? error->message : "it ended badly");
    exit (1);
  }
  return (double) (g_get_monotonic_time () - begin) / 1000;
}

static int
by_value (const void *a, const void *b)
{
  double p = *(const double *) a, q = *(const double *) b;

  return (p > q) - (p < q);
}

int
main (int argc, char **argv)
{
  double bare[RUNS], ours[RUNS];
  g_autofree char *home = NULL;

  if (argc > 1)
    return start (g_str_equal (argv[1], "bare"));
  home = g_dir_make_tmp ("pritchel-start-XXXXXX", NULL);
  g_setenv ("XDG_DATA_HOME", home, TRUE);
  timed_ms (argv[0], "bare"); /* libraries and fonts come from the disk once */
  timed_ms (argv[0], "ours");
  for (int i = 0; i < RUNS; i++) {
    bare[i] = timed_ms (argv[0], "bare");
    ours[i] = timed_ms (argv[0], "ours");
  }
  qsort (bare, RUNS, sizeof *bare, by_value);
  qsort (ours, RUNS, sizeof *ours, by_value);
  printf ("bare window %.0f ms, this program %.0f ms, medians of %d; ratio %.2f\n", bare[RUNS / 2],
          ours[RUNS / 2], RUNS, ours[RUNS / 2] / bare[RUNS / 2]);
  return 0;
}
