/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where in a book a photo goes: horses that are none, horses by name, visits of today. */
#pragma once
#include "pr-book.h"

/* The horse under whose name the demo foot is filed: nothing of a person's own goes there. */
const char *pr_places_demo_name (void);
bool pr_places_is_demo (PrBook *book, PrBookId horse);
/* HORSE stands in the book without being one: it is never due, unless a person has said otherwise. */
void pr_places_leave_out_of_due (PrBook *book, PrBookId horse);
/* A horse called NAME; 0 when there is none. */
PrBookId pr_places_horse (PrBook *book, const char *name);
/* The newest visit of HORSE made today that has no FOOT yet; 0 when there is none. */
PrBookId pr_places_visit_for (PrBook *book, PrBookId horse, PrFoot foot);
/* A visit of HORSE made today that has no foot at all, which is MADE (may be NULL) when there is none. 0 with error. */
PrBookId pr_places_empty_visit (PrBook *book, PrBookId horse, bool *made, GError **error);
/* Has VISIT no foot? */
bool pr_places_is_empty (PrBook *book, PrBookId visit);
/* "30 November 2026" and "Bramble" of VISIT, each transfer full. BOOK may be NULL. FALSE: there is no
 * such visit. */
bool pr_places_words (PrBook *book, PrBookId visit, char **day, char **horse);
