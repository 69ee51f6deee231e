/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Copies of the whole book as they were on a day: made by SQLite's own backup, looked through before they count, and what is in
 * one without working in it. */
#pragma once
#include "pr-book.h"

#define PR_BOOK_BACKUPS 7 /* are kept of those that are made by themselves */

/* One in a folder, and how much it holds of what is there, not deleted. */
typedef struct {
  /* DATE: when it was made, ISO 8601, the time of the place: its file's time, or the bare day that its name tells where the file is of
   * another day. */
  char *file, *date;
  gint64 horses, visits, feet;
} PrBookBackup;

void pr_book_backup_free (PrBookBackup *backup);

/* All that BOOK holds now as FILE (mode 0600), which takes the place of what lies there when it is whole. FALSE: FILE is as it
 * was, and nothing else is left. */
bool pr_book_backup (PrBook *book, const char *file, GError **error);

/* A backup that is made bit by bit while BOOK is worked in, which it follows: what is changed meanwhile is in it. */
typedef struct _PrBackupWork PrBackupWork;
/* NULL with error: FILE cannot be made. Ends before BOOK is closed. Transfer full. */
PrBackupWork *pr_backup_work_new (PrBook *book, const char *file, GError **error);
/* The same of the book FROM in which nobody works, for any one thread. */
PrBackupWork *pr_backup_work_of_file (const char *from, const char *file, GError **error);
/* So many PAGES of some 4 kB more, all with -1, by the thread that works in the book. 1: there are more, 0: that was the last, -1: it
 * cannot be done (pr_backup_work_fail says why). While another thread writes it does nothing. */
int pr_backup_work_step (PrBackupWork *work, int pages);
/* FALSE. */
bool pr_backup_work_fail (PrBackupWork *work, GError **error);
/* How much of it is there, 0..1. */
double pr_backup_work_done (const PrBackupWork *work);
/* After the last: looks it through, once. In any thread; STOP (may be NULL) stops it with G_IO_ERROR_CANCELLED. */
bool pr_backup_work_check (PrBackupWork *work, GCancellable *stop, GError **error);
/* Looks it through where that is not done, and puts it in place of FILE. In any thread; takes WORK, as does the next. */
bool pr_backup_work_settle (PrBackupWork *work, GError **error);
/* Leaves nothing behind. */
void pr_backup_work_free (PrBackupWork *work);
/* Grows with each change of BOOK. */
gint64 pr_backup_changes (PrBook *book);

/* "FOLDER/book-TODAY.pritchel", TODAY as 2024-11-30; NULL: it is there. Transfer full. */
char *pr_backup_daily_file (const char *folder, const char *today);
/* Of those called so in FOLDER all but the newest PR_BOOK_BACKUPS go, and what is left of any that came to no end. While none is
 * being made. */
void pr_backup_keep_newest (const char *folder);
/* Of PrBookBackup: those in FOLDER that are books, the newest first; empty where there is no folder. Transfer full. */
GPtrArray *pr_book_backups (const char *folder);
/* What FILE holds, which is only read. NULL with error: no book, damaged, newer. Transfer full. */
PrBookBackup *pr_book_backup_look (const char *file, GError **error);
/* How much BOOK itself holds; its file and date are NULL. Transfer full, NULL with error. */
PrBookBackup *pr_book_backup_of (PrBook *book, GError **error);
/* FILE as the book at TO, where no book may be open; one that lies there is written over only when FILE was copied and
 * looked through. FALSE: TO is as it was. */
bool pr_book_backup_put (const char *file, const char *to, GError **error);
/* FILE, as it is at one moment, as the new file TO: not looked through, and not brought to the disk. For a look into a book in which
 * somebody works. */
bool pr_book_copy_aside (const char *file, const char *to, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrBookBackup, pr_book_backup_free)
