/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Joints of the pieces, and corners that are turned, as iron on the straight bar.
 *
 * For a joint either piece is upset to PR_UPSET_TO of its thickness, then scarfed: drawn down to half of it over the lap, so that
 * both together are as thick as the shoe again. What is upset is bar: lap (PR_UPSET_TO - 1) of either piece, taken from
 * the allowance of the weld. PR_UPSET_TO: FAO, Basic blacksmithing, Agr. Serv. Bull. 88/1, for a corner that is to be sharp. The lap of a heel bar is PR_WELD_LAP of the thickness: common practice, no source; that of a
 * toe extension is the plan's. */
#pragma once
#include "pr-iron-data.h"

#define PR_UPSET_TO 1.5
#define PR_WELD_LAP 1.5

/* Of the pieces that IRON was planned in. */
PrWelds pr_welds_of (const PrIron *iron, const PrPlan *plan, const PrShoe *shoe);
