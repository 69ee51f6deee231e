/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-foot.h"

#include <glib/gi18n-lib.h>

static const struct {
  const char *code, *name;
} feet[PR_N_FEET] = {
  [PR_FOOT_ANY] = { "any", N_ ("any foot") }, [PR_FOOT_LF] = { "LF", N_ ("near fore") },
  [PR_FOOT_RF] = { "RF", N_ ("off fore") },   [PR_FOOT_LH] = { "LH", N_ ("near hind") },
  [PR_FOOT_RH] = { "RH", N_ ("off hind") },
};

const char *
pr_foot_code (PrFoot foot)
{
  return feet[foot].code;
}

const char *
pr_foot_name (PrFoot foot)
{
  return _ (feet[foot].name);
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
