/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Linked into every test: it runs under the locale it is given, as the programs do. The sanitized run gives
 * one whose decimal mark is a comma. */
#include <locale.h>

__attribute__ ((constructor)) static void
take_locale (void)
{
  setlocale (LC_ALL, "");
}
