/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrKeepStyle: keeps the shoe as it is as a style of one's own, by the name asked for. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_KEEP_STYLE (pr_keep_style_get_type ())
G_DECLARE_FINAL_TYPE (PrKeepStyle, pr_keep_style, PR, KEEP_STYLE, PrFollower)
