/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One foot on two visits: drawn anywhere on its sheet, grown in between by what is known at every place of its wall. */
#pragma once
#include "kit.h"
#include "pr-visit-change.h"
#include "scene-feet.h"

/* What the wall has moved outward by, mm: EVEN all round; TOE more at the toe, fading as the square of the way there from the
 * widest line; BUMP more about a place of the wall, a bell SPREAD mm wide (one sigma). */
typedef struct {
  double even, toe, bump, spread;
  PrPt about;
} Growth;

/* FOOT as drawn on a sheet turned by ANGLE, its middle at (X, Y); with the landmarks a hand marks, or none. Transfer full. */
typedef struct {
  const SceneFoot *foot;
  PrFoot as; /* which it is drawn as */
  Growth growth;
  double angle;
  PrPt at;
  bool frog, toe;
} Drawn;

PrJob *visit_job (const Drawn *drawn);
/* What G moves the wall of FOOT outward by at P. */
double visit_growth (const SceneFoot *foot, const Growth *g, PrPt p);
/* A foot of the table anywhere on its sheet, with all landmarks, not grown. */
Drawn visit_drawn (GRand *rand, const SceneFoot *foot);
/* From the sheet D was drawn on back to the foot's own frame, and from there. */
PrPt visit_in (const Drawn *d, PrSheetPt p);
PrSheetPt visit_out (const Drawn *d, PrPt p);
