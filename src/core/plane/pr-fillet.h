/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Corners of a polyline made round, mm. The arc is one cubic with its control points at 4/3 tan (turn/4) radii along
 * the tangents, which is within 3 parts in 10000 of a circle for a square corner. */
#pragma once
#include "pr-path.h"

/* How far from the corner a fillet of radius R begins; A, B and ROOM as below. 0 where the corner is too sharp or too
 * flat to be rounded. */
double pr_corner_reach (PrPt a, PrPt b, double r, double room);
/* Round corner of radius R (less where there is no room) at C between the unit directions A (towards
 * the point before) and B (towards the point after), with ROOM mm on both sides; adds it to RING. */
void pr_path_add_corner (PrPath *ring, PrPt a, PrPt c, PrPt b, double r, double room);
