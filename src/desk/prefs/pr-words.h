/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures and dates as the window says them. All transfer full. */
#pragma once
#include "pr-length.h"

/* pr_length_brief and pr_length_brief_number: "22 mm", "22". */
char *pr_words_length (double mm, PrUnit unit);
char *pr_words_number (double mm, PrUnit unit);
/* ISO 8601 to "25 November 2026". */
char *pr_words_date (const char *iso);
