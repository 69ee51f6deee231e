/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrHoof: outline and landmarks in the foot frame, and the foot's measures.
 *
 * Foot frame: origin where the centre line crosses the widest line, y to the toe, x to the
 * lateral side, mm. Index 0 is medial, 1 lateral, all through the program. The outline runs
 * from the medial heel round the toe to the lateral heel. */
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

PrPt pr_foot_frame_in (const PrFootFrame *frame, PrSheetPt p);
PrSheetPt pr_foot_frame_out (const PrFootFrame *frame, PrPt p);

/* What was set by hand or found drawn on the photo, in the sheet frame; has_* FALSE means "find it". */
typedef struct {
  bool has_toe, has_buttress[2], has_frog_apex, has_frog[2];
  PrSheetPt toe, buttress[2], frog_apex, frog[2]; /* frog: its edge where the branches come nearest */
  bool toe_first; /* the toe was set by hand and the frog only found: the centre line goes by the toe */
} PrLandmarks;

/* Adds what was found drawn on the photo and is sure, where MARKS say nothing. */
void pr_landmarks_add_drawn (PrLandmarks *marks, const PrDrawnMarks *drawn, PrFoot foot);

/* Where the centre line comes from, worst first. Only with a toe mark or the frog it is measured; else the front of
 * the foot is taken to be even, and asymmetry cannot be judged. */
typedef enum { PR_CENTRE_ASSUMED, PR_CENTRE_TOE, PR_CENTRE_FROG } PrCentre;

const char *pr_centre_code (PrCentre centre);  /* "frog", static */
const char *pr_centre_words (PrCentre centre); /* "by the frog", translated, static */

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
  double lean;  /* largest departure of one half from the mirror of the other: positive where the lateral
                           * half is fuller, negative where the medial one is */
  PrPt lean_at; /* there, on the fuller half */
} PrHoof;

/* The wall nobody has measured, as shares of the hoof's width (common practice, no source), never above what is published:
 * toe 3/8 to 5/8 in, quarters 1/5 to 2/5 in (Mayer, in Lungwitz & Adams, A Text-Book of Horseshoeing). */
#define PR_WALL_TOE_SHARE 0.085
#define PR_WALL_QUARTER_SHARE 0.060
#define PR_WALL_HEEL_SHARE 0.055
#define PR_WALL_TOE_MOST_MM 16.0
#define PR_WALL_QUARTER_MOST_MM 10.0

/* OUT is cleared first. FOOT PR_FOOT_ANY is treated as right (lateral on the right). MARKS may
 * be NULL. FALSE with an error when the outline cannot be a hoof (fewer than 8 points, a size that the limits hoof.*
 * do not take ...). */
bool pr_hoof_from_outline (PrHoof *out, const PrSheetPt *outline, size_t n, bool closed, PrFoot foot,
                           const PrLandmarks *marks, GError **error);
void pr_hoof_clear (PrHoof *hoof);
/* Point of the outline at share T of a side's arc length, 0 at the toe, 1 at that side's end of the
 * outline; OUT (may be NULL) receives the unit normal pointing out of the foot. */
PrPt pr_hoof_edge_at (const PrHoof *hoof, int side, double t, PrPt *out);
double pr_hoof_side_length (const PrHoof *hoof, int side);
/* Distance of P outside (+) or inside (-) the wall. */
double pr_hoof_outside (const PrHoof *hoof, PrPt p);
/* On this foot no wall is thicker: a third of its half. */
static inline double
pr_hoof_wall_most (const PrHoof *hoof)
{
  return hoof->width / 2 / 3;
}
/* Can a wall be MM thick? Within the limits wall.*, and on HOOF (may be NULL) within pr_hoof_wall_most. LEAST and
 * MOST (may be NULL) receive what can be, for the sentence that refuses it. */
bool pr_hoof_takes_wall (const PrHoof *hoof, double mm, double *least, double *most);
/* Is the wall at toe, quarter or heel one that nobody measured? */
bool pr_hoof_wall_is_guess (const PrHoof *hoof);
/* Wall thickness at arc-length share T of a side, 0 at the toe, 1 at the buttress. */
double pr_hoof_wall (const PrHoof *hoof, double t);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrHoof, pr_hoof_clear)
