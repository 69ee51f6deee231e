/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The middle of the pen's stroke along a rough path, at full resolution.
 *
 * The path is walked in equal steps; across it, profiles of darkness are laid side by side to a
 * straight strip. In the strip the line is followed by dynamic programming, and its middle
 * taken as the centre of the ink's mass across it. */
#pragma once
#include "pr-ink-map.h"
#include "pr-path.h"

#define PR_STROKE_STEP 0.5  /* mm between profiles */
#define PR_STROKE_ACROSS 81 /* places across the strip, the middle one on the path */

typedef struct {
  size_t n;
  PrPt *base, *normal; /* the path and its left normal, sheet mm */
  double pitch, reach; /* mm from place to place, and to both sides of the path */
  float *strip;        /* n profiles of PR_STROKE_ACROSS */
  double *at;          /* the line's middle, mm along the normal */
  double *contrast;    /* how much darker than the paper on both sides, 0..1 */
  double pen;          /* width of the stroke, mm */
  double usual;        /* median contrast of what is drawn */
  double noise;        /* of CONTRAST where there is only paper */
} PrStroke;

typedef enum { PR_STROKE_INK, PR_STROKE_FAINT, PR_STROKE_NONE } PrStrokeKind;

/* What of the ink in the strip is to be followed. */
typedef struct {
  /* For each place of the strip how much its contrast VALUE counts, 0..1. Transfer full. */
  float *(*likeness) (gconstpointer data, const PrStroke *stroke, const PrInkMap *ink, const float *value);
  /* Lowers the contrast where LIKE says that something else was followed, AT being the place followed in
   * each profile. TRUE when there is any. */
  bool (*mark) (PrStroke *stroke, const float *like, const int *at);
  gconstpointer data;
} PrStrokeChoice;

/* PATH: sheet mm. CHOICE NULL: all ink counts. TRUE when some of what was followed is not of CHOICE. */
bool pr_stroke_make (PrStroke *stroke, const PrInkMap *ink, const PrPath *path, const PrStrokeChoice *choice);
/* The refined points; REPLACES what OUT held. */
void pr_stroke_path (const PrStroke *stroke, PrPath *out);
/* What profile I, whose middle is P, is. */
PrStrokeKind pr_stroke_kind (const PrStroke *stroke, const PrInkMap *ink, size_t i, PrPt p);
void pr_stroke_clear (PrStroke *stroke);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrStroke, pr_stroke_clear)
