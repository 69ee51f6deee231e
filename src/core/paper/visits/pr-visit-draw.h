/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two visits on each other, on pages and screens: the later filled or drawn, the earlier a thin dashed ghost, between them the
 * gap by colour and hatch as a forged shoe's is drawn (pr-forged-draw.h): hatched where the later lies further out. In mm of the
 * later's foot frame, as pr_draw_enter_foot leaves it. */
#pragma once
#include "pr-forged-draw.h"
#include "pr-visit-change.h"

typedef struct {
  PrForgedLook forged; /* its ink, line and unit */
  PrFace face;
  bool shoes;  /* shoe on shoe, else foot on foot */
  double text; /* lettering of the figures, mm; 0: none */
  double
      lift; /* those of the quarters stand so far ahead of the widest line, where a board has its letters, mm */
  double letters; /* of M and L within the quarters, mm; 0: none */
} PrVisitLook;

/* Of NOW, the later; a shoe that is not there is not drawn. */
void pr_draw_visit (cairo_t *cr, const PrJob *now, const PrVisitChange *change, const PrVisitLook *look);
/* Only the earlier outline, and the figures at toe, quarters and heels: for a board that has the later foot already. */
void pr_draw_visit_ghost (cairo_t *cr, PrFoot foot, const PrVisitChange *change, const PrVisitLook *look);
/* What the drawing takes, its figures left out. */
void pr_visit_extent (const PrJob *now, const PrVisitChange *change, PrPt *low, PrPt *high);
