/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heats with their steps, each of which can go earlier, later, or begin a heat. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_HEAT_LIST (pr_heat_list_get_type ())
G_DECLARE_FINAL_TYPE (PrHeatList, pr_heat_list, PR, HEAT_LIST, PrFollower)
