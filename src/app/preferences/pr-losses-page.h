/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrLossesPage: what a new shoe is taken to lose in the fire, and is given for a weld. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_LOSSES_PAGE (pr_losses_page_get_type ())
G_DECLARE_FINAL_TYPE (PrLossesPage, pr_losses_page, PR, LOSSES_PAGE, PrFollower)
