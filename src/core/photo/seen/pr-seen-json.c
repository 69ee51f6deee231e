/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-json.h"

#include "pr-json-put.h"

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

static PrPt
pt (PrSheetPt p)
{
  return pr_pt (p.x, p.y);
}

static void
add_ring (JsonBuilder *b, const PrSeenRing *ring)
{
  json_builder_begin_array (b);
  for (size_t i = 0; i < ring->n; i++)
    pr_add_pt_fine (b, pt (ring->p[i]));
  json_builder_end_array (b);
}

static void
put_ring (JsonBuilder *b, const char *name, const PrSeenRing *ring)
{
  json_builder_set_member_name (b, name);
  add_ring (b, ring);
}

static void
put_nails (JsonBuilder *b, const PrSeen *seen)
{
  pr_begin_list (b, "nails_mm");
  for (size_t i = 0; i < seen->n_nail; i++)
    pr_add_pt_fine (b, pt (seen->nail[i].at));
  json_builder_end_array (b);
  pr_begin_list (b, "nails_round");
  for (size_t i = 0; i < seen->n_nail; i++)
    pr_add_fine (b, seen->nail[i].round);
  json_builder_end_array (b);
}

static void
put_doubt (JsonBuilder *b, const PrSeen *seen, const PrSeenDoubt *doubt)
{
  json_builder_begin_object (b);
  pr_put_text (b, "edge", doubt->edge == PR_SEEN_OUTER ? "outer" : "inner");
  if (doubt->edge == PR_SEEN_INNER && !seen->open)
    pr_put_int (b, "opening", (gint64) doubt->opening);
  pr_put_fine (b, "from_mm", doubt->from_mm);
  pr_put_fine (b, "to_mm", doubt->to_mm);
  pr_put_text (b, "why", doubt->why);
  json_builder_end_object (b);
}

JsonNode *
pr_seen_to_json (const PrSeen *seen)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();

  json_builder_begin_object (b);
  put_ring (b, "outer_mm", &seen->outer);
  put_ring (b, "inner_mm", &seen->inner);
  pr_begin_list (b, "openings_mm");
  for (size_t i = 0; i < seen->n_opening; i++)
    add_ring (b, &seen->opening[i]);
  json_builder_end_array (b);
  put_nails (b, seen);
  pr_put_bool (b, "open", seen->open);
  pr_put_bool (b, "drawn", seen->drawn);
  pr_put_text (b, "face", pr_seen_face_code (seen->face));
  pr_put_fine (b, "thickness_mm", seen->thickness_mm);
  pr_put_fine (b, "focal_px", seen->focal_px);
  pr_put_fine (b, "height_mm", seen->height_mm);
  pr_begin_list (b, "doubt");
  for (size_t i = 0; i < seen->n_doubt; i++)
    put_doubt (b, seen, &seen->doubt[i]);
  json_builder_end_array (b);
  json_builder_end_object (b);
  return json_builder_get_root (b);
}
