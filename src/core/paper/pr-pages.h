/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A document on its pages: the leaf round each of them, and on it the template's tiles, the bar's
 * strips or the card. What others see of it is in pr-paper.h. Inside this room and its tests only. */
#pragma once
#include "pr-paper.h"
#include "pr-strips.h"
#include "pr-tiled.h"

/* The template on one page as large as it needs, for files that are not printed page by page; of OPTIONS only what is
 * said on it counts: unit, horse, date. */
PrPages *pr_pages_new_single (const PrJob *job, PrFace face, const PrPageOptions *options);
/* Its pages are those from FIRST (0) of OF, of which other documents have the rest: "page 3 of 5". */
void pr_pages_number (PrPages *pages, int first, int of);
/* How the document was laid out, for tests: of the template or the bar, empty in the others. */
const PrTiled *pr_pages_tiled (const PrPages *pages);
const PrStrips *pr_pages_strips (const PrPages *pages);
