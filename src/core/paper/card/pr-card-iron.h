/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The card's parts for the anvil: what bar is cut and where it is marked; how the marks are stepped off
 * on the shoe, and in which order it is made. Inside this room only. */
#pragma once
#include "pr-card-draft.h"

void pr_card_add_iron (PrCardDraft *draft);
/* Nothing where there is no shoe. */
void pr_card_add_work (PrCardDraft *draft);
