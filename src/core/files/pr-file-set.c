/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-file-set.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#include "pr-file-places.h"
#include "pr-file-rests.h"

struct _PrFileSet {
  char *folder; /* where the files are to stand */
  char *told;   /* what a failure is told of */
  char *place;  /* where the hidden folder is: FOLDER, or the one round it */
  char *hidden, *fresh, *old, *in;
  int lock; /* on HIDDEN: we live; -1 none */
  bool placed;
};

/* --- the beginning --- */

static bool
is_folder (const char *path)
{
  struct stat st;

  return stat (path, &st) == 0 && S_ISDIR (st.st_mode);
}

/* Where the hidden folder is to lie, which is made sure to be there; its lock. FALSE with error. */
static bool
find_place (PrFileSet *set, int *lock, GError **error)
{
  g_autofree char *above = g_path_get_dirname (set->folder);
  struct stat st;
  bool there = stat (set->folder, &st) == 0;

  if (there && !S_ISDIR (st.st_mode))
    return pr_file_fail_folder (set->folder, ENOTDIR, error);
  if (!there && g_mkdir_with_parents (above, 0777) != 0)
    return pr_file_fail_folder (set->folder, errno, error);
  set->place = g_strdup (there ? set->folder : above);
  *lock = pr_folder_lock (set->place);
  return *lock >= 0 || errno == 0 ? true : pr_file_fail (set->told, errno, error);
}

/* A set whose folder was not there leaves its rest in the one above. */
static void
sweep_above (const PrFileSet *set)
{
  g_autofree char *above = g_path_get_dirname (set->folder);
  int lock = strcmp (set->place, above) != 0 ? pr_folder_lock (above) : -1;

  if (lock >= 0)
    pr_file_rests_sweep (above);
  pr_folder_unlock (lock);
}

/* HIDDEN is the one, wherever it lies. */
static void
name_hidden (PrFileSet *set, const char *hidden)
{
  char **const path[] = { &set->hidden, &set->fresh, &set->old, &set->in };
  static const char *const part[] = { "", PR_SET_NEW, PR_SET_OLD, PR_SET_IN };

  for (size_t i = 0; i < G_N_ELEMENTS (path); i++) {
    g_free (*path[i]);
    *path[i] = i == 0 ? g_strdup (hidden) : g_build_filename (hidden, part[i], NULL);
  }
}

/* A hidden folder of our own, with nothing in it yet. */
static bool
make_hidden (PrFileSet *set, GError **error)
{
  g_autofree char *form = g_build_filename (set->place, PR_SET_PREFIX "XXXXXX", NULL);

  if (mkdtemp (form) == NULL)
    return pr_file_fail (set->told, errno, error);
  name_hidden (set, form);
  set->lock = pr_folder_lock (set->hidden);
  return mkdir (set->fresh, 0777) == 0 ? true : pr_file_fail (set->told, errno, error);
}

/* "a/" and "a/." are the folder a, whether it is there or not. Transfer full. */
static char *
whole_path (const char *folder)
{
  g_autofree char *path = g_canonicalize_filename (folder, NULL);
  g_autofree char *real = is_folder (path) ? realpath (path, NULL) : NULL;

  return g_strdup (real != NULL ? real : path);
}

PrFileSet *
pr_file_set_begin (const char *folder, const char *told, GError **error)
{
  g_autoptr (PrFileSet) set = g_new0 (PrFileSet, 1);
  int lock = -1;

  set->lock = -1;
  set->folder = whole_path (folder);
  set->told = g_strdup (told != NULL ? told : set->folder);
  bool done = find_place (set, &lock, error);
  if (done && lock >= 0)
    pr_file_rests_sweep (set->place);
  done = done && make_hidden (set, error);
  pr_folder_unlock (lock);
  if (done)
    sweep_above (set);
  return done ? g_steal_pointer (&set) : NULL;
}

const char *
pr_file_set_folder (const PrFileSet *set)
{
  return set->fresh;
}

/* --- the disk --- */

static bool
put_on_disk (const char *path, int flags)
{
  int fd = open (path, flags | O_CLOEXEC | O_NOFOLLOW);
  bool done = fd >= 0 && fsync (fd) == 0;
  int number = errno;

  if (fd >= 0)
    close (fd);
  errno = number;
  return done;
}

/* The folder's own record, so that the names survive a power cut; not every file system can. */
static void
put_folder_on_disk (const char *path)
{
  (void) put_on_disk (path, O_RDONLY | O_DIRECTORY);
}

/* --- the way in --- */

static const char *
last_of (const char *const *names)
{
  return names[g_strv_length ((char **) names) - 1];
}

static bool
is_there (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  struct stat st;

  return lstat (path, &st) == 0 && S_ISREG (st.st_mode);
}

/* The new file NAME has the permissions of the one it follows, and is on the disk. */
static bool
make_ready (const PrFileSet *set, const char *name, GError **error)
{
  g_autofree char *goal = g_build_filename (set->folder, name, NULL);
  g_autofree char *fresh = g_build_filename (set->fresh, name, NULL);
  mode_t mode;

  if (!is_there (set->fresh, name))
    return true;
  if (!pr_file_place_is_free (goal, &mode, error))
    return false;
  if ((mode == 0 || chmod (fresh, mode) == 0) && put_on_disk (fresh, O_RDONLY))
    return true;
  return pr_file_fail (goal, errno, error);
}

/* Moves NAME from folder FROM to folder TO; nothing to move is no failure. */
static bool
move (const PrFileSet *set, const char *from, const char *to, const char *name, GError **error)
{
  g_autofree char *start = g_build_filename (from, name, NULL), *goal = g_build_filename (to, name, NULL);
  g_autofree char *known = g_build_filename (set->folder, name, NULL);

  if (!is_there (from, name) || rename (start, goal) == 0)
    return true;
  return pr_file_fail (known, errno, error);
}

/* All old ones out, the last name first. One without a successor is of the old set if the rest of it stands
 * there too; else it is somebody's own. */
static bool
old_out (const PrFileSet *set, const char *const *names, GError **error)
{
  bool whole = is_there (set->folder, last_of (names));
  bool done = mkdir (set->old, 0700) == 0 || pr_file_fail (set->told, errno, error);

  for (size_t i = g_strv_length ((char **) names); done && i-- > 0;)
    if (whole || is_there (set->fresh, names[i]))
      done = move (set, set->folder, set->old, names[i], error);
  if (!done)
    pr_files_move (set->old, set->folder, last_of (names));
  return done;
}

/* All new ones in, the last name last; or out again, and the old ones back. */
static bool
new_in (const PrFileSet *set, const char *const *names, GError **error)
{
  size_t n = 0;
  bool done = rename (set->fresh, set->in) == 0 || pr_file_fail (set->told, errno, error);

  while (done && names[n] != NULL)
    if ((done = move (set, set->in, set->folder, names[n], error)))
      n++;
  if (done)
    return true;
  while (n-- > 0)
    (void) move (set, set->folder, set->in, names[n], NULL);
  (void) !rename (set->in, set->fresh);
  pr_files_move (set->old, set->folder, last_of (names));
  return false;
}

static bool
swap (const PrFileSet *set, const char *const *names, GError **error)
{
  g_autofree char *last = g_build_filename (set->hidden, PR_SET_LAST, NULL);
  sigset_t ending, before;

  if (symlink (last_of (names), last) != 0 && errno != EPERM) /* EPERM: a file system without links */
    return pr_file_fail (set->told, errno, error);
  sigemptyset (&ending);
  sigaddset (&ending, SIGINT);
  sigaddset (&ending, SIGTERM);
  sigaddset (&ending, SIGHUP);
  pthread_sigmask (SIG_BLOCK, &ending, &before);
  bool done = old_out (set, names, error) && new_in (set, names, error);
  pthread_sigmask (SIG_SETMASK, &before, NULL);
  return done;
}

/* FOLDER has been made by somebody since: the hidden one moves into it, so that its rest would be looked for
 * in the right place. The lock on FOLDER, -1 none. FALSE with error. */
static bool
follow_folder (PrFileSet *set, int *lock, GError **error)
{
  g_autofree char *base = g_path_get_basename (set->hidden);
  g_autofree char *inside = g_build_filename (set->folder, base, NULL);

  *lock = pr_folder_lock (set->folder);
  if ((*lock < 0 && errno != 0) || rename (set->hidden, inside) != 0)
    return pr_file_fail (set->told, errno, error);
  name_hidden (set, inside);
  g_free (set->place);
  set->place = g_strdup (set->folder);
  return true;
}

/* One name, or a folder that is not there: one rename does it. */
static bool
place_all (PrFileSet *set, const char *const *names, GError **error)
{
  int lock = -1;
  bool outside = strcmp (set->place, set->folder) != 0, there = is_folder (set->folder);
  bool done = !outside || !there || follow_folder (set, &lock, error);

  for (size_t i = 0; done && names[i] != NULL; i++)
    done = make_ready (set, names[i], error);
  put_folder_on_disk (set->fresh);
  if (done && outside && !there)
    done = rename (set->fresh, set->folder) == 0 || pr_file_fail_folder (set->folder, errno, error);
  else if (done)
    done = names[1] != NULL ? swap (set, names, error) : move (set, set->fresh, set->folder, names[0], error);
  pr_folder_unlock (lock);
  return done;
}

bool
pr_file_set_place (PrFileSet *set, const char *const *names, GError **error)
{
  g_return_val_if_fail (names[0] != NULL, false);
  int lock = pr_folder_lock (set->place);

  if ((lock < 0 && errno != 0) || access (set->fresh, F_OK) != 0) {
    int number = errno;

    pr_folder_unlock (lock);
    return pr_file_fail (set->told, number, error);
  }
  set->placed = place_all (set, names, error);
  if (set->placed)
    put_folder_on_disk (set->place);
  pr_folder_unlock (lock);
  return set->placed;
}

/* --- the end --- */

static bool
holds_something (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);

  return dir != NULL && g_dir_read_name (dir) != NULL;
}

void
pr_file_set_free (PrFileSet *set)
{
  if (set == NULL)
    return;
  /* what could not be put back, on a disk that fails, stays for the next run to put in order */
  if (set->hidden != NULL && (set->placed || !(holds_something (set->old) || holds_something (set->in))))
    pr_folder_remove (set->hidden);
  pr_folder_unlock (set->lock);
  g_free (set->folder);
  g_free (set->told);
  g_free (set->place);
  g_free (set->hidden);
  g_free (set->fresh);
  g_free (set->old);
  g_free (set->in);
  g_free (set);
}
