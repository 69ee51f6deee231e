/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rack: the bars a person has, ranked for a shoe, and bars cut up for several shoes.
 *
 * Work is the ideal work of an even change of section, as the mean over the volume of the equivalent strain
 *     sqrt (2/3 (ew^2 + et^2 + el^2)),  ew = ln (web/W), et = ln (thickness/T), el = -(ew + et)
 * (plasticity textbooks; no friction, no bending). It ranks bars; it is no measure of blows.
 *
 * Bars come from the resource /pritchel/rack.json; a person's own $XDG_CONFIG_HOME/pritchel/rack.json takes its place.
 * File: {"bars": [{"section": "25 x 10 mm", "length": "3 m", "material": "steel"} ...]}. */
#pragma once
#include "pr-iron.h"

typedef struct {
  char name[24];           /* as it was bought: "3/8 × 1", "25 × 10 mm" */
  bool inch;               /* by what it is called */
  double width, thickness; /* mm */
  double length;           /* as bought, mm; 0 when not told */
  int material;            /* PrMaterial */
} PrRackBar;

typedef struct {
  PrRackBar bar;
  double needed;       /* mm of this bar for the shoe */
  double work;         /* see above */
  double upset, drawn; /* the largest e(s) each way, 0 or more */
  size_t shoes;        /* that come out of one bar as bought */
  double waste;        /* share of a bar as bought that is left; 0 when its length is not told */
} PrRackLine;

/* Element type PrRackBar; transfer full. PROBLEMS (may be NULL) takes a sentence for a file that cannot be read; then
 * the program's own rack is used. */
GArray *pr_rack_load (GPtrArray *problems);
/* Puts a bar called SECTION ("3/8 x 1", "25 x 10 mm"), bought in LENGTH ("12 ft"; "" where it is not known), on a person's own
 * rack; takes BAR off it. The file is written whole; one that is there and cannot be read is an error, and stays. */
bool pr_rack_keep (const char *section, const char *length, PrMaterial material, PrUnit unit, GError **error);
bool pr_rack_drop (const PrRackBar *bar, GError **error);
/* One that was taken off, as it was. */
bool pr_rack_put_back (const PrRackBar *bar, GError **error);
/* The bars of the plan's material by work, then waste. Element type PrRackLine; transfer full. */
GArray *pr_rack_rank (const GArray *rack, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe);
/* What SHOE asks of its bar: the strain that counts in plasticity, on the mean over its volume, upsetting three times; 0 for none. */
double pr_rack_work (const PrPlan *plan, const PrShoe *shoe, const PrIron *iron);
/* Bars that are called by UNIT, where the rack has such of MATERIAL; else all of it. Transfer full. */
GArray *pr_rack_of_unit (const GArray *rack, PrUnit unit, int material);
/* The bar of that section, as the shop calls it in the rack; NULL: there is none. Transfer none. */
const PrRackBar *pr_rack_find (const GArray *rack, double width, double thickness, int material);
/* The first of them that need not be upset by more than the limit iron.upset has it; FALSE when there is none. */
bool pr_rack_best (const GArray *rack, const PrHoof *hoof, const PrPlan *plan, PrRackLine *best);

typedef struct {
  size_t item; /* index into the lengths given */
  size_t bar;  /* which bar it is cut from, from 0 */
  double at;   /* where on that bar it begins, mm */
} PrCut;

/* Cuts N lengths from bars of STOCK mm with KERF mm lost at each cut: longest first, each from the first bar that
 * holds it (first fit decreasing: never more than 11/9 of the fewest bars, plus one). CUT has N entries, in the order of
 * cutting. Returns the bars used; 0 with an error when a length is longer than a bar. */
size_t pr_cut_list (const double *length, size_t n, double stock, double kerf, PrCut *cut, GError **error);
