/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sets of files: killed at every step they take on the disk, in turn and by others, with other people's files
 * and links about. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>
#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include "folder.h"
#include "pr-atomic-file.h"
#include "pr-error.h"
#include "pr-file-set.h"

/* --- a program that is killed ------------------------------------------------------------- */

/* These stand before the C library's: what changes the disk passes here. The process kills itself before the
 * step that is counted down to 0; or that step fails. */
static int kill_in = -1, fail_in = -1, fail_as = EIO;

static bool
step (void)
{
  if (kill_in >= 0 && kill_in-- == 0)
    kill (getpid (), SIGKILL);
  if (fail_in >= 0 && fail_in-- == 0) {
    errno = fail_as;
    return false;
  }
  return true;
}

int
rename (const char *from, const char *to)
{
  return step () ? renameat (AT_FDCWD, from, AT_FDCWD, to) : -1;
}

int
unlink (const char *path)
{
  return step () ? unlinkat (AT_FDCWD, path, 0) : -1;
}

int
rmdir (const char *path)
{
  return step () ? unlinkat (AT_FDCWD, path, AT_REMOVEDIR) : -1;
}

int
mkdir (const char *path, mode_t mode)
{
  return step () ? mkdirat (AT_FDCWD, path, mode) : -1;
}

int
symlink (const char *to, const char *path)
{
  return step () ? symlinkat (to, AT_FDCWD, path) : -1;
}

int
fsync (int fd)
{
  (void) fd;
  return step () ? 0 : -1;
}

ssize_t
write (int fd, const void *data, size_t len)
{
  return step () ? (ssize_t) syscall (SYS_write, fd, data, len) : -1;
}

/* --- a set of four, the last of which says that it is whole ------------------------------- */

#define N 4
static const char *const names[N] = { "drawing.pdf", "cut.dxf", "list.txt", "report.json" };

/* The set of run RUN in FOLDER; without the DXF for odd runs. */
static bool
write_run (const char *folder, int run, GError **error)
{
  PrAtomicFile files[N];
  char *path[N], text[32];

  g_snprintf (text, sizeof text, "run %d", run);
  for (int i = 0; i < N; i++) {
    path[i] = g_build_filename (folder, names[i], NULL);
    files[i] = (PrAtomicFile){ path[i], i == 1 && run % 2 ? NULL : text, strlen (text) };
  }
  bool done = pr_atomic_files_write (files, N, error);
  for (int i = 0; i < N; i++)
    g_free (path[i]);
  return done;
}

/* Of which run FOLDER's file I is; -1 when it is not there. */
static int
run_of (const char *folder, int i)
{
  g_autofree char *path = g_build_filename (folder, names[i], NULL), *text = NULL;
  int run = -1;

  if (g_file_get_contents (path, &text, NULL, NULL))
    assert_int_equal (sscanf (text, "run %d", &run), 1);
  return run;
}

static int
entries (const char *folder, bool hidden)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  int n = 0;

  while (dir && (name = g_dir_read_name (dir)))
    n += (name[0] == '.') == hidden;
  return n;
}

/* Run in FOLDER, all of it; -1 none. Fails where two are mixed, or where the last name stands by a part only. */
static int
only_run (const char *folder)
{
  int run = -1, n = 0;

  for (int i = 0; i < N; i++) {
    int one = run_of (folder, i);

    n += one >= 0;
    assert_true (run < 0 || one < 0 || one == run);
    run = MAX (run, one);
  }
  if (run_of (folder, N - 1) >= 0)
    assert_int_equal (n, run % 2 ? N - 1 : N);
  return run;
}

/* Writes run RUN in a process of its own, killed at step AT. Was it killed? */
static bool
killed_at (const char *folder, int run, int at)
{
  pid_t child = fork ();
  int status;

  if (child == 0) {
    kill_in = at;
    _exit (write_run (folder, run, NULL) ? 0 : 1);
  }
  assert_int_equal (waitpid (child, &status, 0), child);
  return WIFSIGNALED (status);
}

static void
own_file (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);

  assert_true (g_file_set_contents (path, "mine", -1, NULL));
}

static void
still_own (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL), *text = NULL;

  assert_true (g_file_get_contents (path, &text, NULL, NULL));
  assert_string_equal (text, "mine");
}

/* Old set OLD (-1: the folder is not there yet) and new set NEW: at whichever step the program dies, what stands
 * there is of one run; the next run leaves a whole set of its own and nothing hidden, and what is other people's
 * is theirs. */
static void
dies_at_every_step (int old, int new)
{
  bool more = true;
  int at = 0;

  for (; more; at++) {
    char *home = kit_folder ();
    g_autofree char *folder = g_build_filename (home, "shoe", NULL);

    if (old >= 0) {
      assert_true (write_run (folder, old, NULL));
      own_file (folder, "mine.txt");
    }
    more = killed_at (folder, new, at);
    int run = only_run (folder);
    assert_true (run == -1 || run == old || run == new);
    if (old < 0 && run >= 0) /* at once, all of it */
      assert_int_equal (entries (folder, false), new % 2 ? N - 1 : N);
    assert_true (write_run (folder, new + 2, NULL));
    assert_int_equal (only_run (folder), new + 2);
    assert_int_equal (entries (folder, false), (new % 2 ? N - 1 : N) + (old >= 0));
    assert_int_equal (entries (folder, true) + entries (home, true), 0);
    if (old >= 0)
      still_own (folder, "mine.txt");
    kit_folder_gone (home);
  }
  print_message ("run %d after run %d: %d steps\n", new, old, at - 1);
  assert_true (at > 12);
}

static void
test_killed_at_every_step (void **state)
{
  (void) state;
  dies_at_every_step (-1, 2);
  dies_at_every_step (2, 4);
  dies_at_every_step (2, 3); /* the old one has a DXF, the new one has none */
  dies_at_every_step (3, 4);
}

/* Killed, and what comes next is another file of that folder: the old set is whole again, or the new one is, and
 * which of them it is stands in the report. */
static void
test_next_one_puts_it_in_order (void **state)
{
  bool more = true, went_back = false, went_on = false;

  (void) state;
  for (int at = 0; more; at++) {
    char *folder = kit_folder ();
    g_autofree char *other = g_build_filename (folder, "other.txt", NULL);

    assert_true (write_run (folder, 2, NULL));
    more = killed_at (folder, 3, at);
    assert_true (pr_atomic_file_write (other, "x", 1, NULL));
    int run = run_of (folder, N - 1);
    assert_int_equal (only_run (folder), run);
    went_back |= run == 2;
    went_on |= run == 3 && more;
    assert_int_equal (entries (folder, true), 0);
    kit_folder_gone (folder);
  }
  assert_true (went_back && went_on);
}

/* Any step may fail, on a disk that does: the sentence says so and the old set stands; or it was placed by then,
 * and only the cleaning up failed. */
static void
test_every_step_may_fail (void **state)
{
  bool more = true;

  (void) state;
  for (int at = 0; more; at++) {
    char *folder = kit_folder ();
    g_autoptr (GError) error = NULL;

    assert_true (write_run (folder, 2, NULL));
    fail_in = at;
    bool done = write_run (folder, 4, &error);
    more = fail_in < 0;
    fail_in = -1;
    assert_true (done == (error == NULL));
    if (!done)
      assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_FILE));
    assert_int_equal (only_run (folder), done ? 4 : 2);
    assert_int_equal (entries (folder, false), N);
    assert_true (write_run (folder, 6, NULL));
    assert_int_equal (entries (folder, true), 0);
    kit_folder_gone (folder);
  }
}

/* Several at a time: each waits for the other. */
static void
test_in_turn (void **state)
{
  char *home = kit_folder ();
  g_autofree char *folder = g_build_filename (home, "shoe", NULL);
  pid_t child[4];

  (void) state;
  for (int k = 0; k < 4; k++)
    if ((child[k] = fork ()) == 0) {
      bool done = true;

      for (int i = 0; i < 60; i++)
        done = done && write_run (folder, 4 * i + k, NULL);
      _exit (done ? 0 : 1);
    }
  for (int k = 0; k < 4; k++) {
    int status;

    assert_int_equal (waitpid (child[k], &status, 0), child[k]);
    assert_true (WIFEXITED (status) && WEXITSTATUS (status) == 0);
  }
  assert_true (only_run (folder) >= 0 && run_of (folder, N - 1) >= 0);
  assert_int_equal (entries (folder, true) + entries (home, true), 0);
  kit_folder_gone (home);
}

/* What lives is left alone, and so is what is not ours. */
static void
test_rests_of_others (void **state)
{
  char *folder = kit_folder ();
  g_autofree char *file = g_build_filename (folder, "a.txt", NULL);
  g_autofree char *loot = g_build_filename (folder, ".pritchel-set-abcdef", NULL);
  g_autofree char *in = g_build_filename (loot, "in", NULL),
                  *hidden = g_build_filename (in, ".profile", NULL);
  g_autofree char *taken = g_build_filename (in, "mine.txt", NULL);
  g_autofree char *wrong = g_build_filename (folder, ".profile", NULL);

  (void) state;
  g_autoptr (PrFileSet) set = pr_file_set_begin (folder, NULL, NULL);
  assert_non_null (set);
  assert_true (pr_atomic_file_write (file, "x", 1, NULL));
  assert_true (g_file_test (pr_file_set_folder (set), G_FILE_TEST_IS_DIR));
  /* one that came out of somebody's archive: it makes no hidden file, and takes no place that is taken */
  own_file (folder, "mine.txt");
  assert_int_equal (g_mkdir_with_parents (in, 0700), 0);
  assert_true (g_file_set_contents (hidden, "theirs", -1, NULL));
  assert_true (g_file_set_contents (taken, "theirs", -1, NULL));
  assert_true (pr_atomic_file_write (file, "y", 1, NULL));
  assert_false (g_file_test (wrong, G_FILE_TEST_EXISTS));
  still_own (folder, "mine.txt");
  assert_false (g_file_test (loot, G_FILE_TEST_EXISTS));
  g_clear_pointer (&set, pr_file_set_free);
  assert_int_equal (entries (folder, true), 0);
  kit_folder_gone (folder);
}

/* --- places ------------------------------------------------------------------------------- */

static void
refuses (const char *path, const char *says)
{
  g_autoptr (GError) error = NULL;

  assert_false (pr_atomic_file_write (path, "x", 1, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_FILE));
  if (!strstr (error->message, says))
    fail_msg ("%s: %s", path, error->message);
  assert_true (g_str_has_suffix (error->message, "."));
}

/* A link is neither followed nor replaced, wherever it leads; a link to the folder is only a way to it. */
static void
test_links (void **state)
{
  char *home = kit_folder ();
  g_autofree char *folder = g_build_filename (home, "shoe", NULL),
                  *way = g_build_filename (home, "way", NULL);
  g_autofree char *link = g_build_filename (folder, names[2], NULL);
  g_autofree char *secret = g_build_filename (home, "secret", NULL), *text = NULL, *to = NULL;
  g_autoptr (GError) error = NULL;

  (void) state;
  assert_int_equal (g_mkdir (folder, 0700), 0);
  own_file (home, "secret");
  assert_int_equal (symlink (secret, link), 0);
  assert_false (write_run (folder, 2, &error));
  assert_non_null (strstr (error->message, "list.txt is a link"));
  assert_int_equal (entries (folder, false) + entries (folder, true), 1);
  refuses (link, "is a link");
  still_own (home, "secret");
  unlink (secret); /* one that leads nowhere makes nothing there */
  refuses (link, "is a link");
  assert_false (g_file_test (secret, G_FILE_TEST_EXISTS));
  to = g_file_read_link (link, NULL);
  assert_string_equal (to, secret);
  unlink (link);
  assert_int_equal (symlink (folder, way), 0);
  assert_true (write_run (way, 4, NULL));
  assert_int_equal (only_run (folder), 4);
  assert_true (g_file_test (way, G_FILE_TEST_IS_SYMLINK));
  kit_folder_gone (home);
}

static void
test_sentences (void **state)
{
  char *home = kit_folder ();
  g_autofree char *gone = g_build_filename (home, "gone", "a.txt", NULL),
                  *pipe = g_build_filename (home, "p", NULL);
  g_autofree char *file = g_build_filename (home, "a.txt", NULL), *below = g_build_filename (file, "b", NULL);
  g_autoptr (GString) name = g_string_new (home);
  g_autoptr (GError) error = NULL;

  (void) state;
  own_file (home, "a.txt");
  g_string_append_c (name, '/');
  for (int i = 0; i < 64; i++)
    g_string_append (name,
                     "\360\237\220\264"); /* a horse of four bytes: 256, one more than a name may have */
  refuses (name->str, "its name is too long");
  g_string_truncate (name, name->len - 4);
  assert_true (pr_atomic_file_write (name->str, "x", 1, NULL));
  refuses (gone, "its folder is not there");
  refuses (below, "its folder is not there");
  assert_int_equal (mkfifo (pipe, 0600), 0);
  refuses (pipe, "is not a plain file");
  refuses (home, "is a folder");
  refuses ("/proc/nowhere", "could not be written");
  assert_false (write_run (file, 2, &error));
  assert_non_null (strstr (error->message, "could not be made"));
  if (geteuid () != 0) {
    g_chmod (home, 0500);
    refuses (file, "that is not allowed there");
    g_chmod (home, 0700);
  }
  still_own (home, "a.txt");
  fail_as = ENOSPC;
  for (int at = 1; at <= 2; at++) { /* the writing of it, and the putting on the disk */
    fail_in = at;
    refuses (file, "there is no room left");
  }
  fail_as = EIO;
  still_own (home, "a.txt");
  kit_folder_gone (home);
}

/* A folder that goes away while the set is made: it is said, and nothing is left anywhere. */
static void
test_vanished_folder (void **state)
{
  char *home = kit_folder ();
  g_autofree char *folder = g_build_filename (home, "shoe", NULL);
  g_autofree char *away = g_build_filename (home, "away", NULL);
  static const char *const one[] = { "a.txt", NULL };
  g_autoptr (GError) error = NULL;

  (void) state;
  assert_int_equal (g_mkdir (folder, 0700), 0);
  g_autoptr (PrFileSet) set = pr_file_set_begin (folder, NULL, NULL);
  assert_non_null (set);
  own_file (pr_file_set_folder (set), "a.txt");
  assert_int_equal (rename (folder, away), 0);
  assert_false (pr_file_set_place (set, one, &error));
  assert_non_null (error);
  kit_folder_gone (home);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_killed_at_every_step),
    cmocka_unit_test (test_next_one_puts_it_in_order),
    cmocka_unit_test (test_every_step_may_fail),
    cmocka_unit_test (test_in_turn),
    cmocka_unit_test (test_rests_of_others),
    cmocka_unit_test (test_links),
    cmocka_unit_test (test_sentences),
    cmocka_unit_test (test_vanished_folder),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
