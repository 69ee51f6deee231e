/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figure as one piece, the bar, the photo. */
#pragma once
#include "pr-check.h"

void pr_check_iron (const PrRun *run);
