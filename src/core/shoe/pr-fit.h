/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lays a plan on a hoof: flush ahead of the last nail, standing out evenly behind it up to the
 * heel (fit_front, fit_heel of the plan), nails on the white line and clear of the clips. Least
 * squares on the knots (cminpack). What is locked stays as it is. */
#pragma once
#include "pr-fit-nails.h"
#include "pr-fit-wanted.h"

/* RMS (may be NULL): what is left between the edge and where the rules want it, mm. */
bool pr_fit (PrPlan *plan, const PrHoof *hoof, double *rms, GError **error);
