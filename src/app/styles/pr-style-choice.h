/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrStyleChoice: which style the shoe has, and what that is for. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_STYLE_CHOICE (pr_style_choice_get_type ())
G_DECLARE_FINAL_TYPE (PrStyleChoice, pr_style_choice, PR, STYLE_CHOICE, PrFollower)
