/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-file-places.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <sys/stat.h>
#include <unistd.h>
#include "pr-error.h"
#include "pr-text.h"

/* The %s is the file. NULL: nothing better than the system's own words is known. */
static const char *
sentence (int number)
{
  switch (number) {
  case ENOSPC:
  case EDQUOT:
    return _ ("%s could not be written: there is no room left; make room or choose another folder.");
  case EACCES:
  case EPERM:
  case EROFS:
    return _ ("%s could not be written: that is not allowed there; choose a folder of your own.");
  case ENOENT:
  case ENOTDIR:
    return _ ("%s could not be written: its folder is not there; choose another folder.");
  case ENAMETOOLONG:
    return _ ("%s could not be written: its name is too long; give it a shorter one.");
  case EWOULDBLOCK:
    return _ ("%s could not be written: another program is writing there; try again when it has finished.");
  default:
    return NULL;
  }
}

bool
pr_file_fail (const char *file, int number, GError **error)
{
  g_autofree char *name = pr_text_file (file);
  const char *known = sentence (number);

  if (known != NULL)
    g_set_error (error, PR_ERROR, PR_ERROR_FILE, known, name);
  else
    g_set_error (error, PR_ERROR, PR_ERROR_FILE,
                 _ ("%s could not be written (%s); choose another folder or make room."), name,
                 g_strerror (number));
  return false;
}

bool
pr_file_fail_folder (const char *folder, int number, GError **error)
{
  g_autofree char *shown = g_filename_display_name (folder);
  g_autofree char *name = pr_text_name (shown);

  g_set_error (error, PR_ERROR, PR_ERROR_FILE,
               _ ("The folder %s could not be made (%s); choose another place."), name, g_strerror (number));
  return false;
}

bool
pr_file_place_is_free (const char *file, mode_t *mode, GError **error)
{
  g_autofree char *name = pr_text_file (file);
  struct stat st;

  *mode = 0;
  if (lstat (file, &st) != 0)
    return errno == ENOENT ? true : pr_file_fail (file, errno, error);
  if (S_ISLNK (st.st_mode))
    g_set_error (error, PR_ERROR, PR_ERROR_FILE,
                 _ ("%s is a link to another place; give another name, or that of the file itself."), name);
  else if (S_ISDIR (st.st_mode))
    g_set_error (error, PR_ERROR, PR_ERROR_FILE, _ ("%s is a folder; give a file name inside it."), name);
  else if (!S_ISREG (st.st_mode))
    g_set_error (error, PR_ERROR, PR_ERROR_FILE, _ ("%s is not a plain file; give another name."), name);
  else if ((st.st_mode & 0222) == 0 || access (file, W_OK) != 0)
    g_set_error (error, PR_ERROR, PR_ERROR_FILE,
                 _ ("%s is write-protected; give another name or allow writing to it."), name);
  else {
    *mode = st.st_mode & 0777;
    return true;
  }
  return false;
}
