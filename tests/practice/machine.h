/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A machine with three clocks that does what a test wants. */
#pragma once
#include "pr-practice-clock.h"

typedef struct {
  PrPracticeMoment now;
  gint64 truth; /* microseconds that went by in the world */
} Machine;

void machine_on (Machine *m);
void machine_wait (Machine *m, gint64 us);
void machine_sleep (Machine *m, gint64 us);
/* The wall clock is set forward by US, or back. */
void machine_set (Machine *m, gint64 us);
/* Off for US, then on again. */
void machine_restart (Machine *m, gint64 us);
/* One of these, whichever chance has; but no restart, unless RESTARTS. */
void machine_live (Machine *m, GRand *chance, bool restarts);
