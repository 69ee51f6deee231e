/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrLimitsPage: the limits a person may change, to be looked through. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_LIMITS_PAGE (pr_limits_page_get_type ())
G_DECLARE_FINAL_TYPE (PrLimitsPage, pr_limits_page, PR, LIMITS_PAGE, PrFollower)
