/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the report says, line by line, before anyone decides how it looks: the text report prints
 * all of it, the card for the anvil its ANVIL lines in large type. */
#pragma once
#include "pr-card-draft.h"

/* Element type PrCardLine, transfer full. */
GPtrArray *pr_card_lines (const PrJob *job, PrUnit unit);
