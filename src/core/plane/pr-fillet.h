/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Corners of a polyline made round, mm: one by one where two straight sides meet (the arc is one cubic with its control
 * points at 4/3 tan (turn/4) radii along the tangents, within 3 parts in 10000 of a circle for a square corner), and all
 * along a path whose sides may be curves. */
#pragma once
#include "pr-path.h"

/* How far from the corner a fillet of radius R begins; A, B and ROOM as below. 0 where the corner is too sharp or too
 * flat to be rounded. */
double pr_corner_reach (PrPt a, PrPt b, double r, double room);
/* Round corner of radius R (less where there is no room) at C between the unit directions A (towards
 * the point before) and B (towards the point after), with ROOM mm on both sides; adds it to RING. */
void pr_path_add_corner (PrPath *ring, PrPt a, PrPt c, PrPt b, double r, double room);

/* Rolls a ball of radius R along the left of the open PATH: where the path bends to the left more tightly than the ball, it
 * gets the ball's arc, which meets both sides without a kink. All else stays as it was, to rounding. Corners nearer than R
 * to an end are not filled. Arcs in steps of PR_BALL_STEP. Cost: n times the points within some 9 R along the path. */
void pr_path_fill_corners (PrPath *path, double r);
#define PR_BALL_STEP \
  0.13 /* radians: a chord stays within 0.01 mm of an arc of radius 5, and 0.02 of one of radius 9 */
