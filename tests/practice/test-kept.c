/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Practice in the book: each press is on the disk when it is accepted, whatever moment the program is killed at. */
#include "kit.h"
#include "machine.h"
#include "pr-book-loss.h"
#include "pr-book-trash.h"
#include "pr-practice-book.h"
#include "shelf.h"

#include <signal.h>
#include <sqlite3.h>
#include <stdio.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#define S ((gint64) G_USEC_PER_SEC)
#define ROUNDS 240
#define PRESSES 400

static PrPracticeRun *
begun (PrBook *book, const PrPracticeClass *class, PrBookId foot, const Machine *m)
{
  PrPracticeRun *run = pr_practice_run_new (class);

  run->started = (g_free (run->started), g_strdup ("2026-11-30T14:05:09"));
  run->foot = foot;
  pr_practice_press (run, PR_PRESSED_START, &m->now);
  assert_true (pr_practice_begin (book, run, NULL));
  return run;
}

static PrPracticeClass *
first_class (PrBook *book)
{
  g_autoptr (GPtrArray) classes = pr_practice_classes (book, NULL);

  assert_non_null (classes);
  return pr_practice_class_copy (classes->pdata[0]);
}

/* --- killed at any moment --- */

/* Kind and moment of press I, the same in both processes. */
static PrPressedKind
press (Machine *m, GRand *chance)
{
  machine_live (m, chance, false);
  return g_rand_boolean (chance) ? PR_PRESSED_HEAT : PR_PRESSED_STEP;
}

/* Says a byte for each press once the book has accepted it. */
static void
run_until_killed (const char *file, guint32 seed, int told)
{
  g_autoptr (GRand) chance = g_rand_new_with_seed (seed);
  g_autoptr (PrBook) book = pr_book_open (file, NULL);
  g_autoptr (PrPracticeClass) class = first_class (book);
  Machine m;

  machine_on (&m);
  PrPracticeRun *run = begun (book, class, 0, &m);
  for (int i = 0; i < PRESSES; i++) {
    if (write (told, "x", 1) != 1)
      _exit (1);
    pr_practice_press (run, press (&m, chance), &m.now);
    if (!pr_practice_keep (book, run, NULL))
      _exit (2);
  }
  for (;;)
    pause ();
}

static guint
bytes_of (int fd)
{
  char buffer[PRESSES];
  guint n = 0;
  ssize_t got;

  while ((got = read (fd, buffer, sizeof buffer)) > 0)
    n += (guint) got;
  return n;
}

static void
check_sound (const char *file)
{
  sqlite3_stmt *stmt;
  sqlite3 *db;

  assert_int_equal (sqlite3_open (file, &db), SQLITE_OK);
  assert_int_equal (sqlite3_prepare_v2 (db, "PRAGMA integrity_check", -1, &stmt, NULL), SQLITE_OK);
  assert_int_equal (sqlite3_step (stmt), SQLITE_ROW);
  assert_string_equal ((const char *) sqlite3_column_text (stmt, 0), "ok");
  sqlite3_finalize (stmt);
  sqlite3_close (db);
}

/* All that was accepted is there, at its true time, and the clock has gone on while nobody looked. */
static guint
check_found (const char *file, guint32 seed, guint accepted)
{
  g_autoptr (GRand) chance = g_rand_new_with_seed (seed);
  g_autoptr (PrBook) book = pr_book_open (file, NULL);
  g_autoptr (PrPracticeRun) run = pr_practice_going (book, NULL);
  Machine m;

  if (run == NULL) { /* killed before the start was accepted */
    assert_int_equal (accepted, 0);
    return 0;
  }
  machine_on (&m);
  assert_in_range (run->pressed->len, MAX (accepted, 1), accepted + 1);
  for (guint i = 1; i < run->pressed->len; i++) {
    const PrPressed *found = &g_array_index (run->pressed, PrPressed, i);

    assert_int_equal (found->kind, press (&m, chance));
    assert_int_equal (found->us, m.truth);
  }
  machine_sleep (&m, 500 * S);
  machine_set (&m, -90000 * S);
  assert_int_equal (pr_practice_us (run, &m.now), m.truth);
  pr_practice_press (run, PR_PRESSED_STOP, &m.now);
  assert_true (pr_practice_keep (book, run, NULL));
  g_clear_pointer (&run, pr_practice_run_free);
  assert_null (pr_practice_going (book, NULL));
  return accepted;
}

static void
killed_at_any_moment (void **state)
{
  KitShelf *shelf = *state;
  g_autoptr (GRand) chance = g_rand_new_with_seed (9);
  guint among = 0;

  pr_book_close (g_steal_pointer (&shelf->book));
  for (guint32 round = 0; round < ROUNDS; round++) {
    int ends[2];

    assert_int_equal (pipe (ends), 0);
    pid_t child = fork ();
    assert_true (child >= 0);
    if (child == 0) {
      prctl (PR_SET_PDEATHSIG, SIGKILL);
      close (ends[0]);
      run_until_killed (shelf->file, round, ends[1]);
    }
    close (ends[1]);
    g_usleep ((gulong) g_rand_int_range (chance, 0, 30000));
    kill (child, SIGKILL);
    waitpid (child, NULL, 0);
    guint accepted = bytes_of (ends[0]);
    close (ends[0]);
    guint found = check_found (shelf->file, round, accepted);
    among += found > 1 && found < PRESSES;
    check_sound (shelf->file);
  }
  print_message ("%u of %d rounds were killed between two presses\n", among, ROUNDS);
  assert_non_null (shelf->book = pr_book_open (shelf->file, NULL));
}

/* --- classes --- */

static void
classes_are_kept (void **state)
{
  KitShelf *shelf = *state;
  g_autoptr (PrPracticeClass) shipped = first_class (shelf->book);
  g_autoptr (PrPracticeClass) own = pr_practice_class_new ();
  g_autoptr (GError) error = NULL;

  assert_int_equal (shipped->id, 0);
  assert_int_equal (pr_practice_keep_class (shelf->book, own, &error), 0);
  assert_non_null (strstr (error->message, "needs a name"));
  own->name = (g_free (own->name), g_strdup ("  Mine "));
  pr_practice_class_add (own, "Heel to heel", 99, PR_MEASURED_NOT);
  own->id = pr_practice_keep_class (shelf->book, own, NULL);
  assert_true (own->id != 0);
  own->seconds = 61;
  assert_int_equal (pr_practice_keep_class (shelf->book, own, NULL), own->id);
  g_autoptr (GPtrArray) classes = pr_practice_classes (shelf->book, NULL);
  assert_int_equal (classes->len, 5);
  const PrPracticeClass *found = classes->pdata[0];
  assert_string_equal (found->name, "Mine");
  assert_int_equal (found->seconds, 61);
  assert_int_equal (g_array_index (found->criteria, PrPracticeCriterion, 0).weight, 10);
}

/* A shipped class is in the book once somebody has run it, and is not listed twice. */
static void
a_shipped_class_is_kept_with_its_first_run (void **state)
{
  KitShelf *shelf = *state;
  g_autoptr (PrPracticeClass) class = first_class (shelf->book);
  Machine m;

  machine_on (&m);
  g_autoptr (PrPracticeRun) run = begun (shelf->book, class, 0, &m);
  assert_true (run->class != 0);
  g_autoptr (GPtrArray) classes = pr_practice_classes (shelf->book, NULL);
  assert_int_equal (classes->len, 4);
  assert_int_equal (((PrPracticeClass *) classes->pdata[0])->id, run->class);
  g_autoptr (GPtrArray) runs = pr_practice_runs (shelf->book, run->class, NULL);
  assert_int_equal (runs->len, 1);
}

/* --- deleted --- */

static guint
n_runs (PrBook *book, PrBookId class)
{
  g_autoptr (GPtrArray) runs = pr_practice_runs (book, class, NULL);

  return runs->len;
}

static void
deleted_and_had_back (void **state)
{
  KitShelf *shelf = *state;
  PrBook *book = shelf->book;
  g_autoptr (PrPracticeClass) class = first_class (book);
  g_autoptr (GBytes) photo = g_bytes_new_static ("picture", 7);
  g_autoptr (GError) error = NULL;
  Machine m;

  machine_on (&m);
  g_autoptr (PrPracticeRun) run = begun (book, class, 0, &m);
  assert_true (pr_practice_set_photo (book, run->id, photo, NULL));
  assert_true (pr_book_delete (book, PR_BOOK_RUN, run->id, NULL));
  assert_int_equal (n_runs (book, run->class), 0);
  assert_null (pr_practice_going (book, NULL));
  assert_false (pr_practice_keep (book, run, &error)); /* nothing is written to what is deleted */
  assert_true (pr_book_bring_back (book, PR_BOOK_RUN, run->id, NULL));
  g_autoptr (PrPracticeRun) again = pr_practice_going (book, NULL);
  assert_true (again != NULL && again->has_photo);
  g_autoptr (GBytes) same = pr_practice_photo (book, run->id, NULL);
  assert_true (g_bytes_equal (photo, same));
  assert_true (pr_book_delete (book, PR_BOOK_CLASS, run->class, NULL));
  assert_false (pr_book_delete (book, PR_BOOK_CLASS, run->class, NULL));
  assert_true (pr_book_empty_trash (book, "2020-01-01T00:00:00Z", NULL));
  assert_true (pr_book_bring_back (book, PR_BOOK_CLASS, run->class, NULL));
  assert_int_equal (n_runs (book, run->class), 1);
  assert_true (pr_book_delete (book, PR_BOOK_CLASS, run->class, NULL));
  assert_true (pr_book_empty_trash (book, "2999-01-01T00:00:00Z", NULL));
  assert_false (pr_book_bring_back (book, PR_BOOK_CLASS, run->class, NULL));
}

/* One line of what was deleted. */
static void
check_line (const PrBookDeleted *line, PrBookKind kind, PrBookId id, const char *name, const char *date)
{
  assert_int_equal (line->kind, kind);
  assert_int_equal (line->id, id);
  assert_string_equal (line->name, name);
  assert_string_equal (line->date, date);
}

/* A class alone, as its runs went with it; a run that had been deleted before stands by itself, and brings its class back. */
static void
listed_with_what_was_deleted (void **state)
{
  KitShelf *shelf = *state;
  PrBook *book = shelf->book;
  g_autoptr (PrPracticeClass) class = first_class (book);
  g_autofree char *name = g_strdup (class->name);
  Machine m;

  machine_on (&m);
  g_autoptr (PrPracticeRun) first = begun (book, class, 0, &m);
  g_autoptr (PrPracticeRun) second = begun (book, first->as, 0, &m);
  assert_true (pr_book_delete (book, PR_BOOK_RUN, first->id, NULL));
  assert_true (pr_book_delete (book, PR_BOOK_CLASS, first->class, NULL));
  g_autoptr (GPtrArray) trash = pr_book_trash (book, NULL);
  assert_int_equal (trash->len, 2);
  guint run = ((PrBookDeleted *) trash->pdata[0])->kind == PR_BOOK_RUN ? 0 : 1;
  check_line (trash->pdata[1 - run], PR_BOOK_CLASS, first->class, name, "");
  check_line (trash->pdata[run], PR_BOOK_RUN, first->id, name, first->started);
  assert_true (pr_book_bring_back (book, PR_BOOK_RUN, first->id, NULL));
  assert_int_equal (n_runs (book, first->class), 2);
  g_autoptr (GPtrArray) none = pr_book_trash (book, NULL);
  assert_int_equal (none->len, 0);
  g_autoptr (GPtrArray) classes = pr_practice_classes (book, NULL);
  assert_int_equal (((PrPracticeClass *) classes->pdata[0])->id, first->class);
  assert_int_equal (second->class, first->class);
}

/* --- a book that is lost --- */

/* Another program writes over the file while the clock is going: what was pressed before and after is there. */
static void
a_run_outlives_its_file (void **state)
{
  KitShelf *shelf = *state;
  g_autoptr (PrPracticeClass) class = first_class (shelf->book);
  g_autofree char *rubbish = g_strnfill (8192, 'x');
  Machine m;

  machine_on (&m);
  assert_true (pr_book_watch (shelf->book, NULL));
  g_autoptr (PrPracticeRun) run = begun (shelf->book, class, 0, &m);
  machine_wait (&m, 30 * S);
  pr_practice_press (run, PR_PRESSED_HEAT, &m.now);
  assert_true (pr_practice_keep (shelf->book, run, NULL));
  FILE *file = fopen (shelf->file, "r+"); /* the same file, as a program would that knows nothing of books */
  assert_non_null (file);
  assert_int_equal (fwrite (rubbish, 1, 8192, file), 8192);
  fclose (file);
  machine_wait (&m, 30 * S);
  pr_practice_press (run, PR_PRESSED_HEAT, &m.now);
  assert_true (pr_practice_keep (shelf->book, run, NULL));
  assert_int_not_equal (pr_book_loss (shelf->book), PR_BOOK_KEPT);
  g_autoptr (PrPracticeRun) again = pr_practice_going (shelf->book, NULL);
  assert_non_null (again);
  assert_int_equal (pr_practice_heats (again), 2);
  assert_int_equal (pr_practice_us (again, &m.now), 60 * S);
  g_autoptr (GPtrArray) classes = pr_practice_classes (shelf->book, NULL);
  assert_int_equal (((PrPracticeClass *) classes->pdata[0])->id, run->class);
}

/* --- measured --- */

static PrBookId
attempt (PrBook *book, PrBookId foot, double off)
{
  PrBookAttempt told = { .foot = foot, .date = (char *) "2026-11-30", .note = (char *) "", .off_mm = off };
  PrBookId id = pr_book_add_attempt (book, &told, NULL, NULL);
  g_autofree char *json = g_strdup_printf ("{\"summary\":{\"outer\":{\"p95_mm\":%d.5}}}", (int) off);

  assert_true (id != 0 && pr_book_set_compared (book, id, json, NULL));
  return id;
}

static PrBookId
some_foot (PrBook *book)
{
  PrBookId horse = pr_book_add_horse (book, "Pipwick", "", NULL);

  return pr_book_add_foot (book, pr_book_add_visit (book, horse, "2026-11-30", NULL), PR_FOOT_LF, NULL);
}

/* Each run has the attempt that was kept after it began and before the next one did. */
static void
each_run_has_its_own_shoe (void **state)
{
  KitShelf *shelf = *state;
  PrBook *book = shelf->book;
  PrBookId foot = some_foot (book), other = some_foot (book);
  Machine m;

  machine_on (&m);
  attempt (book, foot, 9);
  g_autoptr (PrPracticeClass) class = first_class (book);
  g_autoptr (PrPracticeRun) first = begun (book, class, foot, &m);
  assert_true (pr_practice_measure (book, first, NULL));
  assert_int_equal (first->measured.attempt, 0);
  PrBookId one = attempt (book, foot, 2);
  attempt (book, other, 7);
  class->id = first->class;
  g_autoptr (PrPracticeRun) second = begun (book, class, foot, &m);
  PrBookId two = attempt (book, foot, 3);
  assert_true (pr_practice_measure (book, first, NULL));
  assert_int_equal (first->measured.attempt, one);
  NEAR (first->measured.off, 2, 1e-9);
  NEAR (first->measured.by[PR_MEASURED_SHAPE], 2.5, 1e-9);
  assert_true (pr_practice_measure (book, second, NULL));
  assert_int_equal (second->measured.attempt, two);
}

int
main (void)
{
#define CASE(name) cmocka_unit_test_setup_teardown (name, kit_shelf_set_up, kit_shelf_tear_down)
  const struct CMUnitTest tests[] = {
    CASE (classes_are_kept),          CASE (a_shipped_class_is_kept_with_its_first_run),
    CASE (deleted_and_had_back),      CASE (listed_with_what_was_deleted),
    CASE (each_run_has_its_own_shoe), CASE (a_run_outlives_its_file),
    CASE (killed_at_any_moment),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
