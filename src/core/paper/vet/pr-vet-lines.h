/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet's figures in words. What is measured stands with how it is known; which half is wider is told only where the centre
 * line is known: one that is assumed is laid where both are most alike. Nothing in it judges the horse. */
#pragma once
#include "pr-card-draft.h"
#include "pr-vet-about.h"

/* Rows with LABEL, VALUE and, in MORE, how it is known. Element type PrCardLine, transfer full. */
GPtrArray *pr_vet_measures (const PrJob *job, PrUnit unit);
/* Rows with LABEL and VALUE: the shoe as planned and, where it was forged, how that came out. The same. */
GPtrArray *pr_vet_shoe (const PrVetAbout *about, PrUnit unit);
/* Who allowed it, when and for what, what is not recorded of it named; none where nothing is. Rows as above. */
GPtrArray *pr_vet_permission (const PrVetNote *note);
/* What nobody should read out of the sheet: sentences, translated. Transfer full. */
char *pr_vet_cautions (void);
