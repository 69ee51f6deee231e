/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-safe-name.h"

#include <string.h>
#include "pr-text.h"

static bool
is_forbidden (gunichar c)
{
  return (c < 0x80 && strchr ("/\\:*?\"<>|", (int) c) != NULL) || pr_text_steers (c)
         || !g_unichar_isdefined (c) || c == 0xfffd;
}

/* Before the first dot it is the device, whatever follows. */
static bool
is_device (const char *name)
{
  static const char *const devices[]
      = { "con",  "prn",  "aux",  "nul",  "conin$", "conout$", "com0", "com1", "com2", "com3", "com4",
          "com5", "com6", "com7", "com8", "com9",   "com¹",    "com²", "com³", "lpt0", "lpt1", "lpt2",
          "lpt3", "lpt4", "lpt5", "lpt6", "lpt7",   "lpt8",    "lpt9", "lpt¹", "lpt²", "lpt³" };
  g_autofree char *stem = g_strndup (name, strcspn (name, "."));
  g_autofree char *low = g_utf8_strdown (g_strchomp (stem), -1);

  for (size_t i = 0; i < G_N_ELEMENTS (devices); i++)
    if (strcmp (low, devices[i]) == 0)
      return true;
  return false;
}

/* Whole letters of TEXT in at most BYTES. */
static void
cut (GString *text, gsize bytes)
{
  const char *end = text->str;

  while (*end != 0 && (gsize) (g_utf8_next_char (end) - text->str) <= bytes)
    end = g_utf8_next_char (end);
  g_string_truncate (text, (gsize) (end - text->str));
}

static void
drop_end (GString *text)
{
  while (text->len > 0 && strchr (". ", text->str[text->len - 1]) != NULL)
    g_string_truncate (text, text->len - 1);
}

char *
pr_safe_name (const char *name, const char *otherwise)
{
  g_autofree char *valid = g_utf8_make_valid (name != NULL ? name : "", -1);
  g_autofree char *whole = g_utf8_normalize (valid, -1, G_NORMALIZE_DEFAULT_COMPOSE);
  g_autoptr (GString) safe = g_string_new (NULL);

  for (const char *at = whole; *at != 0; at = g_utf8_next_char (at)) {
    gunichar c = g_utf8_get_char (at);

    if (safe->len > 0 || !(c == '.' || g_unichar_isspace (c)))
      g_string_append_unichar (safe, is_forbidden (c) ? '-' : g_unichar_isspace (c) ? ' ' : c);
  }
  cut (safe, PR_SAFE_NAME_BYTES);
  drop_end (safe);
  if (is_device (safe->str))
    g_string_prepend_c (safe, '_');
  return g_strdup (safe->len > 0 ? safe->str : otherwise);
}

GHashTable *
pr_safe_names (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
}

/* The same for names that are one somewhere. Folding can take letters apart again. Transfer full. */
static char *
key_of (const char *name)
{
  g_autofree char *low = g_utf8_casefold (name, -1);

  return g_utf8_normalize (low, -1, G_NORMALIZE_ALL_COMPOSE);
}

char *
pr_safe_name_new (GHashTable *taken, const char *name)
{
  char *free_one = g_strdup (name), *key = key_of (free_one);

  for (guint i = 2; g_hash_table_contains (taken, key); i++) {
    g_free (free_one);
    g_free (key);
    free_one = g_strdup_printf ("%s-%u", name, i);
    key = key_of (free_one);
  }
  g_hash_table_add (taken, key);
  return free_one;
}
