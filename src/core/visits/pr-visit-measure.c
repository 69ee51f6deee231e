/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-measure.h"

#include <glib/gi18n-lib.h>

#include "pr-check.h"

static const struct {
  const char *code, *words;
  int side; /* -1: of both */
} table[PR_N_VISIT_MEASURES] = {
  [PR_VISIT_LENGTH] = { "length", N_ ("Length"), -1 },
  [PR_VISIT_WIDTH] = { "width", N_ ("Width"), -1 },
  [PR_VISIT_HALF_MEDIAL] = { "half_medial", N_ ("Half"), PR_MEDIAL },
  [PR_VISIT_HALF_LATERAL] = { "half_lateral", N_ ("Half"), PR_LATERAL },
  [PR_VISIT_TOE_AHEAD] = { "toe_to_widest", N_ ("Toe to widest line"), -1 },
  [PR_VISIT_HEEL_MEDIAL] = { "heel_medial", N_ ("Widest line to heel"), PR_MEDIAL },
  [PR_VISIT_HEEL_LATERAL] = { "heel_lateral", N_ ("Widest line to heel"), PR_LATERAL },
  [PR_VISIT_HEELS_APART] = { "heel_to_heel", N_ ("Between the heels"), -1 },
  [PR_VISIT_APEX_TO_TOE] = { "apex_to_toe", N_ ("Frog's apex to toe"), -1 },
};

const char *
pr_visit_measure_code (PrVisitMeasure measure)
{
  return table[measure].code;
}

bool
pr_visit_measure_parse (const char *code, PrVisitMeasure *measure)
{
  for (int i = 0; i < PR_N_VISIT_MEASURES; i++)
    if (g_strcmp0 (code, table[i].code) == 0) {
      *measure = (PrVisitMeasure) i;
      return true;
    }
  return false;
}

char *
pr_visit_measure_words (PrVisitMeasure measure)
{
  if (table[measure].side < 0)
    return g_strdup (_ (table[measure].words));
  return g_strdup_printf ("%s, %s", _ (table[measure].words), pr_side_word (table[measure].side));
}

double
pr_visit_measure_of (const PrHoof *hoof, PrVisitMeasure measure)
{
  switch (measure) {
  case PR_VISIT_LENGTH:
    return hoof->length;
  case PR_VISIT_WIDTH:
    return hoof->width;
  case PR_VISIT_HALF_MEDIAL:
  case PR_VISIT_HALF_LATERAL:
    return hoof->centre == PR_CENTRE_ASSUMED ? NAN : hoof->width_side[table[measure].side];
  case PR_VISIT_TOE_AHEAD:
    return hoof->toe_to_widest;
  case PR_VISIT_HEEL_MEDIAL:
  case PR_VISIT_HEEL_LATERAL:
    return hoof->heel_length[table[measure].side];
  case PR_VISIT_HEELS_APART:
    return hoof->heel_width;
  default:
    return hoof->has_frog_apex ? hoof->apex_to_toe : NAN;
  }
}

bool
pr_visit_measure_grows (PrVisitMeasure measure)
{
  return measure == PR_VISIT_APEX_TO_TOE;
}
