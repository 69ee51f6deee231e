/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrWallRow: the wall's thickness at toe, quarters and heels, as measured on the foot. An emptied entry goes
 * back to the usual thickness. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_WALL_ROW (pr_wall_row_get_type ())
G_DECLARE_FINAL_TYPE (PrWallRow, pr_wall_row, PR, WALL_ROW, PrFollower)
