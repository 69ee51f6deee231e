/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the book room only: what one book has, written into another. What cannot be in a book any more, since
 * it was written by an older program or by somebody else, is put right on the way: see pr-bounds.h. */
#pragma once
#include "pr-book-sql.h"
#include "pr-book.h"

/* What two feet are compared by, and a foot is copied with. */
typedef struct {
  GBytes *photo;
  char *name, *trace, *plan;
} PrBookParts;

bool pr_book_parts_read (PrBookParts *parts, PrBook *book, PrBookId foot, GError **error);
void pr_book_parts_clear (PrBookParts *parts);
/* The same for the same photo, trace and plan only. Transfer full. */
char *pr_book_parts_digest (const PrBookParts *parts);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrBookParts, pr_book_parts_clear)

/* DATE where it can be one; else the day of CHANGED (may be NULL), else the earliest there is. Transfer full. */
char *pr_book_day (const char *date, const char *changed);

/* Each returns the new id, 0 with error. PARTS are those of FOOT in FROM; DAY is for attempts that have none. */
PrBookId pr_book_copy_horse (const PrBookHorse *horse, PrBook *to, GError **error);
PrBookId pr_book_copy_visit (const PrBookVisit *visit, const char *day, PrBook *to, PrBookId horse,
                             GError **error);
/* One attempt alone, onto FOOT of TO. */
PrBookId pr_book_copy_attempt (PrBook *from, const PrBookAttempt *attempt, PrBook *to, PrBookId foot,
                               const char *day, GError **error);
PrBookId pr_book_copy_foot (PrBook *from, const PrBookFoot *foot, const PrBookParts *parts, PrBook *to,
                            PrBookId visit, const char *day, GError **error);
