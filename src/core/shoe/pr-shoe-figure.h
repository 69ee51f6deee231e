/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shoe as a plane figure: branches, rounded heels, extension, bar. */
#pragma once
#include "pr-shoe-data.h"

/* Everything as filled but the bar; where the ring crosses itself, that is told as trouble. */
void pr_shoe_make_figure (PrShoe *shoe, const PrPlan *plan);
/* Joins the bar to the figure, if there is one; after pr_shoe_make_figure. */
void pr_shoe_make_bar (PrShoe *shoe, const PrPlan *plan);
