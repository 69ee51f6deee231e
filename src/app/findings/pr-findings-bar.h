/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFindingsBar: one chip per group of findings, above the board. Signal "opening" (GtkPopover *list, int group): the
 * list of a chip is filled and about to be shown; now is the time to say where. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_FINDINGS_BAR (pr_findings_bar_get_type ())
G_DECLARE_FINAL_TYPE (PrFindingsBar, pr_findings_bar, PR, FINDINGS_BAR, PrFollower)
