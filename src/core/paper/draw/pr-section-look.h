/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A cut through the iron as it is looked at: foot surface up, outer edge left, on pages and screens. */
#pragma once
#include "pr-ink.h"
#include "pr-job.h"
#include "pr-section.h"

/* What the drawing takes round the section's origin (outer edge, foot surface), mm: a clip and an extension counted in. */
typedef struct {
  double left, up, right, down;
} PrSectionRoom;

PrSectionRoom pr_section_room (const PrSection *section);
/* With the section's origin at (0,0) of the target, whose unit is 1 mm of iron; LINE: width of its lines in the same unit. */
void pr_section_draw (cairo_t *cr, const PrSection *section, const PrInk *ink, double line);
/* "22.0 × 10.0 mm", and where there is a crease "crease 5.2 wide, 6.7 mm deep". Transfer full; the second may be NULL. */
char *pr_section_size (const PrSection *section, PrUnit unit);
char *pr_section_crease (const PrSection *section, PrUnit unit);

/* A section a smith looks at before the fire, in the order from the toe. */
typedef struct {
  double s;
  char *name; /* "toe", "nail 2", "heel"; with its branch where the two differ */
} PrSectionPlace;

/* Toe, nail 2 and heel, none of a shoe that is not built; a branch of its own where its section differs from the other's. Elements PrSectionPlace, freed with it.
 * Transfer full. */
GArray *pr_section_places (const PrJob *job);
