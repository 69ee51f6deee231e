/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Photos that are decoded in a process of their own: stopped, given up after a time or for their memory, and
 * refused whatever that process does. This program is also that process, as bad as it is told to be. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <errno.h>
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "pr-error.h"
#include "pr-photo-apart.h"
#include "pr-photo.h"

#define BADNESS "PR_TEST_BADNESS"

/* --- the bad helper --- */

static void
sleep_on (void)
{
  for (;;)
    pause ();
}

static void
eat_memory (void)
{
  for (;;) {
    volatile char *p = malloc (1 << 20);
    for (int i = 0; p != NULL && i < 1 << 20; i += 1024)
      p[i] = 1;
  }
}

static void
write_head (uint32_t magic, int32_t width, int32_t height, size_t rows)
{
  const PrApart told = { magic, width, height };
  g_autofree char *zeros = g_malloc0 (PR_APART_ROWS + rows);

  memcpy (zeros, &told, sizeof told);
  if (write (STDOUT_FILENO, zeros, PR_APART_ROWS + rows) < 0)
    _exit (99);
}

static int
be_bad (const char *how)
{
  if (strcmp (how, "sleeps") == 0)
    sleep_on ();
  if (strcmp (how, "eats") == 0)
    eat_memory ();
  if (strcmp (how, "crashes") == 0)
    raise (SIGSEGV);
  if (strcmp (how, "prints") == 0)
    fprintf (stderr, "Warning, unknown field with tag 34665.\n");
  if (strcmp (how, "short") == 0)
    write_head (PR_APART_MAGIC, 100, 80, 100);
  if (strcmp (how, "huge") == 0)
    write_head (PR_APART_MAGIC, 0x7fffffff, 0x7fffffff, 100);
  if (strcmp (how, "less") == 0)
    write_head (PR_APART_MAGIC, -3, -3, 27);
  if (strcmp (how, "other") == 0)
    write_head (12345, 100, 80, 24000);
  if (strcmp (how, "small") == 0)
    write_head (PR_APART_MAGIC, 20, 20, 1200);
  return strcmp (how, "fails") == 0 ? 1 : 0;
}

/* --- the tests --- */

static char *self;

static GBytes *
picture_of (int width, int height, const char *format)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, width, height);
  const char *keys[] = { "compression", NULL }, *values[] = { "5", NULL }; /* of a TIFF: LZW */
  bool packed = strcmp (format, "tiff") == 0;
  char *data;
  gsize len;

  gdk_pixbuf_fill (pixbuf, 0xc08040ff);
  assert_true (gdk_pixbuf_save_to_bufferv (pixbuf, &data, &len, format, packed ? (char **) keys : NULL,
                                           packed ? (char **) values : NULL, NULL));
  return g_bytes_new_take (data, len);
}

static GBytes *
picture (const char *format)
{
  return picture_of (96, 80, format);
}

static void
nothing_is_left (void)
{
  assert_int_equal (waitpid (-1, NULL, WNOHANG), -1);
  assert_int_equal (errno, ECHILD);
}

static void
says_of (GBytes *tiff, const char *how, const PrPhotoPatience *patience, const char *words)
{
  g_autofree char *good = g_strdup (g_getenv ("PRITCHEL_DECODE"));
  g_autoptr (GError) error = NULL;

  g_setenv ("PRITCHEL_DECODE", self, TRUE);
  g_setenv (BADNESS, how, TRUE);
  g_autoptr (PrPhoto) photo = pr_photo_decode_patiently (tiff, "foot.tif", patience, &error);
  g_setenv ("PRITCHEL_DECODE", good, TRUE);
  g_unsetenv (BADNESS);
  assert_null (photo);
  assert_non_null (error);
  if (strstr (error->message, words) == NULL)
    fail_msg ("%s: %s", how, error->message);
  nothing_is_left ();
}

static void
says (const char *how, const PrPhotoPatience *patience, const char *words)
{
  g_autoptr (GBytes) tiff = picture ("tiff");

  says_of (tiff, how, patience, words);
}

static void
good_ones_are_read (void **state)
{
  g_autoptr (GBytes) tiff = picture ("tiff");
  g_autoptr (GError) error = NULL;
  g_autoptr (PrPhoto) photo = pr_photo_decode (tiff, NULL, &error);

  (void) state;
  assert_null (error);
  assert_int_equal (photo->width, 96);
  assert_int_equal (photo->height, 80);
  for (int y = 0; y < 80; y++)
    for (int x = 0; x < 96; x++)
      assert_memory_equal (photo->rgb + (size_t) y * photo->stride + 3 * x, "\xc0\x80\x40", 3);
  nothing_is_left ();
}

static void
whatever_it_does_is_refused (void **state)
{
  (void) state;
  says ("crashes", NULL, "damaged");
  says ("prints", NULL, "damaged");
  says ("short", NULL, "damaged");
  says ("huge", NULL, "damaged");
  says ("less", NULL, "damaged");
  says ("other", NULL, "missing");
  says ("fails", NULL, "damaged");
  says ("small", NULL, "too small");
}

static void
memory_has_an_end (void **state)
{
  g_autoptr (GBytes) large = picture_of (8000, 8000, "tiff");

  (void) state;
  says_of (large, "eats", NULL, "more memory");
  /* what tells that it is small need not take so much to be refused */
  says ("eats", NULL, "damaged");
}

static void
time_has_an_end (void **state)
{
  (void) state;
  says ("sleeps", &(PrPhotoPatience){ NULL, 0.05 }, "too long");
}

static gpointer
stop_soon (gpointer data)
{
  g_usleep (20000);
  g_cancellable_cancel (data);
  return NULL;
}

static void
it_can_be_stopped (void **state)
{
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  GThread *thread = g_thread_new ("stop", stop_soon, cancellable);

  (void) state;
  /* without the stop this would never end */
  says ("sleeps", &(PrPhotoPatience){ cancellable, 1e6 }, "Stopped");
  g_thread_join (thread);
}

static void
a_missing_helper_is_told (void **state)
{
  g_autofree char *good = g_strdup (g_getenv ("PRITCHEL_DECODE"));
  g_autoptr (GBytes) tiff = picture ("tiff"), png = picture ("png");
  g_autoptr (GError) error = NULL;

  (void) state;
  g_setenv ("PRITCHEL_DECODE", "/nowhere/pritchel-decode", TRUE);
  assert_null (pr_photo_decode (tiff, "foot.tif", &error));
  assert_non_null (strstr (error->message, "is missing; install"));
  g_autoptr (PrPhoto) photo = pr_photo_decode (png, NULL, NULL);
  assert_non_null (photo);
  g_setenv ("PRITCHEL_DECODE", good, TRUE);
}

/* Those that are decoded here look between slices. */
static void
jpeg_and_png_stop_too (void **state)
{
  static const char *const formats[] = { "jpeg", "png", "tiff" };
  g_autoptr (GCancellable) stopped = g_cancellable_new ();

  (void) state;
  g_cancellable_cancel (stopped);
  for (size_t i = 0; i < G_N_ELEMENTS (formats); i++) {
    g_autoptr (GBytes) bytes = picture (formats[i]);
    g_autoptr (GError) stop = NULL, late = NULL;
    assert_null (pr_photo_decode_patiently (bytes, NULL, &(PrPhotoPatience){ stopped, 1e6 }, &stop));
    assert_true (g_error_matches (stop, G_IO_ERROR, G_IO_ERROR_CANCELLED));
    assert_null (pr_photo_decode_patiently (bytes, NULL, &(PrPhotoPatience){ NULL, -1 }, &late));
    assert_true (g_error_matches (late, PR_ERROR, PR_ERROR_PICTURE));
    assert_non_null (strstr (late->message, "too long"));
  }
}

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (good_ones_are_read),    cmocka_unit_test (whatever_it_does_is_refused),
    cmocka_unit_test (memory_has_an_end),     cmocka_unit_test (time_has_an_end),
    cmocka_unit_test (it_can_be_stopped),     cmocka_unit_test (a_missing_helper_is_told),
    cmocka_unit_test (jpeg_and_png_stop_too),
  };

  if (argc == 2 && g_getenv (BADNESS) != NULL)
    _exit (be_bad (g_getenv (BADNESS)));
  self = g_canonicalize_filename (argv[0], NULL);
  int failed = cmocka_run_group_tests_name ("apart", tests, NULL, NULL);
  g_free (self);
  return failed;
}
