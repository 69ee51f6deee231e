/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is written beside horses and visits: kept, one step back, and what is due told of. */
#include "desk-kit.h"
#include "pr-document-diary.h"

#include <string.h>

static PrBookHorse
horse_now (Desk *desk)
{
  PrBookHorse horse = { 0 };

  assert_true (pr_book_get_horse (desk->book, desk->horse, &horse, NULL));
  return horse;
}

static void
a_horse_is_one_step (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_auto (PrBookHorse) before = horse_now (desk);
  PrBookHorse told = before;

  (void) state;
  desk_open (desk, desk->near);
  told.yard = (char *) "Mill yard";
  told.owner = (char *) "A. Ostler";
  told.due_days = 35;
  assert_true (pr_document_describe_horse (desk->doc, &told, NULL));
  assert_int_equal (desk->n_done, 1);
  g_auto (PrBookHorse) now = horse_now (desk);
  assert_string_equal (now.yard, "Mill yard");
  /* the same again is nothing new */
  assert_true (pr_document_describe_horse (desk->doc, &now, NULL));
  assert_int_equal (desk->n_done, 1);
  assert_true (pr_document_can_undo (desk->doc));
  pr_document_undo (desk->doc);
  g_auto (PrBookHorse) back = horse_now (desk);
  assert_string_equal (back.yard, before.yard);
  assert_string_equal (back.owner, "");
  assert_int_equal (back.due_days, 0);
  assert_false (pr_document_can_undo (desk->doc));
  /* how often alone */
  told = back;
  told.due_days = 28;
  assert_true (pr_document_describe_horse (desk->doc, &told, NULL));
  g_auto (PrBookHorse) often = horse_now (desk);
  assert_int_equal (often.due_days, 28);
}

/* What is done after it is the next step back, and its own is over. */
static void
an_edit_comes_after_it (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_auto (PrBookHorse) before = horse_now (desk);
  PrBookHorse told = before;

  (void) state;
  desk_open (desk, desk->near);
  told.owner = (char *) "A. Ostler";
  assert_true (pr_document_describe_horse (desk->doc, &told, NULL));
  assert_true (pr_document_set_text (desk->doc, "web.toe", "24.5", NULL));
  pr_document_undo (desk->doc);
  NEAR (desk_shown (desk, "web.toe"), 23, 0);
  assert_false (pr_document_can_undo (desk->doc));
  g_auto (PrBookHorse) now = horse_now (desk);
  assert_string_equal (now.owner, "A. Ostler");
}

static void
a_new_name_leaves_the_rest (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  PrBookHorse told = { .id = desk->horse,
                       .name = (char *) "Pipwick",
                       .yard = (char *) "Mill yard",
                       .owner = (char *) "A. Ostler",
                       .note = (char *) "kind" };

  (void) state;
  assert_true (pr_document_describe_horse (desk->doc, &told, NULL));
  assert_true (pr_document_rename_horse (desk->doc, desk->horse, "Tansy", NULL));
  g_auto (PrBookHorse) now = horse_now (desk);
  assert_string_equal (now.name, "Tansy");
  assert_string_equal (now.yard, "Mill yard");
  assert_string_equal (now.note, "kind");
  pr_document_undo (desk->doc);
  g_auto (PrBookHorse) back = horse_now (desk);
  assert_string_equal (back.name, "Pipwick");
}

static void
a_visit_is_one_step (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  PrBookVisit told = { .id = desk->today,
                       .date = (char *) "2026-11-18",
                       .note = (char *) "windy",
                       .colour = 4,
                       .vet = (char *) "{}" };
  g_auto (PrBookVisit) now = { 0 };
  g_autoptr (GError) error = NULL;

  (void) state;
  assert_true (pr_document_describe_visit (desk->doc, &told, NULL));
  pr_document_undo (desk->doc);
  assert_true (pr_book_get_visit (desk->book, desk->today, &now, NULL));
  assert_string_equal (now.date, DESK_TODAY);
  assert_string_equal (now.note, "");
  assert_int_equal (now.colour, 0);
  assert_null (now.vet);
  told.date = (char *) "yesterday";
  assert_false (pr_document_describe_visit (desk->doc, &told, &error));
  assert_int_equal (desk->n_done, 1);
  /* either alone is a change, and one step */
  PrBookVisit alone[] = { now, now };
  alone[0].colour = 2;
  alone[1].vet = (char *) "{}";
  for (size_t i = 0; i < G_N_ELEMENTS (alone); i++) {
    g_auto (PrBookVisit) then = { 0 }, back = { 0 };

    assert_true (pr_document_describe_visit (desk->doc, &alone[i], NULL));
    assert_true (pr_book_get_visit (desk->book, desk->today, &then, NULL));
    assert_int_equal (then.colour, alone[i].colour);
    assert_int_equal (then.vet != NULL, i == 1);
    pr_document_undo (desk->doc);
    assert_true (pr_book_get_visit (desk->book, desk->today, &back, NULL));
    assert_true (back.colour == 0 && back.vet == NULL);
  }
}

static void
due_is_told (void **state)
{
  static const struct {
    const char *due, *today, *words;
    bool late;
  } cases[] = { { "2026-12-11", "2026-11-30", "next due 11 December 2026", false },
                { "2026-11-30", "2026-11-30", "next due 30 November 2026", false },
                { "2026-11-29", "2026-11-30", "was due 29 November 2026", true } };
  g_autoptr (Desk) desk = desk_new ();
  g_auto (PrBookHorse) horse = horse_now (desk);

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    bool late;
    g_autofree char *words = pr_due_words (cases[i].due, cases[i].today, &late);
    assert_string_equal (words, cases[i].words);
    assert_int_equal (late, cases[i].late);
  }
  horse.due_days = 35; /* after the newer of its two visits */
  g_autofree char *words = pr_document_due_words (desk->doc, &horse, NULL);
  assert_non_null (strstr (words, "25 December 2026"));
  horse.due_days = PR_BOOK_NEVER_DUE;
  assert_null (pr_document_due_words (desk->doc, &horse, NULL));
}

/* The same book gives the same ids, so that a calendar moves what it has. */
static void
the_calendar_is_written (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autofree char *file = g_build_filename (desk->folder, "due.ics", NULL), *first = NULL, *second = NULL;
  g_autoptr (GError) error = NULL;

  (void) state;
  assert_true (pr_document_write_due (desk->doc, file, NULL));
  assert_true (g_file_get_contents (file, &first, NULL, NULL));
  assert_non_null (strstr (first, "BEGIN:VEVENT"));
  assert_true (pr_document_write_due (desk->doc, file, NULL));
  assert_true (g_file_get_contents (file, &second, NULL, NULL));
  const char *a = strstr (first, "UID:"), *b = strstr (second, "UID:");
  assert_memory_equal (a, b, (size_t) (strstr (a, "\r\n") - a));
  assert_false (pr_document_write_due (desk->doc, "/proc/nowhere/due.ics", &error));
  assert_non_null (error);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_horse_is_one_step),
    cmocka_unit_test (an_edit_comes_after_it),
    cmocka_unit_test (a_new_name_leaves_the_rest),
    cmocka_unit_test (a_visit_is_one_step),
    cmocka_unit_test (due_is_told),
    cmocka_unit_test (the_calendar_is_written),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
