/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Points, one type per frame, so that the compiler keeps the frames apart.
 *
 *   PrPx       photo turned upright: x right, y down, pixels; (0,0) is the centre of
 *              the first pixel
 *   PrSheetPt  sheet as printed: origin top left, x right, y down, mm
 *   PrPt       plane figures and the foot frame: x to the lateral side, y to the toe, mm
 */
#pragma once
#include <math.h>
#include <stdbool.h>
#include <stddef.h>

typedef struct {
  double x, y;
} PrPx;
typedef struct {
  double x, y;
} PrSheetPt;
typedef struct {
  double x, y;
} PrPt;

static inline PrPt
pr_pt (double x, double y)
{
  return (PrPt){ x, y };
}
static inline PrPt
pr_pt_add (PrPt a, PrPt b)
{
  return pr_pt (a.x + b.x, a.y + b.y);
}
static inline PrPt
pr_pt_sub (PrPt a, PrPt b)
{
  return pr_pt (a.x - b.x, a.y - b.y);
}
static inline PrPt
pr_pt_scale (PrPt a, double k)
{
  return pr_pt (a.x * k, a.y * k);
}
static inline PrPt
pr_pt_along (PrPt a, PrPt dir, double k)
{
  return pr_pt (a.x + dir.x * k, a.y + dir.y * k);
}
static inline PrPt
pr_pt_lerp (PrPt a, PrPt b, double t)
{
  return pr_pt (a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t);
}
static inline double
pr_pt_dot (PrPt a, PrPt b)
{
  return a.x * b.x + a.y * b.y;
}
static inline double
pr_pt_cross (PrPt a, PrPt b)
{
  return a.x * b.y - a.y * b.x;
}
static inline double
pr_pt_len (PrPt a)
{
  return hypot (a.x, a.y);
}
static inline double
pr_pt_dist (PrPt a, PrPt b)
{
  return hypot (a.x - b.x, a.y - b.y);
}
/* a turned a quarter left (counter-clockwise where y points up) */
static inline PrPt
pr_pt_left (PrPt a)
{
  return pr_pt (-a.y, a.x);
}
static inline PrPt
pr_pt_unit (PrPt a)
{
  double l = pr_pt_len (a);
  return l > 0 ? pr_pt_scale (a, 1 / l) : pr_pt (0, 0);
}
