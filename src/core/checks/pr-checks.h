/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to look at before the fire is lit. Limits are data (resource /pritchel/limits.json, a
 * person's own in $XDG_CONFIG_HOME/pritchel/limits.json), each with its source. */
#pragma once
#include "pr-iron.h"

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
  const char *offer; /* what would mend it, in a word for a button, translated; NULL when nothing would */
} PrFinding;

/* All findings, worst first within a group. SCALE may be NULL (an outline without a photo).
 * Element type PrFinding, transfer full. UNIT is used in the sentences. */
GPtrArray *pr_checks_run (const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron,
                          const PrScale *scale, PrUnit unit);
const char *pr_state_code (PrState state); /* "fits" "look" "mend", static */
const char *pr_state_name (PrState state); /* translated */
const char *pr_group_code (PrGroup group); /* "heels" ... */
const char *pr_group_name (PrGroup group);
/* Worst state of a group, and how many findings are not "fits" (COUNT may be NULL). */
PrState pr_checks_group (const GPtrArray *findings, PrGroup group, int *count);

/* The change a finding offers. Writes into NEXT what PLAN becomes; FALSE when nothing helps (then NEXT is PLAN).
 * SHOE and IRON were made from PLAN. NEXT may not be PLAN. */
bool pr_offer_apply (const char *id, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe,
                     const PrIron *iron, PrPlan *next);
/* The word for it, translated; NULL when the id offers nothing. */
const char *pr_offer_name (const char *id);

/* The largest plan like PLAN that comes out of LENGTH mm of its bar: the webs narrowed evenly, thickness and length
 * kept. FALSE when even the narrowest web does not fit; NEXT is then PLAN. */
bool pr_plan_shrink (const PrHoof *hoof, const PrPlan *plan, double length, PrPlan *next);
