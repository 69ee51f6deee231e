/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A season: the runs of one class over time, and what they come to. Runs that were broken off, were stopped unfinished or are going are
 * listed and count for nothing. */
#pragma once
#include "pr-practice-run.h"

typedef enum { PR_SEASON_TIME, PR_SEASON_HEATS, PR_SEASON_OFF, PR_SEASON_SCORE, PR_N_SEASON } PrSeasonKind;

/* So many runs make a trend. */
#define PR_SEASON_TREND_RUNS 10

typedef struct {
  guint n;      /* of runs that tell it */
  double best;  /* the least; of scores the most */
  double usual; /* the median; of an even number the mean of the middle two */
  bool has_trend;
  double
      trend; /* from run to run: the median of the slopes between any two (P. K. Sen, J. Am. Stat. Assoc. 63, 1968) */
} PrSeasonFigure;

/* s, number, mm, marks; NAN: RUN does not tell. A score counts where all was judged that weighs anything: else runs could not be held
 * against each other. */
double pr_season_value (const PrPracticeRun *run, PrSeasonKind kind);
/* Of RUNS (PrPracticeRun), the oldest first. Without any that tell it all is 0. */
PrSeasonFigure pr_season_figure (const GPtrArray *runs, PrSeasonKind kind);
/* RUNS as a table (RFC 4180), a run a line under the names of the columns; points for decimal marks. Transfer full. */
char *pr_season_csv (const GPtrArray *runs);
