/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-application.h"

#include "pr-language.h"

int
main (int argc, char **argv)
{
  g_autoptr (GtkApplication) app = NULL;

  pr_language_start ();
  g_set_prgname ("org.pritchel.Pritchel");
  g_set_application_name ("Pritchel");
  app = pr_application_new ();
  return g_application_run (G_APPLICATION (app), argc, argv);
}
