/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One run of the checks: what every family of them is given, and how it tells what it found. */
#pragma once
#include <glib/gi18n-lib.h>

#include "pr-finding.h"
#include "pr-iron.h"

typedef struct {
  const PrHoof *hoof;
  const PrPlan *plan;
  const PrShoe *shoe;
  const PrIron *iron;
  const PrScale *scale; /* NULL: an outline without a photo */
  PrUnit unit;
  GPtrArray *out; /* of PrFinding */
} PrRun;

/* A new finding at the end of RUN's, transfer none; TEXT is taken over. */
PrFinding *pr_run_add (const PrRun *run, const char *id, PrGroup group, PrState state, double value,
                       double limit, const char *unit, const char *source, char *text);
const char *pr_side_word (int branch);
/* A figure and what it is held against, as read: with one digit more where they would read the same and are not, so that no
 * sentence contradicts its verdict. Transfer full. */
void pr_say_two (const PrRun *run, double a, double b, char **x, char **y);
/* Sentences with two lengths in them, after a side's word or not. FORMAT takes strings. Transfer full. */
char *pr_say (const PrRun *run, const char *format, double a, double b);
char *pr_say_side (const PrRun *run, const char *format, int side, double a, double b);
