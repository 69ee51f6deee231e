/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a shoe is besides its branches: boxing, roll, extension, welds; iron on the sole; the foot its style is made for. Most
 * is told only where something is wrong. */
#pragma once
#include "pr-check.h"

void pr_check_parts (const PrRun *run);
