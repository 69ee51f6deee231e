/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-hold.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "pr-bounds.h"
#include "pr-text.h"

#define HOLD_BYTE (0x40000000 + 512) /* behind SQLite's pending, reserved and 510 shared bytes */
#define WORDS_MOST 1000

/* --- the lock --- */

bool
pr_hold_take (int fd)
{
  struct flock lock = { .l_type = F_WRLCK, .l_whence = SEEK_SET, .l_start = HOLD_BYTE, .l_len = 1 };

  return fcntl (fd, F_OFD_SETLK, &lock) == 0 || (errno != EAGAIN && errno != EACCES);
}

bool
pr_hold_is_free (int fd)
{
  struct flock lock = { .l_type = F_WRLCK, .l_whence = SEEK_SET, .l_start = HOLD_BYTE, .l_len = 1 };

  return fcntl (fd, F_OFD_GETLK, &lock) != 0 || lock.l_type == F_UNLCK;
}

bool
pr_hold_is_free_file (const char *file)
{
  int fd = open (file, O_RDONLY | O_CLOEXEC);
  bool is = fd < 0 || pr_hold_is_free (fd);

  if (fd >= 0)
    close (fd);
  return is;
}

/* --- the words --- */

static char *
words_file (const char *file)
{
  return g_strconcat (file, "-writer", NULL);
}

/* A line each: program, process, machine, when. */
static char *
own_words (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *when = g_date_time_format (now, "%Y-%m-%d %H:%M");
  g_autofree char *path = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *program = g_path_get_basename (path != NULL ? path : "pritchel");

  return g_strdup_printf ("%s\n%ld\n%s\n%s\n", program, (long) getpid (), g_get_host_name (), when);
}

/* What cannot be written is not told; a link that lies there is not followed. */
void
pr_hold_sign (const char *file)
{
  g_autofree char *path = words_file (file), *words = own_words ();
  int fd = open (path, O_WRONLY | O_CREAT | O_TRUNC | O_NOFOLLOW | O_CLOEXEC, 0600);

  if (fd < 0)
    return;
  if (write (fd, words, strlen (words)) != (ssize_t) strlen (words))
    g_unlink (path);
  close (fd);
}

void
pr_hold_unsign (const char *file)
{
  g_autofree char *path = words_file (file);

  g_unlink (path);
}

/* At most WORDS_MOST bytes of what stands there, "" for nothing. Transfer full. */
static char *
read_words (const char *file)
{
  g_autofree char *path = words_file (file);
  char *words = g_malloc0 (WORDS_MOST + 1);
  int fd = open (path, O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);

  if (fd >= 0 && read (fd, words, WORDS_MOST) < 0)
    words[0] = '\0';
  if (fd >= 0)
    close (fd);
  return words;
}

/* Anybody may have written there. */
static char *
fit (const char *word)
{
  g_autofree char *clean = pr_name_fit (word);

  return pr_text_name_brief (clean, 60);
}

char *
pr_hold_who (const char *file)
{
  g_autofree char *words = read_words (file);
  g_auto (GStrv) lines = g_strsplit (words, "\n", 5);

  if (g_strv_length (lines) < 4)
    return g_strdup (_ ("another program"));
  g_autofree char *program = fit (lines[0]), *process = fit (lines[1]), *host = fit (lines[2]),
                  *when = fit (lines[3]);
  /* a program, the number of its process, a machine, a moment */
  return g_strdup_printf (_ ("%s (process %s on %s, since %s)"), program, process, host, when);
}
