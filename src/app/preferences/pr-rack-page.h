/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrRackPage: the bars a person has; put on and taken off, the last one back again. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_RACK_PAGE (pr_rack_page_get_type ())
G_DECLARE_FINAL_TYPE (PrRackPage, pr_rack_page, PR, RACK_PAGE, PrFollower)
