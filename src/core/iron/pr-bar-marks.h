/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Places of the shoe on its straight bar, and the marks made there. */
#pragma once
#include "pr-iron-data.h"

/* Place on the shoe piece's bar for middle-line S, and back. Linear between stations. */
double pr_iron_bar_at (const PrIron *iron, const PrShoe *shoe, double s);
double pr_iron_s_at (const PrIron *iron, const PrShoe *shoe, double bar);
/* Fills the marks of IRON's pieces, whose lengths, bar map and welds are known. */
void pr_bar_mark (PrIron *iron, const PrShoe *shoe);
