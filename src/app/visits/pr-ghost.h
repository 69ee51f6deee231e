/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrGhost: the same foot at the visit before, laid on the one that is open by the surest way both have, for who draws the open
 * one. It is read when it is first asked for, and laid anew when the foot that is open has changed. */
#pragma once
#include "pr-document.h"
#include "pr-visit-draw.h"

typedef struct {
  PrBookId foot; /* the open foot it is of; 0: none */
  bool looked;   /* the book was asked */
  char *date;    /* of the visit before; NULL: there is none */
  PrJob *before; /* NULL: not read yet, or none */
  bool laid;
  PrVisitChange change;
} PrGhost;

void pr_ghost_clear (PrGhost *ghost);
/* DOC has changed as WHAT (PrChanged) says. */
void pr_ghost_changed (PrGhost *ghost, guint what);
/* The day of the visit before, ISO 8601; NULL: there is none with this foot. Transfer none. */
const char *pr_ghost_day (PrGhost *ghost, PrDocument *doc);
/* The change since then; NULL: there is none, or the two cannot be laid on each other. Transfer none. */
const PrVisitChange *pr_ghost_of (PrGhost *ghost, PrDocument *doc);
/* Toe, quarters and heels with their change, a line each; NULL as below. Transfer full. */
char *pr_ghost_words (PrGhost *ghost, PrDocument *doc);
