/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the start of the process to the first drawn frame, in turn: a bare window of the toolkit; this
 * program with an empty book; with a book of 200 horses, whose last foot it opens; and with one of 10,000 horses and 60,000
 * feet, the same. Each run is a process of its own. Prints medians, where the time went, and the ratio to the bare window of
 * the same round. Asserts nothing. Needs a display, the folder `data` for its photo, and a gigabyte and a half of room:
 * bench-start data/demo/near-fore.jpg */
#include <glib/gstdio.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>

#include "big-book.h"
#include "by-value.h"
#include "pr-application.h"
#include "pr-book.h"
#include "pr-job.h"
#include "pr-trace.h"

#define RUNS 15
#define HORSES 200
#define VISITS 3

/* What a process tells of itself, on one line: microseconds of the system's clock. */
enum { LOADED, STARTED, ACTIVATED, LAID_OUT, DRAWN, N_STAGES };
static const char *const stage_names[N_STAGES] = { "load", "start up", "make the window", "lay out", "draw" };

/* --- one run --- */

static gint64 stamp[N_STAGES];

static void
reached (int stage)
{
  if (stamp[stage] == 0)
    stamp[stage] = g_get_monotonic_time ();
}

static void
laid_out (GdkFrameClock *clock, gpointer data)
{
  reached (LAID_OUT);
}

static void
drawn (GdkFrameClock *clock, gpointer data)
{
  reached (DRAWN);
  for (int i = 0; i < N_STAGES; i++)
    printf ("%" G_GINT64_FORMAT " ", stamp[i]);
  fflush (stdout);
  exit (0);
}

static void
window_added (GtkApplication *app, GtkWindow *window)
{
  GdkFrameClock *clock;

  gtk_widget_realize (GTK_WIDGET (window));
  clock = gtk_widget_get_frame_clock (GTK_WIDGET (window));
  g_signal_connect_after (clock, "layout", G_CALLBACK (laid_out), NULL);
  g_signal_connect (clock, "after-paint", G_CALLBACK (drawn), NULL);
}

static void
started (GApplication *app, gpointer data)
{
  reached (STARTED);
}

static void
activated (GApplication *app, gpointer data)
{
  reached (ACTIVATED);
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

  reached (LOADED);
  setlocale (LC_ALL, "");
  if (bare)
    g_signal_connect (app, "activate", G_CALLBACK (bare_window), NULL);
  else
    g_application_set_flags (G_APPLICATION (app), G_APPLICATION_NON_UNIQUE);
  g_signal_connect_after (app, "startup", G_CALLBACK (started), NULL);
  g_signal_connect_after (app, "activate", G_CALLBACK (activated), NULL);
  g_signal_connect_after (app, "window-added", G_CALLBACK (window_added), NULL);
  return g_application_run (G_APPLICATION (app), 0, NULL);
}

/* --- a book of 200 horses --- */

static void
need (bool ok, const GError *error)
{
  if (ok)
    return;
  fprintf (stderr, "bench-start: %s\n", error ? error->message : "that did not work");
  exit (1);
}

/* The foot on PHOTO, as every foot of the book will be. Transfer full. */
static PrJob *
foot_of (const char *file)
{
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  PrJob *job = pr_job_new ();
  GError *error = NULL;
  PrPhoto *photo = pr_photo_read (file, &error);
  PrTracing *tracing = photo ? pr_trace_photo (photo, &options, NULL, NULL, NULL, &error) : NULL;

  need (tracing && pr_job_take_tracing (job, tracing, &error), error);
  need (pr_job_set_style (job, g_ptr_array_index (styles, 0), &error), error);
  pr_photo_free (photo);
  return job;
}

static char *
text_of (JsonNode *node)
{
  char *text = json_to_string (node, FALSE);

  json_node_unref (node);
  return text;
}

static PrBookId
add_visit (PrBook *book, PrBookId horse, int visit, const char *trace, const char *plan)
{
  g_autofree char *date = g_strdup_printf ("2026-%02d-15", visit + 1);
  PrBookId id = pr_book_add_visit (book, horse, date, NULL), foot = 0;

  for (int i = 0; i < 4; i++) {
    foot = pr_book_add_foot (book, id, (PrFoot) (PR_FOOT_LF + i), NULL);
    need (pr_book_set_trace (book, foot, trace, NULL) && pr_book_set_plan (book, foot, plan, NULL), NULL);
  }
  return foot;
}

/* In HOME's data folder, where the program finds it. */
static void
make_book (const char *home, const char *photo)
{
  g_autofree char *folder = g_build_filename (home, "pritchel", NULL);
  g_autofree char *file = g_build_filename (folder, "book.pritchel", NULL), *id = NULL, *bytes = NULL;
  g_autoptr (PrJob) job = foot_of (photo);
  g_autofree char *trace = text_of (pr_job_trace_json (job)), *plan = text_of (pr_job_plan_json (job));
  g_autoptr (PrBook) book = NULL;
  g_autoptr (GBytes) picture = NULL;
  gsize len;
  PrBookId foot = 0;

  g_mkdir_with_parents (folder, 0700);
  book = pr_book_open (file, NULL);
  need (book != NULL && g_file_get_contents (photo, &bytes, &len, NULL), NULL);
  for (int i = 0; i < HORSES; i++) {
    g_autofree char *name = g_strdup_printf ("Horse %03d of the yard", i);
    PrBookId horse = pr_book_add_horse (book, name, "", NULL);

    for (int v = 0; v < VISITS; v++)
      foot = add_visit (book, horse, v, trace, plan);
  }
  picture = g_bytes_new (bytes, len);
  id = g_strdup_printf ("%" G_GINT64_FORMAT, foot);
  need (pr_book_set_photo (book, foot, picture, "near-fore.jpg", NULL)
            && pr_book_set_setting (book, "last-foot", id, NULL),
        NULL);
}

/* The same with 10,000 horses. */
static void
make_big_book (const char *home)
{
  const KitBigBook how = KIT_BIG_BOOK;
  g_autofree char *folder = g_build_filename (home, "pritchel", NULL);
  g_autofree char *file = g_build_filename (folder, "book.pritchel", NULL), *id = NULL;
  g_autoptr (PrBook) book = NULL;

  g_mkdir_with_parents (folder, 0700);
  book = pr_book_open (file, NULL);
  need (book != NULL, NULL);
  id = g_strdup_printf ("%" G_GINT64_FORMAT, kit_big_book (book, &how));
  need (pr_book_set_setting (book, "last-foot", id, NULL), NULL);
}

static void
remove_book (const char *home)
{
  g_autofree char *folder = g_build_filename (home, "pritchel", NULL);
  g_autofree char *file = g_build_filename (folder, "book.pritchel", NULL);

  g_unlink (file);
  g_rmdir (folder);
  g_rmdir (home);
}

/* --- all runs --- */

typedef struct {
  const char *name, *home; /* NULL: the bare window */
  double total[RUNS], stage[N_STAGES][RUNS];
} Case;

static void
run_once (const char *self, Case *c, int run)
{
  const char *argv[] = { self, c->home ? "--ours" : "--bare", NULL };
  gint64 begin = g_get_monotonic_time (), before = begin;
  g_autofree char *told = NULL;
  g_autoptr (GError) error = NULL;
  char *at;

  if (c->home)
    g_setenv ("XDG_DATA_HOME", c->home, TRUE);
  if (!g_spawn_sync (NULL, (char **) argv, NULL, 0, NULL, NULL, &told, NULL, NULL, &error) || !*told) {
    fprintf (stderr, "%s did not draw: %s\n", c->name, error ? error->message : "it ended badly");
    exit (1);
  }
  at = told;
  for (int i = 0; i < N_STAGES; i++) {
    gint64 now = g_ascii_strtoll (at, &at, 10);

    c->stage[i][run] = (double) (now - before) / 1000;
    before = now;
  }
  c->total[run] = (double) (before - begin) / 1000;
}

static double
median (double value[RUNS])
{
  double sorted[RUNS];

  memcpy (sorted, value, sizeof sorted);
  qsort (sorted, RUNS, sizeof *sorted, by_value);
  return sorted[RUNS / 2];
}

static void
print_case (Case *c, const Case *bare)
{
  double ratio[RUNS];

  for (int i = 0; i < RUNS; i++)
    ratio[i] = c->total[i] / bare->total[i];
  printf ("%-22s %5.0f ms   ratio %.2f  ", c->name, median (c->total), median (ratio));
  for (int i = 0; i < N_STAGES; i++)
    printf (" %s %.0f,", stage_names[i], median (c->stage[i]));
  printf ("\n");
}

int
main (int argc, char **argv)
{
  g_autofree char *empty = NULL, *full = NULL, *big = NULL;

  if (argc > 1 && (g_str_equal (argv[1], "--bare") || g_str_equal (argv[1], "--ours")))
    return start (g_str_equal (argv[1], "--bare"));
  empty = g_dir_make_tmp ("pritchel-start-XXXXXX", NULL);
  full = g_dir_make_tmp ("pritchel-start-XXXXXX", NULL);
  big = g_dir_make_tmp ("pritchel-start-XXXXXX", NULL);
  Case cases[] = { { .name = "bare window" },
                   { .name = "empty book", .home = empty },
                   { .name = "book of 200 horses", .home = full },
                   { .name = "book of 10,000 horses", .home = big } };
  size_t n = argc > 1 ? 4 : 2;

  if (argc > 1) {
    make_book (full, argv[1]);
    make_big_book (big);
  }
  for (int run = -1; run < RUNS; run++) /* libraries and fonts come from the disk once */
    for (size_t i = 0; i < n; i++)
      run_once (argv[0], &cases[i], MAX (run, 0));
  for (size_t i = 0; i < n; i++)
    print_case (&cases[i], &cases[0]);
  printf ("medians of %d\n", RUNS);
  remove_book (empty);
  remove_book (full);
  remove_book (big);
  return 0;
}
