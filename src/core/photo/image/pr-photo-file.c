/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <sys/stat.h>
#include <unistd.h>

#include "pr-error.h"
#include "pr-photo-bounds.h"
#include "pr-photo-header.h"
#include "pr-photo.h"

/* Bytes read at a time, between looks at the cancellable. */
#define SLICE ((size_t) 1 << 20)

static void
large_error (const char *name, GError **error)
{
  g_set_error (error, PR_ERROR, PR_ERROR_FILE,
               _ ("%s is larger than a photo may be (256 MB); make it smaller and try again."), name);
}

static void
open_error (const char *name, int why, GError **error)
{
  if (why == ENOENT)
    g_set_error (error, PR_ERROR, PR_ERROR_FILE, _ ("There is no file %s; check the name and the folder."),
                 name);
  else
    g_set_error (error, PR_ERROR, PR_ERROR_FILE, _ ("%s cannot be read (%s); check that it may be opened."),
                 name, g_strerror (why));
}

static bool
is_acceptable (int fd, const char *name, struct stat *what, GError **error)
{
  if (fstat (fd, what) != 0)
    open_error (name, errno, error);
  else if (S_ISDIR (what->st_mode))
    g_set_error (error, PR_ERROR, PR_ERROR_FILE, _ ("%s is a folder; choose a photo inside it."), name);
  else if (!S_ISREG (what->st_mode))
    g_set_error (error, PR_ERROR, PR_ERROR_FILE,
                 _ ("%s is not a photo; copy the photo to a folder and choose it there."), name);
  else if ((size_t) what->st_size > PR_PHOTO_MOST_BYTES)
    large_error (name, error);
  else
    return true;
  return false;
}

/* The first N bytes of a file tell enough for it to be refused: the rest of a film need not be read for that. */
static bool
is_hopeless (const uint8_t *data, size_t n)
{
  PrPhotoHeader head;

  pr_photo_header_read (&head, data, n);
  return head.mime == NULL || pr_photo_is_too_large (head.width, head.height);
}

/* LEN bytes; fewer where the file has become shorter, or what it begins with is no photo. */
static GBytes *
read_all (int fd, size_t len, const char *name, GCancellable *cancellable, GError **error)
{
  g_autofree uint8_t *data = g_malloc (len + 1);
  size_t at = 0;
  ssize_t n = 1;

  while (at < len && n != 0) {
    if (g_cancellable_set_error_if_cancelled (cancellable, error))
      return NULL;
    n = read (fd, data + at, MIN (SLICE, len - at));
    if (n < 0 && errno != EINTR) {
      open_error (name, errno, error);
      return NULL;
    }
    if (at == 0 && n > 0 && is_hopeless (data, (size_t) n))
      len = (size_t) n;
    at += n > 0 ? (size_t) n : 0;
  }
  return g_bytes_new_take (g_steal_pointer (&data), at);
}

/* Not waited for: a pipe that nobody writes to opens at once, and is then refused. */
static GBytes *
bytes_at (const char *path, const char *name, GCancellable *cancellable, GError **error)
{
  int fd = open (path, O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY);
  GBytes *bytes = NULL;
  struct stat what;

  if (fd < 0) {
    open_error (name, errno, error);
    return NULL;
  }
  if (is_acceptable (fd, name, &what, error))
    bytes = read_all (fd, (size_t) what.st_size, name, cancellable, error);
  close (fd);
  return bytes;
}

/* FILE in no folder of this system: inside the program, or another machine's. */
static GBytes *
bytes_of (GFile *file, const char *name, GCancellable *cancellable, GError **error)
{
  g_autoptr (GError) why = NULL;
  g_autoptr (GFileInputStream) stream = g_file_read (file, cancellable, &why);
  g_autoptr (GByteArray) all = g_byte_array_new ();
  gssize n = 1;

  while (stream != NULL && n > 0 && all->len <= PR_PHOTO_MOST_BYTES) {
    guint at = all->len;
    g_byte_array_set_size (all, at + (guint) SLICE);
    n = g_input_stream_read (G_INPUT_STREAM (stream), all->data + at, SLICE, cancellable, &why);
    g_byte_array_set_size (all, at + (guint) MAX (n, 0));
  }
  if (g_cancellable_set_error_if_cancelled (cancellable, error))
    return NULL;
  if (why == NULL && all->len <= PR_PHOTO_MOST_BYTES)
    return g_byte_array_free_to_bytes (g_steal_pointer (&all));
  if (why == NULL)
    large_error (name, error);
  else
    g_set_error (error, PR_ERROR, PR_ERROR_FILE, _ ("%s cannot be read (%s); check that it may be opened."),
                 name, why->message);
  return NULL;
}

GBytes *
pr_photo_bytes (GFile *file, GCancellable *cancellable, GError **error)
{
  g_autofree char *base = g_file_get_basename (file),
                  *name = g_filename_display_name (base != NULL ? base : "");
  const char *path = g_file_peek_path (file);

  return path != NULL ? bytes_at (path, name, cancellable, error) : bytes_of (file, name, cancellable, error);
}
