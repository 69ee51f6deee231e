/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrRackList: the bars of the rack for the shoe at hand, the least work first. Worked out only while it is
 * unfolded and no handle moves. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_RACK_LIST (pr_rack_list_get_type ())
G_DECLARE_FINAL_TYPE (PrRackList, pr_rack_list, PR, RACK_LIST, PrFollower)
