/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-practice-clock.h"

#include <string.h>
#include <time.h>

/* What the wall clock may gain on the other while both are read, and by being brought into step (adjtime): less is no sleep. */
#define DRIFT_US (2 * G_USEC_PER_SEC)

static gint64
read_clock (clockid_t clock)
{
  struct timespec t;

  return clock_gettime (clock, &t) == 0 ? t.tv_sec * G_USEC_PER_SEC + t.tv_nsec / 1000 : -1;
}

void
pr_practice_now (PrPracticeMoment *now)
{
  g_autofree char *start = NULL;

  *now = (PrPracticeMoment){ .mono = read_clock (CLOCK_MONOTONIC),
                             .boot = read_clock (CLOCK_BOOTTIME),
                             .wall = read_clock (CLOCK_REALTIME) };
  if (g_file_get_contents ("/proc/sys/kernel/random/boot_id", &start, NULL, NULL))
    g_strlcpy (now->start, g_strstrip (start), sizeof now->start);
}

static bool
is_one_start (const PrPracticeMoment *from, const PrPracticeMoment *to)
{
  bool known = *from->start != '\0' && *to->start != '\0';

  return to->mono >= from->mono && (!known || strcmp (from->start, to->start) == 0);
}

/* Without a clock that goes on in sleep. */
static PrPracticeSpan
by_two_clocks (gint64 mono, gint64 wall)
{
  if (wall > mono + DRIFT_US)
    return (PrPracticeSpan){ .us = wall, .slept = wall - mono };
  return (PrPracticeSpan){ .us = mono, .set = wall - mono };
}

PrPracticeSpan
pr_practice_between (const PrPracticeMoment *from, const PrPracticeMoment *to)
{
  gint64 mono = to->mono - from->mono, wall = to->wall - from->wall;

  if (!is_one_start (from, to))
    return (PrPracticeSpan){ .us = MAX (wall, 0), .restarted = true };
  if (from->boot < 0 || to->boot < from->boot)
    return by_two_clocks (mono, wall);
  gint64 boot = to->boot - from->boot;
  return (PrPracticeSpan){ .us = boot, .slept = MAX (boot - mono, 0), .set = wall - boot };
}
