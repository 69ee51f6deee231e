/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One member or element of the JSON report each. What is no number is written as null. Inside this room only. */
#pragma once
#include <json-glib/json-glib.h>
#include <stdbool.h>
#include "pr-point.h"

void pr_put (JsonBuilder *b, const char *name, double value);
void pr_put_text (JsonBuilder *b, const char *name, const char *value);
void pr_put_bool (JsonBuilder *b, const char *name, bool value);
void pr_put_int (JsonBuilder *b, const char *name, gint64 value);
void pr_add_pt (JsonBuilder *b, PrPt p);
void pr_put_pt (JsonBuilder *b, const char *name, PrPt p);
void pr_begin (JsonBuilder *b, const char *name);
void pr_begin_list (JsonBuilder *b, const char *name);
