/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrForgedPart: after the fire. A photo of the forged shoe is asked for; then what it is off by, what to do about it, and what
 * is kept of it. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_FORGED_PART (pr_forged_part_get_type ())
G_DECLARE_FINAL_TYPE (PrForgedPart, pr_forged_part, PR, FORGED_PART, PrFollower)

/* One line for the header. Transfer full. */
char *pr_forged_part_result (PrDocument *doc);
