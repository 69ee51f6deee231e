/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can happen to the file of a book that is open, and what is done then.
 *
 * The file is looked at before and after every change. When it is lost nothing more is written to it: the book goes
 * on in memory with all it held, takes changes as before, and pr_book_loss says so. A file that was deleted or
 * replaced can still be read to the end; of one that was written over, what it held when it was opened and all
 * that was changed since is kept beside it in memory, but for the photos that were in it before (see
 * pr_book_watch) and, where there are thousands of feet, the outlines and plans of the oldest. */
#pragma once
#include <stdbool.h>
#include "pr-book-data.h"

/* Keeps in memory what a file that is written over would take with it, and looks at the folder. May take a
 * while; a second call does nothing. */
bool pr_book_watch (PrBook *book, GError **error);
/* LOST (DATA) is called once when the file is lost, within the call that found it. From now on only the thread that
 * calls this looks at the file: what another one writes is looked at by the next pr_book_look. */
void pr_book_on_loss (PrBook *book, PrBookLost lost, gpointer data);
/* Readable when pr_book_look should be called; -1 where the system tells nothing. */
int pr_book_events (PrBook *book);
/* Looks now. */
PrBookLoss pr_book_look (PrBook *book);
/* As last looked at. */
PrBookLoss pr_book_loss (PrBook *book);
/* FALSE: of what a file that is written over would take with it, the oldest outlines and plans are not kept. */
bool pr_book_keeps_all (PrBook *book);
const char *pr_book_file (PrBook *book); /* where it lies, or lay; transfer none */

/* All the book holds as FILE, which takes the place of what lies there; from now on it is kept there. FALSE: all
 * is as before. */
bool pr_book_save_as (PrBook *book, const char *file, GError **error);
