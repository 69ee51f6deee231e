/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures as the world hands them over: turned, with alpha, with and without a density, damaged,
 * or no pictures at all. PRITCHEL_PHOTOS names a folder of real photographs; without it
 * those tests are skipped. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "pr-error.h"
#include "pr-photo-header.h"
#include "pr-photo.h"
#include "scene.h"

static double
difference (const PrPhoto *a, const PrPhoto *b)
{
  double sum = 0;

  assert_int_equal (a->width, b->width);
  assert_int_equal (a->height, b->height);
  for (int y = 0; y < a->height; y++)
    for (int x = 0; x < 3 * a->width; x++)
      sum += abs (a->rgb[(size_t) y * a->stride + (size_t) x] - b->rgb[(size_t) y * b->stride + (size_t) x]);
  return sum / (3.0 * a->width * a->height);
}

static PrPhoto *
scene_turned (int orientation)
{
  SceneOptions o;

  scene_defaults (&o);
  o.width = 300;
  o.height = 400;
  o.orientation = orientation;
  g_autoptr (Scene) scene = scene_render (&o);
  return pr_photo_decode (scene->jpeg, NULL, NULL);
}

static void
test_every_orientation (void **state)
{
  g_autoptr (PrPhoto) upright = scene_turned (1);

  (void) state;
  assert_non_null (upright);
  for (int i = 2; i <= 8; i++) {
    g_autoptr (PrPhoto) turned = scene_turned (i);
    assert_non_null (turned);
    /* the same but for JPEG blocks that lie otherwise */
    assert_true (difference (upright, turned) < 2.5);
  }
}

static void
test_real_orientations (void **state)
{
  const char *folder = g_getenv ("PRITCHEL_PHOTOS");
  const char *kinds[] = { "Landscape", "Portrait" };

  (void) state;
  if (folder == NULL || !g_file_test (folder, G_FILE_TEST_IS_DIR))
    skip ();
  for (int k = 0; k < 2; k++) {
    g_autoptr (PrPhoto) upright = NULL;
    for (int i = 1; i <= 9; i++) {
      /* 0, which is invalid, comes last */
      g_autofree char *name = g_strdup_printf ("%s_%d.jpg", kinds[k], i % 9);
      g_autofree char *file = g_build_filename (folder, "exif", name, NULL);
      PrPhoto *photo = pr_photo_read (file, NULL);
      assert_non_null (photo);
      if (upright == NULL) {
        upright = photo;
        continue;
      }
      assert_true (difference (upright, photo) < 6);
      pr_photo_free (photo);
    }
  }
}

static GBytes *
saved (GdkPixbuf *pixbuf, const char *type, const char *key, const char *value)
{
  char *data;
  gsize len;
  const char *keys[] = { key, NULL }, *values[] = { value, NULL };

  assert_true (
      gdk_pixbuf_save_to_bufferv (pixbuf, &data, &len, type, (char **) keys, (char **) values, NULL));
  return g_bytes_new_take (data, len);
}

static void
test_alpha_lies_on_white (void **state)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, TRUE, 8, 80, 80);

  (void) state;
  gdk_pixbuf_fill (pixbuf, 0x00000080);
  g_autoptr (GBytes) png = saved (pixbuf, "png", NULL, NULL);
  g_autoptr (PrPhoto) photo = pr_photo_decode (png, NULL, NULL);
  assert_non_null (photo);
  assert_int_equal (photo->rgb[0], 127);
  assert_int_equal (photo->width, 80);
  assert_true (photo->density == 0);
}

/* 300 dots per inch are 11.811 per mm: 11811 per metre in PNG (ISO/IEC 15948, pHYs). */
static void
test_density (void **state)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 80, 80);
  g_autoptr (GError) error = NULL;

  (void) state;
  gdk_pixbuf_fill (pixbuf, 0xffffffff);
  const char *types[] = { "jpeg", "tiff", "png" };
  for (int i = 0; i < 3; i++) {
    const char *keys[] = { "x-dpi", "y-dpi", NULL }, *values[] = { "300", "300", NULL };
    char *data;
    gsize len;
    assert_true (
        gdk_pixbuf_save_to_bufferv (pixbuf, &data, &len, types[i], (char **) keys, (char **) values, &error));
    g_autoptr (GBytes) bytes = g_bytes_new_take (data, len);
    g_autoptr (PrPhoto) photo = pr_photo_decode (bytes, NULL, NULL);
    assert_non_null (photo);
    assert_true (fabs (photo->density - 300 / 25.4) < 0.01 || (i == 1 && photo->density == 0));
    assert_false (photo->by_camera);
  }
}

/* Heads by hand: what the unit byte says decides. */
static void
test_density_units (void **state)
{
  uint8_t jfif[] = { 0xff, 0xd8, 0xff, 0xe0, 0, 16,  'J', 'F', 'I',  'F',  0, 1,
                     2,    0,    0,    100,  0, 100, 0,   0,   0xff, 0xda, 0, 2 };
  uint8_t png[] = { 0x89, 'P', 'N', 'G',  13,   10, 26, 10,   0,    0, 0, 9, 'p', 'H', 'Y',
                    's',  0,   0,   0x2e, 0x23, 0,  0,  0x2e, 0x23, 1, 0, 0, 0,   0 };
  uint8_t tiff[]
      = { 'I', 'I', 42, 0, 8, 0,  0, 0, 3, 0, 26, 1, 5, 0, 1, 0, 0, 0, 50, 0, 0, 0,   27, 1, 5, 0, 1, 0, 0,
          0,   50,  0,  0, 0, 40, 1, 3, 0, 1, 0,  0, 0, 3, 0, 0, 0, 0, 0,  0, 0, 118, 0,  0, 0, 1, 0, 0, 0 };
  PrPhotoHeader head;
  const struct {
    uint8_t unit;
    double density;
  } units[] = { { 0, 0 }, { 1, 100 / 25.4 }, { 2, 10 }, { 3, 0 } };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (units); i++) {
    jfif[13] = units[i].unit;
    pr_photo_header_read (&head, jfif, sizeof jfif);
    assert_true (fabs (head.density - units[i].density) < 1e-9);
    assert_int_equal (head.scan, 20);
  }
  pr_photo_header_read (&head, png, sizeof png);
  assert_true (fabs (head.density - 11.811) < 1e-9);
  png[24] = 0;
  pr_photo_header_read (&head, png, sizeof png);
  assert_true (head.density == 0);
  pr_photo_header_read (&head, tiff, sizeof tiff);
  assert_true (fabs (head.density - 11.8) < 1e-9);
  tiff[42] = 1;
  pr_photo_header_read (&head, tiff, sizeof tiff);
  assert_true (head.density == 0);
}

/* Any cut of a head is read without leaving it. */
static void
test_cut_heads (void **state)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  static const char *const magic[]
      = { "\xff\xd8\xff\xe1", "\x89PNG\r\n\x1a\n", "II*\0\x08\0\0", "MM\0*\0\0\0\x08",
          "RIFF    WEBP",     "    ftypheic",      "%PDF-" };
  static const size_t length[] = { 4, 8, 8, 8, 12, 12, 5 };

  (void) state;
  for (int trial = 0; trial < 20000; trial++) {
    size_t len = (size_t) g_rand_int_range (rand, 0, 90);
    g_autofree uint8_t *data = g_malloc (len + 1);
    PrPhotoHeader head;
    int kind = g_rand_int_range (rand, 0, G_N_ELEMENTS (magic));
    for (size_t i = 0; i < len; i++)
      data[i] = (uint8_t) g_rand_int_range (rand, 0, g_rand_boolean (rand) ? 4 : 256);
    memcpy (data, magic[kind], MIN (len, length[kind]));
    g_autofree uint8_t *exact = g_memdup2 (data, len);
    pr_photo_header_read (&head, exact, len);
    assert_true (head.density >= 0 && isfinite (head.density));
  }
}

/* Formats are told by their first bytes, never by the file's name. */
static void
test_formats (void **state)
{
  static const struct {
    const char *data;
    size_t len;
    const char *format;
  } table[] = {
    { "\0\0\0\x18"
      "ftypheic\0\0\0\0",
      16, "HEIC" },
    { "\0\0\0\x1c"
      "ftypavif\0\0\0\0",
      16, "AVIF" },
    { "RIFF\0\0\0\0WEBPVP8 ", 16, "WebP" },
    { "%PDF-1.4", 8, "PDF" },
    { "MM\0*\0\0\0\0", 8, "TIFF" },
    { "\xff\xd8\xff\xdb", 4, "JPEG" },
    { "BM", 2, "BMP" },
    { "GIF89a", 6, "GIF" },
    { "II+\0\x08\0\0\0", 8, "BigTIFF" },
    { "\0\0\0\x14"
      "ftypqt  ",
      12, "QuickTime" },
    { "", 0, NULL },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (table); i++) {
    PrPhotoHeader head;
    pr_photo_header_read (&head, (const uint8_t *) table[i].data, table[i].len);
    assert_true ((head.mime != NULL) == (i < 3 || (i > 3 && i < 6)));
    if (g_strcmp0 (head.format, table[i].format) != 0)
      fail_msg ("%s is not %s", head.format ? head.format : "nothing", table[i].format);
  }
}

typedef struct {
  const char *what;
  const char *data;
  gsize len;
  const char *says; /* part of the message */
} Bad;

static void
test_bad_pictures (void **state)
{
  static const Bad table[] = {
    { "empty", "", 0, "is empty" },
    { "one byte", "x", 1, "is not a photo" },
    { "text", "This is no picture at all.\n", 27, "is not a photo" },
    { "head of a JPEG", "\xff\xd8\xff\xe0\0\x10JFIF\0", 11, "damaged or cut short" },
    { "head of a PNG", "\x89PNG\r\n\x1a\n", 8, "damaged or cut short" },
    { "a PDF", "%PDF-1.7\n", 9, "is not a photo" },
    { "a TIFF without pages", "II*\0\0\0\0\0", 8, "damaged or cut short" },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (table); i++) {
    g_autoptr (GBytes) bytes = g_bytes_new_static (table[i].data, table[i].len);
    g_autoptr (GError) error = NULL;
    assert_null (pr_photo_decode (bytes, "foot.jpg", &error));
    assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_PICTURE));
    if (strstr (error->message, table[i].says) == NULL && strstr (error->message, "damaged") == NULL)
      fail_msg ("%s: %s", table[i].what, error->message);
    assert_non_null (strstr (error->message, "foot.jpg"));
  }
}

static void
test_cut_short (void **state)
{
  SceneOptions o;

  (void) state;
  scene_defaults (&o);
  o.width = 600;
  o.height = 800;
  g_autoptr (Scene) scene = scene_render (&o);
  gsize len = g_bytes_get_size (scene->jpeg);
  for (int part = 1; part < 10; part++) {
    g_autoptr (GBytes) cut = g_bytes_new_from_bytes (scene->jpeg, 0, len * (gsize) part / 10);
    g_autoptr (GError) error = NULL;
    assert_null (pr_photo_decode (cut, NULL, &error));
    assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_PICTURE));
    assert_non_null (strstr (error->message, "cut short"));
  }
}

/* A PNG head that promises 40000 x 40000 pixels is refused before they are asked for. */
static void
test_too_large (void **state)
{
  static const uint8_t png[] = {
    0x89, 'P',  'N',  'G', 13, 10,   26,   10, 0, 0, 0, 13, 'I',  'H',  'D',  'R',  0,
    0,    0x9c, 0x40, 0,   0,  0x9c, 0x40, 8,  2, 0, 0, 0,  0x36, 0xd2, 0x79, 0x1d,
  };
  g_autoptr (GBytes) bytes = g_bytes_new_static (png, sizeof png);
  g_autoptr (GError) error = NULL;

  (void) state;
  assert_null (pr_photo_decode (bytes, NULL, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_PICTURE));
}

static void
test_too_small (void **state)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 1, 1);
  g_autoptr (GError) error = NULL;

  (void) state;
  gdk_pixbuf_fill (pixbuf, 0);
  g_autoptr (GBytes) png = saved (pixbuf, "png", NULL, NULL);
  assert_null (pr_photo_decode (png, NULL, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_PICTURE));
  assert_non_null (strstr (error->message, "too small"));
}

static void
test_files (void **state)
{
  g_autoptr (GError) folder = NULL, missing = NULL;
  g_autofree char *dir = g_dir_make_tmp ("photo-XXXXXX", NULL);
  g_autofree char *none = g_build_filename (dir, "none.jpg", NULL);

  (void) state;
  assert_null (pr_photo_read (dir, &folder));
  assert_true (g_error_matches (folder, PR_ERROR, PR_ERROR_FILE));
  assert_non_null (strstr (folder->message, "is a folder"));
  assert_null (pr_photo_read (none, &missing));
  assert_true (g_error_matches (missing, PR_ERROR, PR_ERROR_FILE));
  assert_non_null (strstr (missing->message, "none.jpg"));
  g_rmdir (dir);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_every_orientation),
    cmocka_unit_test (test_real_orientations),
    cmocka_unit_test (test_alpha_lies_on_white),
    cmocka_unit_test (test_density),
    cmocka_unit_test (test_density_units),
    cmocka_unit_test (test_cut_heads),
    cmocka_unit_test (test_formats),
    cmocka_unit_test (test_bad_pictures),
    cmocka_unit_test (test_cut_short),
    cmocka_unit_test (test_too_large),
    cmocka_unit_test (test_too_small),
    cmocka_unit_test (test_files),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
