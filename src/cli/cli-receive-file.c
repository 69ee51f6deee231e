/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli-receive-file.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <stdbool.h>
#include <stdio.h>
#include <sys/stat.h>
#include <unistd.h>

#include "pr-file-places.h"

#define SLICE 65536
#define MODE (S_IRUSR | S_IWUSR | S_IRGRP | S_IROTH)

/* From the start of FROM, whoever else has read it. */
static bool
copy (int from, int to)
{
  char room[SLICE];
  off_t at = 0;
  ssize_t n;

  while ((n = pread (from, room, sizeof room, at)) > 0) {
    for (ssize_t done = 0, one; done < n; done += one)
      if ((one = write (to, room + done, (size_t) (n - done))) < 0)
        return false;
    at += n;
  }
  return n == 0 && fsync (to) == 0;
}

/* ASIDE under its name, where nothing stands under it; there are file systems that know only one of the two ways. */
static bool
place (const char *aside, const char *path)
{
  if (renameat2 (AT_FDCWD, aside, AT_FDCWD, path, RENAME_NOREPLACE) == 0)
    return true;
  if (errno != EINVAL && errno != ENOSYS)
    return false;
  return link (aside, path) == 0 && unlink (aside) == 0;
}

static char *
place_free (const char *aside, const char *folder, const char *ending, int *number)
{
  char *path = NULL;

  do {
    g_free (path);
    path = g_strdup_printf ("%s%sphoto-%d.%s", folder, g_str_has_suffix (folder, "/") ? "" : "/", (*number)++,
                            ending);
    if (place (aside, path))
      return path;
  } while (errno == EEXIST);
  g_free (path);
  return NULL;
}

char *
cli_receive_keep (int file, const char *folder, const char *ending, int *number, GError **error)
{
  g_autofree char *aside = g_build_filename (folder, ".pritchel-photo-XXXXXX", NULL);
  int to = g_mkstemp_full (aside, O_WRONLY | O_CLOEXEC, MODE);
  bool whole = to >= 0 && copy (file, to) && fchmod (to, MODE) == 0;
  int why = errno;

  if (to >= 0)
    close (to);
  char *path = whole ? place_free (aside, folder, ending, number) : NULL;
  if (path != NULL)
    return path;
  why = whole ? errno : why;
  if (to >= 0)
    unlink (aside);
  pr_file_fail (folder, why, error);
  return NULL;
}
