/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-photo-apart.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <stdio.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include "pr-photo-bounds.h"
#include "pr-photo-loader.h"

#define HELPER "pritchel-decode"
/* How often it is looked at, ms. It can take up 30 MB in that time. */
#define LOOK_MS 10
#define HEADROOM 50e6
/* What it may hold, in terms of what the head tells: strips of TIFF and planes of HEIC come on top. Beside that
 * the loader's own code and its threads' buffers. */
#define TIMES_TOLD 2.5
#define FOR_LOADER 150e6

extern char **environ;

static char *
helper_path (void)
{
  g_autofree char *self = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *folder = self != NULL ? g_path_get_dirname (self) : NULL;
  char *beside = folder != NULL ? g_build_filename (folder, HELPER, NULL) : NULL;

  if (g_getenv ("PRITCHEL_DECODE") != NULL) {
    g_free (beside);
    return g_strdup (g_getenv ("PRITCHEL_DECODE"));
  }
  if (beside != NULL && access (beside, X_OK) == 0)
    return beside;
  g_free (beside);
  return g_build_filename (PR_HELPER_DIR, HELPER, NULL);
}

static bool
write_all (int fd, const uint8_t *p, size_t len)
{
  while (len > 0) {
    ssize_t n = write (fd, p, len);
    if (n < 0 && errno == EINTR)
      continue;
    if (n <= 0)
      return false;
    p += n;
    len -= (size_t) n;
  }
  return true;
}

/* Memory with BYTES in it, read from its start; -1: none to be had. */
static int
memory_file (GBytes *bytes)
{
  int fd = memfd_create ("pritchel-photo", MFD_CLOEXEC);
  size_t len = 0;
  const uint8_t *p = bytes != NULL ? g_bytes_get_data (bytes, &len) : NULL;

  if (fd >= 0 && (!write_all (fd, p, len) || lseek (fd, 0, SEEK_SET) != 0)) {
    close (fd);
    return -1;
  }
  return fd;
}

static bool
start (pid_t *pid, int in, int out, const char *mime)
{
  g_autofree char *path = helper_path ();
  char *argv[] = { (char *) HELPER, (char *) mime, NULL };
  posix_spawn_file_actions_t actions;
  posix_spawnattr_t attr;
  sigset_t none, all;

  sigemptyset (&none);
  sigfillset (&all);
  posix_spawnattr_init (&attr);
  posix_spawnattr_setflags (&attr, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF);
  posix_spawnattr_setsigmask (&attr, &none);
  posix_spawnattr_setsigdefault (&attr, &all);
  posix_spawn_file_actions_init (&actions);
  posix_spawn_file_actions_adddup2 (&actions, in, STDIN_FILENO);
  posix_spawn_file_actions_adddup2 (&actions, out, STDOUT_FILENO);
  /* what loaders print is for nobody */
  posix_spawn_file_actions_addopen (&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  bool started = posix_spawn (pid, path, &actions, &attr, argv, environ) == 0;
  posix_spawn_file_actions_destroy (&actions);
  posix_spawnattr_destroy (&attr);
  return started;
}

/* Bytes PID has in memory; 0 once it ended. */
static double
resident (pid_t pid)
{
  g_autofree char *file = g_strdup_printf ("/proc/%d/statm", (int) pid);
  g_autofree char *text = NULL;
  unsigned long pages = 0;

  if (!g_file_get_contents (file, &text, NULL, NULL) || sscanf (text, "%*u %lu", &pages) != 1)
    return 0;
  return (double) pages * (double) sysconf (_SC_PAGESIZE);
}

/* A picture that turns out to be much larger than its head told is given up long before it takes all there is. */
static PrFault
may_go_on (pid_t pid, const PrPhotoHeader *head, const PrWatch *watch)
{
  PrFault fault = pr_watch_look (watch);
  double held = fault == PR_FAULT_NONE ? resident (pid) : 0;

  if (held > PR_PHOTO_MOST_MEMORY - HEADROOM)
    return PR_FAULT_MEMORY;
  return held > FOR_LOADER + TIMES_TOLD * head->memory ? PR_FAULT_SIZE : fault;
}

static void
pause_for (GCancellable *cancellable)
{
  GPollFD stop;
  bool stoppable = g_cancellable_make_pollfd (cancellable, &stop);
  struct pollfd fd = { .fd = stoppable ? stop.fd : -1, .events = POLLIN };

  poll (&fd, 1, LOOK_MS);
  if (stoppable)
    g_cancellable_release_fd (cancellable);
}

static PrFault
told (int status)
{
  int fault = WIFEXITED (status) ? WEXITSTATUS (status) : -1;

  if (fault == 0)
    return PR_FAULT_NONE;
  fault -= PR_APART_FAULT;
  return fault >= PR_FAULT_MEMORY && fault <= PR_FAULT_NO_HELPER ? (PrFault) fault : PR_FAULT_DAMAGED;
}

static PrFault
wait_for (pid_t pid, const PrPhotoHeader *head, const PrWatch *watch)
{
  PrFault fault = PR_FAULT_NONE;
  int status;
  pid_t ended;

  while ((ended = waitpid (pid, &status, WNOHANG)) == 0 && fault == PR_FAULT_NONE) {
    fault = may_go_on (pid, head, watch);
    if (fault == PR_FAULT_NONE)
      pause_for (watch->cancellable);
  }
  if (ended == 0) {
    kill (pid, SIGKILL);
    while (waitpid (pid, &status, 0) < 0 && errno == EINTR)
      ;
  }
  return fault != PR_FAULT_NONE || ended < 0 ? fault : told (status);
}

/* What it left is looked at as if a stranger had written it. */
static PrFault
take_rows (int fd, GBytes **bytes, int *width, int *height)
{
  g_autoptr (GMappedFile) mapped = g_mapped_file_new_from_fd (fd, FALSE, NULL);
  PrApart told;

  if (mapped == NULL || g_mapped_file_get_length (mapped) < PR_APART_ROWS)
    return PR_FAULT_DAMAGED;
  memcpy (&told, g_mapped_file_get_contents (mapped), sizeof told);
  if (told.magic != PR_APART_MAGIC)
    return PR_FAULT_NO_HELPER;
  if (told.width < 1 || told.height < 1 || pr_photo_is_too_large (told.width, told.height)
      || g_mapped_file_get_length (mapped) != PR_APART_ROWS + 3 * (size_t) told.width * (size_t) told.height)
    return PR_FAULT_DAMAGED;
  *width = told.width;
  *height = told.height;
  g_autoptr (GBytes) all = g_mapped_file_get_bytes (mapped);
  *bytes = g_bytes_new_from_bytes (all, PR_APART_ROWS, g_bytes_get_size (all) - PR_APART_ROWS);
  return PR_FAULT_NONE;
}

PrFault
pr_photo_decode_apart (GBytes *picture, const PrPhotoHeader *head, const PrWatch *watch, GBytes **bytes,
                       int *width, int *height)
{
  int in = memory_file (picture), out = memory_file (NULL);
  PrFault fault = PR_FAULT_MEMORY;
  pid_t pid;

  if (in >= 0 && out >= 0)
    fault = start (&pid, in, out, head->mime) ? wait_for (pid, head, watch) : PR_FAULT_NO_HELPER;
  if (in >= 0)
    close (in);
  if (fault == PR_FAULT_NONE)
    fault = take_rows (out, bytes, width, height);
  if (out >= 0)
    close (out);
  return fault;
}
