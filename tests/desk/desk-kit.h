/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A document on a book of its own, without a display: two fore feet of one horse in a visit of today, and the
 * near one in a visit before. What the document says is written down. */
#pragma once
#include "kit.h"
#include "pr-document-marking.h"
#include "pr-record.h"

#define DESK_TODAY "2026-11-20"
#define DESK_BEFORE "2026-10-10"

typedef struct {
  char *folder;
  PrDocument *doc;
  PrBook *book; /* the document's own */
  PrBookId horse, today, before;
  PrBookId near, off, near_before; /* shoes with webs of 23, 25 and 27 mm at the toe */
  int n_done, n_asked, n_which;    /* of "done", "ask-place" and "ask-foot" */
  char *done, *trouble;            /* the last sentence of each */
  guint changed;                   /* all flags since it was last set to 0 */
} Desk;

Desk *desk_new (void);
/* Writes down what another document of DESK's says. */
void desk_listen (Desk *desk);
void desk_free (Desk *desk);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Desk, desk_free)
/* Opens a foot, which must work. */
void desk_open (Desk *desk, PrBookId foot);
/* Runs what waits until nothing is under way. */
void desk_settle (Desk *desk);
/* A parameter of the open foot's plan, and of FOOT's in the book. */
double desk_shown (Desk *desk, const char *param);
double desk_kept (Desk *desk, PrBookId foot, const char *param);
/* The same plan on the board and in the book? */
bool desk_is_kept (Desk *desk);
