/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The comparison's pages for a printer and its preview (pr-sheaf.h). */
#pragma once
#include "pr-compare-data.h"
#include "pr-sheaf.h"

/* Of copies of JOB and SEEN as they stand, laid on each other in the way LAY. NULL with an error where they cannot be compared.
 * Transfer full. */
PrSheaf *pr_forged_sheaf_new (const PrJob *job, const PrSeen *seen, PrLay lay, GError **error);
