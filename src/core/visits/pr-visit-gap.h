/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far one line lies from another, place by place: from stations on the one, square to it, to the other. Positive: the
 * other lies further out. In one frame, mm. */
#pragma once
#include "pr-compare-data.h"
#include "pr-motion.h"

/* What a line is held against. OUTWARD: +1 where its outside lies to the left of it (a hoof's line, medial to lateral), -1 to
 * the right (a figure's rings). */
typedef struct {
  const PrPath *path;
  size_t n;
  bool ring;
  double outward;
} PrVisitLine;

/* Stations along HOOF's line, PR_COMPARE_STEP_MM apart; those within PR_COMPARE_HEEL_MM of a buttress, and behind it, are of a
 * heel. Element type PrOffset, nothing known yet. Transfer full. */
GArray *pr_visit_stations (const PrHoof *hoof);
/* Fills known and off of STATIONS (PrOffset) as they lie when MOTION moves them; they themselves stay. What lies further off
 * than 25 mm, or runs another way, is not the same edge. */
void pr_visit_measure_gap (GArray *stations, const PrMotion *motion, const PrVisitLine *line);
/* The stations themselves, moved. */
void pr_visit_move (GArray *stations, const PrMotion *motion);
/* HOOF's line as pr_visit_measure_gap takes it. */
PrVisitLine pr_visit_hoof_line (const PrHoof *hoof);
/* Mean of what is known from FROM to TO along the stations' own line; FALSE: nothing is. */
bool pr_visit_mean (const GArray *stations, double from, double to, double *mm);
