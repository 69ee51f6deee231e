/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-paper-edges.h"

#include <math.h>
#include <string.h>
#include "pr-sampling.h"
#include "pr-subpixel-edge.h"

/* Where no source is named: chosen, measured on tests/scene. */
/* Profiles along an edge, on this part of it: the rest is for corners that are turned up. */
#define PLACES 64
#define SPARE 0.06
/* An edge is sought from so far inside of where the print has it (the check bars down the sides begin 7 mm from
 * it; above and below nothing is printed for 9, and Letter is that much shorter than A4 on both sides) to so
 * far outside (a print at 92 %, set to one side, on A3), mm, at this pitch. */
#define INSIDE 9.75
#define INSIDE_SIDES 6.0
#define OUTSIDE 34.0
#define PITCH 0.25
#define STEPS 175 /* (INSIDE + OUTSIDE) / PITCH */
/* Means over so many samples to both sides of a step; a step is at least so many levels, and at least this share of the
 * paper's own brightness. */
#define MEAN 3
#define STEP_LEAST 6.0
#define STEP_SHARE 0.04
#define CANDIDATES 5
/* Samples beside each other along the edge, averaged, and how far apart, mm. */
#define BESIDE 3
#define BESIDE_MM 0.4
/* Slants tried to both sides, in pitches over the whole edge: a sheet fed askew by 2 degrees, or bent. */
#define SLANTS 40
/* Of the places this many must lie on the line, and of those that the best line has this share: of such lines
 * the innermost is the paper's, as what lies beyond it is no paper. */
#define SEEN_LEAST 0.42
#define RIVAL_SHARE 0.7
/* The edge's exact place: so far to both sides of the line, mm, sampled this finely in pixels. */
#define FINE_MM 1.3
#define FINE_PX 0.5
#define FINE_MOST 121
/* Halves of the edge's ends and of its middle, shares, for its bow. */
#define BOW_END 0.25

typedef struct {
  const PrCamera *cam;
  const PrPhoto *photo;
  const uint8_t *grey;     /* NULL: the least of the three colours, which tells white from pale */
  PrSheetPt a, along, out; /* mm; a begins the edge as printed; units */
  double length, inside;
} Edge;

typedef struct {
  int n;
  double at[CANDIDATES]; /* pitches from the innermost */
} Steps;

static double
level (const Edge *e, PrPx p)
{
  const PrPhoto *photo = e->photo;
  double least = 255;

  if (e->grey != NULL)
    return pr_sample_grey (e->grey, photo->width, photo->height, p.x, p.y);
  int x = CLAMP ((int) (p.x + 0.5), 0, photo->width - 1), y = CLAMP ((int) (p.y + 0.5), 0, photo->height - 1);
  for (int c = 0; c < 3; c++)
    least = fmin (least, photo->rgb[(size_t) y * photo->stride + 3 * (size_t) x + (size_t) c]);
  return least;
}

static bool
in_picture (const Edge *e, PrPx p)
{
  return p.x >= 1 && p.y >= 1 && p.x <= e->photo->width - 2 && p.y <= e->photo->height - 2;
}

/* The photo's pixel at S along the edge and T outside of it, mm. */
static PrPx
pixel_at (const Edge *e, double s, double t)
{
  return pr_camera_to_photo (e->cam, (PrSheetPt){ e->a.x + s * e->along.x + t * e->out.x,
                                                  e->a.y + s * e->along.y + t * e->out.y });
}

static double
along_at (const Edge *e, int place)
{
  return e->length * (SPARE + (1 - 2 * SPARE) * place / (PLACES - 1));
}

/* Levels across the edge at a place; how many, as far as the picture goes. */
static int
profile (const Edge *e, int place, double v[STEPS])
{
  double s = along_at (e, place);

  memset (v, 0, STEPS * sizeof *v);
  for (int k = 0; k < BESIDE; k++) {
    double beside = s + (k - BESIDE / 2) * BESIDE_MM;
    /* the lens bends so short a way by less than a pixel: two ends and the middle tell the rest */
    PrPx p[3];
    for (int i = 0; i < 3; i++)
      p[i] = pixel_at (e, beside, -e->inside + i * STEPS * PITCH / 2);
    for (int i = 0; i < STEPS; i++) {
      double u = 2.0 * i / STEPS, w0 = (u - 1) * (u - 2) / 2, w1 = u * (2 - u), w2 = u * (u - 1) / 2;
      PrPx at = { w0 * p[0].x + w1 * p[1].x + w2 * p[2].x, w0 * p[0].y + w1 * p[1].y + w2 * p[2].y };
      if (!in_picture (e, at))
        return i;
      v[i] += level (e, at) / BESIDE;
    }
  }
  return STEPS;
}

/* Steps from bright to dark on the way out, the innermost first. */
static void
find_steps (const Edge *e, int place, Steps *steps)
{
  double v[STEPS], d[STEPS] = { 0 }, white = 0;
  int n = profile (e, place, v);

  steps->n = 0;
  for (int i = 0; i < 2 * MEAN && i < n; i++)
    white += v[i] / (2 * MEAN);
  for (int i = MEAN; i + MEAN < n; i++)
    for (int k = 1; k <= MEAN; k++)
      d[i] += (v[i - k] - v[i + k]) / MEAN;
  for (int i = MEAN + 1; i + MEAN + 1 < n && steps->n < CANDIDATES; i++)
    if (d[i] >= d[i - 1] && d[i] > d[i + 1] && d[i] > fmax (STEP_LEAST, STEP_SHARE * white))
      steps->at[steps->n++] = i;
}

static bool
has_step (const Steps *steps, double at)
{
  for (int k = 0; k < steps->n; k++)
    if (fabs (steps->at[k] - at) <= 1.5)
      return true;
  return false;
}

static double
line_at (double first, double slant, int place)
{
  return first + slant * place / (PLACES - 1);
}

static int
support (const Steps *steps, double first, double slant)
{
  int n = 0;

  for (int i = 0; i < PLACES; i++)
    n += has_step (&steps[i], line_at (first, slant, i));
  return n;
}

/* The innermost of the lines that enough steps lie on. */
static bool
innermost (const Steps *steps, double *first, double *slant)
{
  g_autofree short *votes = g_new0 (short, (2 * SLANTS + 1) * (STEPS + 1));
  int most = 0;

  /* votes for where the line crosses the middle of the edge, by slant */
  for (int i = 0; i < PLACES; i++)
    for (int k = 0; k < steps[i].n; k++)
      for (int s = -SLANTS; s <= SLANTS; s++) {
        int at = (int) (steps[i].at[k] - s * ((double) i / (PLACES - 1) - 0.5) + 0.5);
        if (at >= 0 && at <= STEPS)
          votes[(s + SLANTS) * (STEPS + 1) + at]++;
      }
  for (int at = 1; at < STEPS; at++)
    for (int s = 0; s <= 2 * SLANTS; s++) {
      const short *v = votes + s * (STEPS + 1) + at;
      most = MAX (most, v[-1] + v[0] + v[1]);
    }
  int wanted = (int) fmax (SEEN_LEAST * PLACES, RIVAL_SHARE * most), best = 0;
  for (int at = 1; at < STEPS; at++) {
    for (int s = 0; s <= 2 * SLANTS; s++) {
      const short *v = votes + s * (STEPS + 1) + at;
      int n = v[-1] + v[0] + v[1];
      if (n < wanted || n < best)
        continue;
      best = n;
      *slant = s - SLANTS;
      *first = at - *slant / 2;
    }
    if (best > 0 && at > *first + *slant / 2 + 2) /* the votes about the first such line are all seen */
      break;
  }
  return best > 0 && support (steps, *first, *slant) >= SEEN_LEAST * PLACES;
}

/* Where the edge lies near T (mm outside) at a place: the middle of how the brightness falls. */
static bool
exact (const Edge *e, double s, double t, PrPx *found)
{
  PrPx p = pixel_at (e, s, t - FINE_MM), q = pixel_at (e, s, t + FINE_MM);
  double len = hypot (q.x - p.x, q.y - p.y), v[FINE_MOST], top = 0, mass = 0, moment = 0;
  int n = (int) fmin (len / FINE_PX, FINE_MOST - 1), peak = 0;

  if (n < 6 || !in_picture (e, p) || !in_picture (e, q))
    return false;
  for (int i = 0; i <= n; i++)
    v[i] = level (e, (PrPx){ p.x + (q.x - p.x) * i / n, p.y + (q.y - p.y) * i / n });
  for (int i = 2; i + 2 <= n; i++) {
    double d = v[i - 2] - v[i + 2];
    if (d > top) {
      top = d;
      peak = i;
    }
  }
  if (top < STEP_LEAST)
    return false;
  for (int i = MAX (2, peak - 8); i + 2 <= n && i <= peak + 8; i++) {
    double w = v[i - 2] - v[i + 2] - top / 3;
    if (w > 0) {
      mass += w;
      moment += w * i;
    }
  }
  double at = moment / mass / n;
  *found = (PrPx){ p.x + (q.x - p.x) * at, p.y + (q.y - p.y) * at };
  return true;
}

/* Mean of OUT over the places of share FROM to TO that count; NAN without any. */
static double
mean_between (const PrPx *p, const bool *used, size_t n, double from, double to)
{
  double sum = 0;
  int count = 0;

  for (size_t i = 0; i < n; i++)
    if (used[i] && p[i].x >= from && p[i].x <= to) {
      sum += p[i].y;
      count++;
    }
  return count > 2 ? sum / count : NAN;
}

/* A straight line through what was found, in mm: x along the edge, y outside of it. */
static bool
lay_line (const Edge *e, const PrPx *p, size_t n, double *out, double *bow)
{
  bool used[PLACES];
  PrLine line;

  if (n < SEEN_LEAST * PLACES || !pr_line_fit (&line, p, n, used))
    return false;
  *out = (line.c - line.a * e->length / 2) / line.b;
  double l = e->length, near = mean_between (p, used, n, 0, BOW_END * l);
  double mid = mean_between (p, used, n, l / 2 - BOW_END * l / 2, l / 2 + BOW_END * l / 2);
  double far = mean_between (p, used, n, l - BOW_END * l, l);
  *bow = isnan (near + mid + far) ? 0 : mid - (near + far) / 2;
  return true;
}

static bool
measure (const Edge *e, double *out, double *bow)
{
  g_autofree Steps *steps = g_new0 (Steps, PLACES);
  double first, slant;
  PrPx p[PLACES];
  size_t n = 0;

  for (int i = 0; i < PLACES; i++)
    find_steps (e, i, &steps[i]);
  if (!innermost (steps, &first, &slant))
    return false;
  for (int i = 0; i < PLACES; i++) {
    double s = along_at (e, i), at = line_at (first, slant, i);
    PrPx px;
    if (!has_step (&steps[i], at) || !exact (e, s, -e->inside + at * PITCH, &px))
      continue;
    PrSheetPt mm = pr_camera_to_sheet (e->cam, px);
    double x = mm.x - e->a.x, y = mm.y - e->a.y;
    p[n++] = (PrPx){ x * e->along.x + y * e->along.y, x * e->out.x + y * e->out.y };
  }
  return lay_line (e, p, n, out, bow);
}

void
pr_paper_edges_find (PrPaperEdges *edges, const PrCamera *cam, PrPaper paper, const PrPhoto *photo,
                     const uint8_t *grey)
{
  double w, h;

  pr_paper_size (paper, &w, &h);
  const Edge edge[4] = { { cam, photo, grey, { 0, 0 }, { 1, 0 }, { 0, -1 }, w, INSIDE },
                         { cam, photo, grey, { w, 0 }, { 0, 1 }, { 1, 0 }, h, INSIDE_SIDES },
                         { cam, photo, grey, { 0, h }, { 1, 0 }, { 0, 1 }, w, INSIDE },
                         { cam, photo, grey, { 0, 0 }, { 0, 1 }, { -1, 0 }, h, INSIDE_SIDES } };
  *edges = (PrPaperEdges){ 0 };
  for (int i = 0; i < 4; i++) {
    Edge by_colour = edge[i];
    by_colour.grey = NULL;
    edges->seen[i] = measure (&edge[i], &edges->out[i], &edges->bow[i])
                     || measure (&by_colour, &edges->out[i], &edges->bow[i]);
  }
}

void
pr_paper_edges_shares (const PrPaperEdges *edges, PrPaper paper, double share[2])
{
  double size[2];

  pr_paper_size (paper, &size[0], &size[1]);
  for (int k = 0; k < 2; k++) {
    int a = k == 0 ? 3 : 0, b = k == 0 ? 1 : 2;
    bool both = edges->seen[a] && edges->seen[b];
    share[k] = both ? size[k] / (size[k] + edges->out[a] + edges->out[b]) : 0;
  }
}
