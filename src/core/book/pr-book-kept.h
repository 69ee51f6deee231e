/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the book room only: a copy in memory of what a book's file would take with it when another program writes
 * over it. Horses, visits, feet, traces, plans, attempts and settings as they were when it was begun, and of all
 * that is changed since the photos too; triggers keep it so within each transaction. */
#pragma once
#include "pr-book-sql.h"

bool pr_book_kept_begin (PrBook *book, GError **error);
/* A connection of its own to a book in memory that holds it; NULL when that does not work. Transfer full. */
sqlite3 *pr_book_kept_take (PrBook *book);
