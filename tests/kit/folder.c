/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "folder.h"

#include <glib/gstdio.h>

char *
kit_folder (void)
{
  char *folder = g_dir_make_tmp ("pritchel-test-XXXXXX", NULL);

  if (folder == NULL)
    g_error ("no folder for temporary files");
  return folder;
}

/* A link goes, what it leads to stays. */
static void
remove_tree (const char *path)
{
  GDir *dir = g_file_test (path, G_FILE_TEST_IS_SYMLINK) ? NULL : g_dir_open (path, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL) {
    g_autofree char *inside = g_build_filename (path, name, NULL);
    remove_tree (inside);
  }
  g_clear_pointer (&dir, g_dir_close);
  g_remove (path);
}

void
kit_folder_gone (char *folder)
{
  g_chmod (folder, 0700);
  remove_tree (folder);
  g_free (folder);
}
