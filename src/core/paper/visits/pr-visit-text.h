/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two visits, and all of them, in words and figures. All transfer full. */
#pragma once
#include "pr-visit-change.h"
#include "pr-visit-table.h"

/* "label\tvalue" lines: of the feet the gap at each place and every measure with its change, of the SHOES their sizes. */
GStrv pr_visit_lines (const PrVisitChange *change, bool shoes, PrUnit unit);
/* How the feet were laid and what to bear in mind: a mirror, a scale that was not sure, a way that cannot tell all. */
char *pr_visit_caution (const PrVisitChange *change);
/* "By the frog", "By the toe tick", "By the best fit". */
char *pr_visit_lay_words (PrVisitLay lay);
/* What the plot's band is; NULL: MEASURE has none. */
char *pr_visit_band_words (PrVisitMeasure measure, PrUnit unit);
/* A length of a table; "–" for none. */
char *pr_visit_cell (double mm, PrUnit unit);
/* The table as comma separated values (RFC 4180), a row a visit, mm with a point; what is not told is empty. */
char *pr_visit_csv (const PrVisitTable *table);
