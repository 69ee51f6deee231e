/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shut-in.h"

#include <signal.h>
#include <stdbool.h>
#include <sys/prctl.h>
#include <unistd.h>

/* Threads of a loader have stacks, of which little is used. */
#define MOST_DATA ((rlim_t) 2 << 30)

#if defined __SANITIZE_ADDRESS__ || defined __SANITIZE_THREAD__
#define SHADOWED true /* takes terabytes of addresses */
#else
#define SHADOWED false
#endif

static void
limit (int what, rlim_t most)
{
  setrlimit (what, &(struct rlimit){ most, most });
}

void
pr_shut_in (rlim_t most_cpu, rlim_t most_file)
{
  close_range (STDERR_FILENO + 1, ~0U, 0);
  prctl (PR_SET_PDEATHSIG, SIGKILL);
  prctl (PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0);
  limit (RLIMIT_CORE, 0);
  limit (RLIMIT_CPU, most_cpu);
  limit (RLIMIT_FSIZE, most_file);
  if (!SHADOWED)
    limit (RLIMIT_DATA, MOST_DATA);
}
