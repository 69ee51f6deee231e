/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lays a plan on a hoof: flush ahead of the last nail, standing out evenly behind it up to the
 * heel (fit_front, fit_heel of the plan), nails on the white line, clips clear of nails. Least
 * squares on the knots (cminpack). What is locked stays as it is. */
#pragma once
#include "pr-shoe.h"

/* RMS (may be NULL): what is left between the edge and where the rules want it, mm. */
bool pr_fit (PrPlan *plan, const PrHoof *hoof, double *rms, GError **error);
/* Distance by which the rules want the edge outside the wall at share T of a side. */
double pr_fit_wanted (const PrPlan *plan, int side, double t);
/* Height in the foot frame behind which no nail stands: the widest line of a front foot, two thirds of the length from
 * the toe of a hind one (USDA, Special Report on Diseases of the Horse: fore half, front two thirds). */
double pr_fit_rearmost_nail (const PrHoof *hoof);
/* Sets the nail line of side B on the white line. */
void pr_fit_insets (PrPlan *plan, const PrHoof *hoof, int b);
