/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks the settings from outside: settings-probe WORD... where a word is "kept", "all", "unit",
 * "set KEY VALUE" (as GVariant text), "book FILE KEY VALUE" or "take FILE". */
#include <locale.h>
#include <stdio.h>
#include <string.h>

#include "pr-settings.h"

static void
print_all (void)
{
  static const char *const strings[] = { "unit", "look", "sides", "layers", "sheet-paper", "book-file" };
  static const char *const bools[]
      = { "cautions-seen", "window-maximized", "book-shown", "side-shown", "larger-text" };
  static const char *const ints[] = { "window-width", "window-height", "print-pages" };

  for (size_t i = 0; i < G_N_ELEMENTS (strings); i++) {
    g_autofree char *text = pr_settings_string (strings[i]);

    printf ("%s=%s\n", strings[i], text);
  }
  for (size_t i = 0; i < G_N_ELEMENTS (bools); i++)
    printf ("%s=%d\n", bools[i], pr_settings_bool (bools[i]));
  for (size_t i = 0; i < G_N_ELEMENTS (ints); i++)
    printf ("%s=%d\n", ints[i], pr_settings_int (ints[i]));
  printf ("usual-loss=%.4f\n", pr_settings_double ("usual-loss"));
  printf ("usual-weld=%.4f\n", pr_settings_double ("usual-weld"));
  printf ("screen-px-per-mm=%.4f\n", pr_settings_double ("screen-px-per-mm"));
}

static void
set (const char *key, const char *text)
{
  printf ("set=%d\n", pr_settings_keep (key, g_variant_new_parsed (text)));
}

static void
put_into_book (const char *file, const char *key, const char *value)
{
  g_autoptr (PrBook) book = pr_book_open (file, NULL);

  printf ("book=%d\n", book && pr_book_set_setting (book, key, value, NULL));
}

static void
take_over (const char *file)
{
  g_autoptr (PrBook) book = pr_book_open (file, NULL);

  pr_settings_take_over (book);
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  setlocale (LC_NUMERIC, "C"); /* what is printed is read by a program */
  for (int i = 1; i < argc; i++) {
    if (strcmp (argv[i], "kept") == 0) {
      printf ("kept=%d\n", pr_settings_are_kept ());
    } else if (strcmp (argv[i], "all") == 0) {
      print_all ();
    } else if (strcmp (argv[i], "unit") == 0) {
      printf ("inch=%d\n", pr_settings_unit () == PR_UNIT_INCH);
    } else if (strcmp (argv[i], "set") == 0 && i + 2 < argc) {
      set (argv[i + 1], argv[i + 2]);
      i += 2;
    } else if (strcmp (argv[i], "book") == 0 && i + 3 < argc) {
      put_into_book (argv[i + 1], argv[i + 2], argv[i + 3]);
      i += 3;
    } else if (strcmp (argv[i], "take") == 0 && i + 1 < argc) {
      take_over (argv[++i]);
    } else {
      return 2;
    }
  }
  pr_settings_end ();
  return 0;
}
