/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the book room only: the book's file seen past SQLite, to find out whether it still is the one
 * that was opened and as we left it. A descriptor of our own is open from before SQLite opens the file until after
 * it has closed it: any close () of a file drops every POSIX lock of the process on it, SQLite's too.
 *
 * Each write of ours ends with a stamp: the file's time, set to the nanosecond. Whoever writes after that leaves
 * another time or size. What cannot be seen: a writer that puts size and time back, one that begins and ends within one
 * commit of ours on a file system that inotify cannot watch, and on a file system whose times are coarser one within
 * the same step of its clock. */
#pragma once
#include <stdbool.h>
#include "pr-book-data.h"

typedef struct {
  int fd;                 /* -1: none */
  int events;             /* inotify; -1: not watched, or it cannot be */
  char *name;             /* in the folder that is watched */
  int openers;            /* others who have it open */
  bool overlapped;        /* one of them had it open while we wrote */
  guint64 device, inode;  /* what it is, whatever it is called */
  gint64 size, sec, nsec; /* as we left it */
} PrBookFile;

#define PR_BOOK_FILE_NONE  \
  {                        \
    .fd = -1, .events = -1 \
  }

/* FLAGS O_RDONLY, or O_RDWR | O_CREAT: makes PATH (mode 0600) when missing; one that is there keeps its mode. Returns 0 or
 * errno. */
int pr_book_file_open (PrBookFile *file, const char *path, int flags);
/* To be called when SQLite has closed it. Leaves PR_BOOK_FILE_NONE. */
void pr_book_file_close (PrBookFile *file);
/* What stands in the file is what we found: remembers how it looks. */
void pr_book_file_remember (PrBookFile *file);
/* What stands in the file is what we wrote: stamps it, and remembers that. */
void pr_book_file_stamp (PrBookFile *file);
/* It is no longer what we wrote, whatever it looks like. */
void pr_book_file_disown (PrBookFile *file);
/* Looks whether PATH still leads to FILE, whether nobody else has written into it, and whether it is ours to
 * write: the lock of pr-hold.h, and SQLite's for readers, which is taken again where it was dropped. Between changes only. */
PrBookLoss pr_book_file_look (const PrBookFile *file, const char *path);
/* Is it as we left it, whatever it is called now? */
bool pr_book_file_is_ours (const PrBookFile *file);
/* Does no name lead to it any more? */
bool pr_book_file_is_nameless (const PrBookFile *file);
/* From now on FILE->events is readable when something happens in the folder of PATH. */
void pr_book_file_watch (PrBookFile *file, const char *path);
/* Empties it. WROTE: we have written since the last time. TRUE when another program wrote, or may have, while we
 * did. */
bool pr_book_file_drain (PrBookFile *file, bool wrote);
