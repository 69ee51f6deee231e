/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrSeasonView: the class that is chosen, and its runs over time: what is best and usual, a plot, a table. */
#pragma once
#include <gtk/gtk.h>
#include "pr-practice-desk.h"

#define PR_TYPE_SEASON_VIEW (pr_season_view_get_type ())
G_DECLARE_FINAL_TYPE (PrSeasonView, pr_season_view, PR, SEASON_VIEW, GtkBox)

/* Once. */
void pr_season_view_set_desk (PrSeasonView *view, PrPracticeDesk *desk);
