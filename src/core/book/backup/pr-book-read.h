/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of this room only: a book's file that is looked at and not worked in. Opening it as a book brings it up to this version and
 * locks it; here nothing is written in it or beside it. */
#pragma once
#include <glib.h>
#include <sqlite3.h>
#include <stdbool.h>

/* FILE as it is at each moment, under SQLite's lock for readers. NULL with error: it is no book of ours, cut short, newer, or not to
 * be read. Transfer full. */
sqlite3 *pr_book_read_only (const char *file, GError **error);
/* Sets ERROR from the code that reading FILE ended with; always FALSE. */
bool pr_book_read_fail (int code, const char *file, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (sqlite3, sqlite3_close)
