/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What reaches the JSON parser and what does not. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <float.h>
#include <math.h>
#include <string.h>

#include "pr-bounds.h"
#include "pr-error.h"
#include "pr-json.h"

static void
takes_json (void **state)
{
  static const char *const good[] = {
    "{}",
    "[]",
    " {\"a\": [1, -2.5e3, true, false, null, \"x\"]}\n",
    "3",
    "\"\"",
    "[\"\\\"[[[\\\\\"]",
    "[\"/* # ' $ =\"]",
    "[\"\\u00e9\\n\"]",
    "[\"\\ud83d\\ude00\"]",
    "[\"\xc3\xa9\"]",
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (good); i++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (JsonNode) node = pr_json_parse (good[i], strlen (good[i]), &error);

    if (node == NULL)
      fail_msg ("%s: %s", good[i], error->message);
  }
}

/* The parser would take most of these. */
static void
refuses_the_rest (void **state)
{
  static const char *const bad[] = {
    "",
    " ",
    "[",
    "]",
    "{",
    "[1,]x",
    "['a']",
    "/*\"*/[1]",
    "//\"\n[1]",
    "#\n[1]",
    "var x = [1];",
    "[$1]",
    "[NaN]",
    "[1] x",
    "[\"\\udc00\"]",
    "[\"\\ud800\"]",
    "[\"\\ud800\\ud800\"]",
    "[\"\\ud800\\n\"]",
    "[\"\\u12\"]",
    "[\"\xff\"]",
    "[\"a",
    "[\"\\",
    "]]][[[",
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_autoptr (GError) error = NULL;
    g_autoptr (JsonNode) node = pr_json_parse (bad[i], strlen (bad[i]), &error);

    if (node != NULL)
      fail_msg ("taken: %s", bad[i]);
    assert_non_null (error);
    assert_int_equal (error->domain, PR_ERROR);
  }
  assert_false (pr_json_is_safe ("[\0]", 3));
}

/* LEVELS of brackets round PREFIX. */
static bool
nested (const char *prefix, gsize levels)
{
  g_autofree char *open = g_strnfill (levels, '['), *close = g_strnfill (levels, ']');
  g_autofree char *text = g_strconcat (prefix, open, close, NULL);
  g_autoptr (JsonNode) node = pr_json_parse (text, strlen (text), NULL);

  return node != NULL;
}

static void
knows_how_deep (void **state)
{
  static const char *const prefixes[] = { "", "/*\"*/", "\"", "\"\\\"\"", "'\"'" };

  (void) state;
  assert_true (nested ("", (gsize) pr_bound_most (PR_BOUND_JSON_DEPTH)));
  assert_false (nested ("", (gsize) pr_bound_most (PR_BOUND_JSON_DEPTH) + 1));
  /* deep enough to end the program, were they parsed */
  for (size_t i = 0; i < G_N_ELEMENTS (prefixes); i++)
    assert_false (nested (prefixes[i], 500000));
}

/* What is written can be read, whatever the numbers; what is none becomes null. */
static void
writes_any_number (void **state)
{
  static const double numbers[]
      = { 0,    -0.0,   1,      0.1,      1e16,    1e17,   1e22,    -1e22, 1e300,
          1e-5, 5e-324, 1e-300, 123456.5, DBL_MAX, 0x1p60, 0x1p-40, 2e-7,  9007199254740993.0 };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (numbers); i++) {
    g_autoptr (JsonNode) node = json_node_new (JSON_NODE_ARRAY);
    json_node_take_array (node, json_array_new ());
    json_array_add_double_element (json_node_get_array (node), numbers[i]);
    json_array_add_string_element (json_node_get_array (node), "1e+22.0 \\\" inf,nan");
    g_autofree char *text = pr_json_text (node, i % 2 == 0);
    g_autoptr (JsonNode) back = pr_json_parse (text, strlen (text), NULL);
    if (back == NULL)
      fail_msg ("not JSON: %s", text);
    assert_true (json_array_get_double_element (json_node_get_array (back), 0) == numbers[i]);
    assert_string_equal (json_array_get_string_element (json_node_get_array (back), 1),
                         "1e+22.0 \\\" inf,nan");
  }
}

static void
writes_no_number_as_null (void **state)
{
  g_autoptr (JsonNode) node = json_node_new (JSON_NODE_ARRAY);
  JsonArray *array = json_array_new ();

  (void) state;
  json_node_take_array (node, array);
  json_array_add_double_element (array, (double) INFINITY);
  json_array_add_double_element (array, -(double) INFINITY);
  json_array_add_double_element (array, (double) NAN);
  json_array_add_boolean_element (array, TRUE);
  json_array_add_null_element (array);
  g_autofree char *text = pr_json_text (node, false);
  assert_string_equal (text, "[null,null,null,true,null]");
}

static void
knows_how_much (void **state)
{
  g_autofree char *values = g_strnfill (200000, ','), *long_text = g_strnfill ((8 << 20) + 1, ' ');

  (void) state;
  assert_false (pr_json_is_safe (values, 200000));
  assert_true (pr_json_is_safe (values, 199999));
  assert_false (pr_json_is_safe (long_text, (8 << 20) + 1));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (takes_json),        cmocka_unit_test (refuses_the_rest),
    cmocka_unit_test (knows_how_deep),    cmocka_unit_test (knows_how_much),
    cmocka_unit_test (writes_any_number), cmocka_unit_test (writes_no_number_as_null),
  };

  return cmocka_run_group_tests_name ("json", tests, NULL, NULL);
}
