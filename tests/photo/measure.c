/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "measure.h"

#include <stdlib.h>

#define GRID 24
/* What is further off than this must be doubted, and a doubt reaches so far beyond its ends; mm. */
#define OFF_MOST 1.0
#define DOUBT_REACH 1.5

/* Point of the tracing's frame in the scene's, TURNS quarters apart. */
static PrSheetPt
turned (PrSheetPt p, int turns, double w, double h)
{
  switch (turns) {
  case 1:
    return (PrSheetPt){ p.y, h - p.x };
  case 2:
    return (PrSheetPt){ w - p.x, h - p.y };
  case 3:
    return (PrSheetPt){ w - p.y, p.x };
  default:
    return p;
  }
}

static double
sheet_error (const PrTracing *t, const Scene *s, int turns, double w, double h, double *max)
{
  double sum = 0;

  *max = 0;
  for (int i = 0; i <= GRID; i++)
    for (int j = 0; j <= GRID; j++) {
      PrSheetPt p = { w * i / GRID, h * j / GRID };
      PrSheetPt q = turned (pr_camera_to_sheet (&t->camera, pr_camera_to_photo (&s->camera, p)), turns, w, h);
      double d = hypot (q.x - p.x, q.y - p.y);
      sum += d * d;
      *max = fmax (*max, d);
    }
  return sqrt (sum / ((GRID + 1) * (GRID + 1)));
}

static double
to_line (PrSheetPt p, const PrSheetPt *line, size_t n)
{
  double best = INFINITY;

  for (size_t i = 1; i < n; i++) {
    double dx = line[i].x - line[i - 1].x, dy = line[i].y - line[i - 1].y;
    double len2 = dx * dx + dy * dy;
    double t = len2 > 0 ? ((p.x - line[i - 1].x) * dx + (p.y - line[i - 1].y) * dy) / len2 : 0;
    t = fmin (fmax (t, 0), 1);
    best = fmin (best, hypot (p.x - line[i - 1].x - t * dx, p.y - line[i - 1].y - t * dy));
  }
  return best;
}

static int
compare (const void *a, const void *b)
{
  double d = *(const double *) a - *(const double *) b;
  return d < 0 ? -1 : d > 0;
}

static double
apart (PrSheetPt a, PrSheetPt b)
{
  return hypot (a.x - b.x, a.y - b.y);
}

static void
measure_line (Measure *m, const PrSheetPt *found, size_t n, const Scene *s)
{
  g_autofree double *d = g_new (double, n);
  PrSheetPt first = found[0], last = found[n - 1];

  for (size_t i = 0; i < n; i++) {
    d[i] = to_line (found[i], s->line, s->n_line);
    m->line_mean += d[i] / (double) n;
  }
  qsort (d, n, sizeof *d, compare);
  m->line_p95 = d[(size_t) (0.95 * (double) (n - 1))];
  m->line_max = d[n - 1];
  for (size_t i = 0; i < s->n_line; i += 2)
    m->miss_max = fmax (m->miss_max, to_line (s->line[i], found, n));
  bool swap = apart (first, s->line[0]) > apart (last, s->line[0]);
  m->swapped = swap;
  m->heel[0] = apart (swap ? last : first, s->line[0]);
  m->heel[1] = apart (swap ? first : last, s->line[s->n_line - 1]);
  m->has_line = true;
}

static bool
doubted (const PrTracing *t, double at)
{
  for (size_t i = 0; i < t->n_doubt; i++)
    if (at >= t->doubt[i].from_mm - DOUBT_REACH && at <= t->doubt[i].to_mm + DOUBT_REACH)
      return true;
  return false;
}

/* The found line far from the true one without a word: FOUND in the scene's frame. */
static double
silent (const PrTracing *t, const PrSheetPt *found, const Scene *s)
{
  double at = 0, sum = 0;

  for (size_t i = 1; i < t->n_outline; i++) {
    double side = apart (found[i - 1], found[i]);
    at += side;
    if (to_line (found[i], s->line, s->n_line) > OFF_MOST && !doubted (t, at))
      sum += side;
  }
  return sum;
}

static void
measure_marks (Measure *m, const PrDrawnMarks *d, const Scene *s, int turns, double w, double h)
{
  PrSheetPt a = turned (d->frog[0], turns, w, h), b = turned (d->frog[1], turns, w, h), apex = s->frog[1];
  PrSheetPt found = { (a.x + b.x) / 2, (a.y + b.y) / 2 };
  PrSheetPt base = { (s->frog[0].x + s->frog[2].x) / 2, (s->frog[0].y + s->frog[2].y) / 2 };
  double far = apart (apex, base);

  m->tick = apart (turned (d->toe, turns, w, h), s->toe);
  m->apex = apart (turned (d->frog_apex, turns, w, h), apex);
  m->base = fabs ((apex.x - base.x) * (found.y - base.y) - (apex.y - base.y) * (found.x - base.x)) / far;
}

void
measure_tracing (Measure *m, const PrTracing *t, const Scene *s, PrPaper paper)
{
  double w, h, max;
  int best = 0;

  *m = (Measure){ .sheet_rms = INFINITY };
  pr_paper_size (paper, &w, &h);
  for (int turns = 0; turns < 4; turns++) {
    double rms = sheet_error (t, s, turns, w, h, &max);
    if (rms < m->sheet_rms) {
      m->sheet_rms = rms;
      m->sheet_max = max;
      best = turns;
    }
  }
  if (t->n_outline == 0 || s->n_line == 0)
    return;
  g_autofree PrSheetPt *found = g_new (PrSheetPt, t->n_outline);
  for (size_t i = 0; i < t->n_outline; i++)
    found[i] = turned (t->outline[i], best, w, h);
  measure_line (m, found, t->n_outline, s);
  m->silent = silent (t, found, s);
  measure_marks (m, &t->drawn, s, best, w, h);
}

/* P, of N points in T's frame, on the true sheet. Transfer full. */
static PrSheetPt *
on_true_sheet (const PrTracing *t, const Scene *s, const PrSheetPt *p, size_t n)
{
  PrSheetPt *out = g_new (PrSheetPt, n);

  for (size_t i = 0; i < n; i++)
    out[i] = pr_camera_to_sheet (&s->camera, pr_camera_to_photo (&t->camera, p[i]));
  return out;
}

static double
mean_to_line (const PrSheetPt *p, size_t n, const PrSheetPt *line, size_t n_line)
{
  double sum = 0;

  for (size_t i = 0; i < n; i++)
    sum += to_line (p[i], line, n_line) / (double) n;
  return sum;
}

void
measure_line_in_photo (Measure *m, const PrTracing *t, const Scene *s)
{
  *m = (Measure){ .other = INFINITY };
  if (t->n_outline == 0 || s->n_line == 0)
    return;
  g_autofree PrSheetPt *found = on_true_sheet (t, s, t->outline, t->n_outline);
  measure_line (m, found, t->n_outline, s);
  m->silent = silent (t, found, s);
  if (s->n_other == 0)
    return;
  /* which of the two was taken is open */
  double first = mean_to_line (found, t->n_outline, s->other, s->n_other);
  bool swap = first < m->line_mean;
  if (swap)
    m->line_mean = first;
  if (t->n_other == 0)
    return;
  const PrFootLine *o = &t->other[0];
  g_autofree PrSheetPt *other = on_true_sheet (t, s, o->outline, o->n_outline);
  m->other = swap ? mean_to_line (other, o->n_outline, s->line, s->n_line)
                  : mean_to_line (other, o->n_outline, s->other, s->n_other);
}

PrTracing *
trace_scene (const Scene *scene, PrPaper paper, GError **error)
{
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  g_autoptr (PrPhoto) photo = pr_photo_decode (scene->jpeg, NULL, error);

  options.paper = paper;
  return photo != NULL ? pr_trace_photo (photo, &options, NULL, NULL, NULL, error) : NULL;
}

SweepArgs
sweep_args (int argc, char **argv, guint32 seeds)
{
  SweepArgs args = { .first = 1, .last = argc > 2 ? (guint32) atoi (argv[2]) : seeds };

  if (argc > 1 && strcmp (argv[1], "all") != 0)
    args.only = argv[1];
  if (argc > 2 && strchr (argv[2], '-') != NULL) {
    args.first = (guint32) atoi (argv[2]);
    args.last = (guint32) atoi (strchr (argv[2], '-') + 1);
  }
  return args;
}
