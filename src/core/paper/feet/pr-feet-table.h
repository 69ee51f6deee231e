/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The card below the feet. Inside of this room only. */
#pragma once
#include <cairo.h>
#include "pr-job.h"

#define PR_FEET_FINE_MM 3.3 /* 9 pt are 3.175 mm */

/* From Y on, WIDTH wide; the base line behind its end. DRAW FALSE only measures. */
double pr_feet_table (cairo_t *cr, const GPtrArray *jobs, PrUnit unit, double x, double y, double width,
                      bool draw);
/* The name of JOB's style. Transfer full. */
char *pr_feet_style (const PrJob *job);
