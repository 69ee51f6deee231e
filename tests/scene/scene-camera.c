/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the camera stands: a pinhole whose long side sees about 65 degrees, as a telephone's. */
#include "scene-parts.h"

#include <math.h>

#define FOCAL 0.78 /* of the photo's long side */
#define FULL 0.97  /* the sheet stays inside this share of the photo */

/* Ideal pixel: before the lens. */
static PrPx
ideal (const double *h, PrSheetPt p)
{
  double w = h[6] * p.x + h[7] * p.y + h[8];
  return (PrPx){ (h[0] * p.x + h[1] * p.y + h[2]) / w, (h[3] * p.x + h[4] * p.y + h[5]) / w };
}

PrPx
camera_project (const PrCamera *cam, PrSheetPt p)
{
  PrPx q = ideal (cam->h, p);
  double dx = q.x - cam->centre.x, dy = q.y - cam->centre.y;
  double k = 1 + cam->k1 * (dx * dx + dy * dy) / (cam->radius * cam->radius);

  return (PrPx){ cam->centre.x + dx * k, cam->centre.y + dy * k };
}

/* The plane's two axes as the camera sees them: turned in the picture, then tilted about the
 * axis across the direction it leans to. */
static void
axis_after (const SceneOptions *o, double x, double y, double out[3])
{
  double turn = o->turn_deg * G_PI / 180, tilt = o->tilt_deg * G_PI / 180;
  double lean = o->tilt_dir_deg * G_PI / 180, ax = -sin (lean), ay = cos (lean);
  double vx = x * cos (turn) - y * sin (turn), vy = x * sin (turn) + y * cos (turn);
  double along = (ax * vx + ay * vy) * (1 - cos (tilt));

  out[0] = vx * cos (tilt) + ax * along;
  out[1] = vy * cos (tilt) + ay * along;
  out[2] = sin (tilt) * (ax * vy - ay * vx);
}

static double
focal_of (const SceneOptions *o)
{
  return (o->focal > 0 ? o->focal : FOCAL) * MAX (o->width, o->height);
}

static void
set_h (PrCamera *cam, const SceneOptions *o, PrSheetPt middle, const double t[3])
{
  double f = focal_of (o), c[2] = { cam->centre.x, cam->centre.y };
  double ex[3], ey[3], at[3];

  axis_after (o, 1, 0, ex);
  axis_after (o, 0, 1, ey);
  for (int i = 0; i < 3; i++)
    at[i] = t[i] - middle.x * ex[i] - middle.y * ey[i];
  const double *col[3] = { ex, ey, at };
  for (int i = 0; i < 3; i++) {
    cam->h[i] = f * col[i][0] + c[0] * col[i][2];
    cam->h[3 + i] = f * col[i][1] + c[1] * col[i][2];
    cam->h[6 + i] = col[i][2];
  }
  for (int i = 0; i < 9; i++)
    cam->h[i] /= at[2];
}

static void
extent (const PrCamera *cam, double width, double height, double box[4])
{
  PrSheetPt p[4] = { { 0, 0 }, { width, 0 }, { width, height }, { 0, height } };

  box[0] = box[1] = INFINITY;
  box[2] = box[3] = -INFINITY;
  for (int i = 0; i < 4; i++) {
    PrPx q = camera_project (cam, p[i]);
    box[0] = fmin (box[0], q.x);
    box[1] = fmin (box[1], q.y);
    box[2] = fmax (box[2], q.x);
    box[3] = fmax (box[3], q.y);
  }
}

void
camera_place (PrCamera *cam, const SceneOptions *o, double width_mm, double height_mm)
{
  double f = focal_of (o), t[3] = { 0, 0, o->far_mm > 0 ? o->far_mm : 2 * f * width_mm / o->width };
  PrSheetPt middle = { width_mm / 2, height_mm / 2 };

  *cam = (PrCamera){ .k1 = o->k1,
                     .centre = { (o->width - 1) / 2.0, (o->height - 1) / 2.0 },
                     .radius = hypot (o->width, o->height) / 2 };
  for (int i = 0; i < 40; i++) {
    double box[4];
    set_h (cam, o, middle, t);
    extent (cam, width_mm, height_mm, box);
    double share = (box[2] - box[0]) / o->width / o->fill;
    double tall = (box[3] - box[1]) / o->height / fmax (FULL, o->fill);
    t[0] -= ((box[0] + box[2]) / 2 - cam->centre.x) * t[2] / f;
    t[1] -= ((box[1] + box[3]) / 2 - cam->centre.y) * t[2] / f;
    if (!(o->far_mm > 0))
      t[2] *= 1 + 0.8 * (fmax (share, tall) - 1);
  }
}

/* H = K (ex, ey, t) over its last number: columns of equal length 1 / t2 once K is taken off. */
void
camera_stand (const PrCamera *cam, const SceneOptions *o, double at[3])
{
  double col[3][3], f = focal_of (o), size = 0, ez[3];

  for (int k = 0; k < 3; k++) {
    col[k][0] = (cam->h[k] - cam->centre.x * cam->h[6 + k]) / f;
    col[k][1] = (cam->h[3 + k] - cam->centre.y * cam->h[6 + k]) / f;
    col[k][2] = cam->h[6 + k];
  }
  for (int i = 0; i < 3; i++)
    size += col[0][i] * col[0][i];
  for (int i = 0; i < 3; i++) {
    int j = (i + 1) % 3, k = (i + 2) % 3;
    ez[i] = (col[0][j] * col[1][k] - col[0][k] * col[1][j]) / size;
  }
  for (int k = 0; k < 3; k++) {
    at[k] = 0;
    for (int i = 0; i < 3; i++)
      at[k] -= (k == 2 ? ez[i] : col[k][i] / sqrt (size)) * col[2][i] / sqrt (size);
  }
  at[2] = -at[2];
}
