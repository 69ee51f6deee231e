/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrClockView: the clock of the run that is going, with a key and a button for each heat and step. Space, or a click anywhere on the
 * face, is a heat. What a run that was found going asks is asked here. */
#pragma once
#include <gtk/gtk.h>
#include "pr-practice-desk.h"

#define PR_TYPE_CLOCK_VIEW (pr_clock_view_get_type ())
G_DECLARE_FINAL_TYPE (PrClockView, pr_clock_view, PR, CLOCK_VIEW, GtkBox)

/* Once. */
void pr_clock_view_set_desk (PrClockView *view, PrPracticeDesk *desk);
/* The face gets the keyboard. */
void pr_clock_view_focus (PrClockView *view);
