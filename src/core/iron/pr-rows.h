/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The iron as hammer and fuller meet it, one after the other.
 *
 * No smith draws a crease: he hammers the branch to a section A0, turns it, and then the fuller drives the crease in. Its iron a
 * moves partly along the branch (share lambda, the smith's own once he knows it; 0.23: common practice, no source), the rest
 * sideways. A finished stretch ds with section A (the crease out of it) was, before creasing,
 *
 *   ds0 = ds (1 - lambda a / (A + a)),   A0 = A ds / ds0,   web before creasing A0 / thickness
 *
 * so that the volume is kept exactly; at lambda = 1 the web does not change, at 0 nothing lengthens. A bevel that is
 * hammered sends its iron along the branch, so that the web stays; one that is ground off is still there under the hammer. */
#pragma once
#include "pr-section.h"

typedef struct {
  size_t n;        /* as many as the shoe's stations */
  double *blank;   /* mm of middle line from the medial heel, before creasing: rises with the stations' s */
  double *section; /* A0, mm2 */
  double lengthens[2]; /* by creasing, each branch from the middle of the toe, mm: so much short is it left */
  double bevel_lengthens[2]; /* and by bevels that are hammered */
  double widens;             /* the web, where it does most, mm */
} PrRows;

void pr_rows_make (PrRows *rows, const PrPlan *plan, const PrShoe *shoe); /* ROWS is replaced */
void pr_rows_clear (PrRows *rows);
/* Middle-line place before creasing of finished place S, and back. Linear between stations. */
double pr_rows_blank_of (const PrRows *rows, const PrShoe *shoe, double s);
double pr_rows_finished_of (const PrRows *rows, const PrShoe *shoe, double blank);
/* Web to leave before creasing at finished place S, mm. */
double pr_rows_web_at (const PrRows *rows, const PrShoe *shoe, double s);

/* A place where the hammer leaves a section, from the toe to the heel of each branch. */
typedef struct {
  char id[24]; /* "toe", "crease.from.medial", "nail.1.medial", "crease.to.medial", "heel.medial": C locale */
  char name[40]; /* translated */
  int branch;
  double s;     /* finished */
  double place; /* before creasing, along the middle line from the middle of the toe, mm */
  double web, thick;
} PrRowPlace;

/* Elements PrRowPlace, transfer full: toe first, then the medial and the lateral branch. */
GArray *pr_rows_places (const PrRows *rows, const PrShoe *shoe);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrRows, pr_rows_clear)
