/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-application.h"

#include <glib/gi18n-lib.h>
#include <locale.h>

int
main (int argc, char **argv)
{
  g_autoptr (GtkApplication) app = NULL;

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, PR_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  g_set_prgname ("org.pritchel.Pritchel");
  g_set_application_name ("Pritchel");
  app = pr_application_new ();
  return g_application_run (G_APPLICATION (app), argc, argv);
}
