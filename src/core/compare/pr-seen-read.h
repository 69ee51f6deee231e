/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A seen shoe from the JSON that `trace --shoe --json` writes: the member "seen" with outer_mm, inner_mm (empty of a bar
 * shoe), openings_mm, nails_mm, face, thickness_mm, drawn and doubt, sheet mm. It may come from anybody and is held against
 * pr-bounds.h. */
#pragma once
#include <json-glib/json-glib.h>
#include "pr-seen.h"

/* Has NODE such a member? */
bool pr_seen_is_json (JsonNode *node);
/* SEEN must be empty. FALSE with an error, and SEEN empty, when it cannot be read. */
bool pr_seen_from_json (PrSeen *seen, JsonNode *node, GError **error);
