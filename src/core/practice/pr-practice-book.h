/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Classes and runs in the book. Every setter is one transaction, as all of the book's: when it returns TRUE the press is on the disk.
 * Classes and runs are deleted, and brought back, as all of the book is (pr-book-trash.h): PR_BOOK_CLASS with its runs, PR_BOOK_RUN. What is read is within the bounds of pr-bounds.h whoever wrote it. */
#pragma once
#include "pr-book.h"
#include "pr-practice-run.h"

/* Element-type PrPracticeClass: the person's own by name, then those shipped that are not in the book. Transfer full, NULL with error. */
GPtrArray *pr_practice_classes (PrBook *book, GError **error);
/* Kept under its id, or as a new one. Its id, 0 with error: it has no name. */
PrBookId pr_practice_keep_class (PrBook *book, const PrPracticeClass *class, GError **error);

/* RUN, whose start is pressed, is put into the book and gets its id; its class is kept first where that is not in the book. It is the
 * one that is going from now on. */
bool pr_practice_begin (PrBook *book, PrPracticeRun *run, GError **error);
/* All of RUN as it is now, but for the photo. */
bool pr_practice_keep (PrBook *book, const PrPracticeRun *run, GError **error);
/* The run that is going, also one that a program which was ended has left; NULL (no error): none. Transfer full. */
PrPracticeRun *pr_practice_going (PrBook *book, GError **error);
/* NULL with error: it is not there, or cannot be read. Transfer full. */
PrPracticeRun *pr_practice_run (PrBook *book, PrBookId id, GError **error);
/* Element-type PrPracticeRun, of CLASS, the oldest first; one that cannot be read is left out. Transfer full, NULL with error. */
GPtrArray *pr_practice_runs (PrBook *book, PrBookId class, GError **error);
/* PHOTO NULL takes it away. */
bool pr_practice_set_photo (PrBook *book, PrBookId run, GBytes *photo, GError **error);
GBytes *pr_practice_photo (PrBook *book, PrBookId run, GError **error);
/* What the attempt that was kept for RUN's foot since it began tells, into RUN's measured; none of that foot's later runs must have
 * begun before it. Nothing there: as it was. */
bool pr_practice_measure (PrBook *book, PrPracticeRun *run, GError **error);
