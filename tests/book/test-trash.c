/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is deleted leaves every listing, comes back as it was, goes for ever after its time, and is not sent on. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "folder.h"
#include "pr-book-merge.h"
#include "pr-book-trash.h"

typedef struct {
  char *dir, *file;
  PrBook *book;
  PrBookId horse[2], visit[2], foot[3]; /* two visits of the first horse, two feet in the first of them */
} Place;

static PrBookId
foot_of (PrBook *book, PrBookId visit, PrFoot side)
{
  PrBookId foot = pr_book_add_foot (book, visit, side, NULL);

  assert_true (foot > 0 && pr_book_set_plan (book, foot, "{}", NULL));
  return foot;
}

static int
setup (void **state)
{
  Place *p = g_new0 (Place, 1);

  p->dir = kit_folder ();
  p->file = g_build_filename (p->dir, "book.pritchel", NULL);
  p->book = pr_book_open (p->file, NULL);
  p->horse[0] = pr_book_add_horse (p->book, "Juniper", "Mill yard", NULL);
  p->horse[1] = pr_book_add_horse (p->book, "Sorrel", NULL, NULL);
  p->visit[0] = pr_book_add_visit (p->book, p->horse[0], "2024-11-12", NULL);
  p->visit[1] = pr_book_add_visit (p->book, p->horse[0], "2024-12-20", NULL);
  p->foot[0] = foot_of (p->book, p->visit[0], PR_FOOT_LF);
  p->foot[1] = foot_of (p->book, p->visit[0], PR_FOOT_RF);
  p->foot[2] = foot_of (p->book, p->visit[1], PR_FOOT_LF);
  *state = p;
  return 0;
}

static int
teardown (void **state)
{
  Place *p = *state;

  pr_book_close (p->book);
  kit_folder_gone (p->dir);
  g_free (p->file);
  g_free (p);
  return 0;
}

static guint
many (GPtrArray *rows)
{
  guint n = rows->len;

  g_ptr_array_unref (rows);
  return n;
}

/* How many horses, visits of the first, and feet of its first visit are listed. */
static void
check_listed (const Place *p, guint horses, guint visits, guint feet)
{
  assert_int_equal (many (pr_book_horses (p->book, NULL, NULL)), horses);
  assert_int_equal (many (pr_book_visits (p->book, p->horse[0], NULL)), visits);
  assert_int_equal (many (pr_book_feet (p->book, p->visit[0], NULL)), feet);
}

static bool
is_open (const Place *p, PrBookId foot)
{
  return pr_book_get_foot (p->book, foot, NULL, NULL, NULL, NULL);
}

static void
out_of_every_listing_and_back (void **state)
{
  Place *p = *state;

  check_listed (p, 2, 2, 2);
  assert_true (pr_book_delete (p->book, PR_BOOK_FOOT, p->foot[0], NULL));
  check_listed (p, 2, 2, 1);
  assert_false (is_open (p, p->foot[0]));
  assert_true (pr_book_delete (p->book, PR_BOOK_VISIT, p->visit[1], NULL));
  check_listed (p, 2, 1, 1);
  assert_false (is_open (p, p->foot[2]));
  assert_int_equal (pr_book_add_foot (p->book, p->visit[1], PR_FOOT_RH, NULL), 0);
  assert_true (pr_book_delete (p->book, PR_BOOK_HORSE, p->horse[0], NULL));
  check_listed (p, 1, 1, 1);
  assert_false (is_open (p, p->foot[1]));
  assert_int_equal (many (pr_book_trash (p->book, NULL)), 3);
  /* a foot brings back what it hangs on, and only that */
  assert_true (pr_book_bring_back (p->book, PR_BOOK_FOOT, p->foot[0], NULL));
  check_listed (p, 2, 1, 2);
  assert_true (is_open (p, p->foot[0]) && is_open (p, p->foot[1]) && !is_open (p, p->foot[2]));
  assert_true (pr_book_bring_back (p->book, PR_BOOK_VISIT, p->visit[1], NULL));
  check_listed (p, 2, 2, 2);
  assert_true (is_open (p, p->foot[2]));
  assert_int_equal (many (pr_book_trash (p->book, NULL)), 0);
}

/* Over a start of the program too. */
static void
listed_with_its_names (void **state)
{
  Place *p = *state;

  assert_true (pr_book_delete (p->book, PR_BOOK_FOOT, p->foot[1], NULL));
  pr_book_close (p->book);
  p->book = pr_book_open (p->file, NULL);
  g_autoptr (GPtrArray) trash = pr_book_trash (p->book, NULL);
  assert_int_equal (trash->len, 1);
  const PrBookDeleted *one = g_ptr_array_index (trash, 0);
  assert_int_equal (one->kind, PR_BOOK_FOOT);
  assert_int_equal (one->id, p->foot[1]);
  assert_int_equal (one->foot, PR_FOOT_RF);
  assert_string_equal (one->name, "Juniper");
  assert_string_equal (one->date, "2024-11-12");
  g_autoptr (GDateTime) when = g_date_time_new_from_iso8601 (one->deleted, NULL);
  assert_non_null (when);
}

static void
twice_or_never_there_is_told (void **state)
{
  Place *p = *state;
  g_autoptr (GError) error = NULL;

  assert_true (pr_book_delete (p->book, PR_BOOK_HORSE, p->horse[1], NULL));
  assert_false (pr_book_delete (p->book, PR_BOOK_HORSE, p->horse[1], &error));
  assert_non_null (error);
  assert_false (pr_book_bring_back (p->book, PR_BOOK_HORSE, p->horse[0], NULL)); /* it was never deleted */
  assert_false (pr_book_bring_back (p->book, PR_BOOK_FOOT, 999, NULL));
  assert_true (pr_book_bring_back (p->book, PR_BOOK_HORSE, p->horse[1], NULL));
}

static void
for_ever_after_its_time (void **state)
{
  Place *p = *state;
  g_autoptr (GDateTime) now = g_date_time_new_now_utc (), soon = g_date_time_add_days (now, 1);
  g_autofree char *after = g_date_time_format (soon, "%Y-%m-%dT%H:%M:%SZ");

  assert_true (pr_book_delete (p->book, PR_BOOK_VISIT, p->visit[0], NULL));
  assert_true (pr_book_empty_trash (p->book, "2020-01-01T00:00:00Z", NULL));
  assert_int_equal (many (pr_book_trash (p->book, NULL)), 1);
  assert_true (pr_book_empty_trash (p->book, after, NULL));
  assert_int_equal (many (pr_book_trash (p->book, NULL)), 0);
  check_listed (p, 2, 1, 0);
  assert_false (pr_book_bring_back (p->book, PR_BOOK_VISIT, p->visit[0], NULL));
  assert_true (is_open (p, p->foot[2])); /* what was not deleted stays */
}

/* What was deleted is not taken in from a book that was sent, and does not hide what is. */
static void
is_not_merged (void **state)
{
  Place *p = *state;
  g_autofree char *file = g_build_filename (p->dir, "other.pritchel", NULL);
  PrBook *other = pr_book_open (file, NULL);

  assert_true (pr_book_delete (p->book, PR_BOOK_VISIT, p->visit[1], NULL));
  assert_true (
      pr_book_delete (other, PR_BOOK_HORSE, pr_book_add_horse (other, "Juniper", "Mill yard", NULL), NULL));
  pr_book_close (p->book);
  assert_true (pr_book_merge (other, p->file, NULL, NULL, NULL));
  p->book = pr_book_open (p->file, NULL);
  g_autoptr (GPtrArray) horses = pr_book_horses (other, "Juniper", NULL);
  assert_int_equal (horses->len, 1);
  assert_int_equal (many (pr_book_visits (other, ((PrBookHorse *) horses->pdata[0])->id, NULL)), 1);
  pr_book_close (other);
}

/* A book as the second version wrote it. */
static void
version_2_opens (void **state)
{
  Place *p = *state;
  g_autofree char *fixture = g_build_filename (g_getenv ("PR_TEST_DATA"), "v2.pritchel", NULL);
  g_autofree char *file = g_build_filename (p->dir, "old.pritchel", NULL), *bytes = NULL;
  g_autofree char *plan = NULL;
  gsize size;

  assert_true (g_file_get_contents (fixture, &bytes, &size, NULL));
  assert_true (g_file_set_contents (file, bytes, (gssize) size, NULL));
  g_autoptr (PrBook) book = pr_book_open (file, NULL);
  assert_non_null (book);
  assert_string_equal (plan = pr_book_get_plan (book, 1, NULL), "{\"web.toe\":24}");
  assert_true (pr_book_delete (book, PR_BOOK_FOOT, 1, NULL));
  assert_int_equal (many (pr_book_trash (book, NULL)), 1);
}

#define CASE(test_) cmocka_unit_test_setup_teardown (test_, setup, teardown)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CASE (out_of_every_listing_and_back), CASE (listed_with_its_names), CASE (twice_or_never_there_is_told),
    CASE (for_ever_after_its_time),       CASE (is_not_merged),         CASE (version_2_opens),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
