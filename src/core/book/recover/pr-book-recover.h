/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A damaged book: what can still be read of it, as a new one.
 *
 * FILE is read as it lies there, without locks and journals, and never written. It is gone through table by table and row by row. Where
 * a page of it cannot be read, the rows on it are lost and the reading goes on behind them; of a row of which only a part can be read
 * (a long note or a photo lies on pages of its own) that part is saved. What belongs to something that is lost is put under a horse
 * without a name, or a visit of that day. */
#pragma once
#include "pr-book.h"

typedef enum {
  PR_SAVED_HORSES,
  PR_SAVED_VISITS,
  PR_SAVED_FEET,
  PR_SAVED_PHOTOS,
  PR_SAVED_PLANS,
  PR_N_SAVED
} PrSavedKind;

typedef struct {
  gint64 saved[PR_N_SAVED];
  gint64 of[PR_N_SAVED]; /* as far as can be told how many there were; never less than were saved */
} PrSaved;

/* Writes TO (mode 0600), which must not be there yet. WORK may be NULL. FALSE with error (PR_ERROR_BOOK, or
 * G_IO_ERROR_CANCELLED) and no TO: FILE is no book or a newer one, another program works in it, nothing of it can be read, or
 * TO cannot be written. */
bool pr_book_recover (const char *file, const char *to, const PrBookWork *work, PrSaved *saved,
                      GError **error);
/* "12 of 13 horses, 40 of 40 visits, ..." Transfer full. */
char *pr_book_saved_words (const PrSaved *saved);
/* Is FILE a book that cannot be opened because it is damaged or cut short? It must not be open here. */
bool pr_book_is_damaged (const char *file);
