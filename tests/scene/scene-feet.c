/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scene-feet.h"

#define ROUGH 4000 /* points of a half before it is laid out in equal steps */
/* Share of the length; puts the apex an inch ahead of the widest line of a foot of 130. */
#define TOE_TO_APEX 0.36
#define FROG_IN 0.20     /* wall, bar and groove between a buttress and the frog's edge, share of the width */
#define FROG_LEAST 0.07  /* half a frog, share of the width: one shrunken between narrow heels */
#define FROG_AHEAD 0.05  /* its edges are marked this far ahead of the buttresses, share of the length */
#define FLARE_REACH 0.21 /* how far a flare spreads along the foot (one sigma), share of the length */
/* The wall's last turn towards the bar draws the buttress in by this share of a half, within about the last sixth
 * of the quarter. */
#define HEEL_TURN 0.035
#define HEEL_TURN_POWER 11

static const SceneFoot feet[] = {
  /* name             foot            W    L   ahead heels point   flare     uneven over back turned */
  { "pony-fore", PR_FOOT_LF, 90, 91, 0.54, 0.66, -0.02, { 0, 0 }, 0, 0, 0, 3 },
  { "pony-hind", PR_FOOT_RH, 96, 104, 0.62, 0.68, 0.06, { 0, 1 }, 1, 0, 0, -4 },
  { "small-fore", PR_FOOT_RF, 104, 107, 0.55, 0.64, -0.04, { 0, 1 }, 1, 0, 0, -2 },
  { "club-fore", PR_FOOT_LF, 108, 120, 0.55, 0.58, -0.03, { 0, 0 }, 0, 0, 1, 5 },
  { "light-hind", PR_FOOT_LH, 112, 124, 0.63, 0.67, 0.09, { 0, 0 }, 1, 0, 0, 0 },
  { "hack-hind", PR_FOOT_RH, 118, 129, 0.62, 0.69, 0.05, { 0, 1 }, 1.5, 0, 1, -6 },
  { "contest-122", PR_FOOT_LF, 122, 126, 0.55, 0.65, -0.02, { 0, 0 }, 1, 0, 0, 2 },
  { "riding-hind", PR_FOOT_LH, 126, 138, 0.63, 0.70, 0.07, { 0, 1 }, 1, 0, 0, 4 },
  { "long-toe", PR_FOOT_RF, 128, 140, 0.57, 0.61, 0.04, { 1, 1 }, 0, 0, 0, -3 },
  { "contest-130", PR_FOOT_RF, 130, 134, 0.55, 0.66, -0.03, { 0, 0 }, 1.5, 0, 0, -1 },
  { "uneven-fore", PR_FOOT_LF, 134, 136, 0.55, 0.65, 0.01, { 0, 1 }, 6, -3, 3, 7 },
  { "flared-hind", PR_FOOT_RH, 134, 143, 0.61, 0.69, 0.05, { 0, 6 }, 1, 0, 1, -5 },
  { "flared-fore", PR_FOOT_RF, 136, 135, 0.54, 0.64, 0, { 2, 7 }, 2, 1, 2, 1 },
  { "contest-138", PR_FOOT_LF, 138, 142, 0.55, 0.66, -0.01, { 0, 0 }, 1, 0, 0, -2 },
  { "cob-hind", PR_FOOT_LH, 146, 152, 0.61, 0.72, 0.02, { 1, 2 }, 1, 0, 0, 3 },
  { "flat-fore", PR_FOOT_LF, 148, 142, 0.53, 0.74, -0.06, { 4, 4 }, 1, 0, 0, 6 },
  { "heavy-fore", PR_FOOT_RF, 160, 157, 0.54, 0.70, -0.02, { 2, 2 }, 2, 0, 1, -3 },
  { "draught-hind", PR_FOOT_RH, 168, 175, 0.60, 0.72, 0.02, { 2, 3 }, 2, 0, 0, 0 },
  { "draught-fore", PR_FOOT_LF, 182, 176, 0.53, 0.72, -0.04, { 3, 4 }, 2, 0, 0, 2 },
};

const SceneFoot *
scene_feet (size_t *n)
{
  *n = G_N_ELEMENTS (feet);
  return feet;
}

/* One half. All of it is analytic in its two parts, and where they meet at the widest line place, direction and
 * bending agree, so that the foot has no corner anywhere. */
typedef struct {
  double half, ahead, behind; /* of this side: half width without flare, mm */
  double point, flare, reach;
  double square, cube, turn; /* how the quarter runs in, by powers of the share of the way back */
  double sign, over;
} Half;

static double
half_width (const SceneFoot *foot, int lateral)
{
  return (foot->width - foot->flare[0] - foot->flare[1] + (lateral ? 1 : -1) * foot->uneven) / 2;
}

static Half
half_of (const SceneFoot *foot, int lateral)
{
  double w = half_width (foot, lateral), ahead = foot->ahead * foot->length;
  double behind = foot->length - ahead + (lateral ? -0.5 : 0.5) * foot->heel_back;
  double reach = FLARE_REACH * foot->length;
  double bend = behind / ahead * behind / ahead * (1 + 2 * foot->point)
                / 2; /* that of the front, at the widest line */
  double out = foot->flare[lateral] * exp (-0.5 * behind / reach * behind / reach);
  double heel = foot->heels * (foot->width + (lateral ? 0.5 : -0.5) * foot->uneven) / 2;

  return (Half){ .half = w,
                 .ahead = ahead,
                 .behind = behind,
                 .point = foot->point,
                 .flare = foot->flare[lateral],
                 .reach = reach,
                 .square = bend,
                 .cube = 1 - (heel - out) / w - HEEL_TURN - bend,
                 .turn = HEEL_TURN,
                 .sign = lateral ? 1 : -1,
                 .over = foot->toe_over };
}

/* T from 0 at the buttress over 0.5 at the widest line to 1 at the toe. */
static PrPt
half_at (const Half *h, double t)
{
  double x, y, over = 0, fade = 1;

  if (t < 0.5) {
    double u = 1 - 2 * t;
    y = -h->behind * u;
    x = h->half * (1 - h->square * u * u - h->cube * u * u * u - h->turn * pow (u, HEEL_TURN_POWER));
  } else {
    double a = (2 * t - 1) * G_PI / 2;
    y = h->ahead * sin (a);
    x = h->half * cos (a) * (1 - h->point * sin (a) * sin (a));
    over = h->over * pow (sin (a), 3);
    fade = 1 - pow (sin (a), 4); /* no flare is left at the toe, where the halves meet */
  }
  x += h->flare * exp (-0.5 * y / h->reach * y / h->reach) * fade;
  return pr_pt (h->sign * x + over, y);
}

static void
lay_out (const SceneFoot *foot, PrPath *out)
{
  g_auto (PrPath) rough = { 0 };
  const Half half[2] = { half_of (foot, 0), half_of (foot, 1) };

  for (int i = 0; i <= ROUGH; i++)
    pr_path_add (&rough, half_at (&half[0], (double) i / ROUGH));
  for (int i = ROUGH - 1; i >= 0; i--)
    pr_path_add (&rough, half_at (&half[1], (double) i / ROUGH));
  pr_path_resample (out, &rough, (size_t) ceil (pr_path_length (&rough) / SCENE_FEET_STEP_MM) + 1);
}

void
scene_foot_line (const SceneFoot *foot, SceneFootLine *out)
{
  double frog = MAX (foot->heels / 2 - FROG_IN, FROG_LEAST) * foot->width, s[4];

  scene_foot_line_clear (out);
  lay_out (foot, &out->outline);
  out->buttress[0] = out->outline.p[0];
  out->buttress[1] = out->outline.p[out->outline.n - 1];
  pr_path_crossings (&out->outline, pr_pt (0, 0), pr_pt (0, 1), s, 4);
  out->toe = pr_path_at (&out->outline, s[0], NULL);
  out->frog_apex = pr_pt (0, (foot->ahead - TOE_TO_APEX) * foot->length);
  for (int side = 0; side < 2; side++)
    out->frog[side] = pr_pt (side ? frog : -frog, (foot->ahead - 1 + FROG_AHEAD) * foot->length);
}

PrSheetPt
scene_foot_on_sheet (const SceneFoot *foot, PrPt p)
{
  double angle = foot->turned * G_PI / 180, x = pr_lateral_sign (foot->foot, PR_FACE_FOOT) * p.x;

  return (PrSheetPt){ 105 + x * cos (angle) + p.y * sin (angle),
                      148.5 + x * sin (angle) - p.y * cos (angle) };
}

void
scene_foot_line_clear (SceneFootLine *line)
{
  pr_path_clear (&line->outline);
  *line = (SceneFootLine){ 0 };
}
