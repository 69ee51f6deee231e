/* SPDX-License-Identifier: GPL-3.0-or-later */
/* pritchel-decode: one picture from bytes to upright rows, in a process that can be ended. Started by the other
 * programs alone; pr-photo-apart.h says how. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include "pr-photo-apart.h"
#include "pr-photo-bounds.h"
#include "pr-photo-loader.h"
#include "pr-photo-upright.h"
#include "pr-shut-in.h"

/* Rows written at a time. */
#define ROWS 64
/* Until the one who waits would have given up many times over, seconds. */
#define MOST_CPU 600

/* The picture's bytes as they lie in the file; NULL: this was not started as it should be. */
static const uint8_t *
map_input (size_t *len)
{
  struct stat what;

  if (fstat (STDIN_FILENO, &what) != 0 || !S_ISREG (what.st_mode) || what.st_size == 0
      || (size_t) what.st_size > PR_PHOTO_MOST_BYTES)
    return NULL;
  *len = (size_t) what.st_size;
  void *data = mmap (NULL, *len, PROT_READ, MAP_SHARED, STDIN_FILENO, 0);
  return data != MAP_FAILED ? data : NULL;
}

/* The loaders make a copy of all they are given: what they have need not lie in memory twice. */
static void
let_go (const uint8_t *from, size_t n)
{
  size_t page = (size_t) sysconf (_SC_PAGESIZE), over = (uintptr_t) from % page;

  madvise ((void *) (from - over), n + over, MADV_DONTNEED);
}

static PrFault
write_rows (const GdkPixbuf *pixbuf)
{
  PrUpright view = pr_upright_of (pixbuf);
  char head[PR_APART_ROWS] = { 0 };
  const PrApart told = { PR_APART_MAGIC, view.width, view.height };
  size_t stride = 3 * (size_t) view.width;
  g_autofree uint8_t *rows = g_malloc (ROWS * stride);

  memcpy (head, &told, sizeof told);
  fwrite (head, 1, sizeof head, stdout);
  for (int y = 0; y < view.height; y += ROWS) {
    int n = MIN (ROWS, view.height - y);
    pr_upright_rows (&view, y, n, rows);
    fwrite (rows, stride, (size_t) n, stdout);
  }
  return fflush (stdout) == 0 && !ferror (stdout) ? PR_FAULT_NONE : PR_FAULT_MEMORY;
}

int
main (int argc, char **argv)
{
  const PrWatch watch = { NULL, G_MAXINT64, let_go };
  size_t len = 0;
  PrFault fault = PR_FAULT_DAMAGED;
  PrPhotoHeader head;

  pr_shut_in (MOST_CPU, PR_APART_ROWS + 3 * (rlim_t) PR_PHOTO_MOST_PIXELS);
  /* what a loader says of a picture is no fault of ours */
  g_log_set_always_fatal (G_LOG_FATAL_MASK);
  const uint8_t *data = argc == 2 ? map_input (&len) : NULL;
  if (data == NULL)
    return PR_APART_FAULT + PR_FAULT_NO_HELPER;
  pr_photo_header_read (&head, data, len);
  if (g_strcmp0 (head.mime, argv[1]) != 0)
    _exit (PR_APART_FAULT + PR_FAULT_DAMAGED);
  GdkPixbuf *pixbuf = pr_photo_load (data, len, &head, &watch, &fault);
  if (pixbuf != NULL)
    fault = write_rows (pixbuf);
  /* at once: what lies in memory is not taken apart first */
  _exit (fault == PR_FAULT_NONE ? 0 : PR_APART_FAULT + (int) fault);
}
