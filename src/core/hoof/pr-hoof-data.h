/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrHoof as plain data: what pr-hoof.h makes, and says the frame of. */
#pragma once
#include "pr-path.h"
#include "pr-trace.h"

enum { PR_MEDIAL, PR_LATERAL };
/* -1 for medial, +1 for lateral: the sign of x on that side */
static inline double
pr_side_sign (int side)
{
  return side == PR_LATERAL ? 1.0 : -1.0;
}

/* Sheet to foot: foot = ( (p - origin) . ex, (p - origin) . ey ), unit vectors in the sheet. */
typedef struct {
  PrSheetPt origin;
  PrPt ex, ey;
} PrFootFrame;

/* What was set by hand or found drawn on the photo, in the sheet frame; has_* FALSE means "find it". */
typedef struct {
  bool has_toe, has_buttress[2], has_frog_apex, has_frog[2];
  PrSheetPt toe, buttress[2], frog_apex, frog[2]; /* frog: its edge where the branches come nearest */
  bool toe_first; /* the toe was set by hand and the frog only found: the centre line goes by the toe */
} PrLandmarks;

/* Where the centre line comes from, worst first. Only with a toe mark or the frog it is measured; else the front of
 * the foot is taken to be even, and asymmetry cannot be judged. */
typedef enum { PR_CENTRE_ASSUMED, PR_CENTRE_TOE, PR_CENTRE_FROG } PrCentre;

/* Levels at which the halves are measured: between toe and widest line, at the widest line, between it and the heels. */
enum { PR_LEVEL_FORE, PR_LEVEL_WIDEST, PR_LEVEL_REAR, PR_N_LEVELS };

typedef struct {
  PrFoot foot;
  PrFootFrame frame;
  PrPath outline;
  double toe_s; /* arc length of the toe along the outline */
  bool closed;
  PrCentre centre;
  PrPt toe; /* on the centre line: x = 0 */
  bool has_toe_mark;
  PrPt toe_mark; /* as it was drawn or set, which the centre line need not go by */
  PrPt buttress[2];
  PrPt widest[2]; /* on the widest line: y = 0 */
  bool has_frog_apex;
  PrPt frog_apex;
  bool has_frog[2];
  PrPt frog[2];       /* edges of the frog near the heels */
  double wall[3];     /* wall thickness at toe, quarter, heel, mm */
  bool wall_known[3]; /* measured; else it is the usual share of the width: a guess */

  double length;             /* toe to the mean of the buttresses along the centre line */
  double width;              /* along the widest line */
  double width_side[2];      /* each side of the centre line */
  double level[PR_N_LEVELS]; /* y */
  double half[PR_N_LEVELS][2];
  double half_area[2]; /* each side of the centre line, closed straight from heel to heel */
  double toe_to_widest, widest_to_heels;
  double toe_share;       /* toe to widest line, share of the length */
  double heel_length[2];  /* each buttress behind the widest line */
  double heel_angle[2];   /* of the wall ahead of the heel to the centre line, positive where it runs in */
  double frog_width;      /* between its edges; 0: not both are known */
  double apex_to_toe;     /* along the centre line; 0: the apex is not known */
  double heel_width;      /* between the buttresses */
  double area, perimeter; /* of the outline closed straight from heel to heel */
  double lean;   /* largest departure of one half from the mirror of the other: positive where the lateral
                           * half is fuller, negative where the medial one is */
  PrPt lean_at;  /* there, on the fuller half */
  bool stand_in; /* there is no foot: the outline is a shoe's outer edge */
} PrHoof;
