/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the checks of one run share. */
#pragma once
#include <glib/gi18n-lib.h>

#include "pr-checks.h"
#include "pr-fit.h"
#include "pr-limits.h"

typedef struct {
  const PrHoof *hoof;
  const PrPlan *plan;
  const PrShoe *shoe;
  const PrIron *iron;
  const PrScale *scale;
  PrUnit unit;
  GPtrArray *out;
} PrRun;

/* A new finding; TEXT is taken over. */
PrFinding *pr_run_add (const PrRun *run, const char *id, PrGroup group, PrState state, double value,
                       double limit, const char *unit, const char *source, char *text);
void pr_finding_at (PrFinding *finding, PrPt p);
/* LOOK beyond one bound, MEND beyond the other. */
PrState pr_above (double value, double look, double mend);
PrState pr_below (double value, double look, double mend);
const char *pr_side_word (int branch);
/* Sentences with two lengths in them, after a side's word or not. Transfer full. */
char *pr_say (const PrRun *run, const char *format, double a, double b);
char *pr_say_side (const PrRun *run, const char *format, int side, double a, double b);

void pr_check_heels (const PrRun *run);
void pr_check_nails (const PrRun *run);
void pr_check_toe (const PrRun *run);
void pr_check_iron (const PrRun *run);
