/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFindingRow: one finding in the list of a chip, with its source and what would mend it. One with a place can be
 * pressed: its list closes, and the action "work.show-finding" (its id; double x, double y: foot frame, mm) shows it. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_FINDING_ROW (pr_finding_row_get_type ())
G_DECLARE_FINAL_TYPE (PrFindingRow, pr_finding_row, PR, FINDING_ROW, GtkBox)

/* FINDING is one of JOB's. */
GtkWidget *pr_finding_row_new (const PrJob *job, PrFinding *finding);
/* The icon that tells STATE, static. */
const char *pr_finding_icon (PrState state);
