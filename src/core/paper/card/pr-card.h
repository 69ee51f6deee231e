/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the report says, line by line, before anyone decides how it looks: the text report prints
 * all of it, the card for the anvil its ANVIL lines in large type. */
#pragma once
#include "pr-card-draft.h"

/* Element type PrCardLine, transfer full. */
GPtrArray *pr_card_lines (const PrJob *job, PrUnit unit);
/* Of them the shoe's own, without where its crease and its nails stand; none of a shoe that is not built. */
GPtrArray *pr_card_shoe_lines (const PrJob *job, PrUnit unit);
/* What gave the scale: "printed tracing sheet, A4"; SCALE NULL: that there is no photo. Transfer full. */
char *pr_card_scale_words (const PrScale *scale);
