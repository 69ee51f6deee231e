/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-atomic-file.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <unistd.h>
#include "pr-file-places.h"
#include "pr-file-set.h"

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

/* FILE's new bytes, where SET keeps them until they are placed. */
static bool
write_aside (PrFileSet *set, const PrAtomicFile *file, GError **error)
{
  g_autofree char *base = g_path_get_basename (file->file);
  g_autofree char *aside = g_build_filename (pr_file_set_folder (set), base, NULL);
  int fd = g_open (aside, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);

  if (fd < 0)
    return pr_file_fail (file->file, errno, error);
  bool whole = write_out (fd, file->data, file->len);
  int number = errno;
  if (close (fd) != 0 && whole) {
    whole = false;
    number = errno;
  }
  return whole ? true : pr_file_fail (file->file, number, error);
}

static bool
write_set (PrFileSet *set, const PrAtomicFile *files, size_t n, GError **error)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  for (size_t i = 0; i < n; i++) {
    g_ptr_array_add (names, g_path_get_basename (files[i].file));
    if (files[i].data != NULL && !write_aside (set, &files[i], error))
      return false;
  }
  g_ptr_array_add (names, NULL);
  return pr_file_set_place (set, (const char *const *) names->pdata, error);
}

bool
pr_atomic_files_write (const PrAtomicFile *files, size_t n, GError **error)
{
  g_return_val_if_fail (n > 0, false);
  g_autofree char *folder = g_path_get_dirname (files[0].file);
  g_autoptr (PrFileSet) set = pr_file_set_begin (folder, n == 1 ? files[0].file : NULL, error);

  return set != NULL && write_set (set, files, n, error);
}

bool
pr_atomic_file_write (const char *file, const char *data, gsize len, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (file);
  struct stat st;

  /* what is wrong with the folder is told of the file, and told before anything is made */
  if (stat (folder, &st) != 0)
    return pr_file_fail (file, errno, error);
  if (!S_ISDIR (st.st_mode))
    return pr_file_fail (file, ENOTDIR, error);
  return pr_atomic_files_write (&(PrAtomicFile){ file, data, len }, 1, error);
}
