/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFindingsBar: one chip per group of findings above the board, its state told by shape, word
 * and colour. A chip opens the group's findings; a finding with a place is shown on the board.
 * Signal "show-place" (double x, double y: foot frame, mm). */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_FINDINGS_BAR (pr_findings_bar_get_type ())
G_DECLARE_FINAL_TYPE (PrFindingsBar, pr_findings_bar, PR, FINDINGS_BAR, GtkBox)

void pr_findings_bar_set_document (PrFindingsBar *bar, PrDocument *doc);
