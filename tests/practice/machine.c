/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "machine.h"

#include <string.h>

#define S ((gint64) G_USEC_PER_SEC)

void
machine_on (Machine *m)
{
  *m = (Machine){ .now = { .mono = 4321 * S, .boot = 5000 * S, .wall = 1764511509 * S, .start = "first" } };
}

void
machine_wait (Machine *m, gint64 us)
{
  m->now.mono += us;
  m->now.boot += us;
  m->now.wall += us;
  m->truth += us;
}

void
machine_sleep (Machine *m, gint64 us)
{
  m->now.boot += us;
  m->now.wall += us;
  m->truth += us;
}

void
machine_set (Machine *m, gint64 us)
{
  m->now.wall += us;
}

void
machine_restart (Machine *m, gint64 us)
{
  m->now.wall += us;
  m->truth += us;
  m->now.mono = m->now.boot = 30 * S;
  g_strlcpy (m->now.start, strcmp (m->now.start, "first") == 0 ? "second" : "first", sizeof m->now.start);
}

void
machine_live (Machine *m, GRand *chance, bool restarts)
{
  gint64 us = (gint64) (g_rand_double (chance) * 90 * S);
  int what = g_rand_int_range (chance, 0, restarts ? 10 : 9);

  if (what < 6)
    machine_wait (m, us);
  else if (what < 8)
    machine_sleep (m, us * 10);
  else if (what == 8)
    machine_set (m, g_rand_int_range (chance, -7200, 7200) * S);
  else
    machine_restart (m, us);
}
