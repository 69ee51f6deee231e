/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrOrderView: the order of work, a step a line, to be reworded. What is typed is kept as it is typed; a stretch
 * of typing is one undo step. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_ORDER_VIEW (pr_order_view_get_type ())
G_DECLARE_FINAL_TYPE (PrOrderView, pr_order_view, PR, ORDER_VIEW, PrFollower)
