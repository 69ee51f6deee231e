/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The bar folded into strips that flow down pages, and the cuts through the iron below them, 1 : 1. A strip of a longer piece shares an overlap
 * with the next one; they join in its middle. Inside this room and its tests only. */
#pragma once
#include <cairo.h>
#include "pr-cuts.h"
#include "pr-tiles.h"

/* A stretch of a piece of bar, and where it stands. */
typedef struct {
  size_t piece;
  double from, to;        /* mm of the piece */
  double y;               /* in the field of its page, mm */
  int page, index, count; /* of this piece's strips */
} PrStrip;

typedef struct {
  const PrJob *job; /* not owned */
  PrUnit unit;
  double overlap; /* mm */
  PrBox field;    /* of every page, mm */
  double legend;  /* what it takes at the top of each page, mm */
  GArray *strip;  /* PrStrip, in the order they are read */
  PrCuts cuts;    /* the sections to look at before the fire, below them */
  int n_pages;
} PrStrips;

/* Lays all pieces of JOB's bar; JOB must outlive them. OVERLAP mm is held to what can be joined. */
void pr_strips_lay (PrStrips *strips, const PrJob *job, PrUnit unit, double overlap, PrBox field);
void pr_strips_clear (PrStrips *strips);
/* Page PAGE (from 0), on a context whose unit is 1 mm of the page. */
void pr_strips_draw (const PrStrips *strips, int page, cairo_t *cr);
