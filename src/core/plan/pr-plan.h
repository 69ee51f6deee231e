/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A plan (pr-plan-data.h) by its table (pr-params.h): made, set from what was typed, written and read, compared. */
#pragma once
#include <json-glib/json-glib.h>
#include "pr-length.h"
#include "pr-params.h"

void pr_plan_init (PrPlan *plan); /* every parameter at its normal value */
/* TEXT as typed into PARAM. What it cannot take is an error that says what would do and changes nothing; in it the
 * parameter is CALLED what its reader knows it by: its name in files and commands, its label in a window. */
bool pr_param_set_text (PrPlan *plan, const PrParam *param, const char *called, const char *text, PrUnit unit,
                        GError **error);
/* "web.toe", VALUE as typed ("24", "15/16", "25 %", "egg", "yes"). NAME may be a stem that several
 * parameters share ("web.quarter" sets both branches). An unknown name, or a value out of
 * range, is an error that names what would do, and changes nothing. */
bool pr_plan_set_text (PrPlan *plan, const char *name, const char *value, PrUnit unit, GError **error);
/* The order of work of PLAN as pr-heats.h reads it; what no plan can hold (other letters, too long), and NULL, leave none. */
void pr_plan_set_heats (PrPlan *plan, const char *text);
/* Member names are the table's, plus "style", "nail" and "heats" (where there is one) and "locks"; lengths in mm, angles in degrees.
 * Unknown members are ignored, missing ones keep what PLAN holds; but a plan that tells its style has no nails and no order of
 * its own where it tells none. Transfer full. */
JsonNode *pr_plan_to_json (const PrPlan *plan);
bool pr_plan_from_json (PrPlan *plan, JsonNode *node, GError **error);
/* PARAM's member of OBJECT, or the one of both sides ("web.heel" for "web.heel.medial"); NULL when there is neither.
 * Transfer none. */
JsonNode *pr_plan_member (JsonObject *object, const PrParam *param);
/* The bar in hand as typed, "25x10" or "3/8 x 1", each side within its range. On an error nothing is changed. */
bool pr_plan_set_section (PrPlan *plan, const char *text, PrUnit unit, GError **error);
bool pr_plan_equal (const PrPlan *a, const PrPlan *b);
