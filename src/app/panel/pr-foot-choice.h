/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFootChoice: which foot it is. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_FOOT_CHOICE (pr_foot_choice_get_type ())
G_DECLARE_FINAL_TYPE (PrFootChoice, pr_foot_choice, PR, FOOT_CHOICE, PrFollower)
