/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The nails in a farrier's own box, kept under his own names in $XDG_DATA_HOME/pritchel/nails.json:
 * {"nails": [{"name":..., "head_length":..., "head_width":..., "head_depth":..., "shank":...}]}, mm. */
#pragma once
#include "pr-plan.h"

typedef struct {
  char *name;
  double head_length, head_width, head_depth; /* along and across the crease, and down into it, mm */
  double shank;                               /* mm square */
} PrOwnNail;

/* In the order they were kept. Element type PrOwnNail, transfer full. A file that cannot be read leaves its sentence in PROBLEM
 * (may be NULL) and gives none. */
GPtrArray *pr_own_nails_load (char **problem);
/* NULL: there is none of that name (letters of either case). */
const PrOwnNail *pr_own_nails_find (const GPtrArray *nails, const char *name);
/* The nails of PLAN are kept as those called NAME; a name that is taken is an error. */
bool pr_own_nails_keep (const char *name, const PrPlan *plan, GError **error);
bool pr_own_nails_forget (const char *name, GError **error);

/* PLAN is nailed with NAIL: the crease becomes as wide as its head and takes its depth, as far as the thickness lets it. A style
 * laid later keeps them, as it keeps the bar in hand. */
void pr_own_nail_use (const PrOwnNail *nail, PrPlan *plan);
/* The same from one plan to another; nothing where FROM has no nails of its own. */
void pr_own_nail_carry (const PrPlan *from, PrPlan *to);
