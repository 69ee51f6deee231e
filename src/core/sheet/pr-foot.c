/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-foot.h"

#include <glib/gi18n-lib.h>

static const struct {
  const char *code;
  const char *name, *near, *left; /* by PrSides */
  const char *letters;
} feet[PR_N_FEET] = {
  [PR_FOOT_ANY] = { .code = "any", .name = N_ ("any foot") },
  [PR_FOOT_LF] = { .code = "LF",
                   .name = N_ ("near fore"),
                   .near = NC_ ("near and off", "near fore"),
                   .left = NC_ ("left and right", "left fore"),
                   .letters = NC_ ("a foot in two letters", "LF") },
  [PR_FOOT_RF] = { .code = "RF",
                   .name = N_ ("off fore"),
                   .near = NC_ ("near and off", "off fore"),
                   .left = NC_ ("left and right", "right fore"),
                   .letters = NC_ ("a foot in two letters", "RF") },
  [PR_FOOT_LH] = { .code = "LH",
                   .name = N_ ("near hind"),
                   .near = NC_ ("near and off", "near hind"),
                   .left = NC_ ("left and right", "left hind"),
                   .letters = NC_ ("a foot in two letters", "LH") },
  [PR_FOOT_RH] = { .code = "RH",
                   .name = N_ ("off hind"),
                   .near = NC_ ("near and off", "off hind"),
                   .left = NC_ ("left and right", "right hind"),
                   .letters = NC_ ("a foot in two letters", "RH") },
};

static PrSides called;

const char *
pr_foot_code (PrFoot foot)
{
  return feet[foot].code;
}

const char *
pr_foot_name (PrFoot foot)
{
  if (foot == PR_FOOT_ANY || called == PR_SIDES_LANGUAGE)
    return _ (feet[foot].name);
  return called == PR_SIDES_NEAR ? g_dpgettext2 (GETTEXT_PACKAGE, "near and off", feet[foot].near)
                                 : g_dpgettext2 (GETTEXT_PACKAGE, "left and right", feet[foot].left);
}

const char *
pr_foot_letters (PrFoot foot)
{
  return foot == PR_FOOT_ANY ? _ (feet[foot].name)
                             : g_dpgettext2 (GETTEXT_PACKAGE, "a foot in two letters", feet[foot].letters);
}

void
pr_foot_call (PrSides sides)
{
  called = sides;
}

bool
pr_foot_parse (const char *code, PrFoot *foot)
{
  for (int i = 0; i < PR_N_FEET; i++)
    if (g_ascii_strcasecmp (code, feet[i].code) == 0) {
      *foot = (PrFoot) i;
      return true;
    }
  return false;
}

bool
pr_foot_is_left (PrFoot foot)
{
  return foot == PR_FOOT_LF || foot == PR_FOOT_LH;
}

bool
pr_foot_is_hind (PrFoot foot)
{
  return foot == PR_FOOT_LH || foot == PR_FOOT_RH;
}

const char *
pr_face_name (PrFace face)
{
  return face == PR_FACE_FOOT ? _ ("foot surface") : _ ("ground surface");
}

int
pr_lateral_sign (PrFoot foot, PrFace face)
{
  int sign = pr_foot_is_left (foot) ? -1 : 1;
  return face == PR_FACE_FOOT ? sign : -sign;
}

PrFoot
pr_foot_opposite (PrFoot foot)
{
  static const PrFoot other[PR_N_FEET] = {
    [PR_FOOT_ANY] = PR_FOOT_ANY, [PR_FOOT_LF] = PR_FOOT_RF, [PR_FOOT_RF] = PR_FOOT_LF,
    [PR_FOOT_LH] = PR_FOOT_RH,   [PR_FOOT_RH] = PR_FOOT_LH,
  };

  return other[foot];
}
