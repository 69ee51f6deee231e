/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figures of a limit as they are read and typed: a length in the reader's unit ("1.5 mm", "1/16 in"), a share of the
 * hoof's width ("4.5 %"), times the shoe's thickness ("2 ×"), an angle ("10°"). */
#pragma once
#include "pr-length.h"
#include "pr-limits.h"

/* VALUE as one of LIMIT's figures. Transfer full. */
char *pr_limit_words (const PrLimit *limit, double value, PrUnit unit);
/* The same back: what stands behind the figure may be left out. NOW is the figure that TEXT takes the place of, which tells
 * a share from a length. FALSE with PR_ERROR_INPUT. */
bool pr_limit_read (const PrLimit *limit, double now, const char *text, PrUnit unit, double *value,
                    GError **error);
