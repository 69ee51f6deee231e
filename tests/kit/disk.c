/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "disk.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <sqlite3.h>
#include <stddef.h>
#include <sys/stat.h>
#include <unistd.h>

static struct {
  KitDisk how;
  int left;
  bool failed, set;
} disk;

/* Counts a call; TRUE with errno when it is to fail. */
static bool
fails (bool grows)
{
  bool out = disk.how != KIT_DISK_SOUND && (disk.left > 0 ? disk.left-- : 0) == 0;

  if (!out || (disk.how == KIT_DISK_FULL && !grows))
    return false;
  if (disk.how == KIT_DISK_KILLED)
    raise (SIGKILL);
  disk.failed = true;
  errno = disk.how == KIT_DISK_FULL ? ENOSPC : EIO;
  return true;
}

static bool
grows (int fd, off_t end)
{
  struct stat st;

  return fstat (fd, &st) == 0 && end > st.st_size;
}

static int
our_open (const char *path, int flags, int mode)
{
  bool made = (flags & O_CREAT) && access (path, F_OK) != 0;

  return fails (made) ? -1 : open (path, flags, mode);
}

static ssize_t
our_write (int fd, const void *bytes, size_t n)
{
  return fails (grows (fd, lseek (fd, 0, SEEK_CUR) + (off_t) n)) ? -1 : write (fd, bytes, n);
}

static ssize_t
our_pwrite (int fd, const void *bytes, size_t n, off_t at)
{
  return fails (grows (fd, at + (off_t) n)) ? -1 : pwrite (fd, bytes, n, at);
}

static ssize_t
our_read (int fd, void *bytes, size_t n)
{
  return disk.how == KIT_DISK_GONE && fails (false) ? -1 : read (fd, bytes, n);
}

static ssize_t
our_pread (int fd, void *bytes, size_t n, off_t at)
{
  return disk.how == KIT_DISK_GONE && fails (false) ? -1 : pread (fd, bytes, n, at);
}

static int
our_truncate (int fd, off_t size)
{
  return fails (grows (fd, size)) ? -1 : ftruncate (fd, size);
}

static int
our_sync (int fd)
{
  return fails (false) ? -1 : fsync (fd);
}

static const struct {
  const char *name;
  sqlite3_syscall_ptr call;
} calls[] = {
  { "open", (sqlite3_syscall_ptr) our_open },       { "read", (sqlite3_syscall_ptr) our_read },
  { "pread", (sqlite3_syscall_ptr) our_pread },     { "pread64", (sqlite3_syscall_ptr) our_pread },
  { "write", (sqlite3_syscall_ptr) our_write },     { "pwrite", (sqlite3_syscall_ptr) our_pwrite },
  { "pwrite64", (sqlite3_syscall_ptr) our_pwrite }, { "ftruncate", (sqlite3_syscall_ptr) our_truncate },
  { "fsync", (sqlite3_syscall_ptr) our_sync },      { "fdatasync", (sqlite3_syscall_ptr) our_sync },
};

void
kit_disk_is (KitDisk how, int n)
{
  sqlite3_vfs *vfs = sqlite3_vfs_find (NULL);

  for (size_t i = 0; !disk.set && i < sizeof calls / sizeof *calls; i++)
    if (vfs->xGetSystemCall (vfs, calls[i].name) != NULL)
      vfs->xSetSystemCall (vfs, calls[i].name, calls[i].call);
  disk.set = true;
  disk.how = how;
  disk.left = n;
  disk.failed = false;
}

bool
kit_disk_failed (void)
{
  return disk.failed;
}
