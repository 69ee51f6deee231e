/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The steps packed into heats. A heat works one part of the shoe, as long as it stays hot on the anvil (pr-heat.h); a welding
 * heat has one step. A person may put the steps in another order and part the heats otherwise: that is
 * PrPlan.heats, the steps' ids with a space between, and a "/" where a new heat begins. Ids that the shoe has no step for are passed
 * over; steps it does not name follow the step they follow by themselves. */
#pragma once
#include "pr-steps.h"

typedef struct {
  PrZone zone;
  bool weld;      /* its limit is that of a weld */
  guint first, n; /* of steps */
  double seconds; /* what its steps take */
  double limit;   /* how long it stays hot enough; 0: not told (aluminium gives no sign of its heat) */
} PrHeat;

typedef struct {
  GArray *steps; /* PrStep; before the first heat and behind the last one those done cold */
  GArray *heats; /* PrHeat */
} PrHeats;

/* Does it take longer than the iron stays hot? */
bool pr_heat_is_too_long (const PrHeat *heat);
/* HEATS is replaced. */
void pr_heats_make (PrHeats *heats, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron, PrUnit unit);
void pr_heats_clear (PrHeats *heats);
/* Which heat step NR is done in, from 1; 0 before the fire, one more than there are heats after it. */
guint pr_heats_of_step (const PrHeats *heats, guint nr);
/* The order as PrPlan.heats has it, after one change; NULL where there is nothing to change. Transfer full.
 * Step NR goes BY steps earlier (-1) or later (1), out of its heat into the next where it stands at its end. */
char *pr_heats_moved (const PrHeats *heats, guint nr, int by);
/* A new heat begins with step NR, or no longer does. */
char *pr_heats_parted (const PrHeats *heats, guint nr);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrHeats, pr_heats_clear)
