/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What two visits on each other cost: laid, by each way; a frame of the overlay and of a plot over VISITS visits, as large as the
 * window shows them; and reading that many visits from a book. In the thread's own processor time. Printed, never asserted. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "by-value.h"
#include "kit.h"
#include "pr-visit-draw.h"
#include "pr-visit-plot.h"
#include "pr-visit-table.h"
#include "shelf.h"

#define ROUNDS 101
#define VISITS 100
#define WIDTH 1100
#define HEIGHT 700

static double
own_ms (void)
{
  struct timespec t;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &t);
  return (double) t.tv_sec * 1e3 + (double) t.tv_nsec / 1e6;
}

static void
report (const char *name, double *ms)
{
  qsort (ms, ROUNDS, sizeof *ms, by_value);
  printf ("%-34s median %7.2f ms   99th %7.2f ms\n", name, ms[ROUNDS / 2], ms[ROUNDS * 99 / 100]);
}

static void
lay (const PrJob *now, const PrJob *before, PrVisitLay way, const char *name)
{
  double ms[ROUNDS];

  for (int i = 0; i < ROUNDS; i++) {
    g_auto (PrVisitChange) change = { 0 };
    double start = own_ms ();

    pr_visit_change (&change, now, before, way, NULL);
    ms[i] = own_ms () - start;
  }
  report (name, ms);
}

static void
overlay (const PrJob *now, const PrJob *before, bool shoes, const char *name)
{
  g_auto (PrVisitChange) change = { 0 };
  const double scale = 4;
  const PrVisitLook look
      = { { &pr_ink_light, 1.6 / scale, 1, 1, PR_UNIT_MM }, PR_FACE_FOOT, shoes, 14.7 / scale, 0 };
  double ms[ROUNDS];

  pr_visit_change (&change, now, before, PR_VISIT_BEST, NULL);
  for (int i = 0; i < ROUNDS; i++) {
    cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, HEIGHT);
    cairo_t *cr = cairo_create (surface);
    double start = own_ms ();

    cairo_scale (cr, scale, scale);
    pr_draw_enter_foot (cr, now->sources.foot, PR_FACE_FOOT, WIDTH / 2.0 / scale, HEIGHT / 2.0 / scale);
    pr_draw_visit (cr, now, &change, &look);
    ms[i] = own_ms () - start;
    cairo_destroy (cr);
    cairo_surface_destroy (surface);
  }
  report (name, ms);
}

static void
plot (const PrVisitTable *table)
{
  const PrVisitPlotLook look = { &pr_ink_light, PR_UNIT_MM, 14.7, 1.2 };
  double ms[ROUNDS];

  for (int i = 0; i < ROUNDS; i++) {
    cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDTH, HEIGHT / 2);
    cairo_t *cr = cairo_create (surface);
    double start = own_ms ();

    pr_visit_plot_draw (cr, table, PR_VISIT_WIDTH, &look, WIDTH, HEIGHT / 2.0);
    ms[i] = own_ms () - start;
    cairo_destroy (cr);
    cairo_surface_destroy (surface);
  }
  report ("a frame of the plot, 100 visits", ms);
}

static void
fill (KitShelf *shelf, const PrJob *job)
{
  g_autoptr (GDateTime) first = g_date_time_new_utc (2016, 1, 7, 0, 0, 0);

  shelf->horse = pr_book_add_horse (shelf->book, "Pipwick", "", NULL);
  pr_book_begin (shelf->book, NULL);
  for (int i = 0; i < VISITS; i++) {
    g_autoptr (GDateTime) day = g_date_time_add_days (first, 35 * i);
    g_autofree char *date = g_date_time_format (day, "%Y-%m-%d");
    PrBookId visit = pr_book_add_visit (shelf->book, shelf->horse, date, NULL);

    pr_record_keep (shelf->book, pr_book_add_foot (shelf->book, visit, PR_FOOT_LF, NULL), job,
                    PR_PART_TRACE | PR_PART_PLAN, NULL);
  }
  pr_book_end (shelf->book, true, NULL);
}

int
main (void)
{
  const KitFoot small = KIT_FOOT,
                large = { .half_width = 66, .toe = 69, .back = 112, .heel = 65, .bulge = 2 };
  g_autoptr (PrJob) before = kit_styled (&small, PR_FOOT_LF, "plain-front");
  g_autoptr (PrJob) now = kit_styled (&large, PR_FOOT_LF, "plain-front");
  g_auto (PrVisitTable) table = { 0 };
  void *state = NULL;

  lay (now, before, PR_VISIT_BEST, "laid by best fit, shoes too");
  overlay (now, before, false, "a frame, foot on foot");
  overlay (now, before, true, "a frame, shoe on shoe");
  kit_shelf_set_up (&state);
  fill (state, now);
  double start = own_ms ();
  pr_visit_table_read (&table, ((KitShelf *) state)->book, ((KitShelf *) state)->horse, PR_FOOT_LF, NULL);
  printf ("%-34s        %7.2f ms\n", "100 visits read from the book", own_ms () - start);
  plot (&table);
  kit_shelf_tear_down (&state);
  return 0;
}
