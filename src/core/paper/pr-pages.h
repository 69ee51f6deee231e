/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A document laid out on its pages. Inside this room and its tests only. */
#pragma once
#include "pr-leaf.h"
#include "pr-paper.h"

/* A stretch of a piece of bar, and where it stands. */
typedef struct {
  size_t piece;
  double from, to;        /* mm of the piece */
  double y;               /* on its page */
  int page, index, count; /* of this piece's strips */
} PrStrip;

/* A line of the card as broken and placed. */
typedef struct {
  guint line; /* in CARD */
  double y;
  int page;
} PrCardPlace;

struct _PrPages {
  PrDoc doc;
  const PrJob *job;
  PrPageOptions options;
  PrFace face;
  PrLeaf leaf;
  double width, height; /* of the paper */
  PrBox field;          /* for the drawing */
  PrPt origin;          /* template: the foot's origin on the plan of tiles */
  GArray *tiles;        /* PrTile */
  GArray *strips;       /* PrStrip */
  GPtrArray *card;      /* PrCardLine */
  GArray *places;       /* PrCardPlace */
  int n;
};

/* The template on one page as large as it needs, for files that are not printed page by page. */
PrPages *pr_pages_new_single (const PrJob *job, PrFace face, PrUnit unit);
/* The bar document's and the card's part. */
void pr_pages_lay_strips (PrPages *pages);
void pr_pages_draw_strips (const PrPages *pages, int page, cairo_t *cr);
void pr_pages_lay_card (PrPages *pages);
void pr_pages_draw_card (const PrPages *pages, int page, cairo_t *cr);
