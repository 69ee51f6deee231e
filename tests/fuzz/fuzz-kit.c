/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz.h"

#include <glib/gstdio.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "folder.h"
#include "pr-error.h"

void
fuzz_seed (GPtrArray *seeds, const void *data, size_t size)
{
  g_ptr_array_add (seeds, g_bytes_new (data, size));
}

void
fuzz_seed_text (GPtrArray *seeds, const char *text)
{
  fuzz_seed (seeds, text, strlen (text));
}

void
fuzz_must (bool holds, const char *what)
{
  if (holds)
    return;
  fprintf (stderr, "fuzz: %s\n", what);
  abort ();
}

bool
fuzz_said (bool ok, GError **where, bool with_text)
{
  g_autoptr (GError) error = g_steal_pointer (where);

  if (ok)
    fuzz_must (error == NULL, "done, and yet an error");
  else {
    fuzz_must (error != NULL, "not done, and no error");
    fuzz_must (error->domain == PR_ERROR, error->message);
    fuzz_must (strlen (error->message) > 15 && g_str_has_suffix (error->message, "."), error->message);
    fuzz_must (with_text
                   || (g_utf8_validate (error->message, -1, NULL) && strchr (error->message, '\n') == NULL),
               error->message);
  }
  return ok;
}

/* --- a folder of our own ----------------------------------------------------------------- */

static char *folder;

static void
folder_gone (void)
{
  kit_folder_gone (g_steal_pointer (&folder));
}

const char *
fuzz_folder (void)
{
  if (folder != NULL)
    return folder;
  /* a book asks the disk to be done with every write: memory is faster, where there is some */
  const char *memory
      = g_getenv ("TMPDIR") == NULL && g_access ("/dev/shm", W_OK) == 0 ? "/dev/shm" : g_get_tmp_dir ();
  folder = g_build_filename (memory, "pritchel-fuzz-XXXXXX", NULL);
  fuzz_must (g_mkdtemp (folder) != NULL, "no folder for temporary files");
  g_setenv ("XDG_DATA_HOME", folder, TRUE);
  g_setenv ("XDG_CONFIG_HOME", folder, TRUE);
  atexit (folder_gone);
  return folder;
}
