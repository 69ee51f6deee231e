/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-dxf.h"
#include "pr-error.h"
#include "pr-template.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* One file on its way: written beside its place, then renamed into it. */
typedef struct {
  char *file;  /* as asked for, symbolic links followed */
  char *fresh; /* the whole new file under another name; NULL when not there */
  char *old;   /* what stood at FILE, while others of the set may still fail */
  bool placed;
} PrParcel;

static bool
write_error (GError **error, const char *file, int number)
{
  g_autofree char *name = g_filename_display_basename (file);

  g_set_error (error, PR_ERROR, PR_ERROR_FILE,
               _ ("%s could not be written (%s); choose another folder or make room."), name,
               g_strerror (number));
  return false;
}

/* What stands at FILE must be nothing, or a plain file that may be written. MODE receives the
 * permissions to give. */
static bool
place_is_free (const char *file, mode_t *mode, GError **error)
{
  g_autofree char *name = g_filename_display_basename (file);
  GStatBuf st;

  *mode = 0;
  if (g_stat (file, &st) != 0)
    return errno == ENOENT ? true : write_error (error, file, errno);
  if (S_ISDIR (st.st_mode))
    g_set_error (error, PR_ERROR, PR_ERROR_FILE, _ ("%s is a folder; give a file name inside it."), name);
  else if (!S_ISREG (st.st_mode))
    g_set_error (error, PR_ERROR, PR_ERROR_FILE, _ ("%s is not a plain file; give another name."), name);
  else if ((st.st_mode & 0222) == 0 || g_access (file, W_OK) != 0)
    g_set_error (error, PR_ERROR, PR_ERROR_FILE,
                 _ ("%s is write-protected; give another name or allow writing to it."), name);
  else {
    *mode = st.st_mode & 0777;
    return true;
  }
  return false;
}

static bool
write_out (int fd, const char *data, gsize len)
{
  while (len > 0) {
    ssize_t n = write (fd, data, len);

    if (n < 0 && errno == EINTR)
      continue;
    if (n <= 0)
      return false;
    data += n;
    len -= (gsize) n;
  }
  return true;
}

/* A name beside FILE that mkstemp may fill. Transfer full. */
static char *
name_beside (const char *file)
{
  g_autofree char *dir = g_path_get_dirname (file);
  g_autofree char *base = g_path_get_basename (file);
  g_autofree char *name = g_strdup_printf (".%.100s.XXXXXX", base);

  return g_build_filename (dir, name, NULL);
}

static bool
parcel_pack (PrParcel *parcel, const char *file, const char *data, gsize len, GError **error)
{
  char *real = realpath (file, NULL);
  mode_t mode;

  parcel->file = g_strdup (real != NULL ? real : file);
  free (real);
  if (!place_is_free (parcel->file, &mode, error))
    return false;
  g_autofree char *fresh = name_beside (parcel->file);
  int fd = g_mkstemp_full (fresh, O_RDWR | O_CLOEXEC, 0666);
  if (fd < 0)
    return write_error (error, file, errno);
  parcel->fresh = g_steal_pointer (&fresh);
  bool whole = write_out (fd, data, len) && (mode == 0 || fchmod (fd, mode) == 0) && fsync (fd) == 0;
  int number = errno;
  if (close (fd) != 0 && whole) {
    whole = false;
    number = errno;
  }
  return whole ? true : write_error (error, file, number);
}

/* Keeps what stands at the place under another name, so that it can be put back. */
static void
parcel_keep_old (PrParcel *parcel)
{
  g_autofree char *old = name_beside (parcel->file);
  int fd = g_mkstemp_full (old, O_RDWR | O_CLOEXEC, 0600);

  if (fd < 0)
    return;
  close (fd);
  g_unlink (old);
  if (link (parcel->file, old) == 0 || rename (parcel->file, old) == 0)
    parcel->old = g_steal_pointer (&old);
}

static bool
parcel_place (PrParcel *parcel, GError **error)
{
  if (g_file_test (parcel->file, G_FILE_TEST_EXISTS))
    parcel_keep_old (parcel);
  if (rename (parcel->fresh, parcel->file) != 0)
    return write_error (error, parcel->file, errno);
  g_clear_pointer (&parcel->fresh, g_free);
  parcel->placed = true;
  return true;
}

/* Leaves the new file (DONE), or everything as it was. */
static void
parcel_end (PrParcel *parcel, bool done)
{
  if (parcel->file == NULL)
    return;
  if (!done && parcel->placed && parcel->old == NULL)
    g_unlink (parcel->file);
  /* not where both are names of one file: rename would leave both */
  bool gone = parcel->placed || !g_file_test (parcel->file, G_FILE_TEST_EXISTS);
  if (!done && parcel->old != NULL && gone && rename (parcel->old, parcel->file) == 0)
    g_clear_pointer (&parcel->old, g_free);
  if (parcel->old != NULL)
    g_unlink (parcel->old);
  if (parcel->fresh != NULL)
    g_unlink (parcel->fresh);
  g_free (parcel->file);
  g_free (parcel->fresh);
  g_free (parcel->old);
}

/* The folder's own record, so that the names survive a power cut; not every file system can. */
static void
sync_folder (const char *file)
{
  g_autofree char *dir = g_path_get_dirname (file);
  int fd = g_open (dir, O_RDONLY | O_DIRECTORY | O_CLOEXEC, 0);

  if (fd >= 0) {
    (void) fsync (fd);
    close (fd);
  }
}

bool
pr_write_whole (const char *file, const char *data, gsize len, GError **error)
{
  PrParcel parcel = { 0 };
  bool done = parcel_pack (&parcel, file, data, len, error) && parcel_place (&parcel, error);

  if (done)
    sync_folder (parcel.file);
  parcel_end (&parcel, done);
  return done;
}

/* What goes into a folder; the last one only when asked for. */
enum { TEMPLATE_PDF, TEMPLATE_SVG, TEMPLATE_PNG, BAR_PDF, REPORT_TXT, REPORT_JSON, TEMPLATE_DXF, N_FILES };

/* The files, in memory; empty when not asked for. */
static bool
make_all (const PrJob *job, const PrPageOptions *options, GByteArray *bytes[N_FILES], GError **error)
{
  for (int i = 0; i < N_FILES; i++)
    bytes[i] = g_byte_array_new ();
  g_autofree char *text = pr_report_text (job, options->unit);
  g_byte_array_append (bytes[REPORT_TXT], (const guint8 *) text, (guint) strlen (text));
  g_autoptr (JsonNode) node = pr_report_json (job);
  g_autofree char *json = json_to_string (node, TRUE);
  g_byte_array_append (bytes[REPORT_JSON], (const guint8 *) json, (guint) strlen (json));
  g_byte_array_append (bytes[REPORT_JSON], (const guint8 *) "\n", 1);
  if (options->dxf)
    pr_make_template_dxf (job, PR_FACE_FOOT, bytes[TEMPLATE_DXF]);
  return pr_make_template_pdf (job, options, bytes[TEMPLATE_PDF], error)
         && pr_make_template_svg (job, PR_FACE_FOOT, bytes[TEMPLATE_SVG], error)
         && pr_make_template_png (job, PR_FACE_FOOT, PR_PNG_PX_PER_MM, bytes[TEMPLATE_PNG], error)
         && pr_make_bar_pdf (job, options, bytes[BAR_PDF], error);
}

static bool
place_all (GByteArray *bytes[N_FILES], const char *dir, GError **error)
{
  static const char *const names[N_FILES] = {
    [TEMPLATE_PDF] = "template.pdf", [TEMPLATE_SVG] = "template.svg", [TEMPLATE_PNG] = "template.png",
    [BAR_PDF] = "bar.pdf",           [REPORT_TXT] = "report.txt",     [REPORT_JSON] = "report.json",
    [TEMPLATE_DXF] = "template.dxf",
  };
  PrParcel parcel[N_FILES] = { 0 };
  bool done = true;

  for (int i = 0; i < N_FILES && done; i++) {
    if (bytes[i]->len == 0)
      continue;
    g_autofree char *file = g_build_filename (dir, names[i], NULL);
    done = parcel_pack (&parcel[i], file, (const char *) bytes[i]->data, bytes[i]->len, error);
  }
  for (int i = 0; i < N_FILES && done; i++)
    done = parcel[i].fresh == NULL || parcel_place (&parcel[i], error);
  if (done)
    sync_folder (parcel[0].file);
  for (int i = 0; i < N_FILES; i++)
    parcel_end (&parcel[i], done);
  return done;
}

bool
pr_write_all (const PrJob *job, const PrPageOptions *options, const char *dir, GError **error)
{
  GByteArray *bytes[N_FILES];
  bool was_there = g_file_test (dir, G_FILE_TEST_IS_DIR);
  bool done = make_all (job, options, bytes, error);

  if (done && !was_there && g_mkdir_with_parents (dir, 0777) != 0) {
    g_autofree char *name = g_filename_display_name (dir);
    g_set_error (error, PR_ERROR, PR_ERROR_FILE,
                 _ ("The folder %s could not be made (%s); choose another place."), name, g_strerror (errno));
    done = false;
  }
  if (done && !place_all (bytes, dir, error)) {
    done = false;
    if (!was_there)
      g_rmdir (dir);
  }
  for (int i = 0; i < N_FILES; i++)
    g_byte_array_unref (bytes[i]);
  return done;
}
