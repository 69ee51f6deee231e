/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrIntake: photos on their way in. One is worked on at a time; of several the others wait. What is done
 * with a photo that is ready is the owner's affair.
 *
 * For the main thread. */
#pragma once
#include "pr-take.h"

typedef struct _PrIntake PrIntake;

typedef struct {
  /* TAKE (transfer full) is done; ERROR (transfer none) tells why it could not be, or is NULL. Not called for
   * work that was stopped. */
  void (*ready) (PrTake *take, const GError *error, gpointer data);
  /* Begun, ended, or further on: pr_intake_busy tells. */
  void (*busy) (gpointer data);
  gpointer data;
} PrIntakeOwner;

PrIntake *pr_intake_new (const PrIntakeOwner *owner);
/* What is under way is stopped. */
void pr_intake_free (PrIntake *intake);

/* Starts TAKE (transfer full) in place of what was under way. WHAT: a translated word for it. */
void pr_intake_start (PrIntake *intake, PrTake *take, const char *what);
/* Stops the work under way, and forgets what waits. */
void pr_intake_stop (PrIntake *intake);
/* FALSE when nothing is under way; DONE 0..1, WHAT a translated word (transfer none), with "2 of 4" before it
 * for one of several. */
bool pr_intake_busy (PrIntake *intake, double *done, const char **what);

/* Several PrTake (each transfer full) to be carried out one after the other. */
void pr_intake_queue (PrIntake *intake, GPtrArray *takes);
/* The next of them; NULL when that was the last. Transfer full. */
PrTake *pr_intake_next (PrIntake *intake);
/* TRUE from pr_intake_queue until pr_intake_close. */
bool pr_intake_is_several (const PrIntake *intake);
/* NAME could not be used. */
void pr_intake_leave_over (PrIntake *intake, const char *name);
/* All of several are through. A sentence that names those left over, or NULL. Transfer full. */
char *pr_intake_close (PrIntake *intake);
