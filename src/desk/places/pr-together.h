/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrTogether: photos that came together, as from a phone. They belong into one visit: the one that is chosen if it has room for
 * all of them, else one new visit of today for all. What was filed before the visit turned out to have no room moves along. */
#pragma once
#include "pr-book.h"

typedef struct {
  PrBookId visit, horse;                            /* where they go; 0: not known yet */
  bool fresh;                                       /* VISIT is to be made with the first of them */
  bool made;                                        /* VISIT was made for them */
  GArray *feet;                                     /* of PrBookId: those filed so far */
  PrBookId foot_before, visit_before, horse_before; /* what was open and chosen when they came */
} PrTogether;

/* N photos on their way to VISIT of HORSE (0: none is chosen). BOOK may be NULL. */
PrTogether *pr_together_new (PrBook *book, PrBookId horse, PrBookId visit, guint n);
void pr_together_free (PrTogether *together);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrTogether, pr_together_free)

/* Is one of those filed so far FOOT? Then the next one that says so is of another. */
bool pr_together_has (const PrTogether *together, PrBook *book, PrFoot foot);
/* Files a new FOOT where the others are, with room made. The visit must be known, or to be made. 0 with error. */
PrBookId pr_together_file (PrTogether *together, PrBook *book, PrFoot foot, GError **error);
/* FOOT was filed in VISIT of HORSE by other means, the first of them. */
void pr_together_begin (PrTogether *together, PrBookId horse, PrBookId visit, PrBookId foot);
/* "2 photos, in the visit of 30 November 2026 of Bramble." NULL: none was filed. Transfer full. */
char *pr_together_words (const PrTogether *together, PrBook *book);
/* All of them go again, as does what was made for them; what was deleted can be brought back (pr-book-trash.h). */
bool pr_together_undo (const PrTogether *together, PrBook *book, GError **error);
