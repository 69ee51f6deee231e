/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The comparison's files: compare.pdf at 1 : 1, compare.png, compare.txt. */
#pragma once
#include "pr-compare-data.h"
#include "pr-paper.h"

/* All three in folder DIR (made when missing), one set, all or none. */
bool pr_forged_write (const PrJob *job, const PrComparison *c, const PrPageOptions *options, const char *dir,
                      GError **error);
bool pr_forged_pdf (const PrJob *job, const PrComparison *c, const PrPageOptions *options, GByteArray *out,
                    GError **error);
bool pr_forged_png (const PrJob *job, const PrComparison *c, const PrPageOptions *options, GByteArray *out,
                    GError **error);
