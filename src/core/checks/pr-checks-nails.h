/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Nails and clips: clear of each other, apart, in crease and wall. */
#pragma once
#include "pr-check.h"

void pr_check_nails (const PrRun *run);
