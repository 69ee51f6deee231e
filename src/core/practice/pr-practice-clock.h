/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much time lies between two moments, whatever the machine has been through meanwhile. A moment is what three clocks of
 * Linux tell (clock_gettime (2)), microseconds:
 *
 *   mono  CLOCK_MONOTONIC: nobody sets it, but it stands still while the machine sleeps
 *   boot  CLOCK_BOOTTIME: the same, and it goes on in sleep
 *   wall  CLOCK_REALTIME: the only one that goes on over a restart; it can be set back and forward
 *
 * Within one start of the machine boot decides; where a system has none, wall does, where it went ahead of mono: it slept. Over a
 * restart there is only wall, and time never runs backwards. */
#pragma once
#include <glib.h>
#include <stdbool.h>

typedef struct {
  gint64 mono, boot, wall; /* BOOT -1: there is no such clock. WALL since 1970 UTC */
  char start[40];          /* which start of the machine it belongs to; "": not known */
} PrPracticeMoment;

typedef struct {
  gint64 us;      /* that went by, 0 or more */
  gint64 slept;   /* of it, in the machine's sleep */
  gint64 set;     /* by how much the wall clock was set forward (back: negative) */
  bool restarted; /* the machine was: the wall clock alone tells US */
} PrPracticeSpan;

/* The clocks of this machine. */
void pr_practice_now (PrPracticeMoment *now);
/* FROM was before TO. */
PrPracticeSpan pr_practice_between (const PrPracticeMoment *from, const PrPracticeMoment *to);
