/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A true cut through the iron, square to the outer edge: what a saw would show. Frame of a section: x from the outer edge
 * inward (an extension and a clip stand at x < 0), y from the foot surface down to the ground (a clip stands at y < 0), mm. */
#pragma once
#include "pr-shoe-data.h"

typedef struct {
  int branch;
  double s, place;   /* middle-line arc length from the medial heel; place of the branch, 0 at the toe */
  double web, thick; /* of the bar there, before anything is taken off it */
  PrPath iron;       /* ring: crease, bevels and roll taken off, an extension joined on */
  PrPath clip;       /* ring of a clip that is cut; empty where there is none */
  PrPath hole;       /* ring of a nail's hole, head to foot surface; empty where no nail is cut */
  int nail;          /* its index, 0 nearest the toe; -1: none */
  double crease_width, crease_depth; /* mm; 0 where there is no crease */
} PrSection;

/* Where SHOE, built of PLAN (at least two stations), is cut at middle-line place S (clamped to it). SECTION starts zeroed or as left by an earlier
 * call; the caller clears it. */
void pr_section_at (const PrPlan *plan, const PrShoe *shoe, double s, PrSection *section);
void pr_section_clear (PrSection *section);
/* Area of the iron, mm2: the section A(s) of the shoe where neither extension nor clip is cut. */
double pr_section_area (const PrSection *section);

/* Places worth a look before the iron is hot, each a middle-line place. */
double pr_section_toe (const PrShoe *shoe);
/* Of nail INDEX on BRANCH; NAN where it has none. */
double pr_section_nail (const PrShoe *shoe, int branch, int index);
/* Level with the buttress, or ahead of the heel's rounding where that begins before it. */
double pr_section_heel (const PrShoe *shoe, int branch);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrSection, pr_section_clear)
