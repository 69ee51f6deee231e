/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-export-names.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-error.h"

#define NAME_BYTES_MAX 160 /* names of files end at 255 bytes, and more is put behind this one */
#define DAY 10             /* "2026-11-28" */

/* Can the name of a file hold it here? */
static bool
can_be_named (const char *letter, gsize len)
{
  g_autofree char *name = g_filename_from_utf8 (letter, (gssize) len, NULL, NULL, NULL);

  return name != NULL;
}

/* An accent, or a vowel sign, belongs to the letter before it. */
static bool
belongs (gunichar c, bool after_letter)
{
  return g_unichar_isalnum (c) || (after_letter && g_unichar_ismark (c));
}

/* NAME in lower case, whatever the language, and in composed form; broken bytes are replaced. Transfer
 * full. */
static char *
plain (const char *name)
{
  g_autofree char *valid = g_utf8_make_valid (name, -1);
  g_autofree char *whole = g_utf8_normalize (valid, -1, G_NORMALIZE_DEFAULT_COMPOSE);
  g_autoptr (GString) low = g_string_new (NULL);

  for (const char *at = whole; *at; at = g_utf8_next_char (at))
    g_string_append_unichar (low, g_unichar_tolower (g_utf8_get_char (at)));
  return g_utf8_normalize (low->str, -1, G_NORMALIZE_DEFAULT_COMPOSE);
}

/* Transfer full; empty when nothing of NAME can be kept. */
static char *
kept_of (const char *name)
{
  g_autofree char *text = plain (name);
  GString *out = g_string_new (NULL);
  bool dash = false, letter = false;
  int n = 0;

  for (const char *at = text; *at; at = g_utf8_next_char (at)) {
    gunichar c = g_utf8_get_char (at);
    gsize len = (gsize) (g_utf8_next_char (at) - at);

    letter = belongs (c, letter) && can_be_named (at, len);
    if (letter && !g_unichar_ismark (c) && (n += dash ? 2 : 1) > PR_EXPORT_NAME_MAX)
      break;
    if (letter && out->len + len + dash > NAME_BYTES_MAX)
      break;
    if (letter && dash)
      g_string_append_c (out, '-');
    if (letter)
      g_string_append_len (out, at, (gssize) len);
    dash = !letter && out->len > 0;
  }
  return g_string_free (out, FALSE);
}

static bool
begins_with_day (const char *date)
{
  static const char form[] = "0000-00-00";

  for (int i = 0; i < DAY; i++)
    if (form[i] == '0' ? !g_ascii_isdigit (date[i]) : date[i] != form[i])
      return false;
  return true;
}

char *
pr_export_named (const char *horse, const char *what, const char *date)
{
  g_autofree char *name = kept_of (horse ? horse : "");
  bool day = date && begins_with_day (date);

  return g_strdup_printf ("%s-%s%s%.*s", *name ? name : "no-name", what, day ? "-" : "", day ? DAY : 0,
                          day ? date : "");
}

char *
pr_export_stem (const char *horse, PrFoot foot, const char *date)
{
  g_autofree char *code = g_ascii_strdown (pr_foot_code (foot), -1);

  return pr_export_named (horse, code, date);
}

char *
pr_export_said (const char *file)
{
  g_autofree char *folder = g_path_get_dirname (file), *base = g_path_get_basename (file);
  g_autofree char *name = g_filename_display_name (base), *where = g_filename_display_name (folder);

  return g_strdup_printf (_ ("%s was written to %s."), name, where);
}

bool
pr_export_is_taken (const char *folder, const char *stem, const char *const *parts)
{
  for (int i = 0; parts[i]; i++) {
    g_autofree char *name = g_strdup_printf ("%s-%s", stem, parts[i]);
    g_autofree char *file_name = g_filename_from_utf8 (name, -1, NULL, NULL, NULL);
    g_autofree char *file = g_build_filename (folder, file_name ? file_name : name, NULL);

    if (g_file_test (file, G_FILE_TEST_EXISTS) || g_file_test (file, G_FILE_TEST_IS_SYMLINK))
      return true;
  }
  return false;
}

char *
pr_export_free_stem (const char *folder, const char *stem, const char *const *parts)
{
  char *free_one = g_strdup (stem);

  for (int i = 2; pr_export_is_taken (folder, free_one, parts); i++) {
    g_free (free_one);
    free_one = g_strdup_printf ("%s-%d", stem, i);
  }
  return free_one;
}

static bool
has_ending (const char *path, const char *ending)
{
  size_t n = strlen (path), len = strlen (ending);

  return n > len && g_ascii_strcasecmp (path + n - len, ending) == 0;
}

char *
pr_export_with_ending (const char *path, const char *ending, GError **error)
{
  g_autofree char *whole = NULL, *name = NULL;

  if (has_ending (path, ending))
    return g_strdup (path);
  whole = g_strconcat (path, ending, NULL);
  if (!g_file_test (whole, G_FILE_TEST_EXISTS))
    return g_steal_pointer (&whole);
  name = g_filename_display_basename (whole);
  g_set_error (error, PR_ERROR, PR_ERROR_FILE,
               _ ("%s is there already; type the name with its ending to write over it."), name);
  return NULL;
}
