/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "measured.h"

#include <string.h>
#include <sys/mman.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "pr-error.h"
#include "pr-photo.h"

#define WATCHDOG 120 /* seconds: far beyond what the slowest machine needs */

static double
held_mb (void)
{
  struct rusage self, others;

  getrusage (RUSAGE_SELF, &self);
  getrusage (RUSAGE_CHILDREN, &others);
  return (double) MAX (self.ru_maxrss, others.ru_maxrss) * 1024 / 1e6;
}

static void
read_photo (const GByteArray *bytes, const char *name, Measured *m)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) held = bytes != NULL ? g_bytes_new_static (bytes->data, bytes->len) : NULL;
  gint64 from = g_get_monotonic_time ();
  g_autoptr (PrPhoto) photo
      = held != NULL ? pr_photo_decode (held, name, &error) : pr_photo_read (name, &error);

  m->seconds = (double) (g_get_monotonic_time () - from) / 1e6;
  m->width = photo != NULL ? photo->width : 0;
  m->height = photo != NULL ? photo->height : 0;
  m->is_ours = error != NULL && error->domain == PR_ERROR;
  g_strlcpy (m->message, error != NULL ? error->message : "", sizeof m->message);
  m->mb = held_mb ();
  m->ended = true;
}

/* Its own terminal is a file that ought to stay empty. */
static void
in_a_process (const GByteArray *bytes, const char *name, Measured *m)
{
  int terminal = memfd_create ("terminal", MFD_CLOEXEC);
  struct stat what;

  alarm (WATCHDOG);
  dup2 (terminal, STDOUT_FILENO);
  dup2 (terminal, STDERR_FILENO);
  read_photo (bytes, name, m);
  m->printed = fstat (terminal, &what) != 0 || what.st_size > 0;
  _exit (0);
}

Measured
measured_photo (const GByteArray *bytes, const char *name)
{
  Measured *shared = mmap (NULL, sizeof *shared, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
  Measured m = { 0 };
  pid_t pid = shared != MAP_FAILED ? fork () : -1;

  if (pid == 0)
    in_a_process (bytes, name, shared);
  if (pid > 0)
    waitpid (pid, NULL, 0);
  if (shared != MAP_FAILED) {
    m = *shared;
    munmap (shared, sizeof *shared);
  }
  return m;
}

bool
measured_is_sentence (const char *message, const char **instead)
{
  *instead = !g_str_has_suffix (message, ".")       ? "has no end"
             : strstr (message, ". ") != NULL       ? "is more than one sentence"
             : strchr (message, '\n') != NULL       ? "is more than one line"
             : strlen (message) < 30                ? "says too little"
             : strpbrk (message, ";:") == NULL      ? "does not say what to do"
             : !g_utf8_validate (message, -1, NULL) ? "is no text"
                                                    : NULL;
  return *instead == NULL;
}
