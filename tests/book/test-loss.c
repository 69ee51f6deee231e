/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A book whose file is taken away while it is open: deleted, moved, replaced, written over, its folder gone. What a
 * setter returned for is in the file, or the loss was told and it is in memory; and what lies there now is left as
 * it is. */
#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <sys/prctl.h>
#include <sched.h>
#include <sys/mount.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "folder.h"
#include "pr-book-loss.h"
#include "pr-book.h"

#define ROUNDS 200
#define LATEST_US 12000 /* a change takes a few ms */

typedef struct {
  char *dir, *folder, *file, *other, *aside;
  PrBook *book;
  PrBookId foot;
  int n_lost;
} Place;

/* --- books --- */

static PrBook *
open_ok (const char *file)
{
  g_autoptr (GError) error = NULL;
  PrBook *book = pr_book_open (file, &error);

  if (book == NULL)
    fail_msg ("%s", error->message);
  return book;
}

static PrBookId
fill (PrBook *book, const char *name)
{
  g_autoptr (GBytes) photo = g_bytes_new_take (g_strnfill (60000, *name), 60000);
  assert_true (pr_book_begin (book, NULL));
  PrBookId horse = pr_book_add_horse (book, name, "", NULL);
  PrBookId visit = pr_book_add_visit (book, horse, "2026-05-01", NULL);
  PrBookId foot = pr_book_add_foot (book, visit, PR_FOOT_LF, NULL);

  assert_true (pr_book_set_photo (book, foot, photo, "p.jpg", NULL));
  assert_true (pr_book_set_trace (book, foot, "{\"trace\":1}", NULL));
  assert_true (pr_book_end (book, true, NULL));
  return foot;
}

static void
set_plan (PrBook *book, PrBookId foot, int n)
{
  g_autofree char *json = g_strdup_printf ("{\"n\":%d}", n);
  g_autoptr (GError) error = NULL;

  if (!pr_book_set_plan (book, foot, json, &error))
    fail_msg ("%s", error->message);
}

/* -1: there is none. */
static int
plan_of (PrBook *book, PrBookId foot)
{
  g_autofree char *json = pr_book_get_plan (book, foot, NULL);
  int n = -1;

  if (json != NULL)
    assert_int_equal (sscanf (json, "{\"n\":%d}", &n), 1);
  return n;
}

static void
count (gpointer data)
{
  ((Place *) data)->n_lost++;
}

/* A book with a foot, and beside it one of somebody else's. */
static void
begin (Place *place)
{
  g_mkdir_with_parents (place->folder, 0700);
  g_unlink (place->file);
  if (!g_file_test (place->other, G_FILE_TEST_EXISTS)) {
    PrBook *book = open_ok (place->other);
    fill (book, "Theirs");
    pr_book_close (book);
  }
  place->n_lost = 0;
  place->book = open_ok (place->file);
  place->foot = fill (place->book, "Ours");
  assert_true (pr_book_watch (place->book, NULL));
  pr_book_on_loss (place->book, count, place);
}

static int
setup (void **state)
{
  Place *place = g_new0 (Place, 1);

  place->dir = kit_folder ();
  place->folder = g_build_filename (place->dir, "in", NULL);
  place->file = g_build_filename (place->folder, "book.pritchel", NULL);
  place->other = g_build_filename (place->dir, "other.pritchel", NULL);
  place->aside = g_build_filename (place->dir, "aside.pritchel", NULL);
  *state = place;
  begin (place);
  return 0;
}

static int
teardown (void **state)
{
  Place *place = *state;

  pr_book_close (place->book);
  kit_folder_gone (place->dir);
  g_free (place->folder);
  g_free (place->file);
  g_free (place->other);
  g_free (place->aside);
  g_free (place);
  return 0;
}

/* --- what others do to it --- */

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
delete_it (const Place *place)
{
  return g_unlink (place->file) == 0;
}

static bool
move_it (const Place *place)
{
  return g_rename (place->file, place->aside) == 0;
}

static bool
move_folder (const Place *place)
{
  return g_rename (place->folder, place->aside) == 0;
}

static bool
sync_it (const Place *place)
{
  g_autofree char *part = g_strconcat (place->file, ".part", NULL);

  return copy_over (place->other, part) && g_rename (part, place->file) == 0;
}

static bool
restore_it (const Place *place)
{
  return copy_over (place->other, place->file);
}

static bool
link_and_replace (const Place *place)
{
  return link (place->file, place->aside) == 0 && sync_it (place);
}

static const struct {
  const char *name;
  bool (*act) (const Place *place);
  PrBookLoss loss;
  bool theirs, photos; /* theirs lies there now; ours go on with their photos */
} acts[] = {
  { "deleted", delete_it, PR_BOOK_GONE, false, true },
  { "moved", move_it, PR_BOOK_GONE, false, true },
  { "folder moved", move_folder, PR_BOOK_FOLDER_GONE, false, true },
  { "replaced", sync_it, PR_BOOK_REPLACED, true, true },
  { "replaced, and linked elsewhere", link_and_replace, PR_BOOK_REPLACED, true, true },
  { "written over", restore_it, PR_BOOK_OVERWRITTEN, true, false },
};

static void
assert_same_file (const char *a, const char *b)
{
  g_autofree char *one = NULL, *other = NULL;
  gsize n, m;

  assert_true (g_file_get_contents (a, &one, &n, NULL) && g_file_get_contents (b, &other, &m, NULL));
  assert_int_equal (n, m);
  assert_memory_equal (one, other, n);
}

/* In a process of its own: this one reads no byte of a file it has a lock on. */
static void
by_another (const Place *place, bool (*act) (const Place *place))
{
  int status;
  pid_t child = fork ();

  if (child == 0)
    _exit (act (place) ? 0 : 1);
  assert_int_equal (waitpid (child, &status, 0), child);
  assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
}

/* Does FILE open as a book in another process, which shares nothing with this one? */
static bool
opens (const char *file)
{
  int status;
  pid_t child = fork ();

  if (child == 0)
    _exit (execl ("/proc/self/exe", "test-loss", file, (char *) NULL));
  assert_int_equal (waitpid (child, &status, 0), child);
  assert_true (WIFEXITED (status) && (WEXITSTATUS (status) == 0 || WEXITSTATUS (status) == 7));
  return WEXITSTATUS (status) == 0;
}

/* --- at rest --- */

static void
check_goes_on (Place *place, bool photos)
{
  g_autofree char *trace = pr_book_get_trace (place->book, place->foot, NULL);
  g_autoptr (GBytes) photo = pr_book_get_photo (place->book, place->foot, NULL, NULL);
  g_autoptr (GPtrArray) horses = pr_book_horses (place->book, NULL, NULL);

  assert_string_equal (trace, "{\"trace\":1}");
  assert_true ((photo != NULL) == photos);
  assert_int_equal (horses->len, 1);
  assert_string_equal (((PrBookHorse *) g_ptr_array_index (horses, 0))->name, "Ours");
  assert_int_equal (plan_of (place->book, place->foot), 2);
}

/* The file that is written from now on is locked against other programs, and holds all. */
static void
check_saved (Place *place)
{
  g_autofree char *saved = g_build_filename (place->dir, "saved.pritchel", NULL);
  struct stat st;

  assert_true (pr_book_save_as (place->book, saved, NULL));
  assert_int_equal (pr_book_loss (place->book), PR_BOOK_KEPT);
  assert_string_equal (pr_book_file (place->book), saved);
  set_plan (place->book, place->foot, 3);
  assert_false (opens (saved));
  g_clear_pointer (&place->book, pr_book_close);
  assert_int_equal (g_stat (saved, &st), 0);
  assert_int_equal (st.st_mode & 0777, 0600);
  place->book = open_ok (saved);
  assert_int_equal (plan_of (place->book, place->foot), 3);
  g_clear_pointer (&place->book, pr_book_close);
  g_unlink (saved);
}

static void
test_taken_at_rest (void **state)
{
  Place *place = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (acts); i++) {
    set_plan (place->book, place->foot, 1);
    by_another (place, acts[i].act);
    set_plan (place->book, place->foot, 2);
    assert_int_equal (pr_book_loss (place->book), acts[i].loss);
    assert_int_equal (place->n_lost, 1);
    check_goes_on (place, acts[i].photos);
    if (acts[i].theirs)
      assert_same_file (place->file, place->other);
    check_saved (place);
    kit_folder_gone (g_strdup (place->aside));
    g_unlink (place->aside);
    begin (place);
  }
}

/* The loss is told without a change, too, by what becomes readable. */
static void
test_tells_at_once (void **state)
{
  Place *place = *state;

  for (size_t i = 0; i < G_N_ELEMENTS (acts); i++) {
    GPollFD poll = { .fd = pr_book_events (place->book), .events = G_IO_IN };
    assert_true (poll.fd >= 0);
    set_plan (place->book, place->foot, 2);
    assert_int_equal (pr_book_look (place->book), PR_BOOK_KEPT);
    assert_int_equal (g_poll (&poll, 1, 0), 0); /* our own change is no news */
    by_another (place, acts[i].act);
    assert_int_equal (g_poll (&poll, 1, 5000), 1);
    assert_int_equal (pr_book_look (place->book), acts[i].loss);
    assert_int_equal (place->n_lost, 1);
    check_goes_on (place, acts[i].photos);
    g_clear_pointer (&place->book, pr_book_close);
    kit_folder_gone (g_strdup (place->aside));
    g_unlink (place->aside);
    begin (place);
  }
}

/* What is added, changed and removed since is kept beside a file that is written over. */
static void
test_written_over_keeps_changes (void **state)
{
  Place *place = *state;
  g_autoptr (GBytes) photo = g_bytes_new_static ("new photo", 9);
  PrBookAttempt attempt = { .foot = place->foot, .date = "2026-05-02", .note = "slipped", .minutes = 20 };
  PrBookId other = fill (place->book, "Mistake");

  assert_true (pr_book_set_photo (place->book, place->foot, photo, "n.jpg", NULL));
  assert_true (pr_book_add_attempt (place->book, &attempt, NULL, NULL) != 0);
  assert_true (pr_book_set_setting (place->book, "k", "v", NULL));
  g_auto (PrBookHorse) horse = { 0 };
  assert_true (pr_book_get_foot (place->book, other, NULL, NULL, &horse, NULL));
  assert_true (pr_book_remove_horse (place->book, horse.id, NULL)); /* its visits and feet go by themselves */
  by_another (place, restore_it);
  set_plan (place->book, place->foot, 2);
  assert_int_equal (pr_book_loss (place->book), PR_BOOK_OVERWRITTEN);
  check_goes_on (place, true);
  g_autoptr (GBytes) back = pr_book_get_photo (place->book, place->foot, NULL, NULL);
  g_autoptr (GPtrArray) attempts = pr_book_attempts (place->book, place->foot, NULL);
  g_autofree char *setting = pr_book_get_setting (place->book, "k", NULL);
  assert_true (g_bytes_equal (back, photo));
  assert_int_equal (attempts->len, 1);
  assert_string_equal (setting, "v");
  assert_null (pr_book_get_trace (place->book, other, NULL));
}

/* Of more outlines than there is room for the newest are kept, and all horses, visits and feet; what is changed
 * meanwhile is kept however old its foot is. */
static void
test_written_over_keeps_the_newest (void **state)
{
  Place *place = *state;
  g_autofree char *blanks = g_strnfill (1 << 20, ' '), *trace = g_strdup_printf ("{\"trace\":1}%s", blanks);
  PrBookId first = place->foot, second = 0, newest = 0;

  for (int i = 0; i < 60; i++) {
    newest = fill (place->book, "Another");
    assert_true (pr_book_set_trace (place->book, newest, trace, NULL));
    second = second ? second : newest;
  }
  assert_true (pr_book_keeps_all (place->book));
  pr_book_close (place->book);
  place->book = open_ok (place->file);
  assert_true (pr_book_watch (place->book, NULL));
  assert_false (pr_book_keeps_all (place->book));
  assert_true (pr_book_set_trace (place->book, first, "{\"trace\":1}", NULL));
  by_another (place, restore_it);
  set_plan (place->book, second, 2);
  assert_int_equal (pr_book_loss (place->book), PR_BOOK_OVERWRITTEN);
  g_autofree char *changed = pr_book_get_trace (place->book, first, NULL);
  g_autofree char *older = pr_book_get_trace (place->book, second, NULL);
  g_autofree char *kept = pr_book_get_trace (place->book, newest, NULL);
  g_autoptr (GPtrArray) horses = pr_book_horses (place->book, NULL, NULL);
  assert_string_equal (changed, "{\"trace\":1}");
  assert_null (older);
  assert_int_equal (plan_of (place->book, second), 2);
  assert_string_equal (kept, trace);
  assert_int_equal (horses->len, 61);
}

/* Somebody who only reads, or only tries, makes no difference. */
static bool
read_it (const Place *place)
{
  g_autofree char *bytes = NULL;

  return g_file_get_contents (place->file, &bytes, NULL, NULL);
}

static void
test_readers_are_no_loss (void **state)
{
  Place *place = *state;

  for (int i = 0; i < 5; i++) {
    by_another (place, read_it);
    assert_false (opens (place->file));
    set_plan (place->book, place->foot, i);
    assert_int_equal (pr_book_look (place->book), PR_BOOK_KEPT);
  }
  chmod (place->file, 0640); /* its owner's affair */
  set_plan (place->book, place->foot, 6);
  assert_int_equal (pr_book_loss (place->book), PR_BOOK_KEPT);
}

/* Reading the file in this process drops SQLite's lock for readers, and not the writer's own. */
static void
test_dropped_lock_is_taken_again (void **state)
{
  Place *place = *state;

  assert_false (opens (place->file));
  assert_true (read_it (place));
  assert_int_equal (pr_book_look (place->book), PR_BOOK_KEPT);
  assert_false (opens (place->file));
  assert_true (read_it (place));
  assert_false (opens (place->file)); /* nothing looked in between */
}

static void
test_lock_held_by_another (void **state)
{
  Place *place = *state;
  int ends[2];
  char said;

  set_plan (place->book, place->foot, 2);
  assert_true (read_it (place));
  assert_int_equal (pipe (ends), 0);
  pid_t child = fork ();
  if (child == 0) {
    prctl (PR_SET_PDEATHSIG, SIGKILL);
    struct flock lock = { .l_type = F_WRLCK, .l_whence = SEEK_SET, .l_start = 0x40000000, .l_len = 512 };
    int fd = open (place->file, O_RDWR);
    said = fcntl (fd, F_SETLK, &lock) == 0 ? 'y' : 'n';
    if (write (ends[1], &said, 1) != 1)
      _exit (1);
    for (;;)
      pause ();
  }
  assert_int_equal (read (ends[0], &said, 1), 1);
  assert_int_equal (said, 'y');
  assert_int_equal (pr_book_look (place->book), PR_BOOK_TAKEN);
  check_goes_on (place, true);
  kill (child, SIGKILL);
  waitpid (child, NULL, 0);
  close (ends[0]);
  close (ends[1]);
}

/* --- while it is being written --- */

/* ACT happens after DELAY us. Its process tells nothing: it is waited for. */
static pid_t
soon (const Place *place, bool (*act) (const Place *place), gulong delay)
{
  pid_t child = fork ();

  assert_true (child >= 0);
  if (child == 0) {
    prctl (PR_SET_PDEATHSIG, SIGKILL);
    g_usleep (delay);
    _exit (act (place) ? 0 : 1);
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

/* Changes until it has happened, and once after. Returns the last. */
static int
change_until_done (Place *place, pid_t child)
{
  int n = 1;

  for (bool runs = true; runs; n++) {
    runs = still_runs (child);
    set_plan (place->book, place->foot, n + 1);
  }
  return n;
}

/* In how many of ROUNDS the file that was put there is not as it was put there. */
static int
race (Place *place, size_t which, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  int mixed = 0;

  for (int round = 0; round < ROUNDS; round++) {
    pid_t child = soon (place, acts[which].act, (gulong) g_rand_int_range (rand, 0, LATEST_US));
    int last = change_until_done (place, child);
    assert_int_equal (pr_book_loss (place->book), acts[which].loss);
    assert_int_equal (place->n_lost, 1);
    assert_int_equal (plan_of (place->book, place->foot), last);
    assert_true (pr_book_save_as (place->book, place->aside, NULL));
    g_clear_pointer (&place->book, pr_book_close);
    if (acts[which].theirs) {
      g_autofree char *now = NULL, *put = NULL;
      gsize n = 0, m = 0;
      assert_true (g_file_get_contents (place->file, &now, &n, NULL)
                   && g_file_get_contents (place->other, &put, &m, NULL));
      mixed += n != m || memcmp (now, put, n) != 0;
    }
    place->book = open_ok (place->aside);
    assert_int_equal (plan_of (place->book, place->foot), last);
    g_clear_pointer (&place->book, pr_book_close);
    g_unlink (place->aside);
    begin (place);
  }
  return mixed;
}

static void
test_deleted_under_changes (void **state)
{
  race (*state, 0, 1);
}

static void
test_replaced_under_changes (void **state)
{
  assert_int_equal (race (*state, 3, 2), 0);
}

/* SQLite's lock stops no cp. One that falls between a look and the end of the commit after it meets our pages: that
 * is told, and nothing of ours is missing, but what was put there has to be put there once more. */
static void
test_written_over_under_changes (void **state)
{
  int mixed = race (*state, 5, 3);

  print_message ("written over within a commit: %d of %d\n", mixed, ROUNDS);
}

/* --- modes and room --- */

static void
test_modes (void **state)
{
  Place *place = *state;
  g_autofree char *deep = g_build_filename (place->dir, "a", "b", NULL);
  g_autofree char *file = g_build_filename (deep, "book.pritchel", NULL);
  g_autofree char *journal = g_strconcat (file, "-journal", NULL);
  mode_t before = umask (0);
  PrBook *book = open_ok (file);
  struct stat st;

  fill (book, "x");
  assert_true (g_stat (deep, &st) == 0 && (st.st_mode & 0777) == 0700);
  assert_true (g_stat (file, &st) == 0 && (st.st_mode & 0777) == 0600);
  assert_true (g_stat (journal, &st) == 0 && (st.st_mode & 0777) == 0600);
  assert_true (pr_book_send_foot (book, 1, place->aside, NULL));
  assert_true (g_stat (place->aside, &st) == 0 && (st.st_mode & 0777) == 0600);
  pr_book_close (book);
  chmod (file, 0664);
  pr_book_close (open_ok (file));
  assert_true (g_stat (file, &st) == 0 && (st.st_mode & 0777) == 0664); /* as its owner has it */
  umask (before);
}

/* On a small disk of its own, in a process that alone sees it. 7: no disk can be made here. */
static int
try_small_disk (const char *folder, const char *options)
{
  g_autofree char *file = g_build_filename (folder, "deep", "book.pritchel", NULL);
  g_autoptr (GError) error = NULL;

  if (unshare (geteuid () == 0 ? CLONE_NEWNS : CLONE_NEWUSER | CLONE_NEWNS) != 0
      || mount (NULL, "/", NULL, MS_REC | MS_PRIVATE, NULL) != 0
      || mount ("tmpfs", folder, "tmpfs", 0, options) != 0)
    return 7;
  PrBook *book = pr_book_open (file, &error);
  if (book != NULL || strstr (error->message, "no room left") == NULL
      || g_file_test (file, G_FILE_TEST_EXISTS))
    return 1;
  return mount ("tmpfs", folder, "tmpfs", MS_REMOUNT, "size=1m,nr_inodes=100") == 0
                 && (book = pr_book_open (file, NULL)) != NULL && fill (book, "x") != 0
             ? 0
             : 2;
}

static void
test_no_room_for_a_first_book (void **state)
{
  Place *place = *state;
  /* not even a folder; no file; a file, but nothing in it; half of it */
  static const char *const disks[]
      = { "nr_inodes=1", "nr_inodes=2", "nr_inodes=3", "size=4k", "size=8k", "size=40k" };

  for (size_t i = 0; i < G_N_ELEMENTS (disks); i++) {
    int status;
    pid_t child = fork ();
    if (child == 0)
      _exit (try_small_disk (place->folder, disks[i]));
    assert_int_equal (waitpid (child, &status, 0), child);
    assert_true (WIFEXITED (status));
    if (WEXITSTATUS (status) == 7)
      skip ();
    if (WEXITSTATUS (status) != 0)
      fail_msg ("a disk of %s: %d", disks[i], WEXITSTATUS (status));
  }
}

#define CASE(test_) cmocka_unit_test_setup_teardown (test_, setup, teardown)

/* With a file name: does it open as a book? */
int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    CASE (test_taken_at_rest),
    CASE (test_tells_at_once),
    CASE (test_written_over_keeps_changes),
    CASE (test_written_over_keeps_the_newest),
    CASE (test_readers_are_no_loss),
    CASE (test_dropped_lock_is_taken_again),
    CASE (test_lock_held_by_another),
    CASE (test_deleted_under_changes),
    CASE (test_replaced_under_changes),
    CASE (test_written_over_under_changes),
    CASE (test_modes),
    CASE (test_no_room_for_a_first_book),
  };

  if (argc == 2) {
    g_autoptr (PrBook) book = pr_book_open (argv[1], NULL);
    return book != NULL ? 0 : 7;
  }
  return cmocka_run_group_tests (tests, NULL, NULL);
}
