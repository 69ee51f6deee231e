/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrShoe: the geometry a plan makes on a hoof, as data. Made by pr_shoe_build (pr-shoe.h) and never edited.
 * Foot frame, mm. */
#pragma once
#include "pr-figure.h"
#include "pr-plan-data.h"
#include "pr-spline.h"

#define PR_STATIONS_PER_SPAN 24
#define PR_N_STATIONS ((PR_N_KNOTS - 1) * PR_STATIONS_PER_SPAN + 1)

/* One cut across the web. Stations run from the medial heel round the toe to the lateral heel. The cut is
 * square to the outer edge; near a heel cut square to the centre line it turns into that line. */
typedef struct {
  PrPt outer, inner;
  PrPt along, cut; /* unit: outer edge onward (medial to lateral), a side extension left out; outer towards
                            inner */
  double s;        /* arc length of the middle line from the medial heel */
  double edge;     /* arc length of the outer edge from the medial heel */
  double place;    /* of its branch: 0 at the toe */
  int branch;
  double web, thick; /* web square to the edge, what a side extension widens it by in it */
  double side_out;   /* by which a side extension moves the edge out */
  double squared;    /* by which a squared toe moves it in, along the cut */
  double crease_area, boxing_area, seating_area, roll_area; /* mm2, taken off web * thick */
  double area;                    /* section A(s) = web*thick - crease - bevels - roll, mm2 */
  double plane_next;              /* plane area between this cut and the next, mm2 */
  double volume_next;             /* iron between this cut and the next, holes filled, mm3 */
  double crease_next, bevel_next; /* of what is taken off it there by crease and by bevels, mm3 */
} PrStation;

typedef struct {
  int branch, index;  /* index 0 is the nail nearest the toe */
  PrPt at;            /* middle of the hole on the ground surface */
  PrPt along, out;    /* unit: towards the heel along the edge; square to it, outward */
  double place, edge; /* edge: outer-edge arc length from the toe to it, mm */
  double inset;       /* from the outer edge */
  double head_length, head_width, shank;
} PrNail;

typedef struct {
  int plan_index, branch;
  PrPt at, along, out;       /* middle of the base on the outer edge */
  double place, edge;        /* edge: of the middle, arc length from the toe */
  double edge_from, edge_to; /* of the base's two ends (from < to; negative: across the toe) */
  double base, height, thickness;
  PrPath ring; /* as drawn: a half ellipse outside the edge */
} PrClip;

typedef struct {
  int branch;
  double edge_from, edge_to; /* outer-edge arc lengths from the toe */
  double place_from, place_to;
  double width, depth; /* depth mm at its deepest */
  PrPath middle;
} PrCrease;

typedef struct {
  bool present;
  double ahead, width, thick;
  double area, volume; /* of what is added to the branches' figure */
  PrPt corner[4];      /* medial root, medial front, lateral front, lateral root */
  PrPt line[2];        /* extension line: where the sides meet the outer edge */
  double line_edge[2]; /* the same as outer-edge arc length from the toe */
  double line_place[2];
  PrPath front;   /* its edge with the fillets, and what of the outer edge leads up to them ... */
  double lead[2]; /* ... on either side of the line's points, mm */
} PrExtension;

/* A rolled toe: ahead of a line square to the centre line the ground surface rises evenly, by half the thickness at the very
 * toe. */
typedef struct {
  bool present;
  double y;     /* of the line */
  double slope; /* rise over distance ahead of the line */
  PrPt line[2]; /* where it meets the outer edge, medial and lateral */
} PrRoll;

typedef struct {
  PrSpline edge;           /* the outer edge, medial to lateral */
  double edge_length[2];   /* toe to heel end along the outer edge */
  double edge_buttress[2]; /* toe to the level of the buttress: place 1 */
  PrStation *st;
  size_t n_st, toe_st; /* toe_st: the station at the middle of the toe */
  double middle_length;
  PrPath outer, inner;               /* medial heel to lateral heel, as cut, without extension and bar */
  PrPt heel_outer[2], heel_inner[2]; /* corners of the cut before rounding */
  double heel_lost[2];               /* plane area the rounding takes off, mm2 */
  size_t loops;                      /* loops cut out of the inner edge */
  PrFigure figure;                   /* everything as filled, clips left out */
  PrNail nail[2 * PR_MAX_NAILS];
  size_t n_nails;
  PrClip clip[PR_MAX_CLIPS];
  size_t n_clips;
  PrCrease crease[2];
  size_t n_creases;
  PrExtension ext;
  PrRoll roll;
  /* of a bar shoe */
  double bar_volume; /* of what the bar adds to the branches, their rounded corners counted in */
  PrPt bar_at;       /* middle of its rear edge */
  PrPath weld[2];    /* where each branch and the bar are two pieces, if they are; empty without a bar */
  PrPt plate_tip, plate_apex; /* of a heart's plate, and the frog's apex it keeps off */
  double plate_half;          /* half its width at the root; 0 without a plate */
  bool plate_guessed;         /* the apex is not marked: it was taken at its usual place */
  bool stand_in;              /* built on a shoe's own edge: there is no foot to speak of */
  bool simple;                /* the figure is one piece that nowhere crosses itself */
  PrPt trouble_at;            /* where not, when not */
  char trouble[160];          /* one sentence, translated; empty when all is well */
} PrShoe;

PrShoe *pr_shoe_new (void);
void pr_shoe_free (PrShoe *shoe);
void pr_shoe_trouble (PrShoe *shoe, PrPt at, const char *text); /* the first one told stays */

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrShoe, pr_shoe_free)
