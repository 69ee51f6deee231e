/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the drawn line begins and ends, and what of it is bridged.
 *
 * From the toe the stroke is walked both ways as long as there is ink. A gap is bridged when the
 * line goes on beyond it in the same direction; where it does not, the line ends. A tail
 * behind a sharp corner (a tick across the heel, the bar, a drawn shoe's heel) is cut off. A line without an end was
 * drawn closed, and so was one with two bulbs: it is cut at the heels (pr-bulb-heels.h). */
#pragma once
#include "pr-stroke.h"

/* The last three are all bridged: over paper, under something that lies on it, under a lamp's reflection. */
typedef enum {
  PR_STRETCH_INK,
  PR_STRETCH_FAINT,
  PR_STRETCH_BRIDGED,
  PR_STRETCH_COVERED,
  PR_STRETCH_WHITE
} PrStretch;

typedef struct {
  PrPath path;     /* heel to heel round the toe, sheet mm, about PR_STROKE_STEP apart */
  PrStretch *kind; /* of the side from point i to i + 1 */
  bool closed;
  bool turned[2]; /* not CLOSED: it turned in there and was cut at the corner */
  /* CLOSED: */
  PrPath rest;      /* from the path's last point round the bulbs to its first */
  double spread[2]; /* how far each heel may lie to either side, mm along the line */
  bool found;       /* both heels are drawn: by a joint or a tick each; else they are a guess */
  bool ticked;
  double sum;     /* degrees that tell the rear, as in PrBulbHeels; 0: none */
  bool anyway_up; /* not FOUND, and nothing tells which side is the rear */
  double inked;   /* share of the path on ink */
} PrLineEnds;

/* REAR: where the heels must lie from the middle, or 0,0. FALSE when nothing is drawn. */
bool pr_line_ends_find (PrLineEnds *ends, const PrStroke *stroke, const PrInkMap *ink, PrPt rear);
void pr_line_ends_clear (PrLineEnds *ends);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrLineEnds, pr_line_ends_clear)
