/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The card for the anvil on its pages: ten figures that are read at two metres on the first, where there is a shoe; on the
 * second the sections at 1 : 1 and a picture for each heat; on the next ones all that is said for the anvil, in type for arm's length. Inside this room and its tests only. */
#pragma once
#include <cairo.h>
#include "pr-card.h"
#include "pr-cuts.h"
#include "pr-stage-sheet.h"
#include "pr-tiles.h"

typedef struct {
  PrBox field;         /* of every page, mm */
  GArray *figure;      /* PrAnvilFigure: those of the first page; empty without a shoe */
  GPtrArray *line;     /* PrCardLine */
  GArray *place;       /* where those that are for the anvil stand */
  PrCuts cuts;         /* on the second page: the sections, */
  PrStageSheet stages; /* and below them the iron as it leaves each heat */
  GArray *picture;     /* where its pictures stand */
  int n_pages;
} PrCardPages;

void pr_card_pages_lay (PrCardPages *pages, const PrJob *job /* must outlive them */, PrUnit unit,
                        PrBox field);
void pr_card_pages_clear (PrCardPages *pages);
/* Page PAGE (from 0), on a context whose unit is 1 mm of the page. */
void pr_card_pages_draw (const PrCardPages *pages, int page, cairo_t *cr);
