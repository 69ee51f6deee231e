/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is told the vet: as JSON and back, whoever wrote it; kept in the book, sent and merged with the visit. */
#include "kit.h"
#include "pr-book-diary.h"
#include "pr-book-merge.h"
#include "pr-bounds.h"
#include "pr-card-colour.h"
#include "pr-vet-note.h"
#include "shelf.h"

#include <sqlite3.h>
#include <string.h>

static const PrVetNote whole = { .vet = (char *) "Dr \"Pip\" Wick",
                                 .why = (char *) "Toe shortened.\nEasier to turn over, she says.",
                                 .allowed_by = (char *) "A. Ostler",
                                 .allowed_on = (char *) "2026-11-28",
                                 .allowed_for = (char *) "both fore feet" };

static void
same (const PrVetNote *a, const PrVetNote *b)
{
  assert_string_equal (a->vet, b->vet);
  assert_string_equal (a->why, b->why);
  assert_string_equal (a->allowed_by, b->allowed_by);
  assert_string_equal (a->allowed_on, b->allowed_on);
  assert_string_equal (a->allowed_for, b->allowed_for);
}

static void
it_is_read_as_it_was_written (void **state)
{
  g_autofree char *json = pr_vet_note_json (&whole);
  g_auto (PrVetNote) read = { 0 }, none = { 0 };

  (void) state;
  pr_vet_note_read (&read, json);
  same (&read, &whole);
  pr_vet_note_read (&none, NULL);
  assert_null (pr_vet_note_json (&none));
  assert_string_equal (none.why, "");
}

/* Every text at its longest, in letters of four bytes and in such as JSON writes as two. */
static void
the_longest_is_kept (void **state)
{
  static const char *const letters[] = { "x", "\"", "👩" };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (letters); i++) {
    g_autoptr (GString) much = g_string_new (NULL);
    g_auto (PrVetNote) note = { 0 }, read = { 0 };

    for (int n = 0; n < 20000; n++)
      g_string_append (much, letters[i]);
    const PrVetNote from = { much->str, much->str, much->str, (char *) "2026-11-28", much->str };
    pr_vet_note_take (&note, &from);
    assert_int_equal (g_utf8_strlen (note.why, -1), PR_VET_WHY_MOST);
    assert_int_equal (g_utf8_strlen (note.vet, -1), (glong) pr_bound_most (PR_BOUND_NAME));
    g_autofree char *json = pr_vet_note_json (&note);
    assert_true (pr_bound_holds (PR_BOUND_VET, (double) strlen (json)));
    pr_vet_note_read (&read, json);
    same (&read, &note);
  }
}

static void
what_cannot_be_is_not_told (void **state)
{
  static const struct {
    const char *json, *vet, *why, *by, *on;
  } rows[] = {
    { "", "", "", "", "" },
    { "null", "", "", "", "" },
    { "[1, 2]", "", "", "", "" },
    { "{\"for\": 7, \"why\": [\"x\"], \"allowed\": \"yes\"}", "", "", "", "" },
    { "{\"why\": \"short\", \"allowed\": {\"by\": null, \"on\": \"2026-02-30\"}}", "", "short", "", "" },
    { "{\"for\": \"a\\nb\\u202ec\\u0007\", \"allowed\": {\"on\": \"2026-11-28T99:99\"}}", "a bc", "", "",
      "2026-11-28" },
    { "{\"why\": \"\\u0007one\\ntwo\\u2066\"}", "", "one\ntwo", "", "" },
    { "{\"why\": \"cut off", "", "", "", "" },
  };
  g_autofree char *long_ = g_strnfill (40000, ' ');
  g_autofree char *padded = g_strconcat ("{\"why\": \"x\"", long_, "}", NULL);
  g_auto (PrVetNote) far = { 0 };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_auto (PrVetNote) note = { 0 };

    pr_vet_note_read (&note, rows[i].json);
    assert_string_equal (note.vet, rows[i].vet);
    assert_string_equal (note.why, rows[i].why);
    assert_string_equal (note.allowed_by, rows[i].by);
    assert_string_equal (note.allowed_on, rows[i].on);
    assert_string_equal (note.allowed_for, "");
  }
  pr_vet_note_read (&far, padded); /* longer than anything of ours */
  assert_string_equal (far.why, "");
}

static void
permission_is_whole_or_missing (void **state)
{
  (void) state;
  for (int i = 0; i < 8; i++) { /* each of the three told or not */
    PrVetNote note = whole;

    if (!(i & 1))
      note.allowed_by = (char *) "";
    if (!(i & 2))
      note.allowed_on = (char *) "";
    if (!(i & 4))
      note.allowed_for = (char *) "";
    assert_int_equal (pr_vet_note_is_allowed (&note), i == 7);
    assert_int_equal (pr_vet_note_is_silent (&note), i == 0);
  }
}

/* --- with the visit ------------------------------------------------------------------------ */

static PrBookId
told_visit (PrBook *book, int colour, const char *vet)
{
  PrBookId horse = pr_book_add_horse (book, "Pipwick", "", NULL);
  const PrBookVisit told = { .id = pr_book_add_visit (book, horse, "2026-11-20", NULL),
                             .date = (char *) "2026-11-20",
                             .note = (char *) "windy",
                             .colour = colour,
                             .vet = (char *) vet };

  assert_true (pr_book_describe_visit (book, &told, NULL));
  return told.id;
}

static void
the_book_keeps_it (void **state)
{
  KitShelf *shelf = *state;
  g_autofree char *json = pr_vet_note_json (&whole), *far = g_strnfill (40000, 'x');
  PrBookId visit = told_visit (shelf->book, 3, json);
  g_auto (PrBookVisit) now = { 0 }, other = { 0 };

  pr_book_close (shelf->book);
  assert_non_null (shelf->book = pr_book_open (shelf->file, NULL));
  assert_true (pr_book_get_visit (shelf->book, visit, &now, NULL));
  assert_int_equal (now.colour, 3);
  assert_string_equal (now.vet, json);
  assert_string_equal (now.note, "windy");
  assert_true (pr_book_get_visit (shelf->book, told_visit (shelf->book, 99, far), &other, NULL));
  assert_int_equal (other.colour, PR_N_CARD_COLOURS - 1); /* the nearest that can be */
  assert_null (other.vet);
}

/* What a stranger wrote into the file. */
static void
strange_rows_are_bounded (void **state)
{
  static const struct {
    const char *sql;
    int colour;
    bool vet;
  } rows[] = {
    { "UPDATE visit SET colour = 6, vet = '{}'", 6, true },
    { "UPDATE visit SET colour = 7, vet = hex (zeroblob (20000))", 0, false },
    { "UPDATE visit SET colour = -1, vet = hex (zeroblob (16384))", 0, true },
    { "UPDATE visit SET colour = 9223372036854775807, vet = hex (zeroblob (16384)) || 'x'", 0, false },
    { "UPDATE visit SET colour = -9223372036854775807, vet = NULL", 0, false },
  };
  KitShelf *shelf = *state;
  PrBookId visit = told_visit (shelf->book, 3, "{}");

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_auto (PrBookVisit) now = { 0 };
    sqlite3 *db = NULL;

    g_clear_pointer (&shelf->book, pr_book_close);
    assert_int_equal (sqlite3_open (shelf->file, &db), SQLITE_OK);
    assert_int_equal (sqlite3_exec (db, rows[i].sql, NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close (db);
    assert_non_null (shelf->book = pr_book_open (shelf->file, NULL));
    assert_true (pr_book_get_visit (shelf->book, visit, &now, NULL));
    assert_int_equal (now.colour, rows[i].colour);
    assert_int_equal (now.vet != NULL, rows[i].vet);
  }
}

static void
it_goes_with_a_foot (void **state)
{
  KitShelf *shelf = *state;
  g_autofree char *sent = g_build_filename (shelf->folder, "sent.pritchel", NULL),
                  *other = g_build_filename (shelf->folder, "other.pritchel", NULL);
  g_autofree char *json = pr_vet_note_json (&whole);
  PrBookId foot = pr_book_add_foot (shelf->book, told_visit (shelf->book, 2, json), PR_FOOT_LF, NULL),
           come = 0;
  g_auto (PrBookVisit) visit = { 0 };
  g_auto (PrBookHorse) horse = { 0 };

  assert_true (pr_book_send_foot (shelf->book, foot, sent, NULL));
  g_autoptr (PrBook) theirs = pr_book_open (other, NULL);
  assert_true (pr_book_merge (theirs, sent, NULL, &come, NULL));
  assert_true (pr_book_get_foot (theirs, come, NULL, &visit, &horse, NULL));
  assert_string_equal (horse.name, "Pipwick");
  assert_int_equal (visit.colour, 2);
  assert_string_equal (visit.vet, json);
}

/* --- colours ------------------------------------------------------------------------------- */

/* CIE L* of an sRGB colour (IEC 61966-2-1), 0..100, and its relative luminance (WCAG 2.1). */
static double
luminance (guint rgb)
{
  static const double share[] = { 0.2126, 0.7152, 0.0722 };
  double sum = 0;

  for (int i = 0; i < 3; i++) {
    double c = (rgb >> (16 - 8 * i) & 255) / 255.0;

    sum += share[i] * (c <= 0.04045 ? c / 12.92 : pow ((c + 0.055) / 1.055, 2.4));
  }
  return sum;
}

static double
lightness (guint rgb)
{
  double y = luminance (rgb);

  return y > 0.008856 ? 116 * cbrt (y) - 16 : 903.3 * y;
}

static void
colours_differ_in_grey (void **state)
{
  (void) state;
  assert_int_equal ((int) pr_bound_most (PR_BOUND_CARD_COLOUR), PR_N_CARD_COLOURS - 1);
  for (int i = 0; i < PR_N_CARD_COLOURS; i++) {
    double y = luminance (pr_card_colour_rgb (i)), ink = luminance (pr_card_colour_ink (i));

    assert_true ((fmax (y, ink) + 0.05) / (fmin (y, ink) + 0.05) >= 4.5);
    for (int k = 0; k < i; k++) {
      assert_string_not_equal (pr_card_colour_name (i), pr_card_colour_name (k));
      if (lightness (pr_card_colour_rgb (k)) - lightness (pr_card_colour_rgb (i)) < 11.5)
        fail_msg ("%s and %s are alike in grey: %.1f, %.1f", pr_card_colour_name (k), pr_card_colour_name (i),
                  lightness (pr_card_colour_rgb (k)), lightness (pr_card_colour_rgb (i)));
    }
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (it_is_read_as_it_was_written),
    cmocka_unit_test (the_longest_is_kept),
    cmocka_unit_test (what_cannot_be_is_not_told),
    cmocka_unit_test (permission_is_whole_or_missing),
    cmocka_unit_test_setup_teardown (the_book_keeps_it, kit_shelf_set_up, kit_shelf_tear_down),
    cmocka_unit_test_setup_teardown (strange_rows_are_bounded, kit_shelf_set_up, kit_shelf_tear_down),
    cmocka_unit_test_setup_teardown (it_goes_with_a_foot, kit_shelf_set_up, kit_shelf_tear_down),
    cmocka_unit_test (colours_differ_in_grey),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
