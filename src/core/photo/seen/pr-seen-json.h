/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A shoe seen as JSON: "outer_mm", "inner_mm", "openings_mm" (points [x, y]), "nails_mm" with "nails_round" beside it,
 * "open", "drawn", "face" ("ground" or "foot"), "thickness_mm", "focal_px", "height_mm", and "doubt": "edge" ("outer" or
 * "inner"), "opening" (of an inner one of a bar shoe, from 0), "from_mm", "to_mm", "why". */
#pragma once
#include "pr-json.h"
#include "pr-seen.h"

/* Points are written to a thousandth of a mm. Transfer full. */
JsonNode *pr_seen_to_json (const PrSeen *seen);
/* "ground", "foot"; static. */
const char *pr_seen_face_code (PrFace face);
bool pr_seen_face_parse (const char *code, PrFace *face); /* FALSE: CODE is neither */
