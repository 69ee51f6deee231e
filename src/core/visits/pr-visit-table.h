/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One foot of a horse over all its visits: a row of measures a visit, the oldest first, and what is made of them. */
#pragma once
#include "pr-visit-feet.h"
#include "pr-visit-measure.h"

typedef struct {
  PrBookId visit, foot;
  char *date;                     /* ISO 8601 */
  double day;                     /* days since 1 January of the year 1 */
  double mm[PR_N_VISIT_MEASURES]; /* NAN: not told */
} PrVisitFigures;

typedef struct {
  PrFoot foot;
  GPtrArray *row; /* PrVisitFigures */
} PrVisitTable;

/* Feet that have no outline, and specimens, are left out. FALSE with error when the book cannot be read. */
bool pr_visit_table_read (PrVisitTable *out, PrBook *book, PrBookId horse, PrFoot foot, GError **error);
void pr_visit_table_clear (PrVisitTable *table);
/* NAN: no visit tells it. */
double pr_visit_table_median (const PrVisitTable *table, PrVisitMeasure measure);
/* Days of DATE since 1 January of the year 1; 0: it is no day. */
double pr_visit_day (const char *date);
/* What the wall of the toe grows along itself in DAYS, least and most, by the limits growth.month.*. */
void pr_visit_growth (double days, double *least, double *most);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrVisitTable, pr_visit_table_clear)
