/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Practice at the desk: a run from its start to its sheet, as the window drives it, with clocks that do what the test wants. */
#include "kit.h"
#include "machine.h"
#include "pr-document-file.h"
#include "pr-practice-desk.h"
#include "pr-practice-words.h"
#include "shelf.h"

#include <glib/gstdio.h>
#include <string.h>

#define S ((gint64) G_USEC_PER_SEC)

typedef struct {
  KitShelf *shelf;
  PrDocument *doc;
  PrPracticeDesk *desk;
  Machine machine;
  char *trouble, *done;
} Bench;

static void
read_machine (PrPracticeMoment *now, gpointer data)
{
  *now = ((Machine *) data)->now;
}

static void
hear (PrDocument *doc, const char *sentence, char **to)
{
  g_free (*to);
  *to = g_strdup (sentence);
  (void) doc;
}

/* As if the program began with the book as it lies there. */
static void
come_in (Bench *bench)
{
  bench->doc = pr_document_new (pr_book_open (bench->shelf->file, NULL), PR_UNIT_MM);
  g_signal_connect (bench->doc, "trouble", G_CALLBACK (hear), &bench->trouble);
  g_signal_connect (bench->doc, "done", G_CALLBACK (hear), &bench->done);
  bench->desk = pr_practice_desk_new (bench->doc);
  pr_practice_desk_set_clock (bench->desk, read_machine, &bench->machine);
}

static void
go_out (Bench *bench)
{
  g_clear_object (&bench->desk);
  g_clear_object (&bench->doc);
}

static int
set_up (void **state)
{
  Bench *bench = g_new0 (Bench, 1);
  void *shelf;

  kit_shelf_set_up (&shelf);
  bench->shelf = shelf;
  pr_book_close (g_steal_pointer (&bench->shelf->book));
  machine_on (&bench->machine);
  come_in (bench);
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  void *shelf = bench->shelf;

  go_out (bench);
  bench->shelf->book = pr_book_open (bench->shelf->file, NULL);
  kit_shelf_tear_down (&shelf);
  g_free (bench->trouble);
  g_free (bench->done);
  g_free (bench);
  return 0;
}

static void
wait_and_press (Bench *bench, int seconds, PrPressedKind kind)
{
  machine_wait (&bench->machine, seconds * S);
  assert_true (pr_practice_desk_press (bench->desk, kind));
}

static void
a_run_goes_into_the_season (void **state)
{
  Bench *bench = *state;
  PrPracticeDesk *desk = bench->desk;
  g_autoptr (GError) error = NULL;

  assert_false (pr_practice_desk_press (desk, PR_PRESSED_HEAT));
  assert_true (pr_practice_desk_start (desk, NULL));
  assert_false (pr_practice_desk_start (desk, &error));
  assert_non_null (strstr (error->message, "A run is going"));
  wait_and_press (bench, 100, PR_PRESSED_HEAT);
  wait_and_press (bench, 100, PR_PRESSED_HEAT);
  assert_true (pr_practice_desk_take_back (desk));
  assert_int_equal (pr_practice_heats (pr_practice_desk_run (desk)), 1);
  wait_and_press (bench, 556, PR_PRESSED_STOP);
  assert_null (pr_practice_desk_run (desk));
  const GPtrArray *season = pr_practice_desk_season (desk);
  assert_int_equal (season->len, 1);
  const PrPracticeRun *run = season->pdata[0];
  assert_int_equal (run->id, pr_practice_desk_stopped (desk));
  NEAR (pr_practice_seconds (run), 756, 1e-9);
  g_autofree char *words = pr_practice_run_words (run, PR_UNIT_MM);
  /* 5 % over is one mark, and nothing else was judged; with the point or comma of the locale */
  g_autofree char *expected = g_strdup_printf ("12:36 · 1 heat · 1 of 10 judged, so far %.1f", 9.0);
  assert_string_equal (words, expected);
  /* stopped too early: it goes on, and no time was lost */
  assert_true (pr_practice_desk_take_back (desk));
  assert_non_null (pr_practice_desk_run (desk));
  wait_and_press (bench, 10, PR_PRESSED_STOP);
  run = pr_practice_desk_season (desk)->pdata[0];
  NEAR (pr_practice_seconds (run), 766, 1e-9);
}

static void
a_run_is_found_again (void **state)
{
  Bench *bench = *state;

  assert_true (pr_practice_desk_start (bench->desk, NULL));
  wait_and_press (bench, 60, PR_PRESSED_HEAT);
  go_out (bench);
  machine_sleep (&bench->machine, 200 * S);
  come_in (bench);
  assert_true (pr_practice_desk_left (bench->doc));
  const PrPracticeRun *run = pr_practice_desk_run (bench->desk);
  assert_non_null (run);
  assert_int_equal (pr_practice_us (run, &bench->machine.now), 260 * S);
  pr_practice_desk_break_off (bench->desk);
  assert_false (pr_practice_desk_left (bench->doc));
  const GPtrArray *season = pr_practice_desk_season (bench->desk);
  run = season->pdata[0];
  assert_true (run->broken);
  assert_int_equal (pr_practice_us (run, NULL), 60 * S);
  assert_int_equal (pr_season_figure (season, PR_SEASON_TIME).n, 0);
}

/* What is pressed never goes into another book than the one the run was begun in. */
static void
another_book_has_runs_of_its_own (void **state)
{
  Bench *bench = *state;
  g_autofree char *other = g_build_filename (bench->shelf->folder, "other.pritchel", NULL);
  g_autoptr (PrPracticeClass) own = pr_practice_class_new ();
  PrBook *book = pr_book_open (other, NULL);

  own->name = (g_free (own->name), g_strdup ("Theirs"));
  assert_true (pr_practice_keep_class (book, own, NULL) != 0);
  pr_book_close (book);
  assert_true (pr_practice_desk_start (bench->desk, NULL));
  assert_int_equal (g_rename (other, bench->shelf->file), 0);
  pr_document_look (bench->doc);
  assert_true (pr_document_has_other_book (bench->doc));
  assert_true (pr_document_take_other_book (bench->doc, NULL));
  assert_null (pr_practice_desk_run (bench->desk));
  assert_false (pr_practice_desk_press (bench->desk, PR_PRESSED_HEAT));
  assert_false (pr_practice_desk_take_back (bench->desk));
  assert_int_equal (pr_practice_desk_classes (bench->desk)->len, 5);
  assert_string_equal (pr_practice_desk_class (bench->desk)->name, "Theirs");
  assert_int_equal (pr_practice_desk_season (bench->desk)->len, 0);
}

static void
deleting_is_one_undo (void **state)
{
  Bench *bench = *state;
  PrPracticeDesk *desk = bench->desk;
  g_autoptr (GError) error = NULL;

  assert_true (pr_practice_desk_start (desk, NULL));
  PrBookId id = pr_practice_desk_run (desk)->id, class = pr_practice_desk_run (desk)->class;
  assert_false (pr_practice_desk_delete (desk, PR_BOOK_RUN, id, &error));
  g_clear_error (&error);
  assert_false (pr_practice_desk_delete (desk, PR_BOOK_CLASS, class, &error));
  wait_and_press (bench, 5, PR_PRESSED_STOP);
  assert_true (pr_practice_desk_delete (desk, PR_BOOK_RUN, id, NULL));
  assert_non_null (strstr (bench->done, "Deleted: the run of "));
  assert_int_equal (pr_practice_desk_season (desk)->len, 0);
  assert_true (pr_document_can_undo (bench->doc));
  pr_document_undo (bench->doc);
  assert_int_equal (pr_practice_desk_season (desk)->len, 1);
  assert_false (pr_document_can_undo (bench->doc));
  assert_true (pr_practice_desk_delete (desk, PR_BOOK_CLASS, class, NULL));
  assert_string_equal (bench->done, "Deleted: One shoe against the clock, with its runs.");
  assert_int_equal (pr_practice_desk_classes (desk)->len, 4); /* the shipped one is there, without them */
  pr_document_undo (bench->doc);
  pr_practice_desk_choose (desk, 0);
  assert_int_equal (pr_practice_desk_season (desk)->len, 1);
  assert_null (bench->trouble);
}

static void
what_is_written_is_kept (void **state)
{
  Bench *bench = *state;
  PrPracticeDesk *desk = bench->desk;

  assert_true (pr_practice_desk_start (desk, NULL));
  wait_and_press (bench, 720, PR_PRESSED_STOP);
  g_autoptr (PrPracticeRun) run = pr_practice_desk_look (desk, pr_practice_desk_stopped (desk), NULL);
  assert_non_null (run);
  run->note = (g_free (run->note), g_strdup ("clip too thin"));
  g_array_index (run->scores, PrPracticeScore, 0).value = 6;
  g_autoptr (GBytes) photo = g_bytes_new_static ("picture", 7);
  assert_true (pr_practice_desk_keep (desk, run, photo, NULL));
  assert_non_null (strstr (bench->done, "Changed: the run of "));
  g_autoptr (PrPracticeRun) again = pr_practice_desk_look (desk, run->id, NULL);
  assert_string_equal (again->note, "clip too thin");
  NEAR (pr_practice_score (again, NULL), (6 * 10 + 10 * 4) / 14.0, 1e-9); /* shape 10, in the time 4 */
  assert_true (again->has_photo);
  pr_document_undo (bench->doc); /* all of it, at once */
  g_autoptr (PrPracticeRun) undone = pr_practice_desk_look (desk, run->id, NULL);
  assert_string_equal (undone->note, "");
  assert_false (undone->has_photo);
  NEAR (g_array_index (undone->scores, PrPracticeScore, 0).value, -1, 0);
  assert_false (pr_document_can_undo (bench->doc));
  g_autofree char *file = g_build_filename (bench->shelf->folder, "season.csv", NULL);
  g_autofree char *csv = NULL;
  assert_true (pr_practice_desk_write_csv (desk, file, NULL));
  assert_true (g_file_get_contents (file, &csv, NULL, NULL));
  assert_non_null (strstr (csv, ",720.0,720,"));
}

static void
a_class_of_ones_own (void **state)
{
  Bench *bench = *state;
  g_autoptr (PrPracticeClass) own = pr_practice_class_copy (pr_practice_desk_class (bench->desk));

  pr_practice_class_own (own);
  own->id = 0;
  own->name = (g_free (own->name), g_strdup ("Sunday"));
  assert_true (pr_practice_desk_keep_class (bench->desk, own, NULL));
  assert_string_equal (pr_practice_desk_class (bench->desk)->name, "Sunday");
  assert_int_equal (pr_practice_desk_classes (bench->desk)->len, 5);
  assert_false (pr_document_can_undo (bench->doc)); /* nothing was written over */
  own->id = pr_practice_desk_class (bench->desk)->id;
  own->seconds = 600;
  assert_true (pr_practice_desk_keep_class (bench->desk, own, NULL));
  assert_string_equal (bench->done, "Changed: Sunday.");
  pr_document_undo (bench->doc);
  assert_int_equal (pr_practice_desk_class (bench->desk)->seconds, 720);
  own->seconds = 720;
  g_autofree char *words = pr_practice_class_words (own);
  assert_string_equal (words, "12 min · 1 shoe · any number of heats · without a striker");
}

int
main (void)
{
#define CASE(name) cmocka_unit_test_setup_teardown (name, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    CASE (a_run_goes_into_the_season),       CASE (a_run_is_found_again),
    CASE (another_book_has_runs_of_its_own), CASE (deleting_is_one_undo),
    CASE (what_is_written_is_kept),          CASE (a_class_of_ones_own),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
