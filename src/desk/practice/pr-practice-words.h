/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Practice as it is read: times, classes, runs, what a season comes to. All transfer full. */
#pragma once
#include "pr-length.h"
#include "pr-practice-season.h"

/* "12:05", of whole seconds; hours go on as minutes, as at a forge. */
char *pr_practice_time (double seconds);
/* "12 min · 1 shoe · free heats · without a striker" */
char *pr_practice_class_words (const PrPracticeClass *class);
/* What a run came to, in one line: "11:40 · 5 heats · off by 1.3 mm · 7.5 of 10". */
char *pr_practice_run_words (const PrPracticeRun *run, PrUnit unit);
/* "30 November 2026, 14:05". */
char *pr_practice_when (const PrPracticeRun *run);
/* What the machine did while a run went, as a sentence: it slept, was restarted, its clock was set. NULL: nothing. */
char *pr_practice_clock_words (const PrPracticeSpan *span);

/* One figure of it: "11:40", "4", "3.5" heats, "1.3 mm". */
char *pr_season_value_words (double value, PrSeasonKind kind, PrUnit unit);
/* A line of what a season comes to; "" where no run tells it: "Time: best 11:40, usually 12:30". */
char *pr_season_words (const GPtrArray *runs, PrSeasonKind kind, PrUnit unit);
/* "Ten runs make a trend; so far there are 3.", or where the time goes to. */
char *pr_season_trend_words (const GPtrArray *runs);
