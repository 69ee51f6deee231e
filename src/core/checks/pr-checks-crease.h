/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The crease: iron left outside it and below its floor, its width and depth against the nail. */
#pragma once
#include "pr-check.h"

void pr_check_crease (const PrRun *run);
