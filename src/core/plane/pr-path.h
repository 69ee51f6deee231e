/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPath: a polyline in the plane, mm. Open unless a function says "ring"; a ring does
 * not repeat its first point. A zeroed PrPath is a valid empty one; pr_path_clear frees
 * what it holds and leaves it empty. All functions are O(n) unless stated. */
#pragma once
#include <glib.h>
#include "pr-point.h"

typedef struct {
  PrPt *p;
  size_t n, cap;
} PrPath;

void pr_path_clear (PrPath *path);
void pr_path_empty (PrPath *path); /* n = 0, memory kept */
void pr_path_add (PrPath *path, PrPt pt);
void pr_path_copy (PrPath *to, const PrPath *from); /* replaces what TO held */
void pr_path_reverse (PrPath *path);

double pr_path_length (const PrPath *path);
/* Point at arc length S from the start; S is clamped to the path. TANGENT (may be NULL)
 * receives the unit direction there. The path must have at least two points. */
PrPt pr_path_at (const PrPath *path, double s, PrPt *tangent);
/* Nearest point of the path to P; returns the distance, S_OUT and AT_OUT may be NULL. */
double pr_path_nearest (const PrPath *path, PrPt p, double *s_out, PrPt *at_out);
/* The same for who keeps the lengths of the sides: on which side it lies, by the point that ends it, 0 for none, and at
 * which share of it. */
double pr_path_nearest_side (const PrPath *path, PrPt p, size_t *side, double *share, PrPt *at_out);
/* Which of the path's own points lies nearest to P, the first of equals. The path is not empty. */
size_t pr_path_nearest_point (const PrPath *path, PrPt p);
/* Arc lengths at which the path crosses the line through A with direction DIR (not a
 * segment), in order of arc length; writes at most MAX, returns how many there are. */
size_t pr_path_crossings (const PrPath *path, PrPt a, PrPt dir, double *s, size_t max);
/* Equally spaced points, first and last kept; N >= 2. Replaces what TO held. */
void pr_path_resample (PrPath *to, const PrPath *from, size_t n);
/* Part between two arc lengths, S0 < S1, ends interpolated. */
void pr_path_part (PrPath *to, const PrPath *from, double s0, double s1);

double pr_ring_area (const PrPath *ring);        /* signed: positive counter-clockwise (y up) */
double pr_ring_length (const PrPath *ring);      /* with the closing side */
bool pr_ring_holds (const PrPath *ring, PrPt p); /* crossing number */

/* Cuts out the small loops a moved line makes where its distance exceeds the radius of
 * curvature: where two sides at most REACH mm apart along the path cross, the part
 * between is replaced by the crossing. Linear in n for a bounded number of points
 * within REACH. Returns the number of loops cut. */
size_t pr_path_cut_loops (PrPath *path, double reach);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrPath, pr_path_clear)
