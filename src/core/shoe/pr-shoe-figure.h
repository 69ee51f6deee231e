/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shoe as a plane figure: branches, rounded heels, extension, bar. */
#pragma once
#include "pr-shoe-data.h"

/* Everything as filled, a bar joined to it. Where the ring crosses itself, or a bar cannot be drawn, that is told as
 * trouble; without its bar the shoe is drawn open. */
void pr_shoe_make_figure (PrShoe *shoe, const PrHoof *hoof, const PrPlan *plan);
