/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A comparison as JSON, for other programs and for the attempt it is kept with: "seen", "offsets", "summary",
 * "corrections", "nails", all in the plan's foot frame, mm. */
#pragma once
#include <json-glib/json-glib.h>
#include "pr-compare-data.h"

/* TRACING (may be NULL): the sheet of the photo, whose scale is the member "scale" as `trace` has it. SEEN is what C was made of. Numbers as files have them. Transfer
 * full. */
JsonNode *pr_compare_json (const PrComparison *c, const PrSeen *seen, const PrTracing *tracing);
