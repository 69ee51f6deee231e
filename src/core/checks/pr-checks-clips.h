/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Clips: in pairs, on the centre line, in the front half, high and thick enough. How far they are from nails is with the
 * nails. */
#pragma once
#include "pr-check.h"

void pr_check_clips (const PrRun *run);
