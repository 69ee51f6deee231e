/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-printers.h"

#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include "pr-atomic-file.h"
#include "pr-error.h"
#include "pr-text.h"
#include "pr-paper.h"

#define ACROSS "across"
#define DOWN "down"

char *
pr_printers_file (void)
{
  return g_build_filename (g_get_user_config_dir (), "pritchel", "printers.ini", NULL);
}

/* A group's name may hold no brackets and no control characters. Transfer full. */
static char *
group_of (const char *name)
{
  return g_uri_escape_string (name, " ", TRUE);
}

/* Those kept; an empty one where there is no file yet. NULL when the file cannot be used. Transfer
 * full. */
static GKeyFile *
load (GError **error)
{
  g_autoptr (GKeyFile) kept = g_key_file_new ();
  g_autofree char *file = pr_printers_file ();
  g_autoptr (GError) trouble = NULL;

  if (g_key_file_load_from_file (kept, file, G_KEY_FILE_KEEP_COMMENTS, &trouble)
      || g_error_matches (trouble, G_FILE_ERROR, G_FILE_ERROR_NOENT))
    return g_steal_pointer (&kept);
  g_set_error (error, PR_ERROR, PR_ERROR_FILE,
               _ ("The file %s, which holds the printers' corrections, cannot be read; pages are printed "
                  "without one until the printer is measured again."),
               file);
  return NULL;
}

static bool
factor (GKeyFile *kept, const char *group, const char *key, double *value)
{
  g_autoptr (GError) trouble = NULL;
  double read = g_key_file_get_double (kept, group, key, &trouble);

  if (trouble || !pr_correction_usable (read))
    return false;
  *value = read;
  return true;
}

bool
pr_printers_correction (const char *name, double *x, double *y, GError **error)
{
  *x = *y = 1;
  if (!name)
    return true;
  g_autoptr (GKeyFile) kept = load (error);
  g_autofree char *group = group_of (name);
  if (!kept)
    return false;
  if (!g_key_file_has_group (kept, group))
    return true;
  if (factor (kept, group, ACROSS, x) && factor (kept, group, DOWN, y))
    return true;
  *x = *y = 1;
  g_autofree char *shown = pr_text_name (name);
  g_set_error (error, PR_ERROR, PR_ERROR_FILE,
               _ ("The correction for the printer %s cannot be used; pages are printed without one until it "
                  "is measured again."),
               shown);
  return false;
}

static bool
write_whole (GKeyFile *kept, GError **error)
{
  g_autofree char *file = pr_printers_file (), *folder = g_path_get_dirname (file);
  gsize len;
  g_autofree char *data = g_key_file_to_data (kept, &len, NULL);

  g_mkdir_with_parents (folder, 0700); /* where that fails, writing tells */
  return pr_atomic_file_write (file, data, len, error);
}

bool
pr_printers_keep (const char *name, double x, double y, GError **error)
{
  g_autoptr (GKeyFile) kept = load (NULL);
  g_autofree char *group = group_of (name);

  g_assert (pr_correction_usable (x) && pr_correction_usable (y));
  if (!kept)
    kept = g_key_file_new ();
  if (x == 1 && y == 1) {
    g_key_file_remove_group (kept, group, NULL);
  } else {
    g_key_file_set_double (kept, group, ACROSS, x);
    g_key_file_set_double (kept, group, DOWN, y);
  }
  return write_whole (kept, error);
}
