/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shoe as a black figure that is read from where one stands, to be held beside the work or cut out as a pattern: clips,
 * bar and extension as they stand in the plan, crease and nail holes left white, seen on the ground surface. Lengths mm, on
 * the plan of tiles: x right, y down. For the paper room. */
#pragma once
#include "pr-free-room.h"
#include "pr-job.h"

/* 22 pt are 7.76 mm: what is read at two metres. */
#define PR_SILHOUETTE_TYPE_MM 7.8
/* What it takes beyond the drawing on every side: the line it is cut out along. */
#define PR_SILHOUETTE_BEYOND_MM 6.0

typedef struct _PrSilhouette PrSilhouette;

/* Of JOB's shoe, the foot's origin at ORIGIN; it takes its room in ROOM. JOB must outlive it. NULL where there is no shoe.
 * Transfer full. */
PrSilhouette *pr_silhouette_new (const PrJob *job, PrPt origin, PrFreeRoom *room);
/* Lays its words, where ROOM has room for them. */
void pr_silhouette_lay (PrSilhouette *figure, PrFreeRoom *room);
void pr_silhouette_free (PrSilhouette *figure);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrSilhouette, pr_silhouette_free)
void pr_silhouette_draw (const PrSilhouette *figure, cairo_t *cr);
