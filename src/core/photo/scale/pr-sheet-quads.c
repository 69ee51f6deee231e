/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sheet-quads.h"
#include "pr-work.h"
#include "pr-number-order.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

/* Long side of the small copy, pixels: a sheet's edge is then still straight to a pixel under a strong lens, and
 * paper's grain is gone. All that follows is in its pixels, and tried on our own scenes. */
#define SMALL 720
/* Least gradient (levels a pixel, smoothed) of an edge, and the most that counts. */
#define EDGE_LEAST 2.5f
#define EDGE_FULL 12.0f
/* Directions told apart, a degree each, and the width of a bin of distances. */
#define N_ANGLES 360
#define RHO_STEP 2
/* An edge votes for the directions within so many degrees of its own, with this less for each, and for the bins
 * of distance beside its own with this share, since the lens bends the edges. */
#define VOTE_DEG 2
#define VOTE_LESS 0.2
#define VOTE_BESIDE 0.6f
/* A line has votes for this share of the short side at the least. */
#define VOTES_LEAST 0.05
/* Lines kept, and how unlike they must be: degrees and pixels. */
#define LINES 44
#define UNLIKE_DEG 4
#define UNLIKE_PX 9
/* Along a line every pixel is asked for an edge within REACH, turned by at most TURN (cosine of 21 degrees). */
#define REACH 4
#define TURN_COS 0.93f
/* Two sides of a sheet that cross are turned by more than this: sine of 17 degrees; and one to the next by
 * between these, degrees: 90 as they are, the rest is perspective. */
#define CROSS_SINE 0.3
#define TURN_LEAST_DEG 50
#define TURN_MOST_DEG 130
/* Share of the picture a sheet must fill, least support of a side and of all. */
#define AREA_LEAST 0.10
#define SIDE_LEAST 0.35
#define ALL_LEAST 0.55
/* The opposite corners lie inside of a side by this share of its length at the least. */
#define OPPOSITE 0.1
/* Beyond its corners, for this share of its length, a side should end: what of it goes on there takes so
 * much of the score, at both ends of all four. */
#define BEYOND 0.12
#define BEYOND_WEIGHT 0.35
/* How far inside a side the paper is looked at (share of the long side), and how bright it must be
 * against the middle. */
#define STRIP 0.014
#define STRIP_LIKE 0.72f
/* Or how much brighter than what is as far outside, and how dark the deepest shadow. */
#define STRIP_OVER 1.35f
#define STRIP_SHADED 0.25f
/* As far inside a side it is brighter than outside by this in full, and what of the score it makes. */
#define STEP_OVER 0.12
#define STEP_WEIGHT 0.3
/* Corners may lie outside by this share of the long side: told as such later. */
#define OUTSIDE 0.04
/* Two quadrilaterals whose corners are all closer than this share are one. */
#define SAME 0.06

typedef struct {
  int w, h;
  double scale; /* photo pixels per small pixel */
  float *plane, *gx, *gy;
  float *edge; /* strength where an edge runs, 0 elsewhere */
} Small;

typedef struct {
  double angle, rho; /* x cos + y sin = rho; the normal points to the bright side */
  double nx, ny;
  float votes;
  float *sum; /* running support along the line, from -far to +far */
} Line;

static void
shrink (Small *s, const uint8_t *plane, int width, int height)
{
  int k = MAX (1, (MAX (width, height) + SMALL - 1) / SMALL);

  s->w = width / k;
  s->h = height / k;
  s->scale = k;
  gsize n = (gsize) s->w * (gsize) s->h;
  s->plane = pr_work_floats (n);
  for (int y = 0; y < s->h * k; y++) {
    const uint8_t *p = plane + (size_t) y * (size_t) width;
    float *to = s->plane + (size_t) (y / k) * (size_t) s->w;
    for (int x = 0; x < s->w; x++, p += k) {
      int sum = 0;
      for (int i = 0; i < k; i++)
        sum += p[i];
      to[x] += (float) sum / (float) (k * k);
    }
  }
}

/* Sobel gradients, levels a pixel. */
static void
gradients (Small *s)
{
  ptrdiff_t w = s->w;
  gsize n = (gsize) s->w * (gsize) s->h;

  s->gx = pr_work_floats (n);
  s->gy = pr_work_floats (n);
  for (int y = 1; y < s->h - 1; y++)
    for (int x = 1; x < s->w - 1; x++) {
      ptrdiff_t i = y * w + x;
      const float *p = s->plane + i;
      s->gx[i] = (p[1 - w] + 2 * p[1] + p[1 + w] - p[-1 - w] - 2 * p[-1] - p[-1 + w]) / 8;
      s->gy[i] = (p[w - 1] + 2 * p[w] + p[w + 1] - p[-w - 1] - 2 * p[-w] - p[-w + 1]) / 8;
    }
}

/* Local maxima of the gradient in its own direction. */
static void
thin_edges (Small *s)
{
  ptrdiff_t w = s->w;
  gsize n = (gsize) s->w * (gsize) s->h;

  s->edge = pr_work_floats (n);
  for (int y = 2; y < s->h - 2; y++)
    for (int x = 2; x < s->w - 2; x++) {
      ptrdiff_t i = y * w + x;
      float gx = s->gx[i], gy = s->gy[i], m = hypotf (gx, gy);
      if (m < EDGE_LEAST)
        continue;
      ptrdiff_t off = lroundf (gy / m) * w + lroundf (gx / m);
      if (m >= hypotf (s->gx[i + off], s->gy[i + off]) && m > hypotf (s->gx[i - off], s->gy[i - off]))
        s->edge[i] = MIN (m, EDGE_FULL) / EDGE_FULL;
    }
}

static void
small_clear (Small *s)
{
  g_free (s->plane);
  g_free (s->gx);
  g_free (s->gy);
  g_free (s->edge);
}

static int
n_rho (const Small *s)
{
  return 2 * ((int) hypot (s->w, s->h) / RHO_STEP + 2);
}

static void
vote (const Small *s, float *acc)
{
  int nr = n_rho (s);
  double across[N_ANGLES], down[N_ANGLES];

  for (int i = 0; i < N_ANGLES; i++) {
    across[i] = cos (i * G_PI / (N_ANGLES / 2));
    down[i] = sin (i * G_PI / (N_ANGLES / 2));
  }

  for (int y = 0; y < s->h; y++)
    for (int x = 0; x < s->w; x++) {
      size_t i = (size_t) y * (size_t) s->w + (size_t) x;
      if (s->edge[i] <= 0)
        continue;
      int a = (int) lround (atan2 (s->gy[i], s->gx[i]) * 180 / G_PI);
      for (int d = -VOTE_DEG; d <= VOTE_DEG; d++) {
        int angle = (a + d + 2 * N_ANGLES) % N_ANGLES;
        double rho = x * across[angle] + y * down[angle];
        int r = (int) floor (rho / RHO_STEP) + nr / 2;
        float v = s->edge[i] * (float) (1 - VOTE_LESS * abs (d));
        for (int k = -1; k <= 1; k++)
          if (r + k >= 0 && r + k < nr)
            acc[angle * nr + r + k] += v * (k == 0 ? 1 : VOTE_BESIDE);
      }
    }
}

/* The bin of most votes among the N of one direction. */
static int
most_voted (const float *acc, int n)
{
  int best = 0;

  for (int i = 1; i < n; i++)
    if (acc[i] > acc[best])
      best = i;
  return best;
}

static int
strongest_lines (const Small *s, Line *line)
{
  int nr = n_rho (s), n = 0, most[N_ANGLES];
  g_autofree float *acc = g_new0 (float, (gsize) N_ANGLES *(gsize) nr);

  vote (s, acc);
  for (int a = 0; a < N_ANGLES; a++)
    most[a] = most_voted (acc + a * nr, nr);
  while (n < LINES) {
    int a = 0;
    for (int i = 1; i < N_ANGLES; i++)
      if (acc[i * nr + most[i]] > acc[a * nr + most[a]])
        a = i;
    int r = most[a], best = a * nr + r;
    if (acc[best] < VOTES_LEAST * MIN (s->w, s->h))
      break;
    double t = a * G_PI / 180;
    line[n++] = (Line){
      .angle = t, .rho = (r - nr / 2 + 0.5) * RHO_STEP, .nx = cos (t), .ny = sin (t), .votes = acc[best]
    };
    for (int d = -UNLIKE_DEG; d <= UNLIKE_DEG; d++) {
      int angle = (a + d + N_ANGLES) % N_ANGLES;
      for (int k = -UNLIKE_PX / RHO_STEP; k <= UNLIKE_PX / RHO_STEP; k++)
        if (r + k >= 0 && r + k < nr)
          acc[angle * nr + r + k] = 0;
      most[angle] = most_voted (acc + angle * nr, nr);
    }
  }
  return n;
}

static int
far_end (const Small *s)
{
  return (int) hypot (s->w, s->h) + 2;
}

/* Is there an edge near (x, y) whose bright side lies along the line's normal? */
static bool
edge_near (const Small *s, const Line *l, double x, double y)
{
  for (int k = -REACH; k <= REACH; k++) {
    int ix = (int) lround (x + k * l->nx), iy = (int) lround (y + k * l->ny);
    if (ix < 1 || iy < 1 || ix >= s->w - 1 || iy >= s->h - 1)
      continue;
    size_t i = (size_t) iy * (size_t) s->w + (size_t) ix;
    if (s->edge[i] <= 0)
      continue;
    float m = hypotf (s->gx[i], s->gy[i]);
    if (s->gx[i] * (float) l->nx + s->gy[i] * (float) l->ny > TURN_COS * m)
      return true;
  }
  return false;
}

static void
run_along (const Small *s, Line *l)
{
  int far = far_end (s);

  l->sum = g_new (float, 2 * (gsize) far + 2);
  l->sum[0] = 0;
  for (int t = -far; t <= far; t++) {
    double x = l->rho * l->nx - t * l->ny, y = l->rho * l->ny + t * l->nx;
    bool in = x >= 1 && y >= 1 && x < s->w - 1 && y < s->h - 1;
    l->sum[t + far + 1] = l->sum[t + far] + (in && edge_near (s, l, x, y) ? 1.0f : 0);
  }
}

/* Support between two points of the line. */
static double
support (const Small *s, const Line *l, PrPx a, PrPx b)
{
  int far = far_end (s);
  double ta = -a.x * l->ny + a.y * l->nx, tb = -b.x * l->ny + b.y * l->nx;
  int from = CLAMP ((int) floor (fmin (ta, tb)), -far, far);
  int to = CLAMP ((int) ceil (fmax (ta, tb)), -far, far);

  return to > from ? (l->sum[to + far] - l->sum[from + far]) / (to - from) : 0;
}

static bool
cross (const Line *a, const Line *b, PrPx *at)
{
  double det = a->nx * b->ny - a->ny * b->nx;

  if (fabs (det) < CROSS_SINE)
    return false;
  *at = (PrPx){ (a->rho * b->ny - a->ny * b->rho) / det, (a->nx * b->rho - a->rho * b->nx) / det };
  return true;
}

static bool
inside_picture (const Small *s, PrPx p)
{
  double m = OUTSIDE * MAX (s->w, s->h);
  return p.x > -m && p.y > -m && p.x < s->w + m && p.y < s->h + m;
}

static double
area_of (const PrPx p[4])
{
  double sum = 0;
  for (int i = 0; i < 4; i++)
    sum += p[i].x * p[(i + 1) % 4].y - p[(i + 1) % 4].x * p[i].y;
  return sum / 2;
}

static PrPx
beyond (PrPx from, PrPx at, double share)
{
  return (PrPx){ at.x + (at.x - from.x) * share, at.y + (at.y - from.y) * share };
}

static float
at_pixel (const Small *s, double x, double y)
{
  int ix = CLAMP ((int) lround (x), 0, s->w - 1), iy = CLAMP ((int) lround (y), 0, s->h - 1);
  return s->plane[(size_t) iy * (size_t) s->w + (size_t) ix];
}

/* Brightness of the middle: median over a grid. */
static float
middle_level (const Small *s, const PrPx p[4])
{
  enum { N = 7 };
  float v[N * N];

  for (int i = 0; i < N * N; i++) {
    double a = 0.2 + 0.6 * (i % N) / (N - 1), b = 0.2 + 0.6 * (i / N) / (N - 1);
    double x = (1 - b) * ((1 - a) * p[0].x + a * p[1].x) + b * ((1 - a) * p[3].x + a * p[2].x);
    double y = (1 - b) * ((1 - a) * p[0].y + a * p[1].y) + b * ((1 - a) * p[3].y + a * p[2].y);
    v[i] = at_pixel (s, x, y);
  }
  qsort (v, N * N, sizeof *v, pr_rising_float);
  return v[N * N / 2];
}

/* Just inside every side lies the same paper as in the middle; a line on the bench beside the
 * sheet has bench on both sides. A shadow may lie on the paper there: then it lies on what is just
 * outside too, and the paper is as much brighter as elsewhere. STEP: share of the side with the
 * fewest places where it is brighter inside. */
static bool
paper_to_the_edge (const Small *s, const Line *const side[4], const PrPx p[4], double *step)
{
  enum { N = 24 };
  float v[N], over[N], middle = middle_level (s, p);
  double in = STRIP * MAX (s->w, s->h);

  *step = 1;
  for (int i = 0; i < 4; i++) {
    PrPx a = p[i], b = p[(i + 1) % 4];
    double steps = 0;
    for (int k = 0; k < N; k++) {
      double t = (k + 1.0) / (N + 1), x = a.x + t * (b.x - a.x), y = a.y + t * (b.y - a.y);
      double dx = in * side[i]->nx, dy = in * side[i]->ny;
      v[k] = at_pixel (s, x + dx, y + dy);
      over[k] = v[k] / fmaxf (at_pixel (s, x - dx, y - dy), 1);
      steps += CLAMP ((over[k] - 1) / STEP_OVER, 0, 1) / N;
    }
    *step = fmin (*step, steps);
    qsort (v, N, sizeof *v, pr_rising_float);
    qsort (over, N, sizeof *over, pr_rising_float);
    if (v[N * 3 / 4] < STRIP_LIKE * middle && (over[N / 2] < STRIP_OVER || v[N / 2] < STRIP_SHADED * middle))
      return false;
  }
  return true;
}

/* Lines in clockwise order of the sides: each normal points inward. */
static bool
weigh (const Small *s, const Line *const side[4], PrSheetQuad *q)
{
  double all = 0, round = 0, over = 0, step;

  for (int i = 0; i < 4; i++)
    if (!cross (side[(i + 3) % 4], side[i], &q->corner[i]) || !inside_picture (s, q->corner[i]))
      return false;
  if (area_of (q->corner) < AREA_LEAST * s->w * s->h)
    return false;
  for (int i = 0; i < 4; i++) {
    PrPx a = q->corner[i], b = q->corner[(i + 1) % 4];
    double len = hypot (b.x - a.x, b.y - a.y);
    /* each side's normal must look at the opposite corners */
    PrPx c = q->corner[(i + 2) % 4];
    if (c.x * side[i]->nx + c.y * side[i]->ny <= side[i]->rho + OPPOSITE * len)
      return false;
    q->seen[i] = support (s, side[i], a, b);
    if (q->seen[i] < SIDE_LEAST)
      return false;
    all += q->seen[i] * len;
    round += len;
    over += (support (s, side[i], b, beyond (a, b, BEYOND)) + support (s, side[i], a, beyond (b, a, BEYOND)))
            / 8;
  }
  if (all / round < ALL_LEAST || !paper_to_the_edge (s, side, q->corner, &step))
    return false;
  q->score = all / round * (1 - BEYOND_WEIGHT * over) * (1 - STEP_WEIGHT * (1 - step));
  return true;
}

static bool
alike (const PrSheetQuad *a, const PrSheetQuad *b, double within)
{
  for (int i = 0; i < 4; i++)
    if (hypot (a->corner[i].x - b->corner[i].x, a->corner[i].y - b->corner[i].y) > within)
      return false;
  return true;
}

static void
begin_top_left (PrSheetQuad *q)
{
  int best = 0;
  PrSheetQuad copy = *q;

  for (int i = 1; i < 4; i++)
    if (q->corner[i].x + q->corner[i].y < q->corner[best].x + q->corner[best].y)
      best = i;
  for (int i = 0; i < 4; i++) {
    q->corner[i] = copy.corner[(i + best) % 4];
    q->seen[i] = copy.seen[(i + best) % 4];
  }
}

static int
keep (PrSheetQuad *out, int n, int max, const PrSheetQuad *q, double within)
{
  for (int i = 0; i < n; i++)
    if (alike (&out[i], q, within)) {
      if (q->score > out[i].score)
        out[i] = *q;
      return n;
    }
  if (n < max) {
    out[n] = *q;
    return n + 1;
  }
  int worst = 0;
  for (int i = 1; i < n; i++)
    if (out[i].score < out[worst].score)
      worst = i;
  if (q->score > out[worst].score)
    out[worst] = *q;
  return n;
}

static double
turn_between (double a, double b)
{
  return remainder (b - a, 2 * G_PI);
}

/* Every four lines whose normals turn round by about a quarter each. */
static int
combine (const Small *s, const Line *line, int n, PrSheetQuad *out, int max)
{
  double low = TURN_LEAST_DEG * G_PI / 180, high = TURN_MOST_DEG * G_PI / 180,
         within = SAME * MAX (s->w, s->h);
  int kept = 0;

  for (int a = 0; a < n; a++)
    for (int b = 0; b < n; b++) {
      double ab = turn_between (line[a].angle, line[b].angle);
      if (ab < low || ab > high)
        continue;
      for (int c = a + 1; c < n; c++) {
        double bc = turn_between (line[b].angle, line[c].angle);
        if (bc < low || bc > high)
          continue;
        for (int d = b + 1; d < n; d++) {
          double cd = turn_between (line[c].angle, line[d].angle);
          double da = turn_between (line[d].angle, line[a].angle);
          PrSheetQuad q;
          const Line *side[4] = { &line[a], &line[b], &line[c], &line[d] };
          if (cd < low || cd > high || da < low || da > high || !weigh (s, side, &q))
            continue;
          begin_top_left (&q);
          kept = keep (out, kept, max, &q, within);
        }
      }
    }
  return kept;
}

static int
by_score (const void *a, const void *b)
{
  double d = ((const PrSheetQuad *) b)->score - ((const PrSheetQuad *) a)->score;
  return d < 0 ? -1 : d > 0;
}

int
pr_sheet_quads_find (PrSheetQuad *out, int max, const uint8_t *plane, int width, int height)
{
  Small s = { 0 };
  Line line[LINES];

  shrink (&s, plane, width, height);
  gradients (&s);
  thin_edges (&s);
  int n = strongest_lines (&s, line);
  for (int i = 0; i < n; i++)
    run_along (&s, &line[i]);
  int kept = combine (&s, line, n, out, max);
  for (int i = 0; i < kept; i++)
    for (int c = 0; c < 4; c++) {
      out[i].corner[c].x = (out[i].corner[c].x + 0.5) * s.scale - 0.5;
      out[i].corner[c].y = (out[i].corner[c].y + 0.5) * s.scale - 0.5;
    }
  qsort (out, (size_t) kept, sizeof *out, by_score);
  for (int i = 0; i < n; i++)
    g_free (line[i].sum);
  small_clear (&s);
  return kept;
}
