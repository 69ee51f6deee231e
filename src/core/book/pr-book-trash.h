/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was deleted: it stays in the book for PR_BOOK_TRASH_DAYS, out of every listing, and can be had back whole. */
#pragma once
#include "pr-book.h"

#define PR_BOOK_TRASH_DAYS 30

typedef enum {
  PR_BOOK_HORSE,
  PR_BOOK_VISIT,
  PR_BOOK_FOOT,
  PR_BOOK_CLASS, /* of practice */
  PR_BOOK_RUN,
  PR_N_BOOK_KINDS
} PrBookKind;

/* A row that was deleted; what hung on it went with it. */
typedef struct {
  PrBookKind kind;
  PrBookId id;
  char *name;    /* of the horse, or of the class of practice, as it reads here */
  char *date;    /* of a visit, or when a run began; else "" */
  PrFoot foot;   /* of a foot only; else PR_FOOT_ANY */
  char *deleted; /* when, ISO 8601, UTC */
} PrBookDeleted;

void pr_book_deleted_free (PrBookDeleted *deleted);

/* One transaction each, as all setters of a book. One that is not there any more is PR_ERROR_BOOK. */
bool pr_book_delete (PrBook *book, PrBookKind kind, PrBookId id, GError **error);
/* What it hangs on comes back with it. */
bool pr_book_bring_back (PrBook *book, PrBookKind kind, PrBookId id, GError **error);
/* Of PrBookDeleted, the newest first. Transfer full, NULL with error. */
GPtrArray *pr_book_trash (PrBook *book, GError **error);
/* For ever, what was deleted before MOMENT (ISO 8601, UTC). */
bool pr_book_empty_trash (PrBook *book, const char *moment, GError **error);
