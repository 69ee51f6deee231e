/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A finding: one thing to look at before the fire is lit; what, where, how much, against which limit, from which
 * source. */
#pragma once
#include "pr-limits.h"
#include "pr-point.h"

typedef enum { PR_FITS, PR_LOOK, PR_MEND } PrState;
typedef enum {
  PR_GROUP_HEELS,
  PR_GROUP_NAILS,
  PR_GROUP_SHAPE,
  PR_GROUP_IRON,
  PR_GROUP_PHOTO,
  PR_N_GROUPS
} PrGroup;

typedef struct {
  const char *id; /* "nail.clip", static */
  PrGroup group;
  PrState state;
  double value, limit;
  char unit[4]; /* "mm", "%", "°", "g", "" */
  bool has_at;
  PrPt at;           /* where on the shoe */
  char *text;        /* one sentence: what, how much, against what; translated */
  char *source;      /* "Lungwitz & Adams", "common practice, no source", "your limit" */
  const char *offer; /* what may mend it, in a word for a button, translated; NULL when nothing does */
  bool tried;        /* and it was seen to mend it here (pr_job_offer) */
} PrFinding;

/* TEXT is taken over, UNIT and SOURCE are copied. Transfer full. */
PrFinding *pr_finding_new (const char *id, PrGroup group, PrState state, double value, double limit,
                           const char *unit, const char *source, char *text);
void pr_finding_at (PrFinding *finding, PrPt p);
/* For a GPtrArray. */
void pr_finding_free (gpointer finding);

/* Of a figure that must not be above LIMIT: LOOK beyond its look and slack, MEND beyond its mend. */
PrState pr_above (double value, const PrLimit *limit);
/* Of one that must not be below it. */
PrState pr_below (double value, const PrLimit *limit);

const char *pr_state_code (PrState state); /* "fits" "look" "mend", static */
const char *pr_state_name (PrState state); /* translated */
const char *pr_group_code (PrGroup group); /* "heels" ... */
const char *pr_group_name (PrGroup group);
