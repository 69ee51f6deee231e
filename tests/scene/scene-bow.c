/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sheet that does not lie flat: raised as a sine along one way. Its length is kept, so that it covers less of
 * the plane. */
#include "scene-parts.h"

#include <math.h>

static double
height (const Bow *b, double s)
{
  double u = G_PI * s / b->length;

  return s > 0 && s < b->length ? b->high * sin (u) + b->lean * sin (2 * u) : 0;
}

static double
slope (const Bow *b, double s)
{
  double k = G_PI / b->length, u = k * s;

  return k * (b->high * cos (u) + 2 * b->lean * cos (2 * u));
}

/* The camera's third column: across the other two, as long as they are. */
static void
set_lift (Bow *b, const SceneOptions *o, const PrCamera *cam)
{
  double f = 0.78 * MAX (o->width, o->height), c[2][3], up[3], len = 0;

  for (int k = 0; k < 2; k++) {
    c[k][0] = (cam->h[k] - cam->centre.x * cam->h[6 + k]) / f;
    c[k][1] = (cam->h[3 + k] - cam->centre.y * cam->h[6 + k]) / f;
    c[k][2] = cam->h[6 + k];
  }
  for (int i = 0; i < 3; i++)
    len += c[0][i] * c[0][i];
  len = sqrt (len);
  for (int i = 0; i < 3; i++) /* the cross product points away from the camera */
    up[i] = -(c[0][(i + 1) % 3] * c[1][(i + 2) % 3] - c[0][(i + 2) % 3] * c[1][(i + 1) % 3]) / len;
  b->lift[0] = f * up[0] + cam->centre.x * up[2];
  b->lift[1] = f * up[1] + cam->centre.y * up[2];
  b->lift[2] = up[2];
}

void
bow_make (Bow *b, const SceneOptions *o, const PrCamera *cam)
{
  double size[2], at = 0;

  *b = (Bow){ .bent = o->bow_mm != 0 || o->bow_lean != 0, .way = o->bow_across ? 0 : 1 };
  scene_size (o, &size[0], &size[1]);
  b->length = size[b->way];
  b->high = o->bow_mm;
  b->lean = o->bow_lean;
  for (int i = 0; i <= BOW_STEPS; i++) {
    double ds = b->length / BOW_STEPS, d = slope (b, (i + 0.5) * ds);
    b->flat[i] = at;
    at += ds * sqrt (1 - d * d);
  }
  set_lift (b, o, cam);
}

/* Where on the sheet its place X of the plane is; beside the sheet the plane goes on. */
static double
on_sheet (const Bow *b, double x)
{
  int low = 0, high = BOW_STEPS;
  double ds = b->length / BOW_STEPS;

  if (x <= 0)
    return x;
  if (x >= b->flat[BOW_STEPS])
    return b->length + x - b->flat[BOW_STEPS];
  while (high - low > 1) {
    int mid = (low + high) / 2;
    if (b->flat[mid] <= x)
      low = mid;
    else
      high = mid;
  }
  return ds * (low + (x - b->flat[low]) / (b->flat[high] - b->flat[low]));
}

void
bow_meet (const Bow *b, const double h[9], double qx, double qy, double p[2])
{
  double z = 0;

  for (int i = 0; i < 12; i++) {
    double t[3] = { h[2] + b->lift[0] * z, h[5] + b->lift[1] * z, h[8] + b->lift[2] * z };
    /* (row 1 - qx row 3) and (row 2 - qy row 3) of the plane at height z are nothing */
    double a = h[0] - qx * h[6], c = h[1] - qx * h[7], e = t[0] - qx * t[2];
    double d = h[3] - qy * h[6], f = h[4] - qy * h[7], g = t[1] - qy * t[2], det = a * f - c * d;
    p[0] = (c * g - f * e) / det;
    p[1] = (d * e - a * g) / det;
    p[b->way] = on_sheet (b, p[b->way]);
    double was = z;
    z = height (b, p[b->way]);
    if (fabs (z - was) < 1e-7)
      break;
  }
}
