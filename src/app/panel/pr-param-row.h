/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrParamRow: one line of the panel: a label and one editor, or two for medial and lateral. What is typed goes into
 * the plan as one undo step; what cannot be used is told under the line, and nothing changes. A button is there
 * while the line's figures are not the usual ones, and puts them back, one step.
 *
 * Properties, all for the template: "label"; "first" and "second", parameters by their names in the table pr_params
 * (an unknown one is a critical; "second" may be left out); "section", both in one entry as a bar's section, "3/8 x
 * 1"; "usual", FALSE where there is no usual value to go back to; "help", a sentence under the line; "headings", "length|width", what stands above
 * two figures that are not the branches of one thing (those stand as they lie on the board, under medial and lateral); "when", the line is
 * only there while one of these holds, "bar=heart|toe": a choice is that, or a parameter is not nought. */
#pragma once
#include "pr-follower.h"

#define PR_TYPE_PARAM_ROW (pr_param_row_get_type ())
G_DECLARE_FINAL_TYPE (PrParamRow, pr_param_row, PR, PARAM_ROW, PrFollower)
