/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two books made one: what meets is told, what was chosen is done, nothing is lost where nobody chose, and one step takes all of it
 * back. */
#include <sqlite3.h>
#include <string.h>

#include "kit.h"
#include "pr-book-diary.h"
#include "pr-book-merge.h"
#include "pr-book-trash.h"
#include "shelf.h"

typedef struct {
  KitShelf *shelf;
  char *file; /* the other book, closed */
} Two;

static void
parts (PrBook *book, PrBookId foot, const char *photo, const char *plan)
{
  g_autoptr (GBytes) bytes = g_bytes_new (photo, strlen (photo));

  assert_true (pr_book_set_photo (book, foot, bytes, "a.jpg", NULL));
  assert_true (pr_book_set_trace (book, foot, "{\"t\": 1}", NULL));
  assert_true (pr_book_set_plan (book, foot, plan, NULL));
}

static PrBookId
attempt (PrBook *book, PrBookId foot, const char *date, const char *note)
{
  const PrBookAttempt a = { .foot = foot, .date = (char *) date, .note = (char *) note, .minutes = 40 };
  g_autoptr (GBytes) photo = g_bytes_new (note, strlen (note));
  PrBookId id = pr_book_add_attempt (book, &a, photo, NULL);

  assert_true (pr_book_set_compared (book, id, "{\"mean\": 1}", NULL));
  return id;
}

static void
say (PrBook *book, PrBookId id, const char *owner, const char *note, int days)
{
  const PrBookHorse horse
      = { id, (char *) "Pipwick", (char *) "Mill yard", (char *) owner, (char *) note, days };

  assert_true (pr_book_describe_horse (book, &horse, NULL));
}

static void
sql (const char *file, const char *text)
{
  sqlite3 *db;

  assert_int_equal (sqlite3_open (file, &db), SQLITE_OK);
  assert_int_equal (sqlite3_exec (db, text, NULL, NULL, NULL), SQLITE_OK);
  sqlite3_close (db);
}

/* A visit in both: LF is the same with another attempt, RF differs, LH is theirs alone; and a horse that is theirs alone. */
static void
fill (PrBook *book, bool theirs)
{
  PrBookId horse = pr_book_add_horse (book, "Pipwick", "Mill yard", NULL);
  PrBookId visit = pr_book_add_visit (book, horse, "2026-11-20", NULL);
  PrBookId lf = pr_book_add_foot (book, visit, PR_FOOT_LF, NULL);
  PrBookId rf = pr_book_add_foot (book, visit, PR_FOOT_RF, NULL);

  say (book, horse, theirs ? "North mill" : "South mill", theirs ? "kicks" : "calm", theirs ? 35 : 0);
  parts (book, lf, "same photo", "{\"p\": 1}");
  attempt (book, lf, "2026-11-21", "first");
  parts (book, rf, "same photo", theirs ? "{\"p\": 2, \"theirs\": true}" : "{\"p\": 2}");
  if (!theirs)
    return;
  attempt (book, lf, "2026-11-22", "second");
  parts (book, pr_book_add_foot (book, visit, PR_FOOT_LF, NULL), "traced again", "{\"p\": 7}");
  attempt (book, rf, "2026-11-22", "third");
  parts (book, pr_book_add_foot (book, visit, PR_FOOT_LH, NULL), "hind", "{\"p\": 3}");
  PrBookId other = pr_book_add_horse (book, "Tansy", "", NULL);
  parts (book, pr_book_add_foot (book, pr_book_add_visit (book, other, "2026-11-02", NULL), PR_FOOT_LF, NULL),
         "tansy", "{\"p\": 4}");
}

static int
set_up (void **state)
{
  Two *two = g_new0 (Two, 1);
  void *shelf;

  assert_int_equal (kit_shelf_set_up (&shelf), 0);
  two->shelf = shelf;
  two->file = g_build_filename (two->shelf->folder, "other.pritchel", NULL);
  g_autoptr (PrBook) other = pr_book_open (two->file, NULL);
  fill (two->shelf->book, false);
  fill (other, true);
  pr_book_close (g_steal_pointer (&other));
  sql (two->file,
       "INSERT INTO class (name, spec) VALUES ('Two hours', '{\"minutes\": 120}'), ('Bad', 'no json');"
       "INSERT INTO run (class, foot, started, record, photo) VALUES"
       " (1, 2, '2026-11-01T10:00:00Z', '{\"heats\": 5}', x'ffd8'), (1, NULL, 'never', '{}', NULL);"
       "UPDATE visit SET note = 'theirs', colour = 2, vet = '{\"asked\": true}' WHERE date = '2026-11-20';");
  *state = two;
  return 0;
}

static int
tear_down (void **state)
{
  Two *two = *state;
  void *shelf = two->shelf;

  kit_shelf_tear_down (&shelf);
  g_free (two->file);
  g_free (two);
  return 0;
}

/* Every row of the book that is there, not deleted, as one text; ids and moments of deletion apart. */
static char *
all_of (PrBook *book)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (book, NULL, NULL);
  GString *text = g_string_new (NULL);

  for (guint h = 0; h < horses->len; h++) {
    const PrBookHorse *horse = horses->pdata[h];
    g_autoptr (GPtrArray) visits = pr_book_visits (book, horse->id, NULL);

    g_string_append_printf (text, "%s|%s|%s|%s|%d\n", horse->name, horse->yard, horse->owner, horse->note,
                            horse->due_days);
    for (guint v = 0; v < visits->len; v++) {
      const PrBookVisit *visit = visits->pdata[v];
      g_autoptr (GPtrArray) feet = pr_book_feet (book, visit->id, NULL);

      g_string_append_printf (text, " %s|%s\n", visit->date, visit->note);
      for (guint f = 0; f < feet->len; f++) {
        const PrBookFoot *foot = feet->pdata[f];
        g_autoptr (GPtrArray) attempts = pr_book_attempts (book, foot->id, NULL);
        g_autofree char *plan = pr_book_get_plan (book, foot->id, NULL);

        g_string_append_printf (text, "  %s|%s|%s", pr_foot_code (foot->foot), plan, foot->changed);
        for (guint a = 0; a < attempts->len; a++)
          g_string_append_printf (text, "|%s", ((PrBookAttempt *) attempts->pdata[a])->note);
        g_string_append_c (text, '\n');
      }
    }
  }
  return g_string_free (text, FALSE);
}

static guint
times (const char *text, const char *what)
{
  guint n = 0;

  while ((text = strstr (text, what)) != NULL) {
    text += strlen (what);
    n++;
  }
  return n;
}

static PrMerge *
look (Two *two)
{
  PrMerge *merge = pr_merge_look (two->shelf->book, two->file, NULL, NULL);

  assert_non_null (merge);
  return merge;
}

static PrMerged *
take (Two *two, const PrMerge *merge)
{
  PrMerged *merged = pr_merge_take (two->shelf->book, two->file, merge, NULL, NULL);

  assert_non_null (merged);
  return merged;
}

/* LF is the same in both: deleted here, by itself or with its horse, it is a new one that lies among what was deleted. */
static void
what_was_deleted_here_is_told (void **state)
{
  static const PrBookKind kinds[] = { PR_BOOK_FOOT, PR_BOOK_HORSE };
  Two *two = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (kinds); i++) {
    assert_true (pr_book_delete (two->shelf->book, kinds[i], 1, NULL)); /* the first of each */
    g_autoptr (PrMerge) merge = look (two);
    assert_int_equal (merge->n_deleted, 1); /* RF differs from the one that went with the horse */
    assert_int_equal (merge->n_same, 0);
  }
}

/* Whoever takes in a book is shown what came, not what he had. */
static void
what_came_is_shown (void **state)
{
  Two *two = *state;
  g_autoptr (PrMerged) merged = take (two, NULL);
  g_autoptr (PrMerged) again = take (two, NULL);
  g_auto (PrBookFoot) foot = { 0 };
  g_auto (PrBookHorse) horse = { 0 };

  assert_true (pr_merged_feet (merged) > 0);
  assert_true (pr_book_get_foot (two->shelf->book, pr_merged_last (merged), &foot, NULL, &horse, NULL));
  assert_string_equal (horse.name, "Tansy");
  assert_int_equal (pr_merged_feet (again), 0);
  assert_int_equal (pr_merged_last (again), 0);
  /* what was here already comes after it in theirs */
  assert_true (pr_book_delete (two->shelf->book, PR_BOOK_HORSE, 1, NULL));
  g_autoptr (PrMerged) first = take (two, NULL);
  g_auto (PrBookHorse) came = { 0 };
  assert_true (pr_book_get_foot (two->shelf->book, pr_merged_last (first), NULL, NULL, &came, NULL));
  assert_string_equal (came.name, "Pipwick");
}

static void
it_is_told_what_would_come (void **state)
{
  Two *two = *state;
  g_autofree char *before = all_of (two->shelf->book);
  g_autoptr (PrMerge) merge = look (two);

  assert_int_equal (merge->sent->len, 5);
  assert_int_equal (merge->n_new, 3); /* LF a second time, LH, and Tansy's */
  assert_int_equal (merge->n_same, 1);
  assert_int_equal (merge->feet->len, 1);
  const PrMergeFoot *foot = merge->feet->pdata[0];
  assert_string_equal (foot->horse, "Pipwick");
  assert_string_equal (foot->date, "2026-11-20");
  assert_int_equal (foot->foot, PR_FOOT_RF);
  assert_string_equal (foot->side[0].plan, "{\"p\": 2}");
  assert_string_equal (foot->side[1].plan, "{\"p\": 2, \"theirs\": true}");
  assert_true (foot->side[0].photo && foot->side[1].photo && !foot->side[1].other_photo);
  assert_int_equal (foot->side[1].attempts, 1);
  assert_int_equal (merge->horses->len, 1);
  const PrMergeHorse *horse = merge->horses->pdata[0];
  assert_string_equal (horse->says[0].owner, "South mill");
  assert_string_equal (horse->says[1].note, "kicks");
  g_autofree char *after = all_of (two->shelf->book);
  assert_string_equal (before, after); /* looking changes nothing */
}

static void
where_nobody_chose_both_stay (void **state)
{
  Two *two = *state;
  g_autoptr (PrMerged) merged = take (two, NULL);
  g_autofree char *after = all_of (two->shelf->book);

  assert_int_equal (pr_merged_feet (merged), 4);
  assert_int_equal (pr_merged_replaced (merged), 0);
  assert_int_equal (times (after, "  RF|"), 2);
  assert_int_equal (times (after, "  LF|{\"p\": 1}"), 1);
  assert_non_null (strstr (after, "|first|second\n"));
  assert_non_null (strstr (after, "|third\n"));
  assert_non_null (
      strstr (after, "Pipwick|Mill yard|South mill|calm\nkicks\nIn the other book: Owner: North mill|35\n"));
  assert_non_null (strstr (after, " 2026-11-20|theirs\n"));
  assert_non_null (strstr (after, "Tansy"));
  /* and once more brings nothing */
  g_autoptr (PrMerge) again = look (two);
  assert_int_equal (again->n_same, 5);
  g_autoptr (PrMerged) twice = take (two, NULL);
  assert_int_equal (pr_merged_feet (twice), 0);
  assert_true (pr_merged_is_nothing (twice) && !pr_merged_is_nothing (merged));
  g_autofree char *still = all_of (two->shelf->book);
  assert_string_equal (after, still);
}

static void
mine_is_kept (void **state)
{
  Two *two = *state;
  g_autoptr (PrMerge) merge = look (two);

  ((PrMergeFoot *) merge->feet->pdata[0])->choice = PR_MERGE_MINE;
  ((PrMergeHorse *) merge->horses->pdata[0])->choice = PR_MERGE_MINE;
  g_autoptr (PrMerged) merged = take (two, merge);
  g_autofree char *after = all_of (two->shelf->book);
  assert_int_equal (pr_merged_feet (merged), 3);
  assert_int_equal (times (after, "  RF|"), 1);
  assert_non_null (strstr (after, "  RF|{\"p\": 2}|"));
  assert_non_null (strstr (after, "Pipwick|Mill yard|South mill|calm|0\n"));
}

static void
theirs_is_taken (void **state)
{
  Two *two = *state;
  g_autoptr (PrMerge) merge = look (two);
  PrMergeFoot *foot = merge->feet->pdata[0];

  foot->choice = PR_MERGE_THEIRS;
  ((PrMergeHorse *) merge->horses->pdata[0])->choice = PR_MERGE_THEIRS;
  g_autoptr (PrMerged) merged = take (two, merge);
  g_autofree char *after = all_of (two->shelf->book);
  assert_int_equal (pr_merged_replaced (merged), 1);
  assert_true (pr_merged_has_replaced (merged, foot->mine));
  assert_int_equal (times (after, "  RF|"), 1);
  assert_non_null (strstr (after, "\"theirs\": true"));
  assert_non_null (strstr (after, "Pipwick|Mill yard|North mill|kicks|35\n"));
  /* what was replaced can be had back */
  g_autoptr (GPtrArray) trash = pr_book_trash (two->shelf->book, NULL);
  assert_int_equal (trash->len, 1);
  assert_int_equal (((PrBookDeleted *) trash->pdata[0])->id, foot->mine);
}

static guint
practice_of (Two *two)
{
  g_autofree char *file = g_build_filename (two->shelf->folder, "look.pritchel", NULL);
  sqlite3 *db;
  sqlite3_stmt *stmt;

  /* the book is open here: only a copy of it may be opened by other means */
  g_autofree char *bytes = NULL;
  gsize n;
  assert_true (g_file_get_contents (two->shelf->file, &bytes, &n, NULL));
  assert_true (g_file_set_contents (file, bytes, (gssize) n, NULL));
  assert_int_equal (sqlite3_open (file, &db), SQLITE_OK);
  assert_int_equal (
      sqlite3_prepare_v2 (
          db,
          "SELECT (SELECT count(*) FROM class) * 100 + (SELECT count(*) FROM run) * 10"
          " + (SELECT count(*) FROM run JOIN foot ON foot.id = run.foot WHERE foot.foot = 'RF')",
          -1, &stmt, NULL),
      SQLITE_OK);
  assert_int_equal (sqlite3_step (stmt), SQLITE_ROW);
  guint all = (guint) sqlite3_column_int (stmt, 0);
  sqlite3_finalize (stmt);
  sqlite3_close (db);
  return all;
}

/* Whatever was chosen. */
static void
one_step_takes_all_back (void **state)
{
  Two *two = *state;
  g_autofree char *before = all_of (two->shelf->book);

  for (PrMergeChoice choice = 0; choice < PR_N_MERGE_CHOICES; choice++) {
    g_autoptr (PrMerge) merge = look (two);

    ((PrMergeFoot *) merge->feet->pdata[0])->choice = choice;
    ((PrMergeHorse *) merge->horses->pdata[0])->choice = choice;
    g_autoptr (PrMerged) merged = take (two, merge);
    assert_int_equal (practice_of (two),
                      111); /* one class, one run, of the foot that came with it or was met */
    assert_true (pr_merge_undo (two->shelf->book, merged, NULL));
    g_autofree char *after = all_of (two->shelf->book);
    assert_string_equal (before, after);
    assert_int_equal (practice_of (two), 0);
  }
}

static void
what_changed_since_it_was_looked_at_is_kept_twice (void **state)
{
  Two *two = *state;
  g_autoptr (PrMerge) merge = look (two);
  PrMergeFoot *foot = merge->feet->pdata[0];

  foot->choice = PR_MERGE_THEIRS;
  sql (two->file, "UPDATE plan SET json = '{\"p\": 9}' WHERE json LIKE '%theirs%'");
  g_autoptr (PrMerged) merged = take (two, merge);
  assert_int_equal (pr_merged_replaced (merged), 0);
  g_autofree char *after = all_of (two->shelf->book);
  assert_int_equal (times (after, "  RF|"), 2);
}

/* Seeded: of random books each foot of either is there afterwards, and all of it goes again. */
static void
random_books_lose_nothing (void **state)
{
  Two *two = *state;
  g_autoptr (GRand) chance = g_rand_new_with_seed (5);

  for (int round = 0; round < 12; round++) {
    g_autofree char *file = g_strdup_printf ("%s/random-%d.pritchel", two->shelf->folder, round);
    g_autoptr (PrBook) other = pr_book_open (file, NULL);
    g_autoptr (GPtrArray) plans = g_ptr_array_new_with_free_func (g_free);
    PrBook *const books[] = { two->shelf->book, other };

    for (int i = 0; i < 30; i++) {
      PrBook *book = books[g_rand_int_range (chance, 0, 2)];
      g_autofree char *name = g_strdup_printf ("horse %d-%d", round, g_rand_int_range (chance, 0, 2));
      g_autofree char *day = g_strdup_printf ("2026-10-0%d", g_rand_int_range (chance, 1, 4));
      g_autofree char *plan = g_strdup_printf ("{\"p\": \"%d-%d\"}", round, g_rand_int_range (chance, 0, 12));
      PrBookId horse = pr_book_add_horse (book, name, "", NULL),
               visit = pr_book_add_visit (book, horse, day, NULL);
      PrFoot side = (PrFoot) g_rand_int_range (chance, 0, PR_N_FEET);

      parts (book, pr_book_add_foot (book, visit, side, NULL), "x", plan);
      g_ptr_array_add (plans, g_strdup_printf ("  %s|%s|", pr_foot_code (side), plan));
    }
    g_autofree char *before = all_of (two->shelf->book);
    pr_book_close (g_steal_pointer (&other));
    g_autoptr (PrMerged) merged = pr_merge_take (two->shelf->book, file, NULL, NULL, NULL);
    g_autofree char *after = all_of (two->shelf->book);
    for (guint i = 0; i < plans->len; i++)
      assert_non_null (strstr (after, plans->pdata[i]));
    assert_true (pr_merge_undo (two->shelf->book, merged, NULL));
    g_autofree char *again = all_of (two->shelf->book);
    assert_string_equal (before, again);
  }
}

int
main (void)
{
#define TEST(name_) cmocka_unit_test_setup_teardown (name_, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    TEST (it_is_told_what_would_come),
    TEST (what_was_deleted_here_is_told),
    TEST (what_came_is_shown),
    TEST (where_nobody_chose_both_stay),
    TEST (mine_is_kept),
    TEST (theirs_is_taken),
    TEST (one_step_takes_all_back),
    TEST (what_changed_since_it_was_looked_at_is_kept_twice),
    TEST (random_books_lose_nothing),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
