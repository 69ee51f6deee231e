/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrOwnBar: what the person's earlier shoes tell about the bar of this one, and whether it is cut by that. Not there while they
 * tell nothing. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_OWN_BAR (pr_own_bar_get_type ())
G_DECLARE_FINAL_TYPE (PrOwnBar, pr_own_bar, PR, OWN_BAR, PrFollower)
