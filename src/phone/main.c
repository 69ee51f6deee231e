/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pritchel-phone: photos from a phone, in a process that can be ended. Started by the other programs alone, and by itself to look
 * at a photo; pr-phone-packet.h and pr-phone-judge.h say how. */
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/stat.h>

#include "pr-language.h"
#include "pr-phone-judge.h"
#include "pr-phone-server.h"
#include "pr-phone.h"

/* ADDRESS MINUTES and what a judge is told. */
static int
serve (int n, char **args)
{
  struct stat what;
  PrPhoneServing serving = { 0 };

  if ((n != 4 && n != 7) || fstat (PR_PHONE_FD, &what) != 0 || !S_ISSOCK (what.st_mode))
    return EXIT_FAILURE;
  signal (SIGINT, SIG_IGN); /* the terminal's; it ends with the program that started it */
  signal (SIGPIPE, SIG_IGN);
  prctl (PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0);
  serving.address = args[0];
  serving.minutes = CLAMP (atoi (args[1]), 1, PR_PHONE_MOST_MINUTES);
  serving.judge = args + 2;
  serving.shoe = n == 7;
  serving.line = PR_PHONE_FD;
  /* at once: what is on its way is not taken apart first */
  _Exit (pr_phone_serve (&serving) ? EXIT_SUCCESS : EXIT_FAILURE);
}

int
main (int argc, char **argv)
{
  pr_language_start ();
  /* what a library says of what strangers send is no fault of ours */
  g_log_set_always_fatal (G_LOG_FATAL_MASK);
  if (argc > 1 && strcmp (argv[1], "serve") == 0)
    return serve (argc - 2, argv + 2);
  if (argc > 1 && strcmp (argv[1], PR_PHONE_JUDGE) == 0)
    return pr_phone_judge (argc - 2, argv + 2);
  return EXIT_FAILURE;
}
