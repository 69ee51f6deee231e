/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figures of a template: webs as finished and, where creasing will widen them, as they are left before it; width, length,
 * heels and both diagonals; where each crease begins and ends; welds and the lap of an extension. Each stands where there is
 * room for it, with a leader to its place. Lengths mm, on the plan of tiles: x right, y down. For the paper room. */
#pragma once
#include "pr-free-room.h"
#include "pr-job.h"

/* 9 pt are 3.175 mm. */
#define PR_DIM_WORDS_MM 3.3
#define PR_DIM_FIGURE_MM 4.2
/* What the lines of the whole shoe take beyond the drawing: behind it, and to the right of it. */
#define PR_DIM_BEHIND_MM 19.0
#define PR_DIM_BESIDE_MM 18.0

typedef struct _PrDimensions PrDimensions;

/* Of JOB's shoe as FACE shows it, the foot's origin at ORIGIN. What ROOM says is not free stays clear: the drawing is on it
 * already; what is laid takes its room there. NULL where there is no shoe. Transfer full. */
PrDimensions *pr_dimensions_new (const PrJob *job, PrFace face, PrUnit unit, PrPt origin, PrFreeRoom *room);
void pr_dimensions_free (PrDimensions *dims);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrDimensions, pr_dimensions_free)
void pr_dimensions_draw (const PrDimensions *dims, cairo_t *cr);
/* How many figures there are, and how many of them found no room, for tests. */
int pr_dimensions_count (const PrDimensions *dims, int *left_out);
