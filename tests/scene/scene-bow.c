/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sheet that does not lie flat: raised as a sine along one way. Its length is kept, so that it covers less of
 * the plane. */
#include "scene-parts.h"

#include <math.h>

static double
height (const Bow *b, double s)
{
  double u = G_PI * s / b->length, high = 0;

  if (!(s > 0 && s < b->length))
    return 0;
  if (b->high != 0)
    high = b->high * sin (u);
  return b->lean != 0 ? high + b->lean * sin (2 * u) : high; /* a sine costs more than all the rest */
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
static inline double
on_sheet (const Bow *b, double x)
{
  double ds = b->length / BOW_STEPS, end = b->flat[BOW_STEPS];

  if (x <= 0)
    return x;
  if (x >= end)
    return b->length + x - end;
  int low
      = CLAMP ((int) (x / end * BOW_STEPS), 0, BOW_STEPS - 1); /* no bow is so bent that this is far off */
  while (low > 0 && b->flat[low] > x)
    low--;
  while (low < BOW_STEPS - 1 && b->flat[low + 1] <= x)
    low++;
  return ds * (low + (x - b->flat[low]) / (b->flat[low + 1] - b->flat[low]));
}

void
bow_meet (const Bow *b, const double h[9], double qx, double qy, double p[2])
{
  /* (row 1 - qx row 3) and (row 2 - qy row 3) of the plane at height z are nothing */
  const double a = h[0] - qx * h[6], c = h[1] - qx * h[7], d = h[3] - qy * h[6], f = h[4] - qy * h[7];
  const double det = a * f - c * d;
  double z = 0, at[2];

  for (int i = 0; i < 12; i++) {
    double t[3] = { h[2] + b->lift[0] * z, h[5] + b->lift[1] * z, h[8] + b->lift[2] * z };
    double e = t[0] - qx * t[2], g = t[1] - qy * t[2], was = z;
    at[0] = (c * g - f * e) / det;
    at[1] = (d * e - a * g) / det;
    at[b->way] = on_sheet (b, at[b->way]);
    z = height (b, at[b->way]);
    if (fabs (z - was) < 1e-7)
      break;
  }
  p[0] = at[0];
  p[1] = at[1];
}
