/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of all feet (pr-feet-page.h) for a printer, and as a file. */
#pragma once
#include "pr-sheaf.h"

/* Of copies of JOBS (PrJob). Transfer full. */
PrSheaf *pr_feet_sheaf_new (const GPtrArray *jobs, PrFace face);
/* As a PDF, FILE whole or untouched. */
bool pr_feet_write (const GPtrArray *jobs, PrFace face, const PrPageOptions *options, const char *file,
                    GError **error);
