/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The toe extension. */
#pragma once
#include "pr-check.h"

void pr_check_toe (const PrRun *run);
