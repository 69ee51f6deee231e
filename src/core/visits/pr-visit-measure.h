/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The measures of a foot that are followed from visit to visit; mm. */
#pragma once
#include "pr-hoof.h"

typedef enum {
  PR_VISIT_LENGTH,
  PR_VISIT_WIDTH,
  PR_VISIT_HALF_MEDIAL,
  PR_VISIT_HALF_LATERAL,
  PR_VISIT_TOE_AHEAD,
  PR_VISIT_HEEL_MEDIAL,
  PR_VISIT_HEEL_LATERAL,
  PR_VISIT_HEELS_APART,
  PR_VISIT_APEX_TO_TOE,
  PR_N_VISIT_MEASURES
} PrVisitMeasure;

const char *pr_visit_measure_code (PrVisitMeasure measure); /* "apex_to_toe": for files; static */
bool pr_visit_measure_parse (const char *code, PrVisitMeasure *measure);
char *pr_visit_measure_words (PrVisitMeasure measure); /* as read; transfer full */
/* NAN where HOOF does not tell it: halves need a centre line that was measured, the apex a frog that is marked. */
double pr_visit_measure_of (const PrHoof *hoof, PrVisitMeasure measure);
/* Does it grow with the wall while nobody trims it? Only the toe ahead of the frog's apex does, which stays where it is. */
bool pr_visit_measure_grows (PrVisitMeasure measure);
