/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What reaches the JSON parser and what does not. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

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
  assert_true (nested ("", PR_JSON_MAX_DEPTH));
  assert_false (nested ("", PR_JSON_MAX_DEPTH + 1));
  /* deep enough to end the program, were they parsed */
  for (size_t i = 0; i < G_N_ELEMENTS (prefixes); i++)
    assert_false (nested (prefixes[i], 500000));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (takes_json),
    cmocka_unit_test (refuses_the_rest),
    cmocka_unit_test (knows_how_deep),
  };

  return cmocka_run_group_tests_name ("json", tests, NULL, NULL);
}
