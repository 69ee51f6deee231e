/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the book room only: a book that somebody sent, opened so that it can do nothing.
 *
 * The file is read without locks and journals (SQLite's immutable) into a data base without a name, which SQLite keeps
 * in memory and, where that grows, in a file that has no name from the moment it is made: nothing of it is left,
 * whatever ends the program. There it is looked through: its size, its schema, which must be the very one that its
 * version has, the number of its rows. Then it is brought up to this version and can only be read.
 * SQLite runs nothing of its schema (no trigger, no view, no function that could do harm), under limits of our own
 * and of time. */
#pragma once
#include "pr-book.h"

/* FILE, as a book that can only be read and whose sentences name FILE; OWN is the one it must not be. WORK (may be
 * NULL) may stop it, also later, while it is read. NULL with error: PR_ERROR_BOOK, or
 * G_IO_ERROR_CANCELLED. Close it with pr_book_aside_close, before WORK goes. */
PrBook *pr_book_aside_open (const PrBook *own, const char *file, const PrBookWork *work, GError **error);
void pr_book_aside_close (PrBook *aside);
/* Puts "it was stopped" in place of ERROR when that is why. */
void pr_book_work_ended (const PrBookWork *work, GError **error);
/* TRUE, with error, when it is to stop. */
bool pr_book_work_stops (const PrBookWork *work, GError **error);
void pr_book_work_tell (const PrBookWork *work, double done);
