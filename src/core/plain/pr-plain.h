/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole book as folders of plain files, for any other program: nobody is locked in.
 *
 *   pritchel-2024-11-30/
 *     index.csv                    a line for each foot (RFC 4180, UTF-8)
 *     HORSE/horse.json             name, yard, owner, note, when it is due
 *     HORSE/2024-11-28.json        a visit: note, colour, what the vet was asked
 *     HORSE/2024-11-28-LF/         a foot: photo as taken, trace.json and plan.json as the book keeps them, report.json and
 *                                  template.pdf as `pritchel plan` writes them, attempt-1.json with its photo and comparison
 *     practice/                    classes.json, and each run with its photo
 *
 * Names are safe everywhere (pr-safe-name.h). What is deleted is not in it. A part that is damaged is left out, and the index says
 * so. All is there or nothing (pr-file-tree.h). */
#pragma once
#include "pr-book.h"
#include "pr-paper.h"

typedef struct {
  gint64 horses, visits, feet, damaged; /* DAMAGED: feet of which something had to be left out */
} PrPlainCount;

/* All of BOOK, by the thread that opened it, as a new folder in the folder ABOVE, named by the day TODAY (2024-11-30). OPTIONS
 * (their paper and unit) are for the templates; COUNT (may be NULL) receives how much it was. The folder's path, transfer full;
 * NULL with error, which is G_IO_ERROR_CANCELLED when it was stopped. */
char *pr_plain_write (PrBook *book, const char *above, const char *today, const PrPageOptions *options,
                      const PrBookWork *work, PrPlainCount *count, GError **error);
/* That something damaged was left out, in a sentence. Transfer full. */
char *pr_plain_left_out (const PrPlainCount *count);
