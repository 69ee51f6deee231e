/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-json-put.h"

#include <math.h>

#define FINE 1000.0 /* steps a mm */

static void
add (JsonBuilder *b, double value)
{
  if (isfinite (value))
    json_builder_add_double_value (b, value);
  else
    json_builder_add_null_value (b);
}

void
pr_put (JsonBuilder *b, const char *name, double value)
{
  json_builder_set_member_name (b, name);
  add (b, value);
}

void
pr_put_text (JsonBuilder *b, const char *name, const char *value)
{
  json_builder_set_member_name (b, name);
  json_builder_add_string_value (b, value != NULL ? value : "");
}

void
pr_put_bool (JsonBuilder *b, const char *name, bool value)
{
  json_builder_set_member_name (b, name);
  json_builder_add_boolean_value (b, value);
}

void
pr_put_int (JsonBuilder *b, const char *name, gint64 value)
{
  json_builder_set_member_name (b, name);
  json_builder_add_int_value (b, value);
}

void
pr_add_pt (JsonBuilder *b, PrPt p)
{
  json_builder_begin_array (b);
  json_builder_add_double_value (b, p.x);
  json_builder_add_double_value (b, p.y);
  json_builder_end_array (b);
}

void
pr_put_pt (JsonBuilder *b, const char *name, PrPt p)
{
  json_builder_set_member_name (b, name);
  pr_add_pt (b, p);
}

void
pr_add_fine (JsonBuilder *b, double value)
{
  add (b, round (value * FINE) / FINE);
}

void
pr_put_fine (JsonBuilder *b, const char *name, double value)
{
  json_builder_set_member_name (b, name);
  pr_add_fine (b, value);
}

void
pr_add_pt_fine (JsonBuilder *b, PrPt p)
{
  json_builder_begin_array (b);
  pr_add_fine (b, p.x);
  pr_add_fine (b, p.y);
  json_builder_end_array (b);
}

void
pr_put_pt_fine (JsonBuilder *b, const char *name, PrPt p)
{
  json_builder_set_member_name (b, name);
  pr_add_pt_fine (b, p);
}

void
pr_begin (JsonBuilder *b, const char *name)
{
  json_builder_set_member_name (b, name);
  json_builder_begin_object (b);
}

void
pr_begin_list (JsonBuilder *b, const char *name)
{
  json_builder_set_member_name (b, name);
  json_builder_begin_array (b);
}
