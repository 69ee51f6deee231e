/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the document does when the book's file is taken away under it, and after it was killed while a foot was being
 * opened. */
#include <fcntl.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include "desk-kit.h"
#include "pr-book-loss.h"
#include "pr-document-file.h"

#define ROUNDS 200
#define LATEST_US 15000

static char *
path_in (const Desk *desk, const char *name)
{
  return g_build_filename (desk->folder, name, NULL);
}

static void
set (Desk *desk, double web)
{
  g_autofree char *text = g_strdup_printf ("%.2f", web);
  g_autoptr (GError) error = NULL;

  if (!pr_document_set_text (desk->doc, "web.toe", text, &error))
    fail_msg ("%s", error->message);
}

/* --- the foot that was open last --- */

typedef void (*Way) (PrDocument *doc, PrBookId foot);

/* A process opens the book and goes a way that never ends well. */
static void
killed_on (Desk *desk, Way way, PrBookId foot)
{
  g_autofree char *file = path_in (desk, "book.pritchel");
  int status;
  pid_t child;

  g_clear_object (&desk->doc);
  child = fork ();
  if (child == 0) {
    way (pr_document_new (pr_book_open (file, NULL), PR_UNIT_MM), foot);
    raise (SIGKILL);
  }
  assert_int_equal (waitpid (child, &status, 0), child);
  assert_true (WIFSIGNALED (status) && WTERMSIG (status) == SIGKILL);
  desk->book = pr_book_open (file, NULL);
  assert_non_null (desk->book);
  desk->doc = pr_document_new (desk->book, PR_UNIT_MM);
}

static void
opens (PrDocument *doc, PrBookId foot)
{
  if (!pr_document_open_foot (doc, foot, NULL))
    _exit (1);
}

static void
opens_and_draws (PrDocument *doc, PrBookId foot)
{
  opens (doc, foot);
  pr_document_drawn (doc);
}

static void
opens_and_goes_on (PrDocument *doc, PrBookId foot)
{
  opens_and_draws (doc, 1);
  opens (doc, foot);
}

static void
opens_and_ends (PrDocument *doc, PrBookId foot)
{
  opens (doc, foot);
  g_object_unref (doc);
}

static void
last_foot_locks_nobody_out (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  char *why = NULL;

  (void) state;
  killed_on (desk, opens_and_draws, desk->off);
  assert_true (pr_document_open_last (desk->doc));
  assert_int_equal (pr_document_foot_id (desk->doc), desk->off);
  assert_int_equal (pr_document_halted (desk->doc, &why), 0);
  killed_on (desk, opens_and_goes_on, desk->near);
  for (int start = 0; start < 3; start++) { /* however often */
    assert_false (pr_document_open_last (desk->doc));
    assert_null (pr_document_job (desk->doc));
    assert_int_equal (pr_document_halted (desk->doc, &why), desk->near);
    assert_non_null (strstr (why, "Pipwick, near fore"));
    g_free (why);
    killed_on (desk, (Way) (void (*) (void)) pr_document_open_last, 0);
  }
  assert_false (pr_document_open_last (desk->doc));
  desk_open (desk, desk->near); /* it was another reason, this time */
  assert_int_equal (pr_document_halted (desk->doc, &why), 0);
  pr_document_drawn (desk->doc);
  assert_false (pr_document_is_opening (desk->doc));
  killed_on (desk, (Way) (void (*) (void)) pr_document_open_last, 0);
  assert_false (pr_document_open_last (desk->doc)); /* never drawn there */
  pr_document_leave_halted (desk->doc);
  killed_on (desk, opens_and_ends, desk->off);
  assert_true (pr_document_open_last (desk->doc)); /* an end is no crash */
}

static void
refused_foot_is_no_last_one (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  PrBookId bare = pr_book_add_foot (desk->book, desk->today, PR_FOOT_LH, NULL);
  g_autofree char *last = NULL;

  (void) state;
  desk_open (desk, desk->near);
  pr_document_drawn (desk->doc);
  assert_false (pr_document_open_foot (desk->doc, bare, NULL));
  assert_false (pr_document_is_opening (desk->doc));
  last = pr_document_setting (desk->doc, "last-foot");
  assert_int_equal (g_ascii_strtoll (last, NULL, 10), desk->near);
  assert_null (pr_document_setting (desk->doc, "opening-foot"));
}

/* --- the file taken away --- */

static bool
copy_over (const char *from, const char *to)
{
  g_autofree char *bytes = NULL;
  gsize n;
  int fd;
  bool ok = g_file_get_contents (from, &bytes, &n, NULL)
            && (fd = open (to, O_WRONLY | O_CREAT | O_TRUNC, 0600)) >= 0;

  ok = ok && write (fd, bytes, n) == (gssize) n;
  return ok && close (fd) == 0;
}

static bool
delete_it (const char *file, const char *other)
{
  (void) other;
  return g_unlink (file) == 0;
}

static bool
sync_it (const char *file, const char *other)
{
  g_autofree char *part = g_strconcat (file, ".sync", NULL);

  return copy_over (other, part) && g_rename (part, file) == 0;
}

static bool
restore_it (const char *file, const char *other)
{
  return copy_over (other, file);
}

typedef bool (*Act) (const char *file, const char *other);

/* What somebody else's book held when it was made: one horse. */
static char *
other_book (const Desk *desk)
{
  char *other = path_in (desk, "other.pritchel");
  g_autoptr (PrBook) book = pr_book_open (other, NULL);

  assert_true (pr_book_add_horse (book, "Theirs", "", NULL) != 0);
  return other;
}

static pid_t
soon (Desk *desk, Act act, const char *other, gulong delay)
{
  g_autofree char *file = path_in (desk, "book.pritchel");
  pid_t child = fork ();

  assert_true (child >= 0);
  if (child == 0) {
    prctl (PR_SET_PDEATHSIG, SIGKILL);
    g_usleep (delay);
    _exit (act (file, other) ? 0 : 1);
  }
  return child;
}

static bool
still_runs (pid_t child)
{
  int status;
  pid_t done = waitpid (child, &status, WNOHANG);

  if (done == child)
    assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
  return done != child;
}

/* Nothing is told in vain, and nothing is missing that was not told. */
static void
check_told (Desk *desk)
{
  g_autofree char *loss = NULL;

  while (!(loss = pr_document_loss (desk->doc))) /* by itself: nobody looks */
    g_main_context_iteration (NULL, TRUE);
  desk_settle (desk);
  assert_true (desk->changed & PR_CHANGED_BOOK);
  assert_false (pr_document_is_kept (desk->doc));
  assert_null (desk->trouble);
  assert_true (desk_is_kept (desk));
}

/* Put back where it was, over whatever lies there now. */
static void
put_back (Desk *desk)
{
  g_autofree char *file = path_in (desk, "book.pritchel"), *copy = path_in (desk, "copy.pritchel");
  g_autoptr (GError) error = NULL;
  double web = desk_shown (desk, "web.toe");
  PrPlan plan;

  if (!pr_document_save_book (desk->doc, file, &error))
    fail_msg ("%s", error->message);
  assert_true (pr_document_is_kept (desk->doc));
  assert_null (pr_document_loss (desk->doc));
  assert_true (copy_over (file, copy)); /* as it lies there */
  g_autoptr (PrBook) book = pr_book_open (copy, NULL);
  assert_true (pr_record_plan (book, desk->near, &plan));
  NEAR (plan.web_toe, web, 1e-9);
  g_unlink (copy);
}

static void
taken_under_changes (Act act, guint32 seed)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autofree char *other = other_book (desk);
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);

  desk_open (desk, desk->near);
  pr_document_drawn (desk->doc);
  for (int round = 0; round < ROUNDS; round++) {
    pid_t child;
    desk->changed = 0;
    child = soon (desk, act, other, (gulong) g_rand_int_range (rand, 0, LATEST_US));
    for (int n = 0; still_runs (child); n++)
      set (desk, 20 + 0.05 * (double) ((n + 7 * round) % 100));
    check_told (desk);
    set (desk, 20 + 0.01 * round + 0.005);
    assert_true (desk_is_kept (desk));
    put_back (desk);
  }
  g_unlink (other);
}

static void
deleted_under_changes (void **state)
{
  (void) state;
  taken_under_changes (delete_it, 1);
}

static void
replaced_under_changes (void **state)
{
  (void) state;
  taken_under_changes (sync_it, 2);
}

static void
written_over_under_changes (void **state)
{
  (void) state;
  taken_under_changes (restore_it, 3);
}

static void
by_another (Desk *desk, Act act, const char *other)
{
  pid_t child = soon (desk, act, other, 0);

  while (still_runs (child))
    g_usleep (500);
}

/* The other one instead: what is shown is that, and nothing of ours is written into it. */
static void
other_book_is_taken (void **state)
{
  static const Act acts[] = { sync_it, restore_it };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (acts); i++) {
    g_autoptr (Desk) desk = desk_new ();
    g_autofree char *other = other_book (desk);

    desk_open (desk, desk->near);
    set (desk, 24);
    assert_false (pr_document_has_other_book (desk->doc));
    by_another (desk, acts[i], other);
    check_told (desk);
    assert_true (pr_document_has_other_book (desk->doc));
    /* not while a thread still writes into this one: its foot is still there, and so is the way */
    pr_document_book_hold (desk->doc);
    assert_false (pr_document_take_other_book (desk->doc, NULL));
    assert_non_null (pr_document_job (desk->doc));
    assert_true (pr_document_has_other_book (desk->doc));
    pr_document_book_let_go (desk->doc);
    assert_true (pr_document_take_other_book (desk->doc, NULL));
    desk->book = pr_document_book (desk->doc);
    assert_null (pr_document_job (desk->doc));
    assert_false (pr_document_can_undo (desk->doc));
    assert_true (pr_document_is_kept (desk->doc));
    g_autoptr (GPtrArray) horses = pr_book_horses (desk->book, NULL, NULL);
    assert_int_equal (horses->len, 1);
    assert_string_equal (((PrBookHorse *) g_ptr_array_index (horses, 0))->name, "Theirs");
    assert_true (pr_document_add_horse (desk->doc, "New", NULL) != 0);
    assert_true (pr_document_is_kept (desk->doc));
    by_another (desk, delete_it, NULL); /* this one is watched, too */
    while (pr_document_is_kept (desk->doc))
      g_main_context_iteration (NULL, TRUE);
    desk_settle (desk);
    g_unlink (other);
  }
}

/* At the next start it is the book. */
static void
saved_elsewhere_is_the_book (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autofree char *elsewhere = path_in (desk, "elsewhere.pritchel"), *usual = pr_book_default_file ();
  g_autofree char *folder = NULL, *first = NULL, *missing = NULL, *again = NULL;

  (void) state;
  desk_open (desk, desk->near);
  by_another (desk, delete_it, NULL);
  check_told (desk);
  g_autofree char *name = pr_document_new_book_name (desk->doc, &folder);
  assert_string_equal (name, "book.pritchel");
  assert_string_equal (folder, desk->folder);
  assert_true (pr_document_save_book (desk->doc, elsewhere, NULL));
  first = pr_document_first_book (&missing);
  assert_string_equal (first, elsewhere);
  assert_null (missing);
  g_object_unref (desk->doc);
  desk->doc = pr_document_new (NULL, PR_UNIT_MM);
  g_unlink (elsewhere);
  again = pr_document_first_book (&missing);
  assert_string_equal (again, usual);
  assert_string_equal (missing, elsewhere);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (last_foot_locks_nobody_out),  cmocka_unit_test (refused_foot_is_no_last_one),
    cmocka_unit_test (deleted_under_changes),       cmocka_unit_test (replaced_under_changes),
    cmocka_unit_test (written_over_under_changes),  cmocka_unit_test (other_book_is_taken),
    cmocka_unit_test (saved_elsewhere_is_the_book),
  };

  return cmocka_run_group_tests_name ("keeping", tests, NULL, NULL);
}
