/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFindingsChip: a group of findings, its state told by shape, word and colour. It opens to the findings; signal "opening" as the
 * bar's (pr-findings-bar.h). */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_FINDINGS_CHIP (pr_findings_chip_get_type ())
G_DECLARE_FINAL_TYPE (PrFindingsChip, pr_findings_chip, PR, FINDINGS_CHIP, PrFollower)

GtkWidget *pr_findings_chip_new (PrGroup group);
