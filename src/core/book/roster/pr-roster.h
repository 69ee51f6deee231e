/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The horses of a book in order, kept in memory to be looked through at each letter that is typed. Holds what is written of each horse and
 * little more (some 500 bytes); feet and visits stay in the book. Made of 10,000 horses in about 50 ms; read again in
 * about 5, as only what has changed is made anew. */
#pragma once
#include "pr-book.h"

typedef struct _PrRoster PrRoster;

PrRoster *pr_roster_new (void);
void pr_roster_free (PrRoster *roster);
/* As BOOK has them now. CHANGED (may be NULL): are they otherwise than before? FALSE with error: they are as they were. */
bool pr_roster_read (PrRoster *roster, PrBook *book, bool *changed, GError **error);

guint pr_roster_size (const PrRoster *roster);
/* By name, then yard, as the locale sorts them. Transfer none, good until what has changed is read. */
const PrBookHorse *pr_roster_get (const PrRoster *roster, guint place);
/* The same of HORSE; NULL when it is not among them. */
const PrBookHorse *pr_roster_horse (const PrRoster *roster, PrBookId horse);
/* A number of what is said of that one: it is another as soon as the book says something else. */
guint pr_roster_version (const PrRoster *roster, guint place);
/* Of guint: the places of those that have each word of TYPED (NULL: any) in name, yard, owner or note (pr-seek.h), in order. Transfer
 * full. */
GArray *pr_roster_find (PrRoster *roster, const char *typed);

/* The first look is the slow one: some of its work beforehand, for up to MOST horses. Returns whether there is more to do. */
bool pr_roster_prepare (PrRoster *roster, guint most);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrRoster, pr_roster_free)
