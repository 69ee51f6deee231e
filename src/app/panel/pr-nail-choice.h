/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrNailChoice: which nails the shoe is nailed with: by the size of the foot, or of the farrier's own, by his names; and
 * the way to keep those in use under a name. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_NAIL_CHOICE (pr_nail_choice_get_type ())
G_DECLARE_FINAL_TYPE (PrNailChoice, pr_nail_choice, PR, NAIL_CHOICE, PrFollower)
