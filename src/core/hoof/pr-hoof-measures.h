/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is measured on a foot that lies in its frame, and on one on its way there. */
#pragma once
#include "pr-hoof-data.h"

/* Least and greatest x of the outline at height Y. FALSE: it does not go there. */
bool pr_measure_width_at (const PrPath *outline, double y, PrPt side[2]);
/* Height of the widest line between LOW and HIGH. The greatest width is flat, so it is the middle of all heights that
 * come near it. */
bool pr_measure_widest (const PrPath *outline, double low, double high, double *y);
/* All measures of HOOF from its outline, toe, buttresses and frog; its walls are left alone. */
void pr_measure_hoof (PrHoof *hoof);
