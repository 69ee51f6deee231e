/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Styles: named sets of plan parameters, as JSON data files. Those that come with the
 * program are resources under /pritchel/styles; a person's own lie in
 * $XDG_DATA_HOME/pritchel/styles and win over one of the same id.
 * File: {"id":..., "name":..., "for":..., "caution":..., "feet": "fore" | "hind", "web": [least, most],
 * "share":{parameter: share of the foot's width}, "set":{parameter: value}}. A parameter of one side stands for both
 * where its side is left out ("web.heel"). "feet" left out: made for all. "web": shares between which the web at the
 * toe follows the bar, and the web elsewhere with it; left out: the web is as "share" says. */
#pragma once
#include "pr-plan.h"

typedef struct {
  char *id, *name, *purpose, *caution; /* name, purpose and caution translated */
  bool own;                            /* a person's own */
  PrFeet feet;                         /* it is made for */
  double web_least, web_most;          /* shares of the foot's width; 0: the web does not follow the bar */
  JsonNode *set, *share;               /* share may be NULL */
} PrStyle;

/* All styles, the program's own first, in their order. Element type PrStyle, transfer full.
 * Files that cannot be read are skipped; each leaves its sentence in PROBLEMS (may be NULL). */
GPtrArray *pr_styles_load (GPtrArray *problems);
const PrStyle *pr_styles_find (const GPtrArray *styles, const char *id);
/* Is STYLE made for this foot? One whose side nobody told is a fore. */
bool pr_style_suits (const PrStyle *style, PrFoot foot);
/* Sets the style's parameters on PLAN as they are on HOOF (NULL or without a width: a foot of usual size); all others
 * return to normal or to what the foot's size asks, but for the iron (bar if it is known, given length, loss), the locks
 * and what they hold (heels, nails, clips), which stay. */
void pr_style_apply (const PrStyle *style, const PrHoof *hoof, PrPlan *plan);
/* PLAN as it lies on HOOF becomes a style of one's own, its lengths as shares of the foot's width. */
bool pr_style_save_own (const char *name, const PrHoof *hoof, const PrPlan *plan, GError **error);
