/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-doubts.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include "pr-seen-odds.h"

/* Stretches that are nearer than this are one; a shorter one is none, mm. */
#define JOIN_MM 4.0
#define LEAST_MM 1.5
/* A doubt is told this far beyond what it was seen on, mm. */
#define MARGIN_MM 1.0
/* The band along the edge, and what it is held against, mm within the edge. */
static const double band_mm[2] = { 0.8, 3.0 }, further_mm[2] = { 11.0, 15.0 };
#define BAND_STEP 0.5
/* Over so much of the edge (mm) it is darker than this share, and varies by less than the second. */
#define BAND_MM 30.0
#define BAND_DARKER 0.95
#define BAND_EVEN 0.10
/* Bands from more than this share of the edge on: then no part of it is sure. */
#define BANDS_MOST 0.06

static char *
why_of (PrSeenTrust trust)
{
  switch (trust) {
  case PR_SEEN_GLARE:
    return g_strdup (_ ("a reflection on the iron, as bright as the paper beside it"));
  case PR_SEEN_CLIP:
    return g_strdup (
        _ ("a clip may stand up here; it leans away from the camera and hides the edge behind it"));
  case PR_SEEN_RIVAL:
    return g_strdup (_ ("two edges side by side: the iron's, and a shadow's or a crease's"));
  case PR_SEEN_WEAK:
  case PR_SEEN_SURE:
  default:
    return g_strdup (_ ("iron and paper, or its shadow, can hardly be told apart here"));
  }
}

typedef struct {
  double from, to;
  size_t count[PR_SEEN_CLIP + 1];
} Stretch;

static PrSeenTrust
main_reason (const Stretch *s)
{
  PrSeenTrust best = PR_SEEN_WEAK;

  for (PrSeenTrust t = PR_SEEN_WEAK; t <= PR_SEEN_CLIP; t++)
    if (s->count[t] > s->count[best])
      best = t;
  return best;
}

static void
tell (PrSeen *seen, const PrSeenFound *found, const Stretch *s, double length)
{
  if (s->to - s->from < LEAST_MM)
    return;
  pr_seen_add_doubt (seen, found->edge, found->opening, MAX (s->from - MARGIN_MM, 0),
                     MIN (s->to + MARGIN_MM, length), why_of (main_reason (s)));
}

static double
length_of (const PrSeenFound *found)
{
  return found->closed ? pr_ring_length (found->path) : pr_path_length (found->path);
}

void
pr_seen_doubts_add (PrSeen *seen, const PrSeenFound *found)
{
  Stretch now = { -1, -1, { 0 } };
  double at = 0, length = length_of (found);

  for (size_t i = 0; i < found->path->n; i++) {
    at += i > 0 ? pr_pt_dist (found->path->p[i], found->path->p[i - 1]) : 0;
    if (found->trust[i] == PR_SEEN_SURE)
      continue;
    if (now.from >= 0 && at - now.to > JOIN_MM) {
      tell (seen, found, &now, length);
      now = (Stretch){ -1, -1, { 0 } };
    }
    now.from = now.from < 0 ? at : now.from;
    now.to = at;
    now.count[found->trust[i]]++;
  }
  if (now.from >= 0)
    tell (seen, found, &now, length);
}

/* Mean brightness of the upper face between two distances within the edge at P. */
static double
face_at (const PrSeenIron *iron, PrPt p, PrPt normal, const double mm[2])
{
  double sum = 0, n = 0;

  for (double in = mm[0]; in <= mm[1]; in += BAND_STEP) {
    PrPt at = pr_pt_along (p, normal, -in);
    float rgb[3];
    pr_seen_map_seen (iron->map, pr_pose_show (iron->pose, (PrSheetPt){ at.x, at.y }, iron->thick), rgb);
    sum += pr_seen_luma (rgb);
    n += 1;
  }
  return sum / n;
}

/* Is the band from point I on, N points long, evenly darker than what lies FURTHER in? */
static bool
is_dark_band (const double *band, const double *further, size_t i, size_t n, size_t all)
{
  double sum = 0, squares = 0, ratio = 0;

  for (size_t k = 0; k < n; k++) {
    double v = band[(i + k) % all];
    sum += v / (double) n;
    squares += v * v / (double) n;
    ratio += v / fmax (further[(i + k) % all], 0.02) / (double) n;
  }
  return ratio < BAND_DARKER && sqrt (fmax (squares - sum * sum, 0)) < BAND_EVEN * sum;
}

static void
doubt_all (GArray *trust, size_t from, size_t n, size_t all)
{
  for (size_t k = 0; k < n; k++)
    g_array_index (trust, uint8_t, (from + k) % all) = PR_SEEN_WEAK;
}

void
pr_seen_doubts_shadow (const PrPath *ring, const PrSeenIron *iron, GArray *trust)
{
  g_autofree PrPt *normal = pr_seen_edge_normals (ring, iron->hole);
  g_autofree double *band = g_new (double, ring->n), *further = g_new (double, ring->n);
  double step = pr_ring_length (ring) / (double) ring->n;
  size_t n = (size_t) (BAND_MM / step);

  for (size_t i = 0; i < ring->n; i++) {
    band[i] = face_at (iron, ring->p[i], normal[i], band_mm);
    further[i] = face_at (iron, ring->p[i], normal[i], further_mm);
  }
  size_t bands = 0;
  for (size_t i = 0; i < ring->n && n < ring->n; i++)
    if (is_dark_band (band, further, i, n, ring->n)) {
      bands++;
      doubt_all (trust, i, n, ring->n);
    }
  if ((double) bands > BANDS_MOST * (double) ring->n)
    doubt_all (trust, 0, ring->n, ring->n);
}
