/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Styles: named sets of plan parameters, as JSON data files. Those that come with the
 * program are resources under /pritchel/styles; a person's own lie in
 * $XDG_DATA_HOME/pritchel/styles and win over one of the same id.
 * File: {"id":..., "name":..., "for":..., "caution":..., "set":{parameter: value}}. */
#pragma once
#include "pr-plan.h"

typedef struct {
  char *id, *name, *purpose, *caution; /* name, purpose and caution translated */
  bool own;                            /* a person's own */
  JsonNode *set;
} PrStyle;

/* All styles, the program's own first, in their order. Element type PrStyle, transfer full.
 * Files that cannot be read are skipped; each leaves its sentence in PROBLEMS (may be NULL). */
GPtrArray *pr_styles_load (GPtrArray *problems);
const PrStyle *pr_styles_find (const GPtrArray *styles, const char *id);
/* Sets the style's parameters on PLAN; all others return to normal, but for the iron (bar,
 * given length, loss), the locks and what they hold (heels, nails, clips), which stay. */
void pr_style_apply (const PrStyle *style, PrPlan *plan);
bool pr_style_save_own (const char *name, const PrPlan *plan, GError **error);
