/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sheet-bend.h"

#include <cminpack.h>
#include <string.h>
#include "pr-camera-private.h"

/* Where no source is named: chosen, measured on bent sheets of tests/scene. */
/* Points of a side that are used, at most. */
#define PLACES 40
/* A telephone's focal length over the photo's long side, and its spread (logarithm): as in pr-camera.c, but
 * narrower, as a bow and a nearer camera look alike. */
#define FOCAL_USUAL 0.78
#define FOCAL_SPREAD 0.12
/* The lens term's spread. The pulls are in pixels at one spread. */
#define LENS_SPREAD 0.03
#define PULL 1.0
/* A lean of the bow to one end, over its height, is drawn to none. */
#define LEAN_SPREAD 20.0
/* Points further off than this count less and less, pixels. */
#define FAR 3.0
/* The step along an edge by which its direction is told, share of it. */
#define ALONG 1e-4
#define FIT_TOL 1e-9
#define EVALUATIONS 400
/* A bend is believed when it leaves at most this share of the flat sheet's misfit (RMS), fits to so many pixels or
 * this share of the long side, and is this high, share of the way it goes: less is a flat sheet's, more is a roll. */
#define BETTER 0.6
#define FITS 1.0
#define FITS_SHARE 0.0004
#define HIGH_LEAST 0.004
#define HIGH_MOST 0.15

enum { TURN, SHIFT = TURN + 3, FOCAL = SHIFT + 3, LENS, BOW, LEAN, N_FIT };

typedef struct {
  const PrCamera *from; /* centre and radius */
  PrPx p[4][PLACES];
  int n[4];
  double width, height;
  int way;        /* 0: bent along x, 1: along y, 2: flat */
  double turn[9]; /* turned from here */
  double side;    /* long side of the photo */
} Fit;

static void
multiply (const double a[9], const double b[9], double out[9])
{
  for (int r = 0; r < 3; r++)
    for (int c = 0; c < 3; c++)
      out[3 * r + c] = a[3 * r] * b[c] + a[3 * r + 1] * b[3 + c] + a[3 * r + 2] * b[6 + c];
}

/* The turn about W by its length, radians (Rodrigues). */
static void
turn_by (const double w[3], double out[9])
{
  double a = sqrt (w[0] * w[0] + w[1] * w[1] + w[2] * w[2]);
  double s = a > 1e-9 ? sin (a) / a : 1, c = a > 1e-9 ? (1 - cos (a)) / (a * a) : 0.5;
  const double k[9] = { 0, -w[2], w[1], w[2], 0, -w[0], -w[1], w[0], 0 };
  double kk[9];

  multiply (k, k, kk);
  for (int i = 0; i < 9; i++)
    out[i] = (i % 4 == 0) + s * k[i] + c * kk[i];
}

static void
set_bend (const Fit *fit, PrCamera *cam, const double *x)
{
  PrBend *b = &cam->bend;

  *b = (PrBend){ .length = fit->way == 0 ? fit->width : fit->height };
  b->along[fit->way] = 1;
  b->rise[0] = 4 * x[BOW]; /* its height in the middle is a fourth */
  b->rise[1] = x[LEAN];
}

/* The camera that X says. */
static void
camera_of (const Fit *fit, const double *x, PrCamera *cam)
{
  double by[9], r[9], f = FOCAL_USUAL * fit->side * exp (x[FOCAL]);
  double cx = fit->from->centre.x, cy = fit->from->centre.y, w = x[SHIFT + 2];

  *cam = (PrCamera){ .k1 = x[LENS], .centre = fit->from->centre, .radius = fit->from->radius };
  turn_by (x + TURN, by);
  multiply (by, fit->turn, r);
  const double third[3] = { x[SHIFT], x[SHIFT + 1], w };
  for (int c = 0; c < 3; c++) {
    double col[3] = { c < 2 ? r[c] : third[0], c < 2 ? r[3 + c] : third[1], c < 2 ? r[6 + c] : third[2] };
    cam->h[c] = (f * col[0] + cx * col[2]) / w;
    cam->h[3 + c] = (f * col[1] + cy * col[2]) / w;
    cam->h[6 + c] = col[2] / w;
  }
  if (fit->way > 1)
    return;
  set_bend (fit, cam, x);
  cam->bend.lift[0] = (f * r[2] + cx * r[8]) / w;
  cam->bend.lift[1] = (f * r[5] + cy * r[8]) / w;
  cam->bend.lift[2] = r[8] / w;
}

static PrSheetPt
on_edge (const Fit *fit, int i, double t)
{
  double w = fit->width, h = fit->height;

  switch (i) {
  case 0:
    return (PrSheetPt){ t * w, 0 };
  case 1:
    return (PrSheetPt){ w, t * h };
  case 2:
    return (PrSheetPt){ w - t * w, h };
  default:
    return (PrSheetPt){ 0, h - t * h };
  }
}

/* How far P lies beside the edge I as CAM sees it; T begins where P may be along it. */
static double
beside (const Fit *fit, const PrCamera *cam, int i, PrPx p, double t)
{
  PrPx at = { 0, 0 };
  double dx = 1, dy = 0, len = 1;

  for (int round = 0; round < 2; round++) {
    at = pr_camera_to_photo (cam, on_edge (fit, i, t));
    PrPx next = pr_camera_to_photo (cam, on_edge (fit, i, t + ALONG));
    dx = next.x - at.x;
    dy = next.y - at.y;
    len = hypot (dx, dy);
    if (round == 0)
      t += ALONG * ((p.x - at.x) * dx + (p.y - at.y) * dy) / (len * len);
  }
  return ((p.y - at.y) * dx - (p.x - at.x) * dy) / len;
}

/* Grows with D, but with its root where it is far. */
static double
calmed (double d)
{
  double r = fabs (d) / FAR;

  return copysign (FAR * sqrt (2 * (sqrt (1 + r * r) - 1)), d);
}

static int
distances (void *data, int m, int n, const double *x, double *out, int flag)
{
  const Fit *fit = data;
  PrCamera cam;
  int at = 0;

  (void) n;
  (void) flag;
  camera_of (fit, x, &cam);
  for (int i = 0; i < 4; i++) {
    PrPx a = pr_camera_to_photo (&cam, on_edge (fit, i, 0)),
         b = pr_camera_to_photo (&cam, on_edge (fit, i, 1));
    double len2 = (b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y);
    for (int k = 0; k < fit->n[i]; k++) {
      PrPx p = fit->p[i][k];
      double t = ((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / len2;
      out[at++] = calmed (beside (fit, &cam, i, p, t));
    }
  }
  out[at++] = PULL * x[FOCAL] / FOCAL_SPREAD;
  out[at++] = PULL * x[LENS] / LENS_SPREAD;
  if (fit->way < 2)
    out[at++] = PULL * x[LEAN] / LEAN_SPREAD;
  g_assert (at == m);
  return 0;
}

/* RMS of what is left, pixels. */
static double
solve (const Fit *fit, double *x)
{
  int n = fit->way < 2 ? N_FIT : BOW,
      m = fit->n[0] + fit->n[1] + fit->n[2] + fit->n[3] + (fit->way < 2 ? 3 : 2);
  g_autofree double *fvec = g_new (double, (gsize) m), *jac = g_new (double, (gsize) (m * n));
  double diag[N_FIT], qtf[N_FIT], wa[3 * N_FIT], sum = 0;
  g_autofree double *wa4 = g_new (double, (gsize) m);
  int ipvt[N_FIT], evaluations = 0;

  lmdif (distances, (void *) fit, m, n, x, fvec, FIT_TOL, FIT_TOL, 0, EVALUATIONS, 0, diag, 1, 100, 0,
         &evaluations, jac, m, ipvt, qtf, wa, wa + N_FIT, wa + 2 * N_FIT, wa4);
  int places = m - (fit->way < 2 ? 3 : 2);
  for (int i = 0; i < places; i++)
    sum += fvec[i] * fvec[i] / places;
  return sqrt (sum);
}

/* Where the flat camera stands: columns of K^-1 H, made square. */
static bool
start (Fit *fit, const PrCamera *cam, double x[N_FIT])
{
  double f = FOCAL_USUAL * fit->side, a[3], b[3], c[3], *r = fit->turn, la = 0, lb = 0, ab = 0;

  for (int k = 0; k < 3; k++) {
    double *col = k == 0 ? a : k == 1 ? b : c;
    col[0] = (cam->h[k] - cam->centre.x * cam->h[6 + k]) / f;
    col[1] = (cam->h[3 + k] - cam->centre.y * cam->h[6 + k]) / f;
    col[2] = cam->h[6 + k];
  }
  for (int k = 0; k < 3; k++)
    la += a[k] * a[k];
  la = sqrt (la);
  for (int k = 0; k < 3; k++)
    ab += a[k] * b[k] / (la * la);
  for (int k = 0; k < 3; k++) {
    b[k] -= ab * a[k];
    lb += b[k] * b[k];
  }
  lb = sqrt (lb);
  if (!(la > 0 && lb > 0))
    return false;
  double scale = (la + lb) / 2;
  for (int k = 0; k < 3; k++) {
    r[3 * k] = a[k] / la;
    r[3 * k + 1] = b[k] / lb;
    x[SHIFT + k] = c[k] / scale;
  }
  for (int k = 0; k < 3; k++) {
    int i = (k + 1) % 3, j = (k + 2) % 3;
    r[3 * k + 2] = r[3 * i] * r[3 * j + 1] - r[3 * j] * r[3 * i + 1];
  }
  x[LENS] = cam->k1;
  return true;
}

static void
take_points (Fit *fit, const PrSheetSide side[4])
{
  for (int i = 0; i < 4; i++) {
    fit->n[i] = (int) MIN (side[i].n, PLACES);
    for (int k = 0; k < fit->n[i]; k++)
      fit->p[i][k] = side[i].p[(size_t) k * side[i].n / (size_t) fit->n[i]];
  }
}

bool
pr_sheet_bend_fit (PrCamera *cam, const PrSheetSide side[4], double width, double height, double *high,
                   double *residual)
{
  Fit fit = {
    .from = cam, .width = width, .height = height, .side = 2 * fmax (cam->centre.x, cam->centre.y) + 1
  };
  double first[N_FIT] = { 0 }, best[N_FIT], left[3];
  int way = 2;

  take_points (&fit, side);
  if (!start (&fit, cam, first))
    return false;
  for (int k = 2; k >= 0; k--) {
    double x[N_FIT];
    memcpy (x, first, sizeof x);
    fit.way = k;
    left[k] = solve (&fit, x);
    if (k < 2 && left[k] < left[way]) {
      way = k;
      memcpy (best, x, sizeof best);
    }
  }
  double length = way == 0 ? width : height;
  if (way == 2 || left[way] > BETTER * left[2] || left[way] > fmax (FITS, FITS_SHARE * fit.side)
      || fabs (best[BOW]) < HIGH_LEAST * length || fabs (best[BOW]) > HIGH_MOST * length)
    return false;
  fit.way = way;
  PrCamera bent;
  camera_of (&fit, best, &bent);
  *cam = bent;
  *high = fabs (best[BOW]);
  *residual = left[way];
  return true;
}
