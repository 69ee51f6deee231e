/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-file-rests.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

/* How long another one may take to place its set; ours takes milliseconds, a slow disk some seconds. */
#define LOCK_WAIT_S 10
#define LOCK_STEP_MS 20

/* --- locks --- */

/* Takes the lock of the open folder FD; 0, or errno. */
static int
lock_now (int fd)
{
  int failed;

  do
    failed = flock (fd, LOCK_EX | LOCK_NB);
  while (failed && errno == EINTR);
  return failed ? errno : 0;
}

static int
open_folder (const char *folder)
{
  return open (folder, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
}

int
pr_folder_lock (const char *folder)
{
  g_autofree char *itself = g_build_filename (folder, ".", NULL); /* not the link that may lead to it */
  int fd = open_folder (itself), number = fd < 0 ? errno : lock_now (fd);

  for (int ms = 0; number == EWOULDBLOCK && ms < LOCK_WAIT_S * 1000; ms += LOCK_STEP_MS) {
    g_usleep (LOCK_STEP_MS * 1000);
    number = lock_now (fd);
  }
  if (number == 0)
    return fd;
  if (fd >= 0)
    close (fd);
  errno = number == EWOULDBLOCK ? number : 0;
  return -1;
}

void
pr_folder_unlock (int lock)
{
  if (lock >= 0)
    close (lock);
}

/* --- what is in a folder --- */

/* Is it a plain file whose name is not hidden? */
static bool
is_plain (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  struct stat st;

  return name[0] != '.' && lstat (path, &st) == 0 && S_ISREG (st.st_mode);
}

/* FALSE: it has no place yet and could not be moved to it. Where something stands that came later, that stays. */
static bool
move_one (const char *from, const char *to, const char *name)
{
  g_autofree char *start = g_build_filename (from, name, NULL), *goal = g_build_filename (to, name, NULL);
  struct stat st;

  return lstat (goal, &st) == 0 || (errno == ENOENT && rename (start, goal) == 0);
}

bool
pr_files_move (const char *from, const char *to, const char *last)
{
  g_autoptr (GDir) dir = g_dir_open (from, 0, NULL);
  const char *name;
  bool all = true;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_strcmp0 (name, last) != 0 && is_plain (from, name))
      all = move_one (from, to, name) && all;
  if (all && last != NULL && is_plain (from, last))
    all = move_one (from, to, last);
  return all;
}

/* Files and links of FOLDER, and itself when it is empty then. */
static void
remove_flat (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *path = g_build_filename (folder, name, NULL);

    unlink (path);
  }
  rmdir (folder);
}

void
pr_folder_remove (const char *folder)
{
  static const char *const inside[] = { PR_SET_NEW, PR_SET_OLD, PR_SET_IN };

  for (gsize i = 0; i < G_N_ELEMENTS (inside); i++) {
    g_autofree char *path = g_build_filename (folder, inside[i], NULL);
    struct stat st;

    if (lstat (path, &st) == 0 && S_ISDIR (st.st_mode))
      remove_flat (path);
  }
  remove_flat (folder);
}

/* --- rests --- */

/* The set of a dead program: on with it where all of the old is out, back where it is not. */
static void
put_in_order (const char *folder, const char *rest)
{
  g_autofree char *in = g_build_filename (rest, PR_SET_IN, NULL);
  g_autofree char *old = g_build_filename (rest, PR_SET_OLD, NULL);
  g_autofree char *link = g_build_filename (rest, PR_SET_LAST, NULL);
  g_autofree char *last = g_file_read_link (link, NULL);
  bool on = g_file_test (in, G_FILE_TEST_IS_DIR);

  if (pr_files_move (on ? in : old, folder, last))
    pr_folder_remove (rest);
}

/* Ours, and of no process that still runs? The lock on it, or -1. */
static int
lock_dead (const char *rest)
{
  struct stat st;
  int fd = open_folder (rest);

  if (fd >= 0 && fstat (fd, &st) == 0 && st.st_uid == geteuid () && lock_now (fd) == 0)
    return fd;
  if (fd >= 0)
    close (fd);
  return -1;
}

void
pr_file_rests_sweep (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL) {
    if (!g_str_has_prefix (name, PR_SET_PREFIX))
      continue;
    g_autofree char *rest = g_build_filename (folder, name, NULL);
    int lock = lock_dead (rest);

    if (lock >= 0)
      put_in_order (folder, rest);
    pr_folder_unlock (lock);
  }
}
