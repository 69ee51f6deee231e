/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrWorkView: the board with what belongs round it: the findings above, the buttons for the view on it. */
#pragma once
#include <gtk/gtk.h>
#include "pr-board.h"

#define PR_TYPE_WORK_VIEW (pr_work_view_get_type ())
G_DECLARE_FINAL_TYPE (PrWorkView, pr_work_view, PR, WORK_VIEW, GtkBox)

PrWorkView *pr_work_view_new (PrDocument *doc);
PrBoard *pr_work_view_board (PrWorkView *view); /* transfer none */
