/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What bar the shoe takes.
 *
 *   V  = integral A ds over the middle line (a ring sector of web b and middle radius R holds
 *        exactly b t R theta: Pappus) + clips + extension + bar - nail holes
 *   clip = (pi/4) * base * height * mean thickness (half an ellipse)
 *   L0 = (V + slugs) / (bar width * bar thickness) / (1 - loss) + weld allowances;
 *        the slugs punched from the holes are lost, so the bar must hold them too
 *   e(s) = ln (A_bar / A0(s)), positive where iron must be drawn; A0 the section before creasing (pr-rows.h)
 * Bar map: equal volume from one end puts every station of the shoe on the straight bar.
 * Hand rule: hoof length + hoof width (Lungwitz & Adams, A Text-Book of Horseshoeing, ch. III).
 * Density of steel: 7850 kg/m3 (EN 1993-1-2, from memory); aluminium 2700 kg/m3, from memory. */
#pragma once
#include "pr-rows.h"
#include "pr-shoe.h"

#define PR_MAX_MARKS 48
#define PR_MAX_PIECES 3

typedef struct {
  char name[40]; /* "toe", "nail 1 medial": translated */
  char id[24];   /* "toe", "nail.0.medial": stable, C locale */
  bool punch;    /* made on the bar with a punch; the others do not survive drawing and are for the eye */
  double from_end, from_centre; /* mm on the bar; centre = the mark of the toe's middle */
  double s;                     /* where it lies on the shoe's middle line */
  PrPt at;                      /* and in the foot frame */
} PrMark;

typedef struct {
  char name[40];    /* "shoe", "toe extension", "bar" */
  char id[16];      /* "shoe" "extension" "bar" */
  double volume;    /* mm3 finished, slugs in */
  double length;    /* bar to cut, mm, losses and weld allowance in */
  double allowance; /* of which for welds */
  PrMark mark[PR_MAX_MARKS];
  size_t n_marks;
} PrPiece;

/* A line of the sum that the bar to cut is. */
typedef struct {
  const char *id;   /* "middle_line" "crease" ...: C locale */
  const char *name; /* translated */
  double mm;
} PrSum;

#define PR_MAX_SUM 12

typedef struct {
  double volume, mass; /* finished shoe: mm3, kg */
  double slugs;        /* mm3 punched out */
  PrPiece piece[PR_MAX_PIECES];
  size_t n_pieces;
  double needed;          /* sum of the pieces, mm */
  double given, spare;    /* spare = given - needed; 0 when no length is given */
  double middle_line;     /* the string-round-the-curve length, mm */
  double hand_rule;       /* hoof length + width, mm */
  double mean_abs_strain; /* volume-weighted mean |e| */
  /* strain along the shoe piece: for station i, its place on the bar and e */
  double *bar_at, *strain;
  size_t n_st;
  PrRows rows;
  PrSum sum[PR_MAX_SUM]; /* adds up to needed */
  size_t n_sum;
} PrIron;

void pr_iron_clear (PrIron *iron);
/* L0 above for VOLUME mm3, slugs in it. */
double pr_iron_bar_length (double volume, double width, double thickness, double loss, double allowance);
/* IRON is replaced. Never fails on a shoe that was built. */
void pr_iron_plan (PrIron *iron, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe);
double pr_material_density (PrMaterial material); /* kg/m3 */
/* Place on the shoe piece's bar for middle-line S, and back. Linear between stations. */
double pr_iron_bar_at (const PrIron *iron, const PrShoe *shoe, double s);
double pr_iron_s_at (const PrIron *iron, const PrShoe *shoe, double bar);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrIron, pr_iron_clear)
