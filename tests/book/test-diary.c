/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is written beside horses and visits, what is due, and the calendar of it, read back by RFC 5545. */
#include "kit.h"
#include "pr-book-diary.h"
#include "pr-book-merge.h"
#include "pr-ics.h"
#include "shelf.h"

#include <string.h>

static PrBookId
horse (PrBook *book, const char *name, const char *yard, const char *owner, const char *note, int days)
{
  PrBookHorse told = { .name = (char *) name,
                       .yard = (char *) yard,
                       .owner = (char *) owner,
                       .note = (char *) note,
                       .due_days = days };

  told.id = pr_book_add_horse (book, name, "", NULL);
  assert_true (pr_book_describe_horse (book, &told, NULL));
  return told.id;
}

static void
what_is_written_is_there (void **state)
{
  KitShelf *shelf = *state;
  PrBookId id = horse (shelf->book, "Pipwick", "Mill yard", "A. Ostler", "Kind.\nShy of smoke", 35);
  PrBookId visit = pr_book_add_visit (shelf->book, id, "2026-11-20", NULL);
  g_auto (PrBookHorse) now = { 0 };
  g_auto (PrBookVisit) then = { 0 };
  PrBookVisit told = { .id = visit, .date = (char *) "2026-11-18", .note = (char *) "lost the near hind" };
  g_autoptr (GError) error = NULL;

  pr_book_close (shelf->book);
  assert_non_null (shelf->book = pr_book_open (shelf->file, NULL));
  assert_true (pr_book_get_horse (shelf->book, id, &now, NULL));
  assert_string_equal (now.yard, "Mill yard");
  assert_string_equal (now.owner, "A. Ostler");
  assert_string_equal (now.note, "Kind.\nShy of smoke");
  assert_int_equal (now.due_days, 35);
  assert_true (pr_book_describe_visit (shelf->book, &told, NULL));
  assert_true (pr_book_get_visit (shelf->book, visit, &then, NULL));
  assert_string_equal (then.date, "2026-11-18");
  assert_string_equal (then.note, "lost the near hind");
  /* refused, and all as it was */
  told.date = (char *) "18 November";
  assert_false (pr_book_describe_visit (shelf->book, &told, &error));
  assert_non_null (strstr (error->message, "is not a date"));
  g_clear_error (&error);
  g_free (now.name);
  now.name = g_strdup ("  ");
  assert_false (pr_book_describe_horse (shelf->book, &now, &error));
  pr_book_horse_clear (&now);
  assert_true (pr_book_get_horse (shelf->book, id, &now, NULL));
  assert_string_equal (now.name, "Pipwick");
}

static void
any_of_it_is_found (void **state)
{
  static const char *const sought[] = { "MILL", "ostler", "smoke", "pip", " " };
  KitShelf *shelf = *state;

  horse (shelf->book, "Pipwick", "Mill yard", "A. Ostler", "shy of smoke", 0);
  for (size_t i = 0; i < G_N_ELEMENTS (sought); i++) {
    g_autoptr (GPtrArray) found = pr_book_horses (shelf->book, sought[i], NULL);
    assert_int_equal (found->len, 1);
  }
  g_autoptr (GPtrArray) none = pr_book_horses (shelf->book, "forge", NULL);
  assert_int_equal (none->len, 0);
}

/* A foot that is sent tells whose horse it is. */
static void
it_goes_with_a_foot (void **state)
{
  KitShelf *shelf = *state;
  g_autofree char *sent = g_build_filename (shelf->folder, "sent.pritchel", NULL),
                  *other = g_build_filename (shelf->folder, "other.pritchel", NULL);
  PrBookId id = horse (shelf->book, "Pipwick", "Mill yard", "A. Ostler", "kind", PR_BOOK_NEVER_DUE);
  PrBookId visit = pr_book_add_visit (shelf->book, id, "2026-11-20", NULL);
  PrBookId foot = pr_book_add_foot (shelf->book, visit, PR_FOOT_LF, NULL);

  assert_true (pr_book_send_foot (shelf->book, foot, sent, NULL));
  g_autoptr (PrBook) theirs = pr_book_open (other, NULL);
  assert_true (pr_book_merge (theirs, sent, NULL, NULL, NULL));
  g_autoptr (GPtrArray) horses = pr_book_horses (theirs, NULL, NULL);
  const PrBookHorse *come = horses->pdata[0];
  assert_string_equal (come->owner, "A. Ostler");
  assert_string_equal (come->note, "kind");
  assert_int_equal (come->due_days, PR_BOOK_NEVER_DUE);
}

/* --- due --- */

static void
days_are_counted (void **state)
{
  static const struct {
    const char *date;
    int days;
    const char *due;
  } cases[] = { { "2026-11-20", 42, "2027-01-01" },
                { "2026-11-20", 0, "2027-01-01" },  /* the usual six weeks */
                { "2028-02-01", 28, "2028-02-29" }, /* a leap year */
                { "2026-11-20T08:00:00Z", 1, "2026-11-21" } };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    g_autofree char *due = pr_book_due_day (cases[i].date, cases[i].days);
    assert_string_equal (due, cases[i].due);
  }
}

/* A visit of HORSE at which a shoe was planned. */
static void
shoe (PrBook *book, PrBookId of, const char *date)
{
  PrBookId foot = pr_book_add_foot (book, pr_book_add_visit (book, of, date, NULL), PR_FOOT_LF, NULL);

  assert_true (pr_book_set_plan (book, foot, "{}", NULL));
}

static void
due_counts_from_the_last_visit (void **state)
{
  KitShelf *shelf = *state;
  PrBookId late = horse (shelf->book, "Tansy", "", "", "", 35),
           soon = horse (shelf->book, "Bramble", "", "", "", 0);
  PrBookId never = horse (shelf->book, "Specimens", "", "", "", PR_BOOK_NEVER_DUE);

  horse (shelf->book, "Never seen", "", "", "", 0);
  pr_book_add_visit (shelf->book, late, "2026-11-20", NULL);
  shoe (shelf->book, late, "2026-10-01");
  shoe (shelf->book, soon, "2026-10-20");
  shoe (shelf->book, never, "2026-10-20");
  PrBookId unshod = horse (shelf->book, "Looked at", "", "", "", 0);
  pr_book_add_foot (shelf->book, pr_book_add_visit (shelf->book, unshod, "2026-10-20", NULL), PR_FOOT_LF,
                    NULL);
  assert_true (pr_book_is_shod (shelf->book, late));
  assert_false (pr_book_is_shod (shelf->book, unshod));
  g_autoptr (GPtrArray) due = pr_book_due (shelf->book, NULL);
  assert_int_equal (due->len, 2);
  const PrBookDue *first = due->pdata[0], *second = due->pdata[1];
  assert_string_equal (first->horse.name, "Bramble");
  assert_string_equal (first->due, "2026-12-01");
  assert_string_equal (second->horse.name, "Tansy");
  assert_string_equal (second->last, "2026-11-20");
  assert_string_equal (second->due, "2026-12-25");
}

/* --- the calendar, read as RFC 5545 has it --- */

/* Lines joined where the next begins with a blank (3.1). */
static GStrv
unfolded (const char *text)
{
  g_autoptr (GString) whole = g_string_new (text);
  g_auto (GStrv) raw = g_strsplit (text, "\r\n", -1);

  for (int i = 0; raw[i]; i++) {
    assert_true (strlen (raw[i]) <= 75);
    assert_null (strpbrk (raw[i], "\r\n"));
    assert_true (g_utf8_validate (raw[i], -1, NULL));
  }
  g_string_replace (whole, "\r\n ", "", 0);
  return g_strsplit (whole->str, "\r\n", -1);
}

/* The value of NAME in the NTH event; "" when it is not there. Transfer full. */
static char *
value_of (GStrv lines, int nth, const char *name)
{
  int event = -1;

  for (int i = 0; lines[i]; i++) {
    const char *colon = strchr (lines[i], ':');

    event += g_str_equal (lines[i], "BEGIN:VEVENT");
    if (event == nth && colon && strncmp (lines[i], name, strlen (name)) == 0
        && (lines[i][strlen (name)] == ':' || lines[i][strlen (name)] == ';'))
      return g_strcompress (colon + 1); /* takes the backslashes out, as 3.3.11 puts them in */
  }
  return g_strdup ("");
}

/* over three lines and more */
#define LONG_NOTE                                                                                            \
  "Kind.\nShy; of smoke, and of dogs that come round the corner while the off hind is on the stand, as "     \
  "they did "                                                                                                \
  "at the last two visits and will do again; ask for the gate to be shut before the fire is lit, and for a " \
  "handler."

static void
the_calendar_says_the_same (void **state)
{
  KitShelf *shelf = *state;
  const char *name = "Pip, wick; the \\ second, who has a very long name: Größe, Ä, Ö, Ü, €, and more of it";
  PrBookId id = horse (shelf->book, name, "Mill yard, north", "A. Ostler", LONG_NOTE, 0);
  g_autoptr (GDateTime) now = g_date_time_new_utc (2026, 11, 30, 9, 5, 7);

  shoe (shelf->book, id, "2026-11-20");
  shoe (shelf->book, horse (shelf->book, "Tansy", "", "", "", 7), "2026-11-20");
  g_autoptr (GPtrArray) due = pr_book_due (shelf->book, NULL);
  g_autofree char *text = pr_ics_due (due, "1b4e28ba-2fa1-11d2-883f-0016d3cca427", now);
  g_auto (GStrv) lines = unfolded (text);
  assert_non_null (strstr (text, "Pip\\, wick\\; the \\\\ second\\, who"));
  static const struct {
    const char *name, *value;
  } first[] = { { "SUMMARY", "Tansy: next shoeing" },
                { "DTSTART", "20261127" },
                { "DTSTAMP", "20261130T090507Z" },
                { "LOCATION", "" } };
  for (size_t i = 0; i < G_N_ELEMENTS (first); i++) {
    g_autofree char *value = value_of (lines, 0, first[i].name);
    assert_string_equal (value, first[i].value);
  }
  g_autofree char *summary = value_of (lines, 1, "SUMMARY"), *yard = value_of (lines, 1, "LOCATION"),
                  *more = value_of (lines, 1, "DESCRIPTION"), *uid = value_of (lines, 1, "UID");
  g_autofree char *wanted = g_strconcat (name, ": next shoeing", NULL),
                  *id_wanted = g_strdup_printf ("horse-%d@1b4e28ba-2fa1-11d2-883f-0016d3cca427", (int) id);
  assert_string_equal (summary, wanted);
  assert_string_equal (yard, "Mill yard, north");
  assert_string_equal (more, "Last visit 2026-11-20.\nA. Ostler\n" LONG_NOTE);
  assert_string_equal (uid, id_wanted);
  assert_string_equal (lines[0], "BEGIN:VCALENDAR");
  assert_string_equal (lines[g_strv_length (lines) - 2], "END:VCALENDAR");
  assert_string_equal (lines[g_strv_length (lines) - 1], "");
}

#define SHELVED(f) cmocka_unit_test_setup_teardown (f, kit_shelf_set_up, kit_shelf_tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    SHELVED (what_is_written_is_there),
    SHELVED (any_of_it_is_found),
    SHELVED (it_goes_with_a_foot),
    cmocka_unit_test (days_are_counted),
    SHELVED (due_counts_from_the_last_visit),
    SHELVED (the_calendar_says_the_same),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
