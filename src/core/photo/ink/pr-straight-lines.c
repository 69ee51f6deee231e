/* SPDX-License-Identifier: GPL-3.0-or-later */
/* By a Hough transform of the strongest ridges, each peak of which is walked along on the ridge map: only what
 * stays close to a straight line over a window of it is wiped out. */
#include "pr-straight-lines.h"

#include <string.h>

#include "pr-ink-wipe.h"

/* Tried on our own scenes of boards on planks. */
/* Side of a cell, mm, and the most cells that vote, the strongest. */
#define CELL_MM 2.0
#define CELLS_MOST 6000
/* Directions, half a degree apart, and how far apart the lines of one are, mm. */
#define N_TURNS 360
#define APART_MM 2.0
/* Peaks that are walked along, the first of this many cells or more. */
#define PEAKS 60
#define VOTES_LEAST 24
/* Ridge that is a line at all, over noise and by itself. */
#define OVER_NOISE 2.0
#define RIDGE_LEAST 0.025
/* Along a peak's line, mm: from place to place, to both sides, and the pitch there. */
#define STEP_MM 1.0
#define SIDE_MM 3.0
#define PITCH_MM 0.5
/* A window of so many places is straight when they lie so close to their own line (RMS), mm, and so many are there; where
 * strokes are broad (chalk), it is half as long again. A quarter of 200 mm radius strays 0.8 mm over 64, and 1.7 over 96. */
#define WINDOW 64
#define WINDOW_BROAD 96
#define STRAIGHT_RMS 0.35
#define PLACES_LEAST 0.85
/* What is straight is wiped out so far to both sides, mm. */
#define WIPE_MM 3.0
#define BINS 1024

typedef struct {
  PrInkMap *ink;
  float least;
  int cells_x, cells_y, n_rho;
  double rho_low;
  int window;
  GArray *cell; /* int: index */
  int *votes;   /* by direction and distance */
  double dir[N_TURNS][2];
} Hough;

static float
cell_ridge (const PrInkMap *ink, int x, int y)
{
  int k = (int) (CELL_MM * ink->ridge_scale);
  float most = 0;

  for (int j = 0; j < k; j++)
    for (int i = 0; i < k; i++) {
      int px = (int) (x * CELL_MM * ink->ridge_scale) + i, py = (int) (y * CELL_MM * ink->ridge_scale) + j;
      if (px < ink->ridge_width && py < ink->ridge_height)
        most = fmaxf (most, ink->ridge[(size_t) py * (size_t) ink->ridge_width + (size_t) px]);
    }
  return most;
}

/* The strongest cells. */
static void
take_cells (Hough *h)
{
  int n = h->cells_x * h->cells_y, count[BINS] = { 0 }, seen = 0, bin = BINS;
  g_autofree float *ridge = g_new (float, n);

  for (int i = 0; i < n; i++) {
    ridge[i] = cell_ridge (h->ink, i % h->cells_x, i / h->cells_x);
    count[CLAMP ((int) (ridge[i] * BINS), 0, BINS - 1)]++;
  }
  while (bin > 0 && seen + count[bin - 1] <= CELLS_MOST)
    seen += count[--bin];
  h->least = fmaxf (h->least, (float) bin / BINS);
  h->cell = g_array_new (FALSE, FALSE, sizeof (int));
  for (int i = 0; i < n; i++)
    if (ridge[i] > h->least)
      g_array_append_val (h->cell, i);
}

static void
vote (Hough *h)
{
  double far = CELL_MM * hypot (h->cells_x, h->cells_y);

  h->rho_low = -far;
  h->n_rho = (int) (2 * far / APART_MM) + 1;
  h->votes = g_new0 (int, N_TURNS * h->n_rho);
  for (int k = 0; k < N_TURNS; k++) {
    h->dir[k][0] = cos (G_PI * k / N_TURNS);
    h->dir[k][1] = sin (G_PI * k / N_TURNS);
  }
  for (guint c = 0; c < h->cell->len; c++) {
    int i = g_array_index (h->cell, int, c);
    double x = (i % h->cells_x + 0.5) * CELL_MM, y = (i / h->cells_x + 0.5) * CELL_MM;
    for (int k = 0; k < N_TURNS; k++) {
      double rho = x * h->dir[k][1] - y * h->dir[k][0];
      h->votes[k * h->n_rho + (int) ((rho - h->rho_low) / APART_MM)]++;
    }
  }
}

/* How far to the side of P, across (-dy, dx), the strongest ridge is; NAN where there is none. */
static double
aside (const Hough *h, double x, double y, const double *dir)
{
  double at = NAN;
  float most = h->least / 2;

  for (double u = -SIDE_MM * h->ink->broad; u <= SIDE_MM * h->ink->broad; u += PITCH_MM) {
    float v = (float) pr_ink_map_ridge (h->ink, x + u * dir[1], y - u * dir[0]);
    if (v > most) {
      most = v;
      at = u;
    }
  }
  return at;
}

/* The straight line U = A + B i through a window of places; FALSE where too few are there or they stray. */
static bool
is_straight (const Hough *h, const double *u, double *a, double *b)
{
  double n = 0, x = 0, y = 0, xx = 0, xy = 0, off = 0;

  for (int i = 0; i < h->window; i++)
    if (!isnan (u[i])) {
      n += 1;
      x += i;
      y += u[i];
      xx += (double) i * i;
      xy += i * u[i];
    }
  if (n < PLACES_LEAST * h->window)
    return false;
  *b = (n * xy - x * y) / (n * xx - x * x);
  *a = (y - *b * x) / n;
  for (int i = 0; i < h->window; i++)
    if (!isnan (u[i]))
      off += pow (u[i] - *a - *b * i, 2);
  return sqrt (off / n) < STRAIGHT_RMS * h->ink->broad;
}

/* Along the line of direction DIR that is RHO from the corner. */
static void
walk (Hough *h, const double *dir, double rho)
{
  double far = CELL_MM * hypot (h->cells_x, h->cells_y), ox = rho * dir[1], oy = -rho * dir[0];
  int n = (int) (2 * far / STEP_MM);
  g_autofree double *u = g_new (double, n);

  for (int i = 0; i < n; i++) {
    double s = i * STEP_MM - far;
    u[i] = aside (h, ox + s * dir[0], oy + s * dir[1], dir);
  }
  for (int i = 0; i + h->window <= n; i += h->window / 4) {
    double a, b;
    if (!is_straight (h, u + i, &a, &b))
      continue;
    for (int k = 0; k < h->window; k++) {
      double s = (i + k) * STEP_MM - far, off = a + b * k;
      pr_ink_wipe_at (h->ink, (PrSheetPt){ ox + s * dir[0] + off * dir[1], oy + s * dir[1] - off * dir[0] },
                      WIPE_MM * h->ink->broad);
    }
  }
}

/* The peak with the most votes; it and those beside it have none from now on. */
static int
next_peak (Hough *h, int *turn, double *rho)
{
  int best = 0, n = N_TURNS * h->n_rho;

  for (int i = 1; i < n; i++)
    if (h->votes[i] > h->votes[best])
      best = i;
  int votes = h->votes[best], k = best / h->n_rho, r = best % h->n_rho;
  *turn = k;
  *rho = h->rho_low + (r + 0.5) * APART_MM;
  for (int j = MAX (k - 2, 0); j <= MIN (k + 2, N_TURNS - 1); j++)
    for (int i = MAX (r - 1, 0); i <= MIN (r + 1, h->n_rho - 1); i++)
      h->votes[j * h->n_rho + i] = 0;
  return votes;
}

void
pr_straight_lines_wipe (PrInkMap *ink)
{
  Hough h = { .ink = ink,
              .window = ink->broad > 1 ? WINDOW_BROAD : WINDOW,
              .least = (float) fmax (OVER_NOISE * ink->noise, RIDGE_LEAST),
              .cells_x = (int) (ink->ridge_width / ink->ridge_scale / CELL_MM),
              .cells_y = (int) (ink->ridge_height / ink->ridge_scale / CELL_MM) };
  double rho;
  int turn;

  if (h.cells_x < 1 || h.cells_y < 1)
    return;
  take_cells (&h);
  vote (&h);
  for (int i = 0; i < PEAKS && next_peak (&h, &turn, &rho) >= VOTES_LEAST; i++)
    walk (&h, h.dir[turn], rho);
  g_array_unref (h.cell);
  g_free (h.votes);
}
