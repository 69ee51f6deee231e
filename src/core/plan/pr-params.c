/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-params.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* clang-format off: a table reads as a table */
#define AT(field) offsetof (PrPlan, field)
#define LEN(name, label, group, field, lo, hi, normal)                    \
  {                                                                       \
    name, label, group, PR_PARAM_LENGTH, AT (field), lo, hi, normal, NULL \
  }
#define SHARE(name, label, group, field, lo, hi, normal)                 \
  {                                                                      \
    name, label, group, PR_PARAM_SHARE, AT (field), lo, hi, normal, NULL \
  }
#define PLACE(name, label, group, field, normal)                         \
  {                                                                      \
    name, label, group, PR_PARAM_PLACE, AT (field), 0, 1.3, normal, NULL \
  }
#define COUNT(name, label, group, field, hi, normal)                    \
  {                                                                     \
    name, label, group, PR_PARAM_COUNT, AT (field), 0, hi, normal, NULL \
  }
#define CHOICE(name, label, group, field, codes, normal)                                        \
  {                                                                                             \
    name, label, group, PR_PARAM_CHOICE, AT (field), 0, G_N_ELEMENTS (codes) - 2, normal, codes \
  }
#define SWITCH(name, label, group, field, normal)                       \
  {                                                                     \
    name, label, group, PR_PARAM_SWITCH, AT (field), 0, 1, normal, NULL \
  }

#define KNOT(name, label, i, nx, ny)                                \
  LEN ("edge." name ".x", label, "edge", knot[i].x, -160, 160, nx), \
      LEN ("edge." name ".y", label, "edge", knot[i].y, -220, 220, ny)

static const char *const heel_cuts[] = { "branch", "centre", NULL };
static const char *const branches[] = { "medial", "lateral", NULL };
static const char *const toes[] = { "plain", "rolled", "squared", "set-back", NULL };
static const char *const bars[] = { "none", "straight", "egg", "heart", NULL };
static const char *const ties[] = { "place", "toe", "extension", "first-nail", "last-nail", "heel", NULL };
static const char *const clip_ties[] = { "place", "turn", "extension", NULL };
static const char *const feet[] = { "all", "fore", "hind", NULL };
static const char *const materials[] = { "steel", "aluminium", NULL };

#define BEVEL(name, w, d, f, t, field, b, side)                            \
  LEN (name "." side ".width", w, "bevels", field[b].width, 0, 15, 0),     \
      LEN (name "." side ".depth", d, "bevels", field[b].depth, 0, 12, 0), \
      PLACE (name "." side ".from", f, "bevels", field[b].from, 0.1),      \
      PLACE (name "." side ".to", t, "bevels", field[b].to, 1.0)

#define CREASE(side, b)                                                                                    \
  SWITCH ("crease." side, N_ ("Crease"), "crease", crease[b], 1),                                          \
      PLACE ("crease.from." side, N_ ("Crease from"), "crease", crease_from[b], 0.16),                     \
      PLACE ("crease.to." side, N_ ("Crease to"), "crease", crease_to[b], 0.72),                           \
      CHOICE ("crease.from_tie." side, N_ ("Crease starts at"), "crease", crease_from_tie[b], ties, 0),    \
      CHOICE ("crease.to_tie." side, N_ ("Crease ends at"), "crease", crease_to_tie[b], ties, 0),          \
      LEN ("crease.from_gap." side, N_ ("Crease starts behind by"), "crease", crease_from_gap[b], -60, 60, \
           0),                                                                                             \
      LEN ("crease.to_gap." side, N_ ("Crease ends behind by"), "crease", crease_to_gap[b], -60, 60, 0)

#define SHIFT(side, b, i, number) \
  LEN ("nails.shift." number "." side, N_ ("Nail moved"), "nails", nail_shift[b][i], -40, 40, 0)

#define NAILS(side, b)                                                                                      \
  COUNT ("nails.count." side, N_ ("Nails"), "nails", nails[b], PR_MAX_NAILS, 3),                            \
      PLACE ("nails.first." side, N_ ("First nail"), "nails", nail_first[b], 0.21),                         \
      PLACE ("nails.last." side, N_ ("Last nail"), "nails", nail_last[b], 0.58),                            \
      LEN ("nails.inset." side, N_ ("Nail inset at the first"), "nails", nail_inset[b], 2, 30, 10),         \
      LEN ("nails.inset_last." side, N_ ("Nail inset at the last"), "nails", nail_inset_last[b], 2, 30, 8), \
      LEN ("nails.bow." side, N_ ("Nail line bowed outward"), "nails", nail_bow[b], -8, 8, 0),              \
      SHIFT (side, b, 0, "1"), SHIFT (side, b, 1, "2"), SHIFT (side, b, 2, "3"), SHIFT (side, b, 3, "4"),   \
      SHIFT (side, b, 4, "5"), SHIFT (side, b, 5, "6")

#define CLIP(n, i)                                                                                \
  COUNT ("clip." n ".present", N_ ("Clip"), "clips", clip[i].kind, 1, 0),                         \
      CHOICE ("clip." n ".branch", N_ ("Clip branch"), "clips", clip[i].branch, branches, i % 2), \
      CHOICE ("clip." n ".tie", N_ ("Clip stands by"), "clips", clip[i].tie, clip_ties, 0),       \
      LEN ("clip." n ".gap", N_ ("Clip behind that by"), "clips", clip[i].gap, -60, 60, 0),       \
      PLACE ("clip." n ".place", N_ ("Clip place"), "clips", clip[i].place, 0.2),                 \
      LEN ("clip." n ".base", N_ ("Clip base"), "clips", clip[i].base, 5, 60, 22),                \
      LEN ("clip." n ".height", N_ ("Clip height"), "clips", clip[i].height, 2, 40, 10),          \
      LEN ("clip." n ".thickness", N_ ("Clip mean thickness"), "clips", clip[i].thickness, 0.5, 8, 2.5)

/* Normal values: web about twice the wall, wider at the toe than at the heels (Lungwitz & Adams);
 * crease two thirds of the thickness deep (the same); all else common practice, no source. Loss:
 * published figures run from 0.6 % to 7.5 %; 3 % for a few short heats is a choice between them. */
const PrParam pr_params[] = {
  KNOT ("heel.medial", N_ ("Heel"), PR_KNOT_HEEL_M, -45, -70),
  KNOT ("heel_quarter.medial", N_ ("Heel quarter"), PR_KNOT_HEEL_QUARTER_M, -60, -30),
  KNOT ("quarter.medial", N_ ("Quarter"), PR_KNOT_QUARTER_M, -63, 5),
  KNOT ("toe_quarter.medial", N_ ("Toe quarter"), PR_KNOT_TOE_QUARTER_M, -42, 48),
  KNOT ("toe", N_ ("Toe"), PR_KNOT_TOE, 0, 66),
  KNOT ("toe_quarter.lateral", N_ ("Toe quarter"), PR_KNOT_TOE_QUARTER_L, 42, 48),
  KNOT ("quarter.lateral", N_ ("Quarter"), PR_KNOT_QUARTER_L, 63, 5),
  KNOT ("heel_quarter.lateral", N_ ("Heel quarter"), PR_KNOT_HEEL_QUARTER_L, 60, -30),
  KNOT ("heel.lateral", N_ ("Heel"), PR_KNOT_HEEL_L, 45, -70),

  LEN ("web.toe", N_ ("Web at the toe"), "web", web_toe, 8, 60, 23),
  LEN ("web.quarter.medial", N_ ("Web at the quarter"), "web", web_quarter[0], 8, 60, 22),
  LEN ("web.quarter.lateral", N_ ("Web at the quarter"), "web", web_quarter[1], 8, 60, 22),
  LEN ("web.heel.medial", N_ ("Web at the heel"), "web", web_heel[0], 6, 60, 19),
  LEN ("web.heel.lateral", N_ ("Web at the heel"), "web", web_heel[1], 6, 60, 19),

  LEN ("thickness.toe", N_ ("Thickness at the toe"), "thickness", thick_toe, 3, 25, 10),
  LEN ("thickness.heel", N_ ("Thickness at the heels"), "thickness", thick_heel, 3, 25, 10),

  LEN ("heel.past.medial", N_ ("Heel past the buttress"), "heels", heel_past[0], -15, 60, 5),
  LEN ("heel.past.lateral", N_ ("Heel past the buttress"), "heels", heel_past[1], -15, 60, 5),
  CHOICE ("heel.cut", N_ ("Heels cut square to"), "heels", heel_cut, heel_cuts, PR_HEEL_CUT_CENTRE),
  LEN ("heel.round.medial", N_ ("Heel corner radius"), "heels", heel_round[0], 0, 12, 3),
  LEN ("heel.round.lateral", N_ ("Heel corner radius"), "heels", heel_round[1], 0, 12, 3),
  LEN ("heel.taper.medial", N_ ("Heel taper"), "heels", heel_taper[0], 0, 15, 0),
  LEN ("heel.taper.lateral", N_ ("Heel taper"), "heels", heel_taper[1], 0, 15, 0),

  LEN ("heel.trailer.medial", N_ ("Trailer"), "heels", trailer[0], 0, 50, 0),
  LEN ("heel.trailer.lateral", N_ ("Trailer"), "heels", trailer[1], 0, 50, 0),
  LEN ("heel.trailer_out.medial", N_ ("Trailer turned out"), "heels", trailer_out[0], -10, 40, 0),
  LEN ("heel.trailer_out.lateral", N_ ("Trailer turned out"), "heels", trailer_out[1], -10, 40, 0),

  LEN ("side.out.medial", N_ ("Side extension"), "side", side_ext[0], 0, 30, 0),
  LEN ("side.out.lateral", N_ ("Side extension"), "side", side_ext[1], 0, 30, 0),
  PLACE ("side.from.medial", N_ ("Side extension from"), "side", side_from[0], 0.4),
  PLACE ("side.from.lateral", N_ ("Side extension from"), "side", side_from[1], 0.4),
  PLACE ("side.to.medial", N_ ("Side extension to"), "side", side_to[0], 1.0),
  PLACE ("side.to.lateral", N_ ("Side extension to"), "side", side_to[1], 1.0),

  BEVEL ("boxing", N_ ("Boxing width"), N_ ("Boxing depth"), N_ ("Boxing from"), N_ ("Boxing to"), boxing, 0,
         "medial"),
  BEVEL ("boxing", N_ ("Boxing width"), N_ ("Boxing depth"), N_ ("Boxing from"), N_ ("Boxing to"), boxing, 1,
         "lateral"),
  BEVEL ("seating", N_ ("Seating width"), N_ ("Seating depth"), N_ ("Seating from"), N_ ("Seating to"),
         seating, 0, "medial"),
  BEVEL ("seating", N_ ("Seating width"), N_ ("Seating depth"), N_ ("Seating from"), N_ ("Seating to"),
         seating, 1, "lateral"),

  SWITCH ("bevels.ground", N_ ("Bevels ground off"), "bevels", bevels_ground, 0),

  CREASE ("medial", 0),
  CREASE ("lateral", 1),
  LEN ("crease.width", N_ ("Crease width"), "crease", crease_width, 2, 15, 8),
  SHARE ("crease.along", N_ ("Creasing lengthens, share"), "crease", crease_along, 0, 0.5, 0.23),
  SHARE ("crease.depth", N_ ("Crease depth"), "crease", crease_depth, 0.1, 0.9, 2.0 / 3),

  NAILS ("medial", 0),
  NAILS ("lateral", 1),
  LEN ("nails.space", N_ ("Nail to nail"), "nails", nail_space, 5, 80, 26),
  LEN ("nails.head_length", N_ ("Nail head length"), "nails", nail_head_length, 3, 20, 9),
  LEN ("nails.head_width", N_ ("Nail head width"), "nails", nail_head_width, 2, 12, 5),
  LEN ("nails.head_depth", N_ ("Nail head depth"), "nails", nail_head_depth, 1, 20, 6),
  LEN ("nails.shank", N_ ("Nail shank"), "nails", nail_shank, 1, 8, 3.5),
  { "nails.pitch", N_ ("Nail pitch"), "nails", PR_PARAM_ANGLE, AT (nail_pitch), -0.35, 0.35, 0, NULL },

  CLIP ("1", 0),
  CLIP ("2", 1),
  CLIP ("3", 2),
  CLIP ("4", 3),

  CHOICE ("toe", N_ ("Toe"), "toe", toe, toes, PR_TOE_PLAIN),
  LEN ("toe.amount", N_ ("Toe rolled, squared or set back by"), "toe", toe_amount, 0, 30, 6),
  LEN ("extension.ahead", N_ ("Extension ahead of the foot"), "toe", ext_ahead, 0, 120, 0),
  LEN ("extension.width", N_ ("Extension width"), "toe", ext_width, 15, 140, 60),
  LEN ("extension.round", N_ ("Extension corner radius"), "toe", ext_round, 0, 30, 5),
  LEN ("extension.fillet", N_ ("Fillet where the extension meets the branches"), "toe", ext_fillet, 0, 25, 0),
  LEN ("extension.lap", N_ ("Extension laps the toe by"), "toe", ext_lap, 0, 40, 0),
  LEN ("extension.thickness", N_ ("Extension thickness"), "toe", ext_thick, 3, 25, 10),

  CHOICE ("bar", N_ ("Bar"), "bar", bar, bars, PR_BAR_NONE),
  LEN ("bar.web", N_ ("Width of the heel bar"), "bar", bar_web, 8, 60, 22),
  LEN ("bar.set_back", N_ ("Heel bar set back"), "bar", bar_set_back, -40, 40, 0),
  LEN ("bar.plate", N_ ("Frog plate"), "bar", bar_plate, 0, 80, 0),

  CHOICE ("material", N_ ("Material"), "iron", material, materials, PR_MATERIAL_STEEL),
  LEN ("stock.width", N_ ("Stock width"), "iron", stock_width, 3, 100, 25),
  LEN ("stock.thickness", N_ ("Stock thickness"), "iron", stock_thick, 2, 50, 10),
  SWITCH ("stock.known", N_ ("The stock is in hand"), "iron", stock_known, 0),
  LEN ("given", N_ ("Given length"), "iron", given, 0, 20000, 0),
  LEN ("given.extension", N_ ("Given for the extension alone"), "iron", given_ext, 0, 20000, 0),
  LEN ("given.bar", N_ ("Given for the heel bar alone"), "iron", given_bar, 0, 20000, 0),
  SHARE ("loss", N_ ("Loss to scale and grinding"), "iron", loss, 0, 0.2, 0.03),
  SHARE ("stock.own", N_ ("Own figure, on top of that"), "iron", own_more, -0.2, 0.2, 0),
  LEN ("weld_allowance", N_ ("Allowance per weld"), "iron", weld_allowance, 0, 60, 10),
  SWITCH ("extension.piece", N_ ("Extension is forged separately"), "iron", ext_piece, 1),
  SWITCH ("bar.piece", N_ ("Heel bar is forged separately"), "iron", bar_piece, 1),

  SWITCH ("web.use_all", N_ ("Web takes the whole stock"), "fit", web_use_all, 0),
  CHOICE ("feet", N_ ("Made for"), "fit", feet, feet, PR_FEET_ALL),
  LEN ("fit.front.medial", N_ ("Stands out up to the last nail"), "fit", fit_front[0], -2, 8, 0),
  LEN ("fit.front.lateral", N_ ("Stands out up to the last nail"), "fit", fit_front[1], -2, 8, 0),
  /* 1/16 to 1/8 in from last nail to heel (Lungwitz & Adams; USDA): a little under the middle */
  LEN ("fit.heel.medial", N_ ("Stands out at the heels"), "fit", fit_heel[0], -2, 12, 2.2),
  LEN ("fit.heel.lateral", N_ ("Stands out at the heels"), "fit", fit_heel[1], -2, 12, 2.2),
};

const size_t pr_n_params = G_N_ELEMENTS (pr_params);
/* clang-format on */

const PrParam *
pr_param_find (const char *name)
{
  for (size_t i = 0; i < pr_n_params; i++)
    if (strcmp (pr_params[i].name, name) == 0)
      return &pr_params[i];
  return NULL;
}

char *
pr_param_label (const PrParam *param)
{
  const char *digit = strpbrk (param->name, "123456789");
  GString *label = g_string_new (_ (param->label));

  if (digit)
    g_string_append_printf (label, " %c", *digit);
  if (strstr (param->name, ".medial"))
    g_string_append_printf (label, ", %s", _ ("medial"));
  else if (strstr (param->name, ".lateral"))
    g_string_append_printf (label, ", %s", _ ("lateral"));
  return g_string_free (label, FALSE);
}

double
pr_param_get (const PrPlan *plan, const PrParam *param)
{
  const char *at = (const char *) plan + param->offset;

  switch (param->kind) {
  case PR_PARAM_COUNT:
  case PR_PARAM_CHOICE:
    return *(const int *) at;
  case PR_PARAM_SWITCH:
    return *(const bool *) at;
  case PR_PARAM_LENGTH:
  case PR_PARAM_SHARE:
  case PR_PARAM_PLACE:
  case PR_PARAM_ANGLE:
    break;
  }
  return *(const double *) at;
}

bool
pr_param_of_width (const PrParam *param)
{
  static const char *const groups[]
      = { "web", "heels", "side", "bevels", "crease", "nails", "clips", "toe", "bar", NULL };

  return param->kind == PR_PARAM_LENGTH && g_strv_contains (groups, param->group);
}

bool
pr_param_of_nail (const PrParam *param)
{
  return g_str_has_prefix (param->name, "nails.head_") || g_str_equal (param->name, "nails.shank");
}

bool
pr_param_takes (const PrParam *param, double value)
{
  return value >= param->min && value <= param->max;
}

bool
pr_param_set (PrPlan *plan, const PrParam *param, double value)
{
  char *at = (char *) plan + param->offset;

  if (!isfinite (value))
    return false;
  value = CLAMP (value, param->min, param->max);
  switch (param->kind) {
  case PR_PARAM_COUNT:
  case PR_PARAM_CHOICE:
    *(int *) at = (int) lround (value);
    break;
  case PR_PARAM_SWITCH:
    *(bool *) at = value >= 0.5;
    break;
  case PR_PARAM_LENGTH:
  case PR_PARAM_SHARE:
  case PR_PARAM_PLACE:
  case PR_PARAM_ANGLE:
    *(double *) at = value;
    break;
  }
  return true;
}
