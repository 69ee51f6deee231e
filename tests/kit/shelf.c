/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shelf.h"

#include "folder.h"

int
kit_shelf_set_up (void **state)
{
  KitShelf *shelf = g_new0 (KitShelf, 1);

  shelf->folder = kit_folder ();
  shelf->file = g_build_filename (shelf->folder, "book.pritchel", NULL);
  shelf->book = pr_book_open (shelf->file, NULL);
  *state = shelf;
  return shelf->book != NULL ? 0 : -1;
}

int
kit_shelf_tear_down (void **state)
{
  KitShelf *shelf = *state;

  pr_book_close (shelf->book);
  kit_folder_gone (shelf->folder);
  g_free (shelf->file);
  g_free (shelf);
  return 0;
}
