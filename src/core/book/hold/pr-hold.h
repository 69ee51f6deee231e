/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who writes in a book: one program at a time, whatever it runs on.
 *
 * The writer holds a lock on one byte of the book's file, behind those that SQLite locks and at a place where no
 * data is ever (file format, "lock-byte page"; in a file under 1 GB it is past the end). The kernel gives it up when the
 * program ends, however it ends. It belongs to the descriptor it was taken with and not to the process: nothing that this
 * process opens and closes besides drops it.
 *
 * Who that is stands as a few words in the file FILE-writer beside it. They are for telling only: whether there is a
 * writer is decided by the lock, and what a killed program leaves of them is written over by the next. */
#pragma once
#include <glib.h>
#include <stdbool.h>

/* Takes it through FD, which can write; held already is as well. FALSE: another has it. Where no such lock is known, TRUE. */
bool pr_hold_take (int fd);
/* Does nobody but FD hold it? FD need not be able to write. */
bool pr_hold_is_free (int fd);
/* The same of FILE, which must not be open as a book here (pr-book-file.h). */
bool pr_hold_is_free_file (const char *file);

/* Who writes from now on: this program. To be called while it is held, as is the next. */
void pr_hold_sign (const char *file);
void pr_hold_unsign (const char *file);
/* "pritchel-window (process 1234 on anvil, since 2026-05-01 09:41)", or "another program" where it does not say. Transfer
 * full. */
char *pr_hold_who (const char *file);
