/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-seen-read.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-bounds.h"
#include "pr-error.h"
#include "pr-json.h"
#include "pr-seen-json.h"

#define MOST_RINGS 8 /* a heart bar has two openings */
#define MOST_NAILS 64

static bool
number_at (JsonArray *array, guint i, PrBound bound, double *value)
{
  JsonNode *node = array && i < json_array_get_length (array) ? json_array_get_element (array, i) : NULL;

  return pr_json_is_number (node, value) && pr_bound_holds (bound, *value);
}

static bool
point_of (JsonNode *node, PrSheetPt *p)
{
  JsonArray *pair = node && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;

  return number_at (pair, 0, PR_BOUND_PLACE, &p->x) && number_at (pair, 1, PR_BOUND_PLACE, &p->y);
}

static bool
read_ring (JsonArray *array, PrSeenRing *ring)
{
  guint n = array ? json_array_get_length (array) : 0;

  if (n == 0)
    return true;
  if (!pr_bound_holds (PR_BOUND_POINTS, n))
    return false;
  g_autofree PrSheetPt *p = g_new (PrSheetPt, n);
  for (guint i = 0; i < n; i++)
    if (!point_of (json_array_get_element (array, i), &p[i]))
      return false;
  pr_seen_ring_set (ring, p, n);
  return true;
}

static bool
read_openings (JsonObject *object, PrSeen *seen)
{
  JsonArray *array = pr_json_array (object, "openings_mm");
  guint n = array ? json_array_get_length (array) : 0;

  if (n > MOST_RINGS)
    return false;
  seen->opening = g_new0 (PrSeenRing, n);
  seen->n_opening = n;
  for (guint i = 0; i < n; i++) {
    JsonNode *node = json_array_get_element (array, i);

    if (!JSON_NODE_HOLDS_ARRAY (node) || !read_ring (json_node_get_array (node), &seen->opening[i]))
      return false;
  }
  return true;
}

/* Places, and beside them how much of each hole was seen: all of it where that is not told. */
static bool
read_nails (JsonObject *object, PrSeen *seen)
{
  JsonArray *array = pr_json_array (object, "nails_mm"), *shares = pr_json_array (object, "nails_round");
  guint n = array ? json_array_get_length (array) : 0;

  if (n > MOST_NAILS)
    return false;
  for (guint i = 0; i < n; i++) {
    double share = 1;
    PrSheetPt at;

    if (!point_of (json_array_get_element (array, i), &at)
        || (shares && !number_at (shares, i, PR_BOUND_PLACE, &share)))
      return false;
    pr_seen_add_nail (seen, at, CLAMP (share, 0, 1));
  }
  return true;
}

static void
read_doubts (JsonObject *object, PrSeen *seen)
{
  JsonArray *array = pr_json_array (object, "doubt");
  guint n = array ? MIN (json_array_get_length (array), (guint) pr_bound_most (PR_BOUND_DOUBTS)) : 0;

  for (guint i = 0; i < n; i++) {
    JsonObject *one = pr_json_is_object (json_array_get_element (array, i));
    const char *why = pr_json_string (one, "why");
    bool inner = g_strcmp0 (pr_json_string (one, "edge"), "inner") == 0;
    double from, to, opening = -1;

    if (!pr_json_number (one, "from_mm", &from) || !pr_bound_holds (PR_BOUND_DOUBT, from)
        || !pr_json_number (one, "to_mm", &to) || !pr_bound_holds (PR_BOUND_DOUBT, to))
      continue;
    pr_json_number (one, "opening", &opening);
    size_t hole = opening >= 0 && opening < MOST_RINGS ? (size_t) opening : seen->open ? PR_SEEN_OPEN : 0;
    pr_seen_add_doubt (seen, inner ? PR_SEEN_INNER : PR_SEEN_OUTER, inner ? hole : PR_SEEN_OPEN, from, to,
                       why ? pr_sentence_fit (why) : g_strdup (""));
  }
}

static bool
read_all (JsonObject *object, PrSeen *seen)
{
  const char *face = pr_json_string (object, "face");
  double thickness = 0, height = 0, focal = 0;

  seen->face = PR_FACE_GROUND;
  if (face && !pr_seen_face_parse (face, &seen->face))
    return false;
  seen->drawn = pr_json_true (object, "drawn");
  if (pr_json_number (object, "thickness_mm", &thickness) && !pr_bound_holds (PR_BOUND_PEN, thickness))
    return false;
  seen->thickness_mm = thickness;
  if (pr_json_number (object, "height_mm", &height) && pr_bound_holds (PR_BOUND_PEN, height))
    seen->height_mm = height;
  if (pr_json_number (object, "focal_px", &focal) && pr_bound_holds (PR_BOUND_PIXEL, focal))
    seen->focal_px = focal;
  if (!read_ring (pr_json_array (object, "outer_mm"), &seen->outer)
      || !read_ring (pr_json_array (object, "inner_mm"), &seen->inner) || !read_openings (object, seen)
      || !read_nails (object, seen))
    return false;
  seen->open = seen->inner.n > 0;
  read_doubts (object, seen);
  return seen->outer.n > 0;
}

bool
pr_seen_is_json (JsonNode *node)
{
  return pr_json_object (pr_json_is_object (node), "seen") != NULL;
}

bool
pr_seen_from_json (PrSeen *seen, JsonNode *node, GError **error)
{
  JsonObject *object = pr_json_object (pr_json_is_object (node), "seen");

  if (object != NULL && read_all (object, seen))
    return true;
  pr_seen_clear (seen);
  g_set_error_literal (
      error, PR_ERROR, PR_ERROR_INPUT,
      _ ("This file does not hold the edges of a shoe; use one that “pritchel trace --shoe --json” wrote."));
  return false;
}
