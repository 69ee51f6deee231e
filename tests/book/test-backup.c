/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Backups: whole, of one moment, looked through; as many as are kept; put back, or nothing touched. */
#include "kit.h"
#include "pr-book-backup.h"
#include "pr-book-trash.h"
#include "shelf.h"

#include <fcntl.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static KitShelf *shelf;
static char *copy;

/* A book with a photo of many pages, and a name beside it. */
static int
set_up (void **state)
{
  g_autofree char *bytes = g_malloc (300000);
  GRand *rand = g_rand_new_with_seed (3);
  int trouble = kit_shelf_set_up (state);

  for (int i = 0; i < 300000; i++)
    bytes[i] = (char) g_rand_int (rand);
  g_rand_free (rand);
  g_autoptr (GBytes) photo = g_bytes_new (bytes, 300000);
  shelf = *state;
  copy = g_build_filename (shelf->folder, "copy.pritchel", NULL);
  shelf->horse = pr_book_add_horse (shelf->book, "Pipwick", "", NULL);
  shelf->visit = pr_book_add_visit (shelf->book, shelf->horse, "2026-11-20", NULL);
  shelf->foot = pr_book_add_foot (shelf->book, shelf->visit, PR_FOOT_LF, NULL);
  pr_book_set_photo (shelf->book, shelf->foot, photo, "foot.jpg", NULL);
  return trouble;
}

static int
tear_down (void **state)
{
  g_clear_pointer (&copy, g_free);
  return kit_shelf_tear_down (state);
}

static int
entries (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;

  while (g_dir_read_name (dir))
    n++;
  return n;
}

/* Horses in the book FILE, which nobody has open. */
static guint
horses_in (const char *file)
{
  g_autoptr (PrBook) book = pr_book_open (file, NULL);
  g_autoptr (GPtrArray) horses = book ? pr_book_horses (book, NULL, NULL) : NULL;

  return horses ? horses->len : 0;
}

static void
a_backup_is_a_book (void **state)
{
  (void) state;
  GStatBuf st;
  g_autofree char *name = NULL;

  assert_true (pr_book_backup (shelf->book, copy, NULL));
  assert_int_equal (g_stat (copy, &st), 0);
  assert_int_equal (st.st_mode & 0777, 0600);
  g_autoptr (PrBook) book = pr_book_open (copy, NULL);
  assert_non_null (book);
  g_autoptr (GBytes) photo = pr_book_get_photo (book, 1, &name, NULL);
  g_autoptr (GBytes) ours = pr_book_get_photo (shelf->book, 1, NULL, NULL);
  assert_true (g_bytes_equal (photo, ours));
  /* the book goes on */
  assert_true (pr_book_add_horse (shelf->book, "Tansy", "", NULL) > 0);
}

/* What is changed while it is made is in it: it is the book of its end. */
static void
it_follows_what_is_changed (void **state)
{
  (void) state;
  PrBackupWork *work = pr_backup_work_new (shelf->book, copy, NULL);
  int more, steps = 0;

  assert_int_equal (pr_backup_work_step (work, 2), 1);
  assert_false (g_file_test (copy, G_FILE_TEST_EXISTS));
  while ((more = pr_backup_work_step (work, 5)) > 0)
    if (++steps % 3 == 0 && steps < 10)
      assert_true (pr_book_add_horse (shelf->book, "Tansy", "", NULL) > 0);
  assert_int_equal (more, 0);
  assert_true (steps > 10);
  assert_true (pr_backup_work_settle (work, NULL));
  assert_int_equal (horses_in (copy), 4);
  assert_int_equal (entries (shelf->folder), 4); /* the book, its journal, who writes, the backup */
}

static void
given_up_leaves_nothing (void **state)
{
  (void) state;
  PrBackupWork *work = pr_backup_work_new (shelf->book, copy, NULL);
  int before = entries (shelf->folder);

  pr_backup_work_step (work, 2);
  pr_backup_work_free (work);
  assert_int_equal (entries (shelf->folder), before - 1);
  assert_false (g_file_test (copy, G_FILE_TEST_EXISTS));
}

static void
refused (PrBook *book, const char *file, const char *says)
{
  g_autoptr (GError) error = NULL;

  assert_false (pr_book_backup (book, file, &error));
  if (!strstr (error->message, says))
    fail_msg ("“%s” does not say “%s”", error->message, says);
}

/* The disk is full, told by a limit on the size of files; what was there stays. */
static void
a_full_disk_changes_nothing (void **state)
{
  (void) state;
  int status;

  g_file_set_contents (copy, "an older backup", -1, NULL);
  pid_t child = fork ();
  if (child == 0) {
    const struct rlimit small = { 100000, 100000 };
    g_autoptr (GError) error = NULL;

    signal (SIGXFSZ, SIG_IGN);
    setrlimit (RLIMIT_FSIZE, &small);
    _exit (pr_book_backup (shelf->book, copy, &error) || !strstr (error->message, "make room"));
  }
  assert_int_equal (waitpid (child, &status, 0), child);
  assert_true (WIFEXITED (status));
  assert_int_equal (WEXITSTATUS (status), 0);
  g_autofree char *left = NULL;
  assert_true (g_file_get_contents (copy, &left, NULL, NULL));
  assert_string_equal (left, "an older backup");
  assert_int_equal (entries (shelf->folder), 4);
}

static void
bad_places_are_refused (void **state)
{
  (void) state;

  refused (shelf->book, shelf->file, "is the book itself");
  refused (shelf->book, "/proc/nowhere/copy.pritchel", "could not be written");
}

/* --- as many as are kept --- */

static void
the_newest_stay (void **state)
{
  (void) state;
  g_autofree char *folder = g_build_filename (shelf->folder, "backups", NULL);
  static const char *const others[]
      = { "before-restore-2026-11-01-120000.pritchel", "book-mine.pritchel", "notes.txt" };

  g_mkdir (folder, 0700);
  for (size_t i = 0; i < G_N_ELEMENTS (others); i++) {
    g_autofree char *file = g_build_filename (folder, others[i], NULL);
    g_file_set_contents (file, "kept", -1, NULL);
  }
  for (int day = 28; day >= 19; day--) { /* in no order of time */
    g_autofree char *date = g_strdup_printf ("2026-11-%02d", day);
    g_autofree char *file = pr_backup_daily_file (folder, date);
    assert_true (pr_book_backup (shelf->book, file, NULL));
    assert_null (pr_backup_daily_file (folder, date));
  }
  g_autofree char *rest = g_build_filename (folder, "book-2026-11-18.pritchel.0a1b2c3d.part", NULL);
  g_file_set_contents (rest, "killed", -1, NULL);
  pr_backup_keep_newest (folder);
  assert_false (g_file_test (rest, G_FILE_TEST_EXISTS));
  assert_int_equal (entries (folder), PR_BOOK_BACKUPS + (int) G_N_ELEMENTS (others));
  g_autoptr (GPtrArray) list = pr_book_backups (folder);
  assert_int_equal (list->len, PR_BOOK_BACKUPS);
  assert_string_equal (((PrBookBackup *) list->pdata[0])->date, "2026-11-28");
  assert_string_equal (((PrBookBackup *) list->pdata[6])->date, "2026-11-22");
  g_autofree char *nowhere = g_build_filename (shelf->folder, "none", NULL);
  g_autoptr (GPtrArray) none = pr_book_backups (nowhere);
  assert_int_equal (none->len, 0);
}

/* --- looking --- */

static void
what_is_there_is_counted (void **state)
{
  (void) state;
  PrBookId other = pr_book_add_horse (shelf->book, "Tansy", "", NULL);

  PrBookId visit = pr_book_add_visit (shelf->book, other, "2026-11-20", NULL), gone;

  /* neither what hangs on a deleted horse or visit, though it is not marked itself, nor a deleted foot */
  assert_true (pr_book_add_foot (shelf->book, visit, PR_FOOT_LF, NULL) > 0);
  assert_true (pr_book_delete (shelf->book, PR_BOOK_HORSE, other, NULL));
  gone = pr_book_add_visit (shelf->book, shelf->horse, "2026-11-21", NULL);
  assert_true (pr_book_add_foot (shelf->book, gone, PR_FOOT_LF, NULL) > 0);
  assert_true (pr_book_delete (shelf->book, PR_BOOK_VISIT, gone, NULL));
  pr_book_backup (shelf->book, copy, NULL);
  g_autoptr (PrBookBackup) ours = pr_book_backup_of (shelf->book, NULL);
  g_autoptr (PrBookBackup) theirs = pr_book_backup_look (copy, NULL);
  assert_int_equal (ours->horses, 1);
  assert_int_equal (theirs->horses, 1);
  assert_int_equal (ours->visits, 1);
  assert_int_equal (theirs->visits, 1);
  assert_int_equal (ours->feet, 1);
  assert_int_equal (theirs->feet, 1);
  for (int version = 1; version <= 4; version++) {
    g_autofree char *name = g_strdup_printf ("v%d.pritchel", version);
    g_autofree char *file = g_build_filename (g_getenv ("PR_TEST_DATA"), name, NULL);
    g_autoptr (PrBookBackup) old = pr_book_backup_look (file, NULL);
    assert_non_null (old);
    assert_int_equal (old->horses, 1);
  }
}

/* --- putting back --- */

static void
it_is_put_in_place (void **state)
{
  (void) state;
  g_autofree char *back = g_build_filename (shelf->folder, "back.pritchel", NULL);

  pr_book_backup (shelf->book, copy, NULL);
  pr_book_add_horse (shelf->book, "Tansy", "", NULL);
  pr_book_backup (shelf->book, back, NULL);
  assert_int_equal (horses_in (back), 2);
  assert_true (pr_book_backup_put (copy, back, NULL));
  assert_int_equal (horses_in (back), 1);
}

static void
what_is_damaged_is_not (void **state)
{
  (void) state;
  g_autofree char *back = g_build_filename (shelf->folder, "back.pritchel", NULL), *bytes = NULL,
                  *left = NULL;
  gsize size, left_size;

  pr_book_backup (shelf->book, copy, NULL);
  pr_book_backup (shelf->book, back, NULL);
  g_file_get_contents (back, &left, &left_size, NULL);
  g_file_get_contents (copy, &bytes, &size, NULL);
  for (int k = 0; k < 4; k++) {
    g_autoptr (GError) error = NULL;
    g_autofree char *bad = g_memdup2 (bytes, size), *now = NULL;
    gsize now_size, n = k == 0 ? size / 2 : size;

    if (k == 1) /* the schema's page */
      memset (bad + 120, 0x5a, 3000);
    if (k == 2) /* the tables' own pages */
      memset (bad + 3 * 4096, 0, 8 * 4096);
    if (k == 3)
      bad[63] = 99; /* of a newer program */
    g_file_set_contents (copy, bad, (gssize) n, NULL);
    assert_false (pr_book_backup_put (copy, back, &error));
    assert_non_null (error);
    assert_true (g_file_get_contents (back, &now, &now_size, NULL));
    assert_int_equal (now_size, left_size);
    assert_memory_equal (now, left, left_size);
  }
  assert_int_equal (entries (shelf->folder), 5); /* book, journal, who writes, copy, back */
}

/* Does this process hold SQLite's lock on FILE? Only another one can tell. (The shared range: SQLite file format, lock-byte page.) */
static bool
is_locked (const char *file)
{
  int status;
  pid_t child = fork ();

  if (child == 0) {
    struct flock lock = { .l_type = F_WRLCK, .l_whence = SEEK_SET, .l_start = 0x40000002, .l_len = 510 };
    int fd = open (file, O_RDWR);

    _exit (fcntl (fd, F_GETLK, &lock) == 0 && lock.l_type != F_UNLCK);
  }
  assert_int_equal (waitpid (child, &status, 0), child);
  return WIFEXITED (status) && WEXITSTATUS (status) == 1;
}

/* Somebody works in it, and goes on to: looking at it takes no lock away. */
static void
an_open_book_is_not_put_back (void **state)
{
  (void) state;
  g_autofree char *back = g_build_filename (shelf->folder, "back.pritchel", NULL);
  g_autoptr (GError) error = NULL;

  pr_book_backup (shelf->book, copy, NULL);
  g_autoptr (PrBook) open = pr_book_open (copy, NULL);
  assert_false (pr_book_backup_put (copy, back, &error));
  assert_non_null (strstr (error->message, "is open in another window"));
  assert_false (g_file_test (back, G_FILE_TEST_EXISTS));
  assert_null (pr_book_backup_look (copy, NULL));
  assert_true (is_locked (copy));
}

#define SHELVED(f) cmocka_unit_test_setup_teardown (f, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    SHELVED (a_backup_is_a_book),       SHELVED (it_follows_what_is_changed),
    SHELVED (given_up_leaves_nothing),  SHELVED (a_full_disk_changes_nothing),
    SHELVED (bad_places_are_refused),   SHELVED (the_newest_stay),
    SHELVED (what_is_there_is_counted), SHELVED (it_is_put_in_place),
    SHELVED (what_is_damaged_is_not),   SHELVED (an_open_book_is_not_put_back),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
