/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a farrier writes beside his horses and visits, and when the next visit is due. */
#pragma once
#include "pr-book.h"

/* From visit to visit where nothing else was said: 4 to 6 weeks are usual (trade pages, read). */
#define PR_BOOK_USUAL_DAYS 42
#define PR_BOOK_NEVER_DUE (-1)

/* A horse that has a visit and a shoe, and when its next one is due. */
typedef struct {
  PrBookHorse horse;
  char *last, *due; /* days, ISO 8601 */
} PrBookDue;

void pr_book_due_free (PrBookDue *due);

/* All that HORSE says in place of what the book has of it; its id tells which. One transaction. */
bool pr_book_describe_horse (PrBook *book, const PrBookHorse *horse, GError **error);
/* The same of date, note, colour and what is told the vet of VISIT; what of it cannot be (pr-bounds.h) is not kept. */
bool pr_book_describe_visit (PrBook *book, const PrBookVisit *visit, GError **error);
/* The day that lies DAYS (0: the usual) after DATE, which must hold (pr_date_holds). Transfer full. */
char *pr_book_due_day (const char *date, int days);
/* Has HORSE a shoe, planned or forged? One that was never shod is not due. */
bool pr_book_is_shod (PrBook *book, PrBookId horse);
/* Of PrBookDue, the soonest first; without those that are never due. Transfer full, NULL with error. */
GPtrArray *pr_book_due (PrBook *book, GError **error);
