/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrErrand: work on a whole book that lasts, one part after the other: a copy of the book, made bit by bit while it is worked in
 * and nothing else is to be done; and what is done with that copy or another file, in a thread. It tells how far it is and can be
 * stopped.
 *
 * For the main thread, all but what is said to run in a thread. Nobody else's book is touched in there. */
#pragma once
#include "pr-book-backup.h"

typedef struct _PrErrand PrErrand;

/* A part has ended, in the main thread; ERROR (transfer none) is NULL when it is done, G_IO_ERROR_CANCELLED when it was stopped.
 * It begins the next part, or ends the errand. */
typedef void (*PrErrandNext) (PrErrand *errand, const GError *error, gpointer data);
/* In a thread of its own. FALSE with error. */
typedef bool (*PrErrandWork) (gpointer data, const PrBookWork *work, GError **error);

typedef struct {
  const char *what;         /* translated, static; NULL: nobody is told of it */
  void (*told) (gpointer);  /* with OWNER: begun, further on or ended; may be NULL */
  gpointer owner;           /* transfer none */
  GDestroyNotify free_data; /* of DATA, when all has ended; in any thread */
} PrErrandKind;

/* KIND is copied. */
PrErrand *pr_errand_new (const PrErrandKind *kind, gpointer data);
/* These two begin a part, that takes the errand from FROM to TO of its whole (0..1). */
/* COPY (transfer none) lives until its last page, or its end, is told. */
void pr_errand_copy (PrErrand *errand, PrBackupWork *copy, double from, double to, PrErrandNext next);
void pr_errand_run (PrErrand *errand, PrErrandWork work, double from, double to, PrErrandNext next);
/* Nobody is called any more, and the part under way is stopped. A thread ends when it can, and DATA goes with it. */
void pr_errand_free (PrErrand *errand);

/* The part under way is to stop; its NEXT tells when it has. */
void pr_errand_stop (PrErrand *errand);
/* How far it is, and what it is (transfer none). */
double pr_errand_done (const PrErrand *errand);
const char *pr_errand_what (const PrErrand *errand);
