/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures and dates as the window says them. All transfer full. */
#pragma once
#include "pr-length.h"

/* pr_length_brief and pr_length_brief_number: "22 mm", "22". */
char *pr_words_length (double mm, PrUnit unit);
char *pr_words_number (double mm, PrUnit unit);
/* How far off something lies: "0.12 mm", "0.005 in". */
char *pr_words_error (double mm, PrUnit unit);

/* What an arrow key moves a handle by: 1/2, 1/10 and 5 mm, or 1/32, 1/64 and 1/8 in. */
typedef enum { PR_NUDGE_USUAL, PR_NUDGE_FINE, PR_NUDGE_FAR } PrNudge;
double pr_nudge_mm (PrNudge nudge, PrUnit unit);
char *pr_nudge_words (PrNudge nudge, PrUnit unit);

/* The day it is here, ISO 8601. */
char *pr_words_today (void);
/* ISO 8601 to "25 November 2026", as the language has it. */
char *pr_words_date (const char *iso);
/* The same with the time of day, here, where ISO tells one: "25 November 2026, 14:05". */
char *pr_words_moment (const char *iso);
/* A day as a person types it, ISO 8601: "2026-11-30", "today", "30.11.2026", "30 November" (of this year), or with slashes as the
 * language orders them. NULL: it is none. */
char *pr_words_parse_day (const char *typed);
