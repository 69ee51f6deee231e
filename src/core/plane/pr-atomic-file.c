/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-atomic-file.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>
#include "pr-error.h"

/* One file on its way: written beside its place, then renamed into it. */
typedef struct {
  char *file;  /* as asked for, symbolic links followed */
  char *fresh; /* the whole new file under another name; NULL when not there */
  char *old;   /* what stood at FILE, while others of the set may still fail */
  bool placed;
} Parcel;

static bool
write_error (GError **error, const char *file, int number)
{
  g_autofree char *name = g_filename_display_basename (file);

  g_set_error (error, PR_ERROR, PR_ERROR_FILE,
               _ ("%s could not be written (%s); choose another folder or make room."), name,
               g_strerror (number));
  return false;
}

/* What stands at FILE must be nothing, or a plain file that may be written. MODE receives the
 * permissions to give. */
static bool
place_is_free (const char *file, mode_t *mode, GError **error)
{
  g_autofree char *name = g_filename_display_basename (file);
  GStatBuf st;

  *mode = 0;
  if (g_stat (file, &st) != 0)
    return errno == ENOENT ? true : write_error (error, file, errno);
  if (S_ISDIR (st.st_mode))
    g_set_error (error, PR_ERROR, PR_ERROR_FILE, _ ("%s is a folder; give a file name inside it."), name);
  else if (!S_ISREG (st.st_mode))
    g_set_error (error, PR_ERROR, PR_ERROR_FILE, _ ("%s is not a plain file; give another name."), name);
  else if ((st.st_mode & 0222) == 0 || g_access (file, W_OK) != 0)
    g_set_error (error, PR_ERROR, PR_ERROR_FILE,
                 _ ("%s is write-protected; give another name or allow writing to it."), name);
  else {
    *mode = st.st_mode & 0777;
    return true;
  }
  return false;
}

static bool
write_out (int fd, const char *data, gsize len)
{
  while (len > 0) {
    ssize_t n = write (fd, data, len);

    if (n < 0 && errno == EINTR)
      continue;
    if (n <= 0)
      return false;
    data += n;
    len -= (gsize) n;
  }
  return true;
}

/* A name beside FILE that mkstemp may fill. Transfer full. */
static char *
name_beside (const char *file)
{
  g_autofree char *dir = g_path_get_dirname (file);
  g_autofree char *base = g_path_get_basename (file);
  g_autofree char *name = g_strdup_printf (".%.100s.XXXXXX", base);

  return g_build_filename (dir, name, NULL);
}

static bool
parcel_pack (Parcel *parcel, const char *file, const char *data, gsize len, GError **error)
{
  char *real = realpath (file, NULL);
  mode_t mode;

  parcel->file = g_strdup (real != NULL ? real : file);
  free (real);
  if (!place_is_free (parcel->file, &mode, error))
    return false;
  g_autofree char *fresh = name_beside (parcel->file);
  int fd = g_mkstemp_full (fresh, O_RDWR | O_CLOEXEC, 0666);
  if (fd < 0)
    return write_error (error, file, errno);
  parcel->fresh = g_steal_pointer (&fresh);
  bool whole = write_out (fd, data, len) && (mode == 0 || fchmod (fd, mode) == 0) && fsync (fd) == 0;
  int number = errno;
  if (close (fd) != 0 && whole) {
    whole = false;
    number = errno;
  }
  return whole ? true : write_error (error, file, number);
}

/* Keeps what stands at the place under another name, so that it can be put back. */
static void
parcel_keep_old (Parcel *parcel)
{
  g_autofree char *old = name_beside (parcel->file);
  int fd = g_mkstemp_full (old, O_RDWR | O_CLOEXEC, 0600);

  if (fd < 0)
    return;
  close (fd);
  g_unlink (old);
  if (link (parcel->file, old) == 0 || rename (parcel->file, old) == 0)
    parcel->old = g_steal_pointer (&old);
}

static bool
parcel_place (Parcel *parcel, GError **error)
{
  if (g_file_test (parcel->file, G_FILE_TEST_EXISTS))
    parcel_keep_old (parcel);
  if (rename (parcel->fresh, parcel->file) != 0)
    return write_error (error, parcel->file, errno);
  g_clear_pointer (&parcel->fresh, g_free);
  parcel->placed = true;
  return true;
}

/* Leaves the new file (DONE), or everything as it was. */
static void
parcel_end (Parcel *parcel, bool done)
{
  if (parcel->file == NULL)
    return;
  if (!done && parcel->placed && parcel->old == NULL)
    g_unlink (parcel->file);
  /* not where both are names of one file: rename would leave both */
  bool gone = parcel->placed || !g_file_test (parcel->file, G_FILE_TEST_EXISTS);
  if (!done && parcel->old != NULL && gone && rename (parcel->old, parcel->file) == 0)
    g_clear_pointer (&parcel->old, g_free);
  if (parcel->old != NULL)
    g_unlink (parcel->old);
  if (parcel->fresh != NULL)
    g_unlink (parcel->fresh);
  g_free (parcel->file);
  g_free (parcel->fresh);
  g_free (parcel->old);
}

/* The folder's own record, so that the names survive a power cut; not every file system can. */
static void
sync_folder (const char *file)
{
  g_autofree char *dir = g_path_get_dirname (file);
  int fd = g_open (dir, O_RDONLY | O_DIRECTORY | O_CLOEXEC, 0);

  if (fd >= 0) {
    (void) fsync (fd);
    close (fd);
  }
}

bool
pr_atomic_files_write (const PrAtomicFile *files, size_t n, GError **error)
{
  g_autofree Parcel *parcel = g_new0 (Parcel, n);
  bool done = true;

  for (size_t i = 0; i < n && done; i++)
    done = parcel_pack (&parcel[i], files[i].file, files[i].data, files[i].len, error);
  for (size_t i = 0; i < n && done; i++)
    done = parcel_place (&parcel[i], error);
  if (done && n > 0)
    sync_folder (parcel[0].file);
  for (size_t i = 0; i < n; i++)
    parcel_end (&parcel[i], done);
  return done;
}

bool
pr_atomic_file_write (const char *file, const char *data, gsize len, GError **error)
{
  return pr_atomic_files_write (&(PrAtomicFile){ file, data, len }, 1, error);
}
