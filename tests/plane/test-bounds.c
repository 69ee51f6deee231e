/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names, dates, and numbers that are none. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "pr-bounds.h"

static void
holds_numbers (void **state)
{
  (void) state;
  assert_true (pr_bound_holds (PR_BOUND_PX_PER_MM, 0.5) && pr_bound_holds (PR_BOUND_PX_PER_MM, 200));
  assert_false (pr_bound_holds (PR_BOUND_PX_PER_MM, nextafter (0.5, 0)));
  assert_false (pr_bound_holds (PR_BOUND_PX_PER_MM, nextafter (200, 300)));
  for (int i = 0; i < PR_N_BOUNDS; i++) {
    g_autofree char *says = pr_bound_says ((PrBound) i, 1e300);

    assert_true (pr_bound_least ((PrBound) i) < pr_bound_most ((PrBound) i));
    assert_true (pr_bound_holds ((PrBound) i, pr_bound_most ((PrBound) i)));
    assert_false (pr_bound_holds ((PrBound) i, (double) NAN)
                  || pr_bound_holds ((PrBound) i, (double) INFINITY));
    assert_non_null (strstr (says, "1e+300, where"));
  }
}

/* What is on one line already is not gone through letter by letter, and comes to the same as with something before it that must
 * go. */
static void
tidy_names_are_cleaned_alike (void **state)
{
  static const char *const parts[]
      = { "a", "Z", " ", "\t", "\n", "\u00a0", "\u0301", "\u200b", "\u202e", "\x7f", "\xc2\x85", "é", "馬" };
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);

  (void) state;
  for (int i = 0; i < 20000; i++) {
    g_autoptr (GString) text = g_string_new (NULL);
    int n = g_rand_int_range (rand, 0, 6);

    for (int k = 0; k < n; k++)
      g_string_append (text, parts[g_rand_int_range (rand, 0, G_N_ELEMENTS (parts))]);
    g_autofree char *led = g_strconcat (" ", text->str, NULL), *steered = g_strconcat ("\a", text->str, NULL);
    g_autofree char *name = pr_name_clean (text->str), *same_name = pr_name_clean (led);
    g_autofree char *note = pr_note_fit (text->str), *same_note = pr_note_fit (steered);

    assert_string_equal (name, same_name);
    assert_string_equal (note, same_note);
  }
}

static void
cleans_names (void **state)
{
  static const char *const rows[][2] = {
    { "Juniper", "Juniper" },
    { "  Old\tGrey \n Mare ", "Old Grey Mare" },
    { "Bell\a\033[31ma", "Bell[31ma" },
    { "abc\u202e\u2066fed\u200f", "abcfed" },
    { "O'Malley's \"Grey\"", "O'Malley's \"Grey\"" },
    { "馬の名", "馬の名" },
    { "فرس می\u200cروم", "فرس می\u200cروم" }, /* Persian needs its joiner */
    { "👩\u200d🌾", "👩\u200d🌾" },
    { "a\u2028b", "a b" },
    { "B\xe9", "B\uFFFD" },
    { "\u200b\u200d \u00a0", "" },
    { "\n", "" },
    { NULL, "" },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autofree char *clean = pr_name_clean (rows[i][0]), *again = pr_name_clean (clean);

    assert_string_equal (clean, rows[i][1]);
    assert_string_equal (again, clean);
  }
}

static void
cuts_what_is_long (void **state)
{
  g_autofree char *most = g_strnfill (120, 'x'), *more = g_strnfill (121, 'x');
  g_autofree char *kept = pr_name_fit (most), *cut = pr_name_fit (more),
                  *note = pr_note_fit ("a\r\n  b\tc\u202e");
  GString *horses = g_string_new (NULL);

  (void) state;
  for (int i = 0; i < 200; i++)
    g_string_append (horses, "馬");
  g_autofree char *wide = pr_name_fit (horses->str);
  g_string_free (horses, TRUE);
  assert_string_equal (kept, most);
  assert_int_equal (g_utf8_strlen (cut, -1), 120);
  assert_int_equal (g_utf8_strlen (wide, -1), 120);
  assert_true (g_str_has_suffix (cut, "x…") && g_str_has_suffix (wide, "馬…"));
  assert_true (pr_name_is_long (more) && !pr_name_is_long (most) && !pr_name_is_long (""));
  assert_string_equal (note, "a\n  b\tc");
}

static void
knows_dates (void **state)
{
  static const char *const good[] = { "1900-01-01", "2199-12-31", "2024-02-29", "2024-11-30T10:00:00Z" };
  static const char *const bad[] = { NULL,          "",           "yesterday",  "1899-12-31",    "2200-01-01",
                                     "2023-02-29",  "2024-13-01", "2024-1-1",   "0024-11-30",    "20241130",
                                     "2024-11-30x", "+024-11-30", " 2024-11-3", "99999999-11-30" };
  g_autofree char *tail = g_strnfill (1000, 'Z'), *endless = g_strconcat ("2024-11-30T", tail, NULL);

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (good); i++)
    assert_true (pr_date_holds (good[i]));
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++)
    if (pr_date_holds (bad[i]))
      fail_msg ("taken: %s", bad[i]);
  assert_false (pr_date_holds (endless));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (holds_numbers),
    cmocka_unit_test (cleans_names),
    cmocka_unit_test (tidy_names_are_cleaned_alike),
    cmocka_unit_test (cuts_what_is_long),
    cmocka_unit_test (knows_dates),
  };

  return cmocka_run_group_tests_name ("bounds", tests, NULL, NULL);
}
