/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A rigid motion in the plane: turned by (C, S), the cosine and sine of its angle, then moved. Never a scale. */
#pragma once
#include "pr-point.h"

typedef struct {
  double c, s;
  PrPt shift;
} PrMotion;

static inline PrPt
pr_motion_turn (const PrMotion *m, PrPt d)
{
  return pr_pt (m->c * d.x - m->s * d.y, m->s * d.x + m->c * d.y);
}
static inline PrPt
pr_motion_of (const PrMotion *m, PrPt p)
{
  return pr_pt_add (pr_motion_turn (m, p), m->shift);
}
/* M, and then the small step of X: a shift by X[0] and X[1] and a turn by X[2], radians, about the origin. */
static inline PrMotion
pr_motion_then (const PrMotion *m, const double x[3])
{
  const PrMotion step = { cos (x[2]), sin (x[2]), { x[0], x[1] } };

  return (PrMotion){ step.c * m->c - step.s * m->s, step.s * m->c + step.c * m->s,
                     pr_motion_of (&step, m->shift) };
}

/* Normal equations of the three numbers of a small step. */
typedef struct {
  double a[3][3], b[3];
} PrMotionRows;

/* The step should make ROW . X equal to WANTED. */
void pr_motion_add_row (PrMotionRows *rows, const double row[3], double wanted, double weight);
/* By Cramer's rule; FALSE, X untouched, where nothing holds what is moved in its place. */
bool pr_motion_solve (const PrMotionRows *rows, double x[3]);
