/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text that strangers give: nothing that steers passes, and nothing that does not is changed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <json-glib/json-glib.h>
#include <string.h>

#include "pr-text.h"

static void
becomes (char *(*shown) (const char *), const char *text, const char *expected)
{
  g_autofree char *got = shown (text);

  assert_string_equal (got, expected);
}

static void
test_plain (void **state)
{
  (void) state;
  becomes (pr_text_plain, "Möhre ist 馬, 🐴 und \u0646\u062c\u0645\u0629",
           "Möhre ist 馬, 🐴 und \u0646\u062c\u0645\u0629");
  becomes (pr_text_plain, "a\x1b[31mb\x07\x7f", "a\\x1b[31mb\\x07\\x7f");
  becomes (pr_text_plain, "\xc2\x9b[m", "\\x9b[m");
  becomes (pr_text_plain, "\xff\xc3", "\\xff\\xc3");
  becomes (pr_text_plain, "evil\u202etxt.exe", "evil\\u202etxt.exe");
  becomes (pr_text_plain, "\u2066a\u2028\ufeff\U000e0001", "\\u2066a\\u2028\\ufeff\\U000e0001");
  becomes (pr_text_plain, "one\ntwo", "one\ntwo");
  becomes (pr_text_plain_line, "one\r\ntwo\tthree", "one\\x0d\\x0atwo\\x09three");
  becomes (pr_text_plain, "👩\u200d🌾", "👩\u200d🌾"); /* the joiner steers nothing */
}

static void
test_name (void **state)
{
  (void) state;
  becomes (pr_text_name, "Bess", "Bess");
  becomes (pr_text_name, "a\nb\x1b", "a\\x0ab\\x1b");
  becomes (pr_text_name, "نجمة", "\u200e\u2068نجمة\u2069");
  becomes (pr_text_name, "כוכב 2", "\u200e\u2068כוכב 2\u2069");
  /* what would leave its isolate does not */
  becomes (pr_text_name, "ن\u2069\u202e", "\u200e\u2068ن\\u202e\u2069");
  becomes (pr_text_file, "/some/where/نجمة.jpg", "\u200e\u2068نجمة.jpg\u2069");
  becomes (pr_text_file, "/some/\xff.jpg", "\\xff.jpg");
  becomes (pr_text_sentence, "Bess is there.", "Bess is there.");
  becomes (pr_text_sentence, "نجمة is there.", "\u200eنجمة is there.");
  /* and on a terminal only the name is left of it */
  g_autofree char *name = pr_text_name ("نجمة"), *plain = pr_text_plain_line (name);
  assert_string_equal (plain, "نجمة");
}

static void
test_brief (void **state)
{
  static const char *const expected[][2] = { { "Bess", "Bess" },
                                             { "12345678", "12345678" },
                                             { "123456789", "1234567…" },
                                             { "123456 89", "123456…" },
                                             { "馬馬馬馬馬馬馬馬馬", "馬馬馬馬馬馬馬…" } };
  (void) state;

  for (size_t i = 0; i < G_N_ELEMENTS (expected); i++) {
    g_autofree char *brief = pr_text_name_brief (expected[i][0], 8);

    assert_string_equal (brief, expected[i][1]);
  }
}

/* Whatever the bytes: valid, with nothing in it that steers. */
static void
test_any_bytes (void **state)
{
  g_autoptr (GRand) chance = g_rand_new_with_seed (11);
  (void) state;

  for (int i = 0; i < 20000; i++) {
    char text[24] = "";

    for (int k = 0; k < g_rand_int_range (chance, 0, 23); k++)
      text[k] = (char) g_rand_int_range (chance, 1, 256);
    g_autofree char *plain = pr_text_plain_line (text), *again = pr_text_plain_line (plain);
    assert_true (g_utf8_validate (plain, -1, NULL));
    for (const char *at = plain; *at; at = g_utf8_next_char (at))
      assert_false (pr_text_steers (g_utf8_get_char (at)));
    assert_string_equal (again, plain);
  }
}

static void
test_json (void **state)
{
  static const char text[] = "\x1b\xc2\x9b\u202e\x7f\u2028 Möhre 馬 🐴 \"q\" \\";
  g_autoptr (JsonNode) node = json_node_init_string (json_node_alloc (), text);
  g_autofree char *json = json_to_string (node, FALSE), *plain = pr_text_plain_json (json);
  g_autoptr (JsonNode) back = json_from_string (plain, NULL);
  (void) state;

  for (const char *at = plain; *at; at = g_utf8_next_char (at))
    assert_false (pr_text_steers (g_utf8_get_char (at)));
  assert_string_equal (json_node_get_string (back), text);
  becomes (pr_text_plain_json, "{\n  \"a\" : [1, \"ü\"]\n}\n", "{\n  \"a\" : [1, \"ü\"]\n}\n");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_plain),     cmocka_unit_test (test_name), cmocka_unit_test (test_brief),
    cmocka_unit_test (test_any_bytes), cmocka_unit_test (test_json),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
