/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-hoof-json.h"

#include "pr-json-put.h"

static const char *const sides[2] = { "medial", "lateral" };

/* "heel_length_medial_mm" and its other half. */
static void
put_sides (JsonBuilder *b, const char *stem, const char *unit, const double value[2], double scale)
{
  for (int side = 0; side < 2; side++) {
    g_autofree char *name = g_strdup_printf ("%s_%s_%s", stem, sides[side], unit);

    pr_put (b, name, value[side] * scale);
  }
}

static void
put_levels (JsonBuilder *b, const PrHoof *hoof)
{
  json_builder_set_member_name (b, "half_widths");
  json_builder_begin_array (b);
  for (int i = 0; i < PR_N_LEVELS; i++) {
    json_builder_begin_object (b);
    pr_put (b, "level_mm", hoof->level[i]);
    pr_put (b, "medial_mm", hoof->half[i][PR_MEDIAL]);
    pr_put (b, "lateral_mm", hoof->half[i][PR_LATERAL]);
    pr_put (b, "difference_mm", hoof->half[i][PR_LATERAL] - hoof->half[i][PR_MEDIAL]);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_frog (JsonBuilder *b, const PrHoof *hoof)
{
  if (hoof->frog_width > 0) {
    pr_put (b, "frog_width_mm", hoof->frog_width);
    pr_put (b, "frog_to_heel_width", hoof->heel_width > 0 ? hoof->frog_width / hoof->heel_width : 0);
  }
  if (hoof->has_frog_apex)
    pr_put (b, "apex_to_toe_mm", hoof->apex_to_toe);
}

void
pr_hoof_json_put (JsonBuilder *b, const PrHoof *hoof)
{
  json_builder_set_member_name (b, "centre_line");
  json_builder_add_string_value (b, pr_centre_code (hoof->centre));
  pr_put_bool (b, "asymmetry_judged", hoof->centre != PR_CENTRE_ASSUMED);
  put_levels (b, hoof);
  put_sides (b, "half_area", "mm2", hoof->half_area, 1);
  pr_put (b, "half_area_difference_mm2", hoof->half_area[PR_LATERAL] - hoof->half_area[PR_MEDIAL]);
  pr_put (b, "toe_share", hoof->toe_share);
  put_sides (b, "heel_length", "mm", hoof->heel_length, 1);
  put_sides (b, "heel_angle", "deg", hoof->heel_angle, 180 / G_PI);
  pr_put (b, "heel_to_hoof_width", hoof->width > 0 ? hoof->heel_width / hoof->width : 0);
  put_frog (b, hoof);
  pr_put_bool (b, "wall_is_guess", pr_hoof_wall_is_guess (hoof));
}
