/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A comparison as JSON, for other programs and for the attempt it is kept with: "seen", "offsets", "summary",
 * "corrections", "nails", all in the plan's foot frame, mm. */
#pragma once
#include <json-glib/json-glib.h>
#include "pr-compare-data.h"

/* SCALE (may be NULL): of the photo, its member "scale". SEEN is what C was made of. Numbers as files have them. Transfer
 * full. */
JsonNode *pr_compare_json (const PrComparison *c, const PrSeen *seen, const PrScale *scale);
