/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-json.h"

#include <math.h>
#include <string.h>

#define FINEST 1000.0 /* steps a mm */

static const char *const faces[] = { [PR_FACE_FOOT] = "foot", [PR_FACE_GROUND] = "ground" };

const char *
pr_seen_face_code (PrFace face)
{
  return faces[face];
}

bool
pr_seen_face_parse (const char *code, PrFace *face)
{
  for (size_t i = 0; i < G_N_ELEMENTS (faces); i++)
    if (g_ascii_strcasecmp (code, faces[i]) == 0) {
      *face = (PrFace) i;
      return true;
    }
  return false;
}

static double
rounded (double mm)
{
  return round (mm * FINEST) / FINEST;
}

static void
put_point (JsonBuilder *b, PrSheetPt p)
{
  json_builder_begin_array (b);
  json_builder_add_double_value (b, rounded (p.x));
  json_builder_add_double_value (b, rounded (p.y));
  json_builder_end_array (b);
}

static void
put_points (JsonBuilder *b, const PrSeenRing *ring)
{
  json_builder_begin_array (b);
  for (size_t i = 0; i < ring->n; i++)
    put_point (b, ring->p[i]);
  json_builder_end_array (b);
}

static void
put_ring (JsonBuilder *b, const char *name, const PrSeenRing *ring)
{
  json_builder_set_member_name (b, name);
  put_points (b, ring);
}

static void
put_number (JsonBuilder *b, const char *name, double value)
{
  json_builder_set_member_name (b, name);
  json_builder_add_double_value (b, rounded (value));
}

static void
put_text (JsonBuilder *b, const char *name, const char *text)
{
  json_builder_set_member_name (b, name);
  json_builder_add_string_value (b, text);
}

static void
put_nails (JsonBuilder *b, const PrSeen *seen)
{
  json_builder_set_member_name (b, "nails_mm");
  json_builder_begin_array (b);
  for (size_t i = 0; i < seen->n_nail; i++)
    put_point (b, seen->nail[i].at);
  json_builder_end_array (b);
  json_builder_set_member_name (b, "nails_round");
  json_builder_begin_array (b);
  for (size_t i = 0; i < seen->n_nail; i++)
    json_builder_add_double_value (b, rounded (seen->nail[i].round));
  json_builder_end_array (b);
}

static void
put_doubt (JsonBuilder *b, const PrSeen *seen, const PrSeenDoubt *doubt)
{
  json_builder_begin_object (b);
  put_text (b, "edge", doubt->edge == PR_SEEN_OUTER ? "outer" : "inner");
  if (doubt->edge == PR_SEEN_INNER && !seen->open) {
    json_builder_set_member_name (b, "opening");
    json_builder_add_int_value (b, (gint64) doubt->opening);
  }
  put_number (b, "from_mm", doubt->from_mm);
  put_number (b, "to_mm", doubt->to_mm);
  put_text (b, "why", doubt->why);
  json_builder_end_object (b);
}

static void
put_flag (JsonBuilder *b, const char *name, bool value)
{
  json_builder_set_member_name (b, name);
  json_builder_add_boolean_value (b, value);
}

JsonNode *
pr_seen_to_json (const PrSeen *seen)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();

  json_builder_begin_object (b);
  put_ring (b, "outer_mm", &seen->outer);
  put_ring (b, "inner_mm", &seen->inner);
  json_builder_set_member_name (b, "openings_mm");
  json_builder_begin_array (b);
  for (size_t i = 0; i < seen->n_opening; i++)
    put_points (b, &seen->opening[i]);
  json_builder_end_array (b);
  put_nails (b, seen);
  put_flag (b, "open", seen->open);
  put_flag (b, "drawn", seen->drawn);
  put_text (b, "face", pr_seen_face_code (seen->face));
  put_number (b, "thickness_mm", seen->thickness_mm);
  put_number (b, "focal_px", seen->focal_px);
  put_number (b, "height_mm", seen->height_mm);
  json_builder_set_member_name (b, "doubt");
  json_builder_begin_array (b);
  for (size_t i = 0; i < seen->n_doubt; i++)
    put_doubt (b, seen, &seen->doubt[i]);
  json_builder_end_array (b);
  json_builder_end_object (b);
  return json_builder_get_root (b);
}
