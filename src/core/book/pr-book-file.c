/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-book-file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/inotify.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "pr-hold.h"

/* Where SQLite locks for readers (file format, "lock-byte page"), behind its pending and reserved bytes. */
#define SHARED_START (0x40000000 + 2)
#define SHARED_BYTES 510

#define FOLDER_EVENTS                                                                                \
  (IN_OPEN | IN_CREATE | IN_DELETE | IN_MOVED_FROM | IN_MOVED_TO | IN_CLOSE_WRITE | IN_CLOSE_NOWRITE \
   | IN_DELETE_SELF | IN_MOVE_SELF | IN_ONLYDIR)

int
pr_book_file_open (PrBookFile *file, const char *path, int flags)
{
  struct stat st;

  *file = (PrBookFile) PR_BOOK_FILE_NONE;
  file->fd = open (path, flags | O_CLOEXEC, 0600);
  if (file->fd < 0 || fstat (file->fd, &st) != 0)
    return errno;
  file->device = st.st_dev;
  file->inode = st.st_ino;
  return 0;
}

void
pr_book_file_close (PrBookFile *file)
{
  if (file->fd >= 0)
    close (file->fd);
  if (file->events >= 0)
    close (file->events);
  g_free (file->name);
  *file = (PrBookFile) PR_BOOK_FILE_NONE;
}

/* --- as we left it --- */

void
pr_book_file_remember (PrBookFile *file)
{
  struct stat st;

  if (fstat (file->fd, &st) != 0)
    return;
  file->size = st.st_size;
  file->sec = st.st_mtim.tv_sec;
  file->nsec = st.st_mtim.tv_nsec;
}

void
pr_book_file_stamp (PrBookFile *file)
{
  struct timespec times[2] = { { .tv_nsec = UTIME_OMIT } };

  clock_gettime (CLOCK_REALTIME, &times[1]); /* the kernel's own is that of its last tick */
  futimens (file->fd, times);
  pr_book_file_remember (file);
}

void
pr_book_file_disown (PrBookFile *file)
{
  file->size = -1;
}

bool
pr_book_file_is_ours (const PrBookFile *file)
{
  struct stat st;

  return fstat (file->fd, &st) == 0 && st.st_size == file->size && st.st_mtim.tv_sec == file->sec
         && st.st_mtim.tv_nsec == file->nsec;
}

bool
pr_book_file_is_nameless (const PrBookFile *file)
{
  struct stat st;

  return fstat (file->fd, &st) == 0 && st.st_nlink == 0;
}

/* --- the lock --- */

/* SQLite believes in its lock until it gives it up; so one that was dropped, by something in this process that has read
 * the file, is put back as it was. Where it is held still that changes nothing. */
static bool
hold_lock (const PrBookFile *file)
{
  struct flock lock
      = { .l_type = F_RDLCK, .l_whence = SEEK_SET, .l_start = SHARED_START, .l_len = SHARED_BYTES };

  return pr_hold_take (file->fd)
         && (fcntl (file->fd, F_SETLK, &lock) == 0 || (errno != EAGAIN && errno != EACCES));
}

static PrBookLoss
how_gone (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);

  return access (folder, X_OK) == 0 ? PR_BOOK_GONE : PR_BOOK_FOLDER_GONE;
}

PrBookLoss
pr_book_file_look (const PrBookFile *file, const char *path)
{
  struct stat st;

  if (stat (path, &st) != 0)
    return how_gone (path);
  if (st.st_dev != file->device || st.st_ino != file->inode)
    return PR_BOOK_REPLACED;
  if (!hold_lock (file))
    return PR_BOOK_TAKEN;
  return pr_book_file_is_ours (file) ? PR_BOOK_KEPT : PR_BOOK_OVERWRITTEN; /* with the lock in hand */
}

/* --- being told --- */

static void
watch_folder_of (int events, const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);

  inotify_add_watch (events, folder, FOLDER_EVENTS);
}

void
pr_book_file_watch (PrBookFile *file, const char *path)
{
  char *real = realpath (path, NULL);

  file->events = inotify_init1 (IN_NONBLOCK | IN_CLOEXEC);
  file->name = g_path_get_basename (real ? real : path);
  if (file->events >= 0) {
    watch_folder_of (file->events, path);
    watch_folder_of (file->events, real ? real : path); /* the book may be a link to where it lies */
  }
  free (real);
}

/* Returns whether what EVENT tells of may have been mixed with our own writing. */
static bool
take_event (PrBookFile *file, const struct inotify_event *event, bool wrote)
{
  bool mixed = false;

  if (event->mask & IN_Q_OVERFLOW)
    file->openers = 0;
  if (event->len == 0 || strcmp (event->name, file->name) != 0)
    return false;
  if (event->mask & IN_OPEN) {
    file->openers++;
    file->overlapped |= wrote;
  } else if (event->mask & IN_CLOSE) {
    mixed = file->overlapped && event->mask & IN_CLOSE_WRITE;
    file->openers = MAX (file->openers - 1, 0);
  }
  file->overlapped &= file->openers > 0 || wrote;
  return mixed;
}

bool
pr_book_file_drain (PrBookFile *file, bool wrote)
{
  _Alignas(struct inotify_event) char buffer[4096];
  bool mixed = false;
  ssize_t n;

  file->overlapped |= wrote && file->openers > 0;
  while (file->events >= 0 && (n = read (file->events, buffer, sizeof buffer)) > 0)
    for (const char *at = buffer; at < buffer + n;) {
      const struct inotify_event *event = (const struct inotify_event *) at;
      mixed |= take_event (file, event, wrote);
      at += sizeof *event + event->len;
    }
  file->overlapped &= file->openers > 0;
  return mixed;
}
