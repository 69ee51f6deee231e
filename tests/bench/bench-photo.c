/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From photo file to outline: how long, against a plain OpenCV pipeline that does the same work in
 * the same run (opencv-pipeline.py), and how much memory. Printed, never asserted by the clock.
 *     bench-photo PIPELINE.py        a photo of 12 megapixels is made, and one of 50
 *     bench-photo --run PHOTO N      the median of N runs, ms, and the peak of memory, MB; then the last run by stages */
#include <gio/gio.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "by-value.h"
#include "pr-trace.h"
#include "scene.h"

#define ROUNDS 7
#define ROUNDS_MOST 100

/* Peak of this program's memory: unlike getrusage's, not that of who started it. */
static double
peak_mb (void)
{
  g_autofree char *text = NULL;
  const char *at;

  if (!g_file_get_contents ("/proc/self/status", &text, NULL, NULL) || (at = strstr (text, "VmHWM:")) == NULL)
    return 0;
  return g_ascii_strtod (at + 6, NULL) / 1024;
}

#define STAGES 12

/* When each stage of a run began, ms, after DECODED. */
typedef struct {
  const char *name[STAGES];
  double at[STAGES];
  int n;
} Stages;

static double
now_ms (void)
{
  return (double) g_get_monotonic_time () / 1000;
}

static void
begin_stage (double done, const char *what, gpointer data)
{
  Stages *stages = data;

  (void) done;
  if (stages->n == STAGES)
    return;
  stages->name[stages->n] = what;
  stages->at[stages->n++] = now_ms ();
}

static void
print_stages (const Stages *stages, double start)
{
  printf ("decoded %.0f", stages->n > 0 ? stages->at[0] - start : 0);
  for (int i = 0; i + 1 < stages->n; i++)
    printf (", %s %.0f", stages->name[i], stages->at[i + 1] - stages->at[i]);
  printf ("\n");
}

static int
run (const char *file, int rounds)
{
  Stages stages = { .n = 0 };
  double last = 0;

  const PrTraceOptions usual = PR_TRACE_OPTIONS_DEFAULT;
  double ms[ROUNDS_MOST];

  rounds = CLAMP (rounds, 1, ROUNDS_MOST);
  for (int i = 0; i < rounds; i++) {
    g_autoptr (GError) error = NULL;
    double start = last = now_ms ();
    stages.n = 0;
    g_autoptr (PrPhoto) photo = pr_photo_read (file, &error);
    g_autoptr (PrTracing) t
        = photo ? pr_trace_photo (photo, &usual, begin_stage, &stages, NULL, &error) : NULL;
    ms[i] = now_ms () - start;
    if (t == NULL) {
      fprintf (stderr, "%s\n", error->message);
      return 1;
    }
  }
  qsort (ms, (size_t) rounds, sizeof *ms, by_value);
  printf ("%.0f %.0f\n", ms[rounds / 2], peak_mb ());
  print_stages (&stages, last);
  return 0;
}

/* First two numbers a program prints; FALSE when it fails. */
static bool
ask (const char *const *argv, double *first, double *second)
{
  g_autofree char *out = NULL;
  char *end;
  int status = 0;

  if (!g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out, NULL, &status, NULL)
      || !g_spawn_check_wait_status (status, NULL))
    return false;
  *first = g_ascii_strtod (out, &end);
  *second = g_ascii_strtod (end, NULL);
  return true;
}

static void
add_sheet (GPtrArray *argv, const SceneOptions *o)
{
  double w, h;

  pr_paper_size (o->paper, &w, &h);
  g_ptr_array_add (argv, g_strdup_printf ("%g", w));
  g_ptr_array_add (argv, g_strdup_printf ("%g", h));
  for (int c = 0; c < 4; c++) {
    PrSheetPt mm[4];
    g_ptr_array_add (argv, g_strdup_printf ("%d", pr_tag_id (o->paper, o->foot, c)));
    pr_tag_corners (o->paper, c, mm);
    for (int i = 0; i < 4; i++) {
      g_ptr_array_add (argv, g_strdup_printf ("%g", mm[i].x));
      g_ptr_array_add (argv, g_strdup_printf ("%g", mm[i].y));
    }
  }
}

static bool
ask_opencv (const char *script, const char *file, const SceneOptions *o, double *ms)
{
  g_autoptr (GPtrArray) argv = g_ptr_array_new_with_free_func (g_free);
  double points;

  g_ptr_array_add (argv, g_strdup ("/usr/bin/python3"));
  g_ptr_array_add (argv, g_strdup (script));
  g_ptr_array_add (argv, g_strdup (file));
  g_ptr_array_add (argv, g_strdup_printf ("%d", ROUNDS));
  add_sheet (argv, o);
  g_ptr_array_add (argv, NULL);
  return ask ((const char *const *) argv->pdata, ms, &points);
}

static void
compare (const char *self, const char *script, const char *dir, int width, int height)
{
  SceneOptions o;
  double ours, mb, theirs;
  g_autofree char *file = g_build_filename (dir, "scene.jpg", NULL);
  g_autofree char *rounds = g_strdup_printf ("%d", ROUNDS);

  scene_defaults (&o);
  o.width = width;
  o.height = height;
  o.tilt_deg = 25;
  o.writing = o.frog = o.ticks = true;
  g_autoptr (Scene) scene = scene_render (&o);
  gsize len;
  const char *data = g_bytes_get_data (scene->jpeg, &len);
  g_file_set_contents (file, data, (gssize) len, NULL);
  const char *argv[] = { self, "--run", file, rounds, NULL };
  if (!ask (argv, &ours, &mb)) {
    printf ("%d x %d: no outline\n", width, height);
  } else {
    printf ("%2.0f megapixels: photo file to outline %5.0f ms, peak %4.0f MB", width / 1e6 * height, ours,
            mb);
    if (ask_opencv (script, file, &o, &theirs))
      printf (";  OpenCV %5.0f ms;  ratio %.2f\n", theirs, ours / theirs);
    else
      printf (";  OpenCV for Python is not here\n");
  }
  fflush (stdout);
  g_unlink (file);
}

int
main (int argc, char **argv)
{
  if (argc == 4 && strcmp (argv[1], "--run") == 0)
    return run (argv[2], atoi (argv[3]));
  if (argc != 2)
    return 2;
  g_autofree char *dir = g_dir_make_tmp ("bench-XXXXXX", NULL);
  compare (argv[0], argv[1], dir, 3000, 4000);
  compare (argv[0], argv[1], dir, 6124, 8165);
  g_rmdir (dir);
  return 0;
}
