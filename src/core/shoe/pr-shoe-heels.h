/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heels cut square to the centre line: the inner edge of a branch runs on as it lies until it is level with the end of the
 * outer one, and the cuts across the last of the branch turn evenly into that level line. */
#pragma once
#include "pr-shoe-data.h"

/* Turns the last cuts of BRANCH of SHOE, whose stations have their inner points square to the edge. Where the branch lies
 * so that its inner edge never gets level with the outer, the heel stays as it is. */
void pr_shoe_cut_heel (PrShoe *shoe, int branch);
