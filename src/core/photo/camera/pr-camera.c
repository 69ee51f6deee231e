/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-camera-private.h"

#include <cminpack.h>
#include <string.h>

#define N_H 8
#define N_MOST (N_H + 2) /* with k1 and the focal length */
/* Smallest pivot of the normal equations, in units where points spread by about 1: below it
 * the points lie (nearly) on a line. Rounding alone makes 1e-15. */
#define PIVOT_MIN 1e-9
/* Convergence of the fit, relative: far below a thousandth of a pixel in a photo. */
#define FIT_TOL 1e-12
/* A phone's focal length over the photo's long side: usual, and its spread (natural logarithm). Main cameras
 * of telephones are told as 26 to 28 mm on the diagonal of small film, 43.3 mm: 0.75 to 0.81 of the long
 * side of a 4:3 picture (from memory); other lenses and crops spread about it. */
#define FOCAL_USUAL 0.80
#define FOCAL_SPREAD 0.25
/* How nearly the pixels of a camera are square and its axes upright, shares: what the pull towards such a camera is
 * measured in. Chosen on our own scenes with two fiducials. */
#define PINHOLE_WITHIN 0.001
/* Bounds within which a solved focal length is believed, over the long side: wider than any telephone's
 * widest lens, longer than its longest. */
#define FOCAL_LEAST 0.4
#define FOCAL_MOST 4.0
/* The inverse of the lens is sought in so many steps of Newton's at the most, and is found when a step
 * is shorter than this share of the half diagonal: a hundred millionth of a pixel. */
#define LENS_STEPS 12
#define LENS_TOL 1e-14
/* A negative k1 folds the picture over at some radius: the search stays this share inside of it. */
#define FOLD_INSIDE 0.999
/* A plane seen edge on: fewer photo pixels a mm than this. */
#define EDGE_ON 1e-6
/* A bent sheet is met by a line of sight within so many steps, or within this of it, mm; and what lies beyond its ends is
 * bent on by this share of its length. */
#define BEND_STEPS 24
#define BEND_TOL 1e-10
#define BEND_BEYOND 0.1
/* The homography's last number is believed to be none below this, as all are divided by it. */
#define LAST_LEAST 1e-12

typedef struct {
  const double *sheet, *px; /* normalised pairs */
  size_t n;
  bool lens;
  double weight, pinhole; /* pulls in units of normalised pixels */
  double focal;           /* usual focal length, normalised pixels */
} Fit;

/* Solves A x = b in place by Gaussian elimination with row pivots. */
static bool
solve (double *a, double *b, int n)
{
  for (int c = 0; c < n; c++) {
    int best = c;
    for (int r = c + 1; r < n; r++)
      if (fabs (a[r * n + c]) > fabs (a[best * n + c]))
        best = r;
    if (!(fabs (a[best * n + c]) > PIVOT_MIN))
      return false;
    for (int k = 0; k < n && best != c; k++) {
      double t = a[c * n + k];
      a[c * n + k] = a[best * n + k];
      a[best * n + k] = t;
    }
    double t = b[c];
    b[c] = b[best];
    b[best] = t;
    for (int r = 0; r < n; r++) {
      if (r == c)
        continue;
      double f = a[r * n + c] / a[c * n + c];
      for (int k = c; k < n; k++)
        a[r * n + k] -= f * a[c * n + k];
      b[r] -= f * b[c];
    }
  }
  for (int c = 0; c < n; c++)
    b[c] /= a[c * n + c];
  return true;
}

static void
add_row (double *ata, double *atb, const double row[N_H], double rhs)
{
  for (int i = 0; i < N_H; i++) {
    for (int j = 0; j < N_H; j++)
      ata[i * N_H + j] += row[i] * row[j];
    atb[i] += row[i] * rhs;
  }
}

/* Direct linear transform with h[8] = 1; the points are normalised, so that their middle is
 * never at infinity. */
static bool
dlt (const Fit *fit, double h[N_H])
{
  double ata[N_H * N_H] = { 0 }, atb[N_H] = { 0 };

  for (size_t i = 0; i < fit->n; i++) {
    double x = fit->sheet[2 * i], y = fit->sheet[2 * i + 1];
    double u = fit->px[2 * i], v = fit->px[2 * i + 1];
    add_row (ata, atb, (double[N_H]){ x, y, 1, 0, 0, 0, -u * x, -u * y }, u);
    add_row (ata, atb, (double[N_H]){ 0, 0, 0, x, y, 1, -v * x, -v * y }, v);
  }
  if (!solve (ata, atb, N_H))
    return false;
  memcpy (h, atb, sizeof (double) * N_H);
  return true;
}

static void
project (const double h[N_H], double k1, double x, double y, double *u, double *v)
{
  double w = h[6] * x + h[7] * y + 1;
  double a = (h[0] * x + h[1] * y + h[2]) / w, b = (h[3] * x + h[4] * y + h[5]) / w;
  double s = 1 + k1 * (a * a + b * b);

  *u = a * s;
  *v = b * s;
}

/* How far the two columns of K^-1 H are from square and of equal length, with a focal length
 * e^LOG times the usual: free of units. */
static void
pinhole_pull (const Fit *fit, const double *h, double log_f, double pull[2])
{
  double s = exp (-2 * log_f) / (fit->focal * fit->focal);
  double n1 = (h[0] * h[0] + h[3] * h[3]) * s + h[6] * h[6];
  double n2 = (h[1] * h[1] + h[4] * h[4]) * s + h[7] * h[7];
  double dot = (h[0] * h[1] + h[3] * h[4]) * s + h[6] * h[7];
  double norm = sqrt (n1 * n2);

  pull[0] = dot / norm;
  pull[1] = log (n1 / n2) / 2;
}

static int
distances (void *data, int m, int n, const double *x, double *out, int flag)
{
  const Fit *fit = data;
  double k1 = fit->lens ? x[N_H] : 0;
  int at = (int) fit->n * 2;

  (void) flag;
  for (size_t i = 0; i < fit->n; i++) {
    project (x, k1, fit->sheet[2 * i], fit->sheet[2 * i + 1], &out[2 * i], &out[2 * i + 1]);
    out[2 * i] -= fit->px[2 * i];
    out[2 * i + 1] -= fit->px[2 * i + 1];
  }
  if (fit->lens && fit->weight > 0)
    out[at++] = k1 * fit->weight;
  if (fit->pinhole > 0) {
    double pull[2], log_f = x[n - 1];
    pinhole_pull (fit, x, log_f, pull);
    out[at++] = pull[0] / PINHOLE_WITHIN * fit->pinhole;
    out[at++] = pull[1] / PINHOLE_WITHIN * fit->pinhole;
    out[at++] = log_f / FOCAL_SPREAD * fit->pinhole;
  }
  g_assert (at == m);
  return 0;
}

static bool
refine (const Fit *fit, double *x)
{
  int n = N_H + (fit->lens ? 1 : 0) + (fit->pinhole > 0 ? 1 : 0);
  int m = (int) fit->n * 2 + (fit->lens && fit->weight > 0 ? 1 : 0) + (fit->pinhole > 0 ? 3 : 0);
  int iwa[N_MOST], lwa = m * n + 5 * n + m;
  g_autofree double *fvec = g_new (double, (gsize) m);
  g_autofree double *wa = g_new (double, (gsize) lwa);

  int info = lmdif1 (distances, (void *) fit, m, n, x, fvec, FIT_TOL, iwa, wa, lwa);
  for (int i = 0; i < n; i++)
    if (!isfinite (x[i]))
      return false;
  return info >= 1;
}

static void
multiply (const double a[9], const double b[9], double out[9])
{
  for (int r = 0; r < 3; r++)
    for (int c = 0; c < 3; c++)
      out[3 * r + c] = a[3 * r] * b[c] + a[3 * r + 1] * b[3 + c] + a[3 * r + 2] * b[6 + c];
}

static bool
unit_last (double h[9])
{
  if (!(fabs (h[8]) > LAST_LEAST))
    return false;
  for (int i = 0; i < 8; i++)
    h[i] /= h[8];
  h[8] = 1;
  return true;
}

static void
set_photo (PrCamera *cam, int width, int height)
{
  *cam = (PrCamera){ .centre = { (width - 1) / 2.0, (height - 1) / 2.0 },
                     .radius = hypot (width, height) / 2 };
}

/* Undoes the normalisation: photo = P h S. */
static bool
put_together (PrCamera *cam, const double x[N_H], double mx, double my, double scale)
{
  double inner[9] = { x[0], x[1], x[2], x[3], x[4], x[5], x[6], x[7], 1 };
  double s[9] = { scale, 0, -scale * mx, 0, scale, -scale * my, 0, 0, 1 };
  double p[9] = { cam->radius, 0, cam->centre.x, 0, cam->radius, cam->centre.y, 0, 0, 1 };
  double t[9];

  multiply (p, inner, t);
  multiply (t, s, cam->h);
  return unit_last (cam->h);
}

static double
weight_at (const PrCamera *cam, PrSheetPt p)
{
  return cam->h[6] * p.x + cam->h[7] * p.y + cam->h[8];
}

static bool
check_and_measure (const PrCamera *cam, const PrSheetPt *sheet, const PrPx *px, size_t n, double *residual)
{
  for (size_t i = 0; i < n; i++) {
    /* all points on the same side of the horizon, and the plane not seen edge on */
    double scale = pr_camera_px_per_mm (cam, sheet[i]);
    if (weight_at (cam, sheet[i]) * weight_at (cam, sheet[0]) <= 0 || !(scale > EDGE_ON))
      return false;
    PrSheetPt back = pr_camera_to_sheet (cam, px[i]);
    if (residual != NULL)
      residual[i] = hypot (back.x - sheet[i].x, back.y - sheet[i].y);
  }
  return true;
}

static bool
fit_all (PrCamera *cam, int width, int height, const PrSheetPt *sheet, const PrPx *px, size_t n, Fit *fit,
         double *residual)
{
  double mx = 0, my = 0, spread = 0, x[N_MOST] = { 0 };

  g_assert (n >= 4);
  set_photo (cam, width, height);
  for (size_t i = 0; i < n; i++) {
    mx += sheet[i].x / (double) n;
    my += sheet[i].y / (double) n;
  }
  for (size_t i = 0; i < n; i++)
    spread += hypot (sheet[i].x - mx, sheet[i].y - my) / (double) n;
  if (!(spread > 0))
    return false;
  g_autofree double *s = g_new (double, 4 * n);
  double *q = s + 2 * n;
  for (size_t i = 0; i < n; i++) {
    s[2 * i] = (sheet[i].x - mx) / spread;
    s[2 * i + 1] = (sheet[i].y - my) / spread;
    q[2 * i] = (px[i].x - cam->centre.x) / cam->radius;
    q[2 * i + 1] = (px[i].y - cam->centre.y) / cam->radius;
  }
  fit->sheet = s;
  fit->px = q;
  fit->n = n;
  fit->weight /= cam->radius;
  fit->pinhole /= cam->radius;
  fit->focal = FOCAL_USUAL * MAX (width, height) / cam->radius;
  if (!dlt (fit, x) || !refine (fit, x))
    return false;
  cam->k1 = fit->lens ? x[N_H] : 0;
  return put_together (cam, x, mx, my, 1 / spread) && check_and_measure (cam, sheet, px, n, residual);
}

bool
pr_camera_fit (PrCamera *cam, int width, int height, const PrSheetPt *sheet, const PrPx *px, size_t n,
               bool lens, double *residual)
{
  Fit fit = { .lens = lens && n >= 5 };

  return fit_all (cam, width, height, sheet, px, n, &fit, residual);
}

bool
pr_camera_fit_drawn (PrCamera *cam, int width, int height, const PrSheetPt *sheet, const PrPx *px, size_t n,
                     double weight, double pinhole, double *residual)
{
  Fit fit = { .lens = true, .weight = weight, .pinhole = pinhole };

  g_assert (weight > 0 || n >= 5);
  return fit_all (cam, width, height, sheet, px, n, &fit, residual);
}

bool
pr_camera_from_ideal (PrCamera *cam, int width, int height, const PrSheetPt sheet[4], const PrPx ideal[4],
                      double k1)
{
  if (!pr_camera_fit (cam, width, height, sheet, ideal, 4, false, NULL))
    return false;
  cam->k1 = k1;
  return true;
}

void
pr_camera_flat (PrCamera *cam, int width, int height, double px_per_mm)
{
  const double h[9] = { px_per_mm, 0, -0.5, 0, px_per_mm, -0.5, 0, 0, 1 };

  g_assert (px_per_mm > 0);
  set_photo (cam, width, height);
  memcpy (cam->h, h, sizeof h);
}

PrPx
pr_camera_distort (const PrCamera *cam, PrPx q)
{
  double x = q.x - cam->centre.x, y = q.y - cam->centre.y;
  double s = 1 + cam->k1 * (x * x + y * y) / (cam->radius * cam->radius);

  return (PrPx){ cam->centre.x + x * s, cam->centre.y + y * s };
}

/* z at U, and half the integral of (dz/ds)^2 up to there. */
static void
bend_at (const PrBend *b, double u, double *z, double *nearer)
{
  double p0 = b->rise[0] + b->rise[1], p1 = -2 * b->rise[0] - 6 * b->rise[1], p2 = 6 * b->rise[1];
  double sum = p2 * p2 / 5;

  /* dz/du = p0 + p1 u + p2 u^2, its square integrated term by term */
  sum = sum * u + p1 * p2 / 2;
  sum = sum * u + (p1 * p1 + 2 * p0 * p2) / 3;
  sum = sum * u + p0 * p1;
  sum = sum * u + p0 * p0;
  *nearer = sum * u / (2 * b->length);
  *z = u * (1 - u) * (b->rise[0] + b->rise[1] * (1 - 2 * u));
}

PrSheetPt
pr_camera_unbent (const PrBend *bend, PrSheetPt p, double *z)
{
  double s = bend->along[0] * p.x + bend->along[1] * p.y - bend->from, nearer;

  bend_at (bend, s / bend->length, z, &nearer);
  return (PrSheetPt){ p.x - nearer * bend->along[0], p.y - nearer * bend->along[1] };
}

PrPx
pr_camera_to_photo (const PrCamera *cam, PrSheetPt p)
{
  const double *h = cam->h, *lift = cam->bend.lift;
  double z = 0;

  if (cam->bend.length > 0)
    p = pr_camera_unbent (&cam->bend, p, &z);
  double w = weight_at (cam, p) + lift[2] * z;
  return pr_camera_distort (cam, (PrPx){ (h[0] * p.x + h[1] * p.y + h[2] + lift[0] * z) / w,
                                         (h[3] * p.x + h[4] * p.y + h[5] + lift[1] * z) / w });
}

/* Newton on r (1 + k1 r2) = rd. Beyond the fold of a negative k1 the nearest radius is taken. */
PrPx
pr_camera_ideal (const PrCamera *cam, PrPx p)
{
  double x = p.x - cam->centre.x, y = p.y - cam->centre.y;
  double rd = hypot (x, y) / cam->radius, r = rd, k = cam->k1;

  if (k == 0 || rd == 0)
    return p;
  double most = k < 0 ? FOLD_INSIDE / sqrt (-3 * k) : INFINITY;
  for (int i = 0; i < LENS_STEPS; i++) {
    double step = (r * (1 + k * r * r) - rd) / (1 + 3 * k * r * r);
    r = fmin (fmax (r - step, 0), most);
    if (fabs (step) < LENS_TOL)
      break;
  }
  return (PrPx){ cam->centre.x + x * r / rd, cam->centre.y + y * r / rd };
}

static double
determinant (const double h[9])
{
  return h[0] * (h[4] * h[8] - h[5] * h[7]) - h[1] * (h[3] * h[8] - h[5] * h[6])
         + h[2] * (h[3] * h[7] - h[4] * h[6]);
}

/* Where the ideal pixel Q meets the plane of H. */
static PrSheetPt
on_plane (const double h[9], PrPx q)
{
  /* the inverse by cofactors; the common factor falls out */
  double x
      = (h[4] * h[8] - h[5] * h[7]) * q.x + (h[2] * h[7] - h[1] * h[8]) * q.y + (h[1] * h[5] - h[2] * h[4]);
  double y
      = (h[5] * h[6] - h[3] * h[8]) * q.x + (h[0] * h[8] - h[2] * h[6]) * q.y + (h[2] * h[3] - h[0] * h[5]);
  double w
      = (h[3] * h[7] - h[4] * h[6]) * q.x + (h[1] * h[6] - h[0] * h[7]) * q.y + (h[0] * h[4] - h[1] * h[3]);

  return (PrSheetPt){ x / w, y / w };
}

/* The line of sight meets the plane; there the sheet is as high as z; it meets the plane so high, and so on:
 * each step is nearer by the slope of the bend times that of the sight. */
static PrSheetPt
on_bent (const PrCamera *cam, PrPx q)
{
  const PrBend *b = &cam->bend;
  double h[9], z = 0, nearer = 0;
  PrSheetPt p = { 0, 0 };

  memcpy (h, cam->h, sizeof h);
  for (int i = 0; i < BEND_STEPS; i++) {
    double was = z;
    for (int k = 0; k < 3; k++)
      h[3 * k + 2] = cam->h[3 * k + 2] + b->lift[k] * z;
    p = on_plane (h, q);
    p.x += nearer * b->along[0];
    p.y += nearer * b->along[1];
    double u = (b->along[0] * p.x + b->along[1] * p.y - b->from) / b->length;
    bend_at (b, fmin (fmax (u, -BEND_BEYOND), 1 + BEND_BEYOND), &z, &nearer);
    if (fabs (z - was) < BEND_TOL)
      break;
  }
  return p;
}

PrSheetPt
pr_camera_to_sheet (const PrCamera *cam, PrPx p)
{
  PrPx q = pr_camera_ideal (cam, p);

  return cam->bend.length > 0 ? on_bent (cam, q) : on_plane (cam->h, q);
}

/* Determinants of both steps: |H| / w^3 and (1 + k r2) (1 + 3 k r2). */
double
pr_camera_px_per_mm (const PrCamera *cam, PrSheetPt p)
{
  double h[9], z = 0;

  memcpy (h, cam->h, sizeof h);
  if (cam->bend.length > 0)
    p = pr_camera_unbent (&cam->bend, p, &z);
  for (int i = 0; i < 3; i++)
    h[3 * i + 2] += cam->bend.lift[i] * z;
  double w = h[6] * p.x + h[7] * p.y + h[8];
  double x = (h[0] * p.x + h[1] * p.y + h[2]) / w - cam->centre.x;
  double y = (h[3] * p.x + h[4] * p.y + h[5]) / w - cam->centre.y;
  double kr2 = cam->k1 * (x * x + y * y) / (cam->radius * cam->radius);

  return sqrt (fabs (determinant (h) / (w * w * w) * (1 + kr2) * (1 + 3 * kr2)));
}

void
pr_camera_reframe (PrCamera *cam, const double m[6])
{
  double a[9] = { m[0], m[1], m[2], m[3], m[4], m[5], 0, 0, 1 }, t[9];

  multiply (cam->h, a, t);
  memcpy (cam->h, t, sizeof t);
  double last = cam->h[8];
  if (!unit_last (cam->h))
    g_assert_not_reached ();
  PrBend *b = &cam->bend;
  const double along[2] = { b->along[0], b->along[1] };
  for (int i = 0; i < 3; i++)
    b->lift[i] /= last;
  b->from -= along[0] * m[2] + along[1] * m[5];
  b->along[0] = along[0] * m[0] + along[1] * m[3];
  b->along[1] = along[0] * m[1] + along[1] * m[4];
}

bool
pr_camera_equal (const PrCamera *a, const PrCamera *b)
{
  bool same = memcmp (a->h, b->h, sizeof a->h) == 0 && a->k1 == b->k1 && a->radius == b->radius
              && a->centre.x == b->centre.x && a->centre.y == b->centre.y && a->bend.length == b->bend.length;

  return same && (a->bend.length == 0 || memcmp (&a->bend, &b->bend, sizeof a->bend) == 0);
}

/* Columns 1 and 2 of H about the photo's middle. */
static void
columns (const PrCamera *cam, double a[3], double b[3])
{
  const double *h = cam->h;

  a[0] = h[0] - cam->centre.x * h[6];
  a[1] = h[3] - cam->centre.y * h[6];
  a[2] = h[6];
  b[0] = h[1] - cam->centre.x * h[7];
  b[1] = h[4] - cam->centre.y * h[7];
  b[2] = h[7];
}

static double
long_side (const PrCamera *cam)
{
  return 2 * fmax (cam->centre.x, cam->centre.y) + 1;
}

/* Both conditions on H (columns square, of equal length) read a + f2 b = 0: least squares. */
double
pr_camera_focal (const PrCamera *cam, bool *solved)
{
  double a[3], b[3], side = long_side (cam);

  columns (cam, a, b);
  double a1 = a[0] * b[0] + a[1] * b[1], b1 = a[2] * b[2];
  double a2 = (a[0] * a[0] + a[1] * a[1] - b[0] * b[0] - b[1] * b[1]) / 2;
  double b2 = (a[2] * a[2] - b[2] * b[2]) / 2;
  double bb = b1 * b1 + b2 * b2, f2 = bb > 0 ? -(a1 * b1 + a2 * b2) / bb : 0;
  double f = f2 > 0 ? sqrt (f2) : 0;
  bool good = f > FOCAL_LEAST * side && f < FOCAL_MOST * side;

  if (solved != NULL)
    *solved = good;
  return good ? f : side;
}

double
pr_camera_aspect (const PrCamera *cam, double f)
{
  double a[3], b[3];

  columns (cam, a, b);
  double n1 = (a[0] * a[0] + a[1] * a[1]) / (f * f) + a[2] * a[2];
  double n2 = (b[0] * b[0] + b[1] * b[1]) / (f * f) + b[2] * b[2];
  return sqrt (n1 / n2);
}

double
pr_camera_square (const PrCamera *cam, double f)
{
  double a[3], b[3];

  columns (cam, a, b);
  double n1 = (a[0] * a[0] + a[1] * a[1]) / (f * f) + a[2] * a[2];
  double n2 = (b[0] * b[0] + b[1] * b[1]) / (f * f) + b[2] * b[2];
  return ((a[0] * b[0] + a[1] * b[1]) / (f * f) + a[2] * b[2]) / sqrt (n1 * n2);
}

double
pr_camera_tilt (const PrCamera *cam)
{
  double a[3], b[3], f = pr_camera_focal (cam, NULL);

  columns (cam, a, b);
  a[2] *= f;
  b[2] *= f;
  double nx = a[1] * b[2] - a[2] * b[1], ny = a[2] * b[0] - a[0] * b[2];
  double nz = a[0] * b[1] - a[1] * b[0];
  return atan2 (hypot (nx, ny), fabs (nz));
}
