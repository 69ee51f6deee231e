/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON that came from outside. json-glib calls itself for every level, takes comments and statements
 * for JSON, and makes letters out of half a surrogate pair; what is not plain JSON (RFC 8259), or is deeper than
 * anything of ours, is turned away before it is parsed. */
#pragma once
#include <json-glib/json-glib.h>
#include <stdbool.h>

/* TEXT of LEN bytes is safe to be parsed: no deeper, no longer and of no more values than pr-bounds.h has it,
 * nothing between its strings that JSON does not know, no unpaired surrogate in them. One pass, no memory. */
bool pr_json_is_safe (const char *text, gsize len);
/* NULL with an error (PR_ERROR_INPUT) when TEXT is no JSON; never NULL without. Transfer full. */
JsonNode *pr_json_parse (const char *text, gsize len, GError **error);
/* NODE as text. As json_to_string, but valid whatever the numbers (RFC 8259, 6): json-glib writes 1e22 as
 * "1e+22.0", and has words for what is no number, which becomes null. Transfer full. */
char *pr_json_text (JsonNode *node, bool pretty);

/* What OBJECT (may be NULL) has as NAME; FALSE or NULL when it is not there or of another kind. Transfer none. A
 * number may be infinite: hold it against pr-bounds.h. */
bool pr_json_number (JsonObject *object, const char *name, double *value);
bool pr_json_true (JsonObject *object, const char *name);
const char *pr_json_string (JsonObject *object, const char *name);
JsonObject *pr_json_object (JsonObject *object, const char *name);
JsonArray *pr_json_array (JsonObject *object, const char *name);
/* NODE (may be NULL) itself as one. */
bool pr_json_is_number (JsonNode *node, double *value);
JsonObject *pr_json_is_object (JsonNode *node);
