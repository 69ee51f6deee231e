/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Members and elements of JSON that is written. What is no number is written as null. */
#pragma once
#include <json-glib/json-glib.h>
#include <stdbool.h>
#include "pr-point.h"

void pr_put (JsonBuilder *b, const char *name, double value);
void pr_put_text (JsonBuilder *b, const char *name, const char *value); /* NULL is "" */
void pr_put_bool (JsonBuilder *b, const char *name, bool value);
void pr_put_int (JsonBuilder *b, const char *name, gint64 value);
void pr_add_pt (JsonBuilder *b, PrPt p);
void pr_put_pt (JsonBuilder *b, const char *name, PrPt p);
/* The same to a thousandth of a mm, finer than anything that is seen. */
void pr_add_fine (JsonBuilder *b, double value);
void pr_put_fine (JsonBuilder *b, const char *name, double value);
void pr_add_pt_fine (JsonBuilder *b, PrPt p);
void pr_put_pt_fine (JsonBuilder *b, const char *name, PrPt p);
/* An object, a list, to be ended with json_builder_end_object and json_builder_end_array. */
void pr_begin (JsonBuilder *b, const char *name);
void pr_begin_list (JsonBuilder *b, const char *name);
