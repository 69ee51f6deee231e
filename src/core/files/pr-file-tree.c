/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-file-tree.h"

#include <errno.h>
#include <fcntl.h>
#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>
#include "pr-file-places.h"

#define PREFIX ".pritchel-tree-"
#define MOST_OPEN 16 /* folders while one is taken away */

struct _PrFileTree {
  char *above, *name;
  char *hidden, *fresh; /* FRESH in HIDDEN: what is to be placed */
  int lock;             /* on HIDDEN: we live; -1 none */
};

static int
remove_one (const char *path, const struct stat *st, int kind, struct FTW *where)
{
  (void) st;
  (void) kind;
  (void) where;
  remove (path);
  return 0;
}

/* No link in it is followed. */
static void
remove_all (const char *folder)
{
  nftw (folder, remove_one, MOST_OPEN, FTW_DEPTH | FTW_PHYS);
}

/* -1 where somebody holds it, or it cannot be locked. */
static int
lock_folder (const char *folder)
{
  int fd = open (folder, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);

  if (fd >= 0 && flock (fd, LOCK_EX | LOCK_NB) == 0)
    return fd;
  if (fd >= 0)
    close (fd);
  return -1;
}

/* What dead programs left. */
static void
sweep (const char *above)
{
  g_autoptr (GDir) dir = g_dir_open (above, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *path = g_build_filename (above, name, NULL);
    struct stat st;
    bool ours = g_str_has_prefix (name, PREFIX) && lstat (path, &st) == 0 && st.st_uid == geteuid ();
    int lock = ours ? lock_folder (path) : -1;

    if (lock < 0)
      continue;
    remove_all (path);
    close (lock);
  }
}

/* The hidden one is for nobody else; what comes of it has the modes of any new folder. FALSE with errno. */
static bool
make_hidden (PrFileTree *tree)
{
  char *form = g_build_filename (tree->above, PREFIX "XXXXXX", NULL);

  if (mkdtemp (form) == NULL) {
    g_free (form);
    return false;
  }
  tree->hidden = form;
  tree->lock = lock_folder (form);
  tree->fresh = g_build_filename (form, "new", NULL);
  return mkdir (tree->fresh, 0777) == 0;
}

PrFileTree *
pr_file_tree_begin (const char *above, const char *name, GError **error)
{
  g_autoptr (PrFileTree) tree = g_new0 (PrFileTree, 1);

  tree->lock = -1;
  tree->above = g_canonicalize_filename (above, NULL);
  tree->name = g_strdup (name);
  if (g_mkdir_with_parents (tree->above, 0777) != 0) {
    pr_file_fail_folder (tree->above, errno, error);
    return NULL;
  }
  sweep (tree->above);
  if (make_hidden (tree))
    return g_steal_pointer (&tree);
  pr_file_fail_folder (tree->above, errno, error);
  return NULL;
}

char *
pr_file_tree_path (PrFileTree *tree, const char *path, GError **error)
{
  g_autofree char *file = g_build_filename (tree->fresh, path, NULL);
  g_autofree char *folder = g_path_get_dirname (file);

  if (g_mkdir_with_parents (folder, 0777) == 0)
    return g_steal_pointer (&file);
  pr_file_fail (tree->above, errno, error);
  return NULL;
}

bool
pr_file_tree_add (PrFileTree *tree, const char *path, const void *data, gsize len, GError **error)
{
  g_autofree char *file = pr_file_tree_path (tree, path, error);
  FILE *out = file != NULL ? fopen (file, "wxe") : NULL;
  bool opened = out != NULL;

  if (file == NULL)
    return false;
  errno = opened ? 0 : errno;
  bool whole = opened && (len == 0 || fwrite (data, len, 1, out) == 1);
  int number = errno;
  if (opened && fclose (out) != 0 && whole) {
    whole = false;
    number = errno;
  }
  return whole ? true : pr_file_fail (tree->above, number, error);
}

/* Never over what lies there. */
static int
rename_new (const char *from, const char *to)
{
  struct stat st;
  int code = renameat2 (AT_FDCWD, from, AT_FDCWD, to, RENAME_NOREPLACE);

  if (code == 0 || (errno != EINVAL && errno != ENOSYS))
    return code;
  if (lstat (to, &st) == 0) { /* a file system that knows no such rename */
    errno = EEXIST;
    return -1;
  }
  return rename (from, to);
}

static bool
put_on_disk (const PrFileTree *tree)
{
  int fd = open (tree->hidden, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  bool done = fd >= 0 && syncfs (fd) == 0;
  int number = errno;

  if (fd >= 0)
    close (fd);
  errno = number;
  return done;
}

char *
pr_file_tree_place (PrFileTree *tree, GError **error)
{
  g_autofree char *goal = g_build_filename (tree->above, tree->name, NULL);

  if (!put_on_disk (tree)) {
    pr_file_fail (goal, errno, error);
    return NULL;
  }
  for (int i = 2; rename_new (tree->fresh, goal) != 0; i++) {
    if (errno != EEXIST) {
      pr_file_fail_folder (goal, errno, error);
      return NULL;
    }
    g_free (goal);
    goal = g_strdup_printf ("%s/%s-%d", tree->above, tree->name, i);
  }
  return g_steal_pointer (&goal);
}

void
pr_file_tree_free (PrFileTree *tree)
{
  if (tree == NULL)
    return;
  if (tree->hidden != NULL)
    remove_all (tree->hidden);
  if (tree->lock >= 0)
    close (tree->lock);
  g_free (tree->above);
  g_free (tree->name);
  g_free (tree->hidden);
  g_free (tree->fresh);
  g_free (tree);
}
