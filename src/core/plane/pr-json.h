/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON that came from outside. json-glib calls itself for every level, takes comments and statements
 * for JSON, and makes letters out of half a surrogate pair; what is not plain JSON (RFC 8259), or is deeper than
 * anything of ours, is turned away before it is parsed. */
#pragma once
#include <json-glib/json-glib.h>
#include <stdbool.h>

/* Nothing of ours is deeper than 6. */
#define PR_JSON_MAX_DEPTH 64

/* TEXT of LEN bytes is safe to be parsed: no deeper than PR_JSON_MAX_DEPTH, nothing between its strings that
 * JSON does not know, no unpaired surrogate in them. One pass, no memory. */
bool pr_json_is_safe (const char *text, gsize len);
/* NULL with an error (PR_ERROR_INPUT) when TEXT is no JSON; never NULL without. Transfer full. */
JsonNode *pr_json_parse (const char *text, gsize len, GError **error);
