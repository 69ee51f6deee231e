/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-language.h"

#include <glib/gi18n-lib.h>
#include <libintl.h>
#include <locale.h>

/* Where the translations lie, from the folder the program lies in. */
static const char *const places[] = { "po", "../share/locale" };

/* Transfer full; NULL where neither is there. */
static char *
beside_the_program (void)
{
  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *folder = self ? g_path_get_dirname (self) : NULL;

  for (size_t i = 0; folder && i < G_N_ELEMENTS (places); i++) {
    g_autofree char *place = g_build_filename (folder, places[i], NULL);

    if (g_file_test (place, G_FILE_TEST_IS_DIR))
      return g_steal_pointer (&place);
  }
  return NULL;
}

void
pr_language_start (void)
{
  g_autofree char *place = beside_the_program ();

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, place ? place : PR_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
}

struct _PrPlainLocale {
  locale_t plain, before;
};

PrPlainLocale *
pr_plain_locale_begin (bool words)
{
  PrPlainLocale *plain = g_new0 (PrPlainLocale, 1);
  locale_t now = uselocale ((locale_t) 0);

  plain->plain
      = newlocale (words ? LC_NUMERIC_MASK | LC_MESSAGES_MASK : LC_NUMERIC_MASK, "C", duplocale (now));
  plain->before = uselocale (plain->plain);
  return plain;
}

void
pr_plain_locale_end (PrPlainLocale *plain)
{
  uselocale (plain->before);
  freelocale (plain->plain);
  g_free (plain);
}
