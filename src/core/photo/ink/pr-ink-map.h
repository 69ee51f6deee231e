/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where is ink: the rectified sheet with its light evened out.
 *
 * Darkness is 1 - brightness / background, 0 on paper, 1 black. The background is the grey
 * closing of the sheet, wider than any pen line, smoothed. The ridge map answers, at a few
 * px per mm, how much darker a place is than the paper on BOTH sides of it, in the
 * best of eight directions: a line answers, the edge of a shadow or a stain does not.
 * Rules and grids (straight along the sheet's sides for long) are taken out of it.
 *
 * A line that is lighter than its ground is made a dark one first (pr_ink_map_level), and as chalk is broad the map
 * is then twice as coarse and looks twice as far. */
#pragma once
#include <stdint.h>
#include "pr-tracing.h"

typedef struct {
  int width, height; /* of GREY, the raster */
  double raster;     /* px per mm of GREY */
  uint8_t *grey;
  const uint8_t *rgb; /* as GREY, three bytes a pixel; the tracing's own */
  bool light;         /* levels of RGB go through LEVEL first */
  double broad;       /* how much broader than a pen's the strokes may be: 1 or 2 */
  uint8_t level[256];
  int back_width, back_height;
  double back_scale; /* px per mm of BACK */
  float *back;
  int ridge_width, ridge_height;
  double ridge_scale; /* px per mm of RIDGE */
  float *dark;        /* as RIDGE, before the ridge filter */
  float *ridge;
  float *rule; /* as RIDGE: darkness of rules and grids, taken out of DARK */
  uint8_t
      *cover;   /* as BACK: not 0 where something tinted lies on the paper (pr-ink-cover.h); NULL: nowhere */
  double noise; /* of RIDGE on empty paper */
  PrSheetPt low, high; /* the field in which lines are sought: beyond it is print, or the sheet's edge */
} PrInkMap;

/* TRACING says whether the line is light. */
void pr_ink_map_make (PrInkMap *ink, const PrTracing *tracing);
void pr_ink_map_clear (PrInkMap *ink);
/* RIDGE less what lies about everywhere: a floor's pattern answers all over, a line in one place of its
 * surroundings. For pictures that show more than a sheet. TIMES: how much of it; 5 for all of a floor's grain. */
void pr_ink_map_calm_clutter (PrInkMap *ink, double times);
bool pr_ink_map_in_field (const PrInkMap *ink, double x_mm, double y_mm);
/* Darkness at full resolution. */
double pr_ink_map_at (const PrInkMap *ink, double x_mm, double y_mm);
/* Darkness there that is a rule's or a grid's. */
double pr_ink_map_rule (const PrInkMap *ink, double x_mm, double y_mm);
/* RIDGE at a point, 0 outside. */
double pr_ink_map_ridge (const PrInkMap *ink, double x_mm, double y_mm);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrInkMap, pr_ink_map_clear)
