/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrTracingPart: the Tracing part's own controls: which paper it was, how thick the pencil, what is doubtful in the
 * line, and the ways to mend it by hand. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_TRACING_PART (pr_tracing_part_get_type ())
G_DECLARE_FINAL_TYPE (PrTracingPart, pr_tracing_part, PR, TRACING_PART, PrFollower)
