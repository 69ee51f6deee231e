/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The template or the silhouette laid on tiles, a page each, at 1 : 1: what does not fit one page goes over several with
 * overlap, crop marks and the neighbours' names. Inside this room and its tests only. */
#pragma once
#include "pr-dimensions.h"
#include "pr-paper.h"
#include "pr-silhouette.h"

typedef struct {
  const PrJob *job; /* not owned */
  PrDoc doc;        /* template, ground or silhouette */
  PrFace face;
  double overlap;           /* mm, as asked for */
  PrBox field;              /* of the page, below the row that names both sides */
  PrPt origin;              /* the foot's origin on the plan of tiles: x right, y down, mm */
  GArray *tile;             /* PrTile, one to a page */
  GArray *join;             /* what stands at the joins, inside this room's file */
  PrSilhouette *silhouette; /* NULL without a shoe, and on a template */
  PrDimensions *dims;       /* on the plan of tiles; NULL without a shoe, and of a silhouette */
} PrTiled;

/* Room the drawing takes with its letters, its centre lines' ends and its figures, mm: a field of this size holds it. */
void pr_tiled_size (const PrJob *job, double *width, double *height);
/* On pages whose field is FIELD, in which no side is less than 40 mm; JOB must outlive it. */
void pr_tiled_lay (PrTiled *tiled, const PrJob *job, PrDoc doc, PrUnit unit, double overlap, PrBox field);
/* The face that DOC shows. */
PrFace pr_tiled_face (PrDoc doc);
void pr_tiled_clear (PrTiled *tiled);
/* Page PAGE (from 0), on a context whose unit is 1 mm of the page; of several pages each shows where
 * it lies among the others in NICHE. */
void pr_tiled_draw (const PrTiled *tiled, int page, const PrBox *niche, cairo_t *cr);
