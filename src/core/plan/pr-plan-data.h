/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPlan: everything a person decides about a shoe, as plain data: copy it with =, an undo
 * step is a copy. Lengths mm, angles radians. Index 0 medial, 1 lateral.
 *
 * A *place* is a position along the outer edge of one branch: arc length from the middle of
 * the toe divided by the arc length up to the point level with that side's buttress. 0 is
 * the toe, 1 the buttress, the heel lies a little beyond 1. So a longer heel moves no nail. */
#pragma once
#include "pr-hoof.h"

#define PR_MAX_NAILS 6 /* in a branch */
#define PR_MAX_CLIPS 4
#define PR_HEATS_SIZE 768

/* Knots of the outer edge, medial heel to lateral heel. */
enum {
  PR_KNOT_HEEL_M,
  PR_KNOT_HEEL_QUARTER_M,
  PR_KNOT_QUARTER_M,
  PR_KNOT_TOE_QUARTER_M,
  PR_KNOT_TOE,
  PR_KNOT_TOE_QUARTER_L,
  PR_KNOT_QUARTER_L,
  PR_KNOT_HEEL_QUARTER_L,
  PR_KNOT_HEEL_L,
  PR_N_KNOTS
};

typedef enum { PR_HEEL_CUT_BRANCH, PR_HEEL_CUT_CENTRE } PrHeelCut; /* square to which */
typedef enum { PR_TOE_PLAIN, PR_TOE_ROLLED, PR_TOE_SQUARED, PR_TOE_SET_BACK } PrToe;
typedef enum { PR_BAR_NONE, PR_BAR_STRAIGHT, PR_BAR_EGG, PR_BAR_HEART } PrBar;
typedef enum {
  PR_TIE_PLACE,
  PR_TIE_TOE,
  PR_TIE_EXTENSION,
  PR_TIE_FIRST_NAIL,
  PR_TIE_LAST_NAIL,
  PR_TIE_HEEL
} PrTie;
/* What a clip stands by: its middle at its place; its middle where the edge turns, half way between toe and
 * quarter (PR_CLIP_TURN); its front edge on the extension line. */
typedef enum { PR_CLIP_AT_PLACE, PR_CLIP_AT_TURN, PR_CLIP_AT_EXTENSION } PrClipTie;
typedef enum { PR_FEET_ALL, PR_FEET_FORE, PR_FEET_HIND } PrFeet;
typedef enum { PR_MATERIAL_STEEL, PR_MATERIAL_ALUMINIUM } PrMaterial;

typedef struct {
  double width, depth, from, to;
} PrBevel; /* from, to: places; width 0 = none */

typedef struct {
  int kind;   /* 0 none, 1 clip */
  int branch; /* for a clip off the toe; at place 0 it is the toe clip */
  int tie;    /* PrClipTie */
  double gap; /* tied: mm towards the heel from there */
  double place, base, height, thickness;
} PrClipPlan;

typedef struct {
  char style[48];            /* id of the style it came from */
  char heats[PR_HEATS_SIZE]; /* the person's own order of work (pr-heats.h); empty: as the plan gives it */
  char nail[64];             /* name of the own nails it is nailed with; empty: by the size of the foot */

  PrPt knot[PR_N_KNOTS]; /* foot frame; of the two heels only x counts: y follows heel_past */

  double web_toe, web_quarter[2], web_heel[2];
  double thick_toe, thick_heel;

  double heel_past[2];   /* beyond the buttress, along the centre line */
  int heel_cut;          /* PrHeelCut */
  double heel_round[2];  /* corner radius */
  double heel_taper[2];  /* web lost towards the very end, mm */
  double trailer[2];     /* the heel drawn on beyond heel_past, mm */
  double trailer_out[2]; /* and turned outward by this at its end */

  double side_ext[2];              /* side extension: the edge stands out by this beyond the fit ... */
  double side_from[2], side_to[2]; /* ... between these places, coming out and in smoothly */

  PrBevel boxing[2];  /* outer foot-surface edge */
  PrBevel seating[2]; /* inner foot-surface edge */
  bool bevels_ground; /* ground off in the end, so that their iron is lost; else hammered, so that it moves */

  bool crease[2];
  double crease_from[2], crease_to[2]; /* places, when tied to PR_TIE_PLACE */
  int crease_from_tie[2], crease_to_tie[2];
  double crease_from_gap[2], crease_to_gap[2]; /* mm behind (+) the thing tied to */
  double crease_width;
  double crease_depth; /* share of the thickness; 2/3 by Lungwitz & Adams */
  double crease_along; /* share of the iron it displaces that goes along the branch */

  int nails[2];
  double nail_first[2], nail_last[2];       /* places; the rest stand evenly between */
  double nail_shift[2][PR_MAX_NAILS];       /* each one's own: mm towards the heel */
  double nail_space;                        /* from nail to nail along the edge, as the fit lays them, mm */
  double nail_inset[2];                     /* nail line from the outer edge, mm, at the first nail */
  double nail_inset_last[2];                /* and at the last */
  double nail_bow[2];                       /* half way between them the line lies so much further out */
  double nail_head_length, nail_head_width; /* along and across the crease */
  double nail_head_depth;                   /* and down into it: where the hole narrows to the shank */
  double nail_shank;                        /* hole, mm square */
  double nail_pitch;                        /* inward slope of the hole */

  PrClipPlan clip[PR_MAX_CLIPS];

  int toe;           /* PrToe */
  double toe_amount; /* rolled: width of the roll; squared, set back: mm behind the fit */
  double ext_ahead;  /* toe extension ahead of the hoof's toe; 0 = none */
  double ext_width, ext_round, ext_thick;
  double ext_fillet; /* radius where its sides run into the branches */
  double
      ext_lap; /* as a piece of its own it lies under the toe by this, and each gives half its thickness there */

  int bar; /* PrBar */
  double bar_web, bar_set_back, bar_plate;

  int material;                    /* PrMaterial */
  double stock_width, stock_thick; /* the bar in hand */
  bool stock_known;                /* it was chosen; else a style takes the one for a foot of this size */
  double given;                    /* its length; 0 = not given */
  double given_ext, given_bar;     /* of a bar of its own for that piece; 0 = it comes out of the same one */
  double loss;                     /* share lost to scale and grinding */
  double own_more; /* share by which the person's own shoes take more bar than that tells (pr-learn.h) */
  double weld_allowance;     /* per weld, mm of stock */
  bool ext_piece, bar_piece; /* forged as pieces of their own */

  bool web_use_all; /* a fit makes the webs as wide as the given length of bar lets them be */
  int feet;         /* PrFeet: what the style is made for */

  /* rules the fit follows; they belong to the style and may be changed */
  double fit_front[2]; /* edge outside the wall up to the last nail */
  double fit_heel[2];  /* edge outside the wall behind it, at the buttress */

  guint64 locks; /* bit n: parameter GROUP n (PR_LOCK_*) stays at a fit */
} PrPlan;

/* What can be locked against the fit, one bit each. */
enum {
  PR_LOCK_TOE,
  PR_LOCK_MEDIAL,
  PR_LOCK_LATERAL,
  PR_LOCK_HEEL_M,
  PR_LOCK_HEEL_L,
  PR_LOCK_NAILS_M,
  PR_LOCK_NAILS_L,
  PR_LOCK_CLIPS,
  PR_N_LOCKS
};
static inline bool
pr_plan_locked (const PrPlan *plan, int lock)
{
  return plan->locks >> lock & 1;
}
