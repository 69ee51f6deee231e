/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-plan.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-bounds.h"
#include "pr-error.h"
#include "pr-json.h"
#include "pr-text.h"

#define DEGREE (G_PI / 180)

void
pr_plan_init (PrPlan *plan)
{
  memset (plan, 0, sizeof *plan);
  for (size_t i = 0; i < pr_n_params; i++)
    pr_param_set (plan, &pr_params[i], pr_params[i].normal);
}

/* "web.quarter" is a stem of "web.quarter.medial". */
static bool
named_by (const PrParam *param, const char *name)
{
  size_t len = strlen (name);

  if (strncmp (param->name, name, len) != 0)
    return false;
  const char *rest = param->name + len;
  return !*rest || strcmp (rest, ".medial") == 0 || strcmp (rest, ".lateral") == 0;
}

static bool
read_plain_number (const char *text, double *value)
{
  g_autofree char *copy = g_strstrip (g_strdup (text));
  char *end = NULL;

  g_strdelimit (copy, ",", '.');
  *value = g_ascii_strtod (copy, &end);
  if (end == copy)
    return false;
  while (*end == ' ')
    end++;
  if (strcmp (end, "%") == 0)
    *value /= 100;
  else if (*end)
    return false;
  return isfinite (*value);
}

static bool
read_choice (const PrParam *param, const char *text, double *value)
{
  for (int i = 0; param->choices[i]; i++)
    if (g_ascii_strcasecmp (param->choices[i], text) == 0) {
      *value = i;
      return true;
    }
  return false;
}

static bool
read_switch (const char *text, double *value)
{
  static const char *const words[] = { "no", "yes", "off", "on", "false", "true", "0", "1" };

  for (size_t i = 0; i < G_N_ELEMENTS (words); i++)
    if (g_ascii_strcasecmp (words[i], text) == 0) {
      *value = (double) (i % 2);
      return true;
    }
  return false;
}

static bool
read_value (const PrParam *param, const char *text, PrUnit unit, double *value)
{
  bool minus = *text == '-';

  switch (param->kind) {
  case PR_PARAM_LENGTH:
    if (!pr_length_parse (text + minus, unit, value, NULL))
      return false;
    *value *= minus ? -1 : 1;
    return true;
  case PR_PARAM_CHOICE:
    return read_choice (param, text, value);
  case PR_PARAM_SWITCH:
    return read_switch (text, value);
  case PR_PARAM_ANGLE:
    if (!read_plain_number (text, value))
      return false;
    *value *= DEGREE;
    return true;
  case PR_PARAM_COUNT:
    return read_plain_number (text, value) && *value == floor (*value);
  case PR_PARAM_SHARE:
  case PR_PARAM_PLACE:
    break;
  }
  return read_plain_number (text, value);
}

/* What the parameter takes, for a message. Transfer full. */
static char *
range_text (const PrParam *param, PrUnit unit)
{
  if (param->kind == PR_PARAM_CHOICE)
    return g_strjoinv (", ", (char **) param->choices);
  if (param->kind == PR_PARAM_SWITCH)
    return g_strdup ("yes, no");
  if (param->kind == PR_PARAM_LENGTH) {
    g_autofree char *lo = pr_length_text (param->min, unit), *hi = pr_length_text (param->max, unit);
    return g_strdup_printf (_ ("%s to %s"), lo, hi);
  }
  if (param->kind == PR_PARAM_SHARE || param->kind == PR_PARAM_PLACE) {
    g_autofree char *lo = g_strdup_printf ("%g %%", 100 * param->min),
                    *hi = g_strdup_printf ("%g %%", 100 * param->max);
    return g_strdup_printf (_ ("%s to %s"), lo, hi);
  }
  double k = param->kind == PR_PARAM_ANGLE ? 1 / DEGREE : 1;
  return g_strdup_printf (_ ("%g to %g"), param->min * k, param->max * k);
}

#define BOXING_DEEP 0.5  /* of the thickness */
#define SEATING_DEEP 0.3 /* of its width: both common practice, no source */

/* A bevel that is given a width and has no depth yet takes the usual one: "boxing.medial.width". */
static void
give_depth (PrPlan *plan, char **part)
{
  g_autofree char *name = g_strconcat (part[0], ".", part[1], ".depth", NULL);
  const PrParam *depth = pr_param_find (name), *width = NULL;

  if (!depth || pr_param_get (plan, depth) > 0)
    return;
  g_autofree char *wide = g_strconcat (part[0], ".", part[1], ".width", NULL);
  width = pr_param_find (wide);
  pr_param_set (plan, depth,
                strcmp (part[0], "boxing") == 0 ? BOXING_DEEP * plan->thick_toe
                                                : SEATING_DEEP * pr_param_get (plan, width));
}

#define LAP_OF_WEB 0.7 /* common practice, no source */

/* An extension that comes to be is welded on with the usual lap: over none there is no weld. The creases begin behind it. */
static void
join_extension (PrPlan *plan)
{
  if (plan->ext_lap == 0)
    plan->ext_lap = MIN (LAP_OF_WEB * plan->web_toe, pr_param_find ("extension.lap")->max);
  for (int b = 0; b < 2; b++) {
    plan->crease_from_tie[b] = PR_TIE_EXTENSION;
    plan->crease_from_gap[b] = 0;
  }
}

/* What was typed is meant. A bar is then the one in hand, nails are no longer the ones their name says; what a place was
 * tied to lets it go: "crease.from.medial" is tied by "crease.from_tie.medial", "clip.1.place" by "clip.1.tie". */
static void
mean_it (PrPlan *plan, const PrParam *param)
{
  g_auto (GStrv) part = g_strsplit (param->name, ".", 3);

  if (strcmp (part[0], "stock") == 0)
    plan->stock_known = true;
  if (pr_param_of_nail (param))
    plan->nail[0] = '\0';
  if (param->kind != PR_PARAM_PLACE || g_strv_length (part) != 3)
    return;
  g_autofree char *name = strcmp (part[2], "place") == 0
                              ? g_strconcat (part[0], ".", part[1], ".tie", NULL)
                              : g_strconcat (part[0], ".", part[1], "_tie.", part[2], NULL);
  const PrParam *tie = pr_param_find (name);
  if (tie)
    pr_param_set (plan, tie, 0); /* the first choice of every tie is "place" */
}

bool
pr_param_set_text (PrPlan *plan, const PrParam *param, const char *called, const char *text, PrUnit unit,
                   GError **error)
{
  double value;

  if (!read_value (param, text, unit, &value) || value < param->min || value > param->max) {
    g_autofree char *range = range_text (param, unit);

    g_set_error (error, PR_ERROR, PR_ERROR_INPUT, _ ("“%s” cannot be set to “%s”; it takes %s."), called,
                 text, range);
    return false;
  }
  /* a crease that is as wide as the heads stays so */
  bool had_extension = plan->ext_ahead > 0;
  bool fits = pr_param_of_nail (param) && plan->crease_width == plan->nail_head_width;

  mean_it (plan, param);
  if (!pr_param_set (plan, param, value))
    return false;
  if (fits)
    plan->crease_width = plan->nail_head_width;
  if (value > 0 && strcmp (param->group, "bevels") == 0 && g_str_has_suffix (param->name, ".width")) {
    g_auto (GStrv) part = g_strsplit (param->name, ".", 3);

    give_depth (plan, part);
  }
  if (plan->ext_ahead > 0 && !had_extension)
    join_extension (plan);
  return true;
}

bool
pr_plan_set_text (PrPlan *plan, const char *name, const char *value, PrUnit unit, GError **error)
{
  PrPlan next = *plan;
  bool known = false;

  for (size_t i = 0; i < pr_n_params; i++) {
    const PrParam *param = &pr_params[i];

    if (!named_by (param, name))
      continue;
    known = true;
    if (!pr_param_set_text (&next, param, param->name, value, unit, error))
      return false;
  }
  if (!known) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("There is no parameter “%s”; “pritchel plan --params” lists them."), name);
    return false;
  }
  *plan = next;
  return true;
}

void
pr_plan_set_heats (PrPlan *plan, const char *text)
{
  size_t n = text ? strlen (text) : 0;

  if (n < sizeof plan->heats && strspn (text ? text : "", "abcdefghijklmnopqrstuvwxyz0123456789./ ") == n)
    g_strlcpy (plan->heats, text ? text : "", sizeof plan->heats);
  else
    *plan->heats = '\0';
}

JsonNode *
pr_plan_to_json (const PrPlan *plan)
{
  JsonObject *object = json_object_new ();
  JsonNode *node = json_node_new (JSON_NODE_OBJECT);

  json_object_set_string_member (object, "style", plan->style);
  if (*plan->nail)
    json_object_set_string_member (object, "nail", plan->nail);
  if (*plan->heats)
    json_object_set_string_member (object, "heats", plan->heats);
  for (size_t i = 0; i < pr_n_params; i++) {
    const PrParam *param = &pr_params[i];
    double v = pr_param_get (plan, param);

    if (param->kind == PR_PARAM_CHOICE)
      json_object_set_string_member (object, param->name, param->choices[(int) v]);
    else if (param->kind == PR_PARAM_SWITCH)
      json_object_set_boolean_member (object, param->name, v > 0);
    else if (param->kind == PR_PARAM_COUNT)
      json_object_set_int_member (object, param->name, (gint64) v);
    else
      json_object_set_double_member (object, param->name, param->kind == PR_PARAM_ANGLE ? v / DEGREE : v);
  }
  json_object_set_int_member (object, "locks", (gint64) plan->locks);
  json_node_take_object (node, object);
  return node;
}

static bool
member_value (const PrParam *param, JsonNode *node, double *value)
{
  if (!JSON_NODE_HOLDS_VALUE (node))
    return false;
  if (json_node_get_value_type (node) == G_TYPE_STRING)
    return read_value (param, json_node_get_string (node), PR_UNIT_MM, value);
  if (param->kind == PR_PARAM_CHOICE)
    return false;
  if (json_node_get_value_type (node) == G_TYPE_BOOLEAN)
    *value = json_node_get_boolean (node);
  else
    *value = json_node_get_double (node);
  if (param->kind == PR_PARAM_ANGLE)
    *value *= DEGREE;
  return isfinite (*value);
}

JsonNode *
pr_plan_member (JsonObject *object, const PrParam *param)
{
  static const char *const sides[] = { ".medial", ".lateral" };
  JsonNode *node = json_object_get_member (object, param->name);

  for (int b = 0; b < 2 && !node; b++)
    if (g_str_has_suffix (param->name, sides[b])) {
      g_autofree char *stem = g_strndup (param->name, strlen (param->name) - strlen (sides[b]));

      node = json_object_get_member (object, stem);
    }
  return node;
}

/* What is no parameter. */
static void
read_rest (JsonObject *object, PrPlan *plan)
{
  g_autofree char *style = pr_name_fit (pr_json_string (object, "style"));
  double locks;

  if (pr_json_string (object, "style")) {
    pr_text_copy (plan->style, sizeof plan->style, style);
    *plan->nail = *plan->heats = '\0'; /* a whole plan has them where there are any */
  }
  g_autofree char *nail = pr_name_fit (pr_json_string (object, "nail"));
  if (pr_json_string (object, "nail"))
    pr_text_copy (plan->nail, sizeof plan->nail, nail);
  if (pr_json_string (object, "heats"))
    pr_plan_set_heats (plan, pr_json_string (object, "heats"));
  /* before it was told apart, the bar of every plan had been chosen */
  if (json_object_has_member (object, "stock.width") && !json_object_has_member (object, "stock.known"))
    plan->stock_known = true;
  if (pr_json_number (object, "locks", &locks) && locks >= 0 && locks < 1e15)
    plan->locks = (guint64) locks & ((1u << PR_N_LOCKS) - 1);
}

bool
pr_plan_from_json (PrPlan *plan, JsonNode *node, GError **error)
{
  PrPlan next = *plan;

  if (!node || !JSON_NODE_HOLDS_OBJECT (node)) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT, _ ("This is not a plan; open a plan that Pritchel wrote."));
    return false;
  }
  JsonObject *object = json_node_get_object (node);
  for (size_t i = 0; i < pr_n_params; i++) {
    const PrParam *param = &pr_params[i];
    JsonNode *member = pr_plan_member (object, param);
    double v;

    if (!member)
      continue;
    if (!member_value (param, member, &v) || v < param->min || v > param->max) {
      g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                   _ ("The plan holds an impossible value for “%s”; correct it or leave it out."),
                   param->name);
      return false;
    }
    pr_param_set (&next, param, v);
  }
  read_rest (object, &next);
  *plan = next;
  return true;
}

bool
pr_plan_set_section (PrPlan *plan, const char *text, PrUnit unit, GError **error)
{
  const PrParam *side[2] = { pr_param_find ("stock.width"), pr_param_find ("stock.thickness") };
  double mm[2];

  if (!pr_section_parse (text, unit, &mm[0], &mm[1], error))
    return false;
  for (int i = 0; i < 2; i++)
    if (!pr_param_takes (side[i], mm[i])) {
      g_autofree char *range = range_text (side[i], unit);

      g_set_error (error, PR_ERROR, PR_ERROR_INPUT, _ ("“%s” cannot be set to “%s”; it takes %s."),
                   side[i]->name, text, range);
      return false;
    }
  plan->stock_width = mm[0];
  plan->stock_thick = mm[1];
  plan->stock_known = true;
  return true;
}

bool
pr_plan_equal (const PrPlan *a, const PrPlan *b)
{
  for (size_t i = 0; i < pr_n_params; i++)
    if (pr_param_get (a, &pr_params[i]) != pr_param_get (b, &pr_params[i]))
      return false;
  return strcmp (a->style, b->style) == 0 && strcmp (a->nail, b->nail) == 0
         && strcmp (a->heats, b->heats) == 0 && a->locks == b->locks;
}
