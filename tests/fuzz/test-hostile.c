/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bad pictures, a line per file: each is decoded to a known size, or refused in one sentence that says what to
 * do, in 700 MB; what is decoded can be traced without harm. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "folder.h"
#include "hostile.h"
#include "measured.h"
#include "pr-error.h"
#include "pr-trace.h"

#define MOST_MB 700
#define SVG "<svg xmlns='http://www.w3.org/2000/svg' "

static GByteArray *
png (guint32 width, guint32 height, int depth, int kind, guint32 rows)
{
  return hostile_png (&(Png){ .width = width, .height = height, .depth = depth, .kind = kind, .rows = rows });
}

static GByteArray *
jpeg (int width, int height, int components, bool progressive)
{
  return hostile_jpeg (&(Jpeg){ .width = width,
                                .height = height,
                                .components = components,
                                .progressive = progressive,
                                .data = width > 1000 ? 100 : 0 });
}

static GByteArray *
oriented (int orientation, guint32 offset, int entries)
{
  g_autoptr (GByteArray) head = hostile_exif (orientation, offset, entries);

  return hostile_jpeg (
      &(Jpeg){ .width = 96, .height = 80, .components = 1, .head = head->data, .head_len = head->len });
}

static GByteArray *
raw (const char *bytes, guint len)
{
  return g_byte_array_append (g_byte_array_new (), (const guint8 *) bytes, len);
}

/* The offset of a TIFF's directory is its second word, in the order the first tells. */
static GByteArray *
tiff_at (guint32 big, guint32 little)
{
  GByteArray *bytes = hostile_saved ("tiff");

  return hostile_set (bytes, 4, 4, bytes->len > 0 && bytes->data[0] == 'I' ? little : big);
}

/* Two directories that name each other. */
static GByteArray *
tiff_loop (void)
{
  return raw ("MM\0*\0\0\0\10\0\1\207\151\0\4\0\0\0\1\0\0\0\10\0\0\0\10", 26);
}

/* Black and white, its one strip where there is nothing; or in tiles of so many pixels a side. */
static GByteArray *
tiff (guint32 width, guint32 height, guint32 tile)
{
  const TiffEntry entries[] = {
    { 256, true, width },
    { 257, true, height },
    { 258, false, 8 },
    { 259, false, 1 },
    { 262, false, 1 },
    { tile ? 322 : 273, true, tile ? tile : 150 },
    { 277, false, 1 },
    { tile ? 323 : 278, true, tile ? tile : height },
    { tile ? 324 : 279, true, tile ? 150 : 50 },
    { 325, true, 50 },
  };

  return hostile_tiff (entries, tile ? 10 : 9, 0);
}

static GByteArray *
tiff_after (guint32 next)
{
  const TiffEntry entries[] = { { 256, false, 96 }, { 257, false, 80 } };

  return hostile_tiff (entries, 2, next);
}

static GByteArray *
scans (int width, int height, int n)
{
  return hostile_jpeg (&(Jpeg){
      .width = width, .height = height, .components = 1, .progressive = true, .data = 40, .scans = n });
}

/* A second picture behind the first. */
static GByteArray *
animated_gif (void)
{
  g_autoptr (GByteArray) one = hostile_gif (96, 80);
  GByteArray *two = hostile_gif (96, 80);

  g_byte_array_remove_index (two, two->len - 1);
  return g_byte_array_append (two, one->data + 25, one->len - 25);
}

/* WIDTH 0: refused, and the message holds SAYS. */
typedef struct {
  const char *name;
  GByteArray *bytes;
  int width, height;
  const char *says;
} Line;

static void
refused (const char *name, const char *says, const Measured *m)
{
  const char *instead;

  if (!m->ended)
    fail_msg ("%s: ended, or stopped by the watchdog", name);
  print_message ("%-40s %5.2f s %4.0f MB  %s\n", name, m->seconds, m->mb, m->message);
  if (m->width > 0)
    fail_msg ("%s: decoded to %d x %d", name, m->width, m->height);
  if (!m->is_ours)
    fail_msg ("%s: not an error of ours: %s", name, m->message);
  if (!measured_is_sentence (m->message, &instead))
    fail_msg ("%s: %s: %s", name, instead, m->message);
  if (strstr (m->message, says) == NULL)
    fail_msg ("%s: does not say “%s”: %s", name, says, m->message);
  if (m->printed)
    fail_msg ("%s: a loader's own words on the terminal", name);
  if (m->mb > MOST_MB)
    fail_msg ("%s: took %.0f MB", name, m->mb);
}

static void
decoded (const Line *line, const PrPhoto *photo, const GError *error)
{
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  g_autoptr (GError) why = NULL;

  if (photo == NULL)
    fail_msg ("%s: %s", line->name, error->message);
  if (photo->width != line->width || photo->height != line->height)
    fail_msg ("%s: %d x %d", line->name, photo->width, photo->height);
  assert_true (photo->stride >= 3 * (size_t) photo->width);
  g_autofree uint8_t *grey = pr_photo_grey (photo);
  g_autoptr (PrTracing) tracing = pr_trace_photo (photo, &options, NULL, NULL, NULL, &why);
  if (tracing != NULL || why == NULL || why->domain != PR_ERROR || !g_str_has_suffix (why->message, "."))
    fail_msg ("%s: a line was found where there is none", line->name);
}

static void
check (const Line *line)
{
  g_autoptr (GBytes) bytes = g_bytes_new (line->bytes->data, line->bytes->len);
  g_autoptr (GError) error = NULL;
  Measured m = measured_photo (line->bytes, "IMG_1.jpg");

  if (line->width > 0) {
    g_autoptr (PrPhoto) photo = pr_photo_decode (bytes, "IMG_1.jpg", &error);
    decoded (line, photo, error);
    if (!m.ended || m.width == 0 || m.mb > MOST_MB)
      fail_msg ("%s: took %.0f MB", line->name, m.mb);
  } else {
    refused (line->name, line->says, &m);
  }
  g_byte_array_unref (line->bytes);
}

#define CHECK_ALL(lines_)                            \
  for (size_t i = 0; i < G_N_ELEMENTS (lines_); i++) \
  check (&(lines_)[i])

static void
no_pictures (void **state)
{
  const Line lines[] = {
    { "empty", raw ("", 0), 0, 0, "empty" },
    { "one byte", raw ("\xff", 1), 0, 0, "not a photo" },
    { "text", hostile_text ("The near fore is long in the toe.\n"), 0, 0, "not a photo" },
    { "zeros", raw ("\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0", 16), 0, 0, "not a photo" },
    { "JSON", hostile_text ("{\"outline_mm\":[[1,2]]}"), 0, 0, "not a photo" },
    { "PDF", hostile_text ("%PDF-1.4\n"), 0, 0, "not a photo" },
    { "a box that says HEIC", raw ("\0\0\0\30ftypheic\0\0\0\0mif1heic", 24), 0, 0, "IMG_1.jpg" },
    { "SVG", hostile_text (SVG "width='96' height='80'/>"), 0, 0, "is SVG" },
    { "SVG behind a head", hostile_text ("<?xml version='1.0'?>" SVG "width='9' height='9'/>"), 0, 0,
      "is XML" },
    { "SVG too large", hostile_text (SVG "width='99999' height='99999'/>"), 0, 0, "is SVG" },
    { "SVG behind white space", hostile_text ("\n " SVG "width='900' height='900'/>"), 0, 0, "not a photo" },
    { "XPM", hostile_text ("/* XPM */ static char *a[] = {\"90 90 1 1\"};"), 0, 0, "not a photo" },
    { "XBM", hostile_text ("#define a_width 90\n#define a_height 90\n"), 0, 0, "not a photo" },
    { "TGA", hostile_set (raw ("\0\0\2\0\0\0\0\0\0\0\0\0\140\0\120\0\30\0", 18), 0, 0, 0), 0, 0,
      "not a photo" },
    { "ANI", raw ("RIFF\40\0\0\0ACONanih\44\0\0\0\44\0\0\0\1\0\0\0", 28), 0, 0, "not a photo" },
    { "QuickTime", raw ("\0\0\0\24ftypqt  \0\0\0\0qt  ", 20), 0, 0, "is QuickTime" },
    { "ICO", hostile_saved ("ico"), 0, 0, "is ICO" },
    { "GIF", hostile_gif (96, 80), 0, 0, "is GIF" },
    { "GIF that moves", animated_gif (), 0, 0, "is GIF" },
    { "GIF too large", hostile_set (hostile_gif (96, 80), 6, 4, 0xffffffff), 0, 0, "is GIF" },
    { "BMP", hostile_saved ("bmp"), 0, 0, "is BMP" },
    { "BMP cut at a half", hostile_cut (hostile_saved ("bmp"), 0.5), 0, 0, "is BMP" },
    { "PPM", hostile_text ("P6\n96 80\n255\n"), 0, 0, "is PPM" },
    { "PPM too large", hostile_text ("P5\n99999 99999\n255\n"), 0, 0, "is PGM" },
  };

  (void) state;
  CHECK_ALL (lines);
}

static void
png_pictures (void **state)
{
  const Line lines[] = {
    { "grey", png (96, 80, 8, PNG_GREY, 0), 96, 80, NULL },
    { "1 bit", png (96, 80, 1, PNG_GREY, 0), 96, 80, NULL },
    { "16 bit", png (96, 80, 16, PNG_RGB, 0), 96, 80, NULL },
    { "16 bit with alpha", png (96, 80, 16, PNG_RGB_ALPHA, 0), 96, 80, NULL },
    { "grey and alpha", png (96, 80, 8, PNG_GREY_ALPHA, 0), 96, 80, NULL },
    { "palette", png (96, 80, 8, PNG_PALETTE, 0), 96, 80, NULL },
    { "palette of 1 bit", png (96, 80, 1, PNG_PALETTE, 0), 96, 80, NULL },
    { "more rows than told", png (96, 80, 8, PNG_RGB, 5000), 96, 80, NULL },
    { "fewer rows than told", png (96, 80, 8, PNG_RGB, 40), 0, 0, "damaged" },
    { "bad check sum", hostile_png (&(Png){ 96, 80, 8, PNG_RGB, .bad_crc = true }), 0, 0, "damaged" },
    { "3 bits a sample", png (96, 80, 3, PNG_GREY, 0), 0, 0, "damaged" },
    { "1 x 1", png (1, 1, 8, PNG_GREY, 0), 0, 0, "too small" },
    { "1 x 5000", png (1, 5000, 8, PNG_GREY, 0), 0, 0, "too small" },
    { "0 x 0", png (0, 0, 8, PNG_GREY, 1), 0, 0, "IMG_1.jpg" },
    { "100000 x 100000", png (100000, 100000, 8, PNG_GREY, 1), 0, 0, "120 million" },
    { "the largest PNG there is", png (0x7fffffff, 0x7fffffff, 1, PNG_GREY, 1), 0, 0, "IMG_1.jpg" },
    { "bomb of rows", png (20000, 20000, 1, PNG_GREY, 0), 0, 0, "120 million" },
    { "bomb in a text", hostile_png (&(Png){ 96, 80, 8, PNG_GREY, .text = "zTXt" }), 96, 80, NULL },
    { "bomb in a profile", hostile_png (&(Png){ 96, 80, 8, PNG_GREY, .text = "iCCP" }), 96, 80, NULL },
    { "a thousand bombs in texts",
      hostile_png (&(Png){ 96, 80, 8, PNG_GREY, .text = "zTXt", .text_mb = 7, .texts = 999 }), 96, 80, NULL },
    { "65000 x 65000", png (65000, 65000, 8, PNG_RGB, 1), 0, 0, "120 million" },
    { "65000 x 64", png (65000, 64, 8, PNG_RGB, 1), 0, 0, "damaged" },
    { "900000 x 100", png (900000, 100, 1, PNG_GREY, 1), 0, 0, "120 million" },
    { "120 megapixels with one row", png (12000, 10000, 8, PNG_RGB_ALPHA, 1), 0, 0, "damaged" },
    { "signature alone", hostile_cut (hostile_saved ("png"), 0.002), 0, 0, "IMG_1.jpg" },
    { "cut at a fifth", hostile_cut (hostile_saved ("png"), 0.2), 0, 0, "damaged" },
    { "cut at a half", hostile_cut (hostile_saved ("png"), 0.5), 0, 0, "damaged" },
    { "cut at the end", hostile_cut (hostile_saved ("png"), 0.9), 0, 0, "damaged" },
    { "chunk longer than the file", hostile_set (hostile_saved ("png"), 33, 4, 0x7fffffff), 0, 0, "damaged" },
  };

  (void) state;
  CHECK_ALL (lines);
}

static void
jpeg_pictures (void **state)
{
  const Line lines[] = {
    { "grey", jpeg (96, 80, 1, false), 96, 80, NULL },
    { "three colours", jpeg (96, 80, 3, false), 96, 80, NULL },
    { "four inks", jpeg (96, 80, 4, false), 96, 80, NULL },
    { "progressive", jpeg (96, 80, 3, true), 96, 80, NULL },
    { "two components", jpeg (96, 80, 2, false), 0, 0, "damaged" },
    { "1 x 1", jpeg (1, 1, 1, false), 0, 0, "too small" },
    { "1 x 900", jpeg (1, 900, 1, false), 0, 0, "too small" },
    { "0 x 0", jpeg (0, 0, 1, false), 0, 0, "IMG_1.jpg" },
    { "65500 x 65500", jpeg (65500, 65500, 3, false), 0, 0, "120 million" },
    { "65535 x 65535", jpeg (65535, 65535, 3, false), 0, 0, "IMG_1.jpg" },
    { "progressive, in a thousand scans", scans (96, 80, 1000), 0, 0, "no camera" },
    { "progressive, in 101 scans", scans (96, 80, 101), 0, 0, "no camera" },
    { "progressive, in 90 scans of all of it", scans (9000, 9000, 90), 0, 0, "no camera" },
    { "progressive, with all its numbers kept", jpeg (12000, 9900, 3, true), 0, 0, "more memory" },
    { "start mark alone", raw ("\xff\xd8\xff", 3), 0, 0, "damaged" },
    { "cut in the tables", hostile_cut (hostile_saved ("jpeg"), 0.1), 0, 0, "damaged" },
    { "cut at a half", hostile_cut (hostile_saved ("jpeg"), 0.5), 0, 0, "damaged" },
    { "cut at the end", hostile_cut (hostile_saved ("jpeg"), 0.99), 0, 0, "damaged" },
    { "orientation 6", oriented (6, 8, 1), 80, 96, NULL },
    { "orientation 0", oriented (0, 8, 1), 96, 80, NULL },
    { "orientation 9", oriented (9, 8, 1), 96, 80, NULL },
    { "orientation 65535", oriented (65535, 8, 1), 96, 80, NULL },
    { "EXIF that lies beyond its end", oriented (6, 0xfffffff0u, 1), 96, 80, NULL },
    { "EXIF whose directory is its head", oriented (6, 0, 1), 96, 80, NULL },
    { "EXIF with too many entries", oriented (0, 8, 65535), 96, 80, NULL },
  };

  (void) state;
  CHECK_ALL (lines);
}

static void
other_pictures (void **state)
{
  const Line lines[] = {
    { "TIFF", hostile_saved ("tiff"), 96, 80, NULL },
    { "TIFF cut at a half", hostile_cut (hostile_saved ("tiff"), 0.5), 0, 0, "damaged" },
    { "TIFF whose directory is beyond the end", tiff_at (0x7ffffff0, 0xf0ffff7f), 0, 0, "damaged" },
    { "TIFF whose directory is its head", tiff_at (0, 0), 0, 0, "damaged" },
    { "TIFF whose directory is in the picture", tiff_at (100, 0x64000000), 0, 0, "damaged" },
    { "TIFF that names itself", tiff_loop (), 0, 0, "damaged" },
    { "TIFF followed by itself", tiff_after (8), 0, 0, "damaged" },
    { "TIFF of no size", tiff (0, 0, 0), 0, 0, "damaged" },
    { "TIFF too large", tiff (60000, 60000, 0), 0, 0, "120 million" },
    { "TIFF larger than numbers", tiff (0xffffffff, 0xffffffff, 0), 0, 0, "120 million" },
    { "TIFF too small", tiff (1, 4000, 0), 0, 0, "too small" },
    { "TIFF of 100 megapixels in 200 bytes", tiff (10000, 10000, 0), 0, 0, "damaged" },
    { "TIFF in tiles of 65536", tiff (10000, 10000, 65536), 0, 0, "damaged" },
    { "TIFF in tiles of 4 billion", tiff (10000, 10000, 0xfffffff0), 0, 0, "damaged" },
    { "BigTIFF", raw ("II+\0\10\0\0\0\20\0\0\0\0\0\0\0", 16), 0, 0, "is BigTIFF" },
    { "HEIC too large", hostile_boxes ("heic", 100000, 100000, 1, 1), 0, 0, "120 million" },
    { "HEIC larger than numbers", hostile_boxes ("heic", 0xffffffff, 0xffffffff, 1, 1), 0, 0, "120 million" },
    { "HEIC of no size", hostile_boxes ("heic", 0, 0, 1, 1), 0, 0, "damaged" },
    { "HEIC with no picture", hostile_boxes ("heic", 4000, 3000, 1, 1), 0, 0, "damaged" },
    { "HEIC of many items", hostile_boxes ("heic", 4000, 3000, 60000, 1), 0, 0, "no camera" },
    { "HEIC in many tiles", hostile_boxes ("heic", 4000, 3000, 1, 60000), 0, 0, "no camera" },
    { "AVIF too large", hostile_boxes ("avif", 65535, 65535, 1, 1), 0, 0, "120 million" },
    { "AVIF with no picture", hostile_boxes ("avif", 4000, 3000, 1, 1), 0, 0, "damaged" },
    { "WebP that moves", hostile_webp (96, 80, true), 0, 0, "animation" },
    { "WebP too large", hostile_webp (1 << 24, 1 << 24, false), 0, 0, "120 million" },
    { "WebP with no picture", hostile_webp (4000, 3000, false), 0, 0, "damaged" },
    { "WebP that needs more memory", hostile_webp (11000, 10000, false), 0, 0, "more memory" },
    { "RIFF that says WebP", raw ("RIFF\377\377\377\377WEBPVP8L\377\377\377\377/", 21), 0, 0, "IMG_1.jpg" },
  };

  (void) state;
  CHECK_ALL (lines);
}

/* Where its loader can also write. */
static void
webp_pictures (void **state)
{
  GByteArray *webp = hostile_saved ("webp");
  const Line lines[] = {
    { "WebP", webp, 96, 80, NULL },
    { "WebP cut at a half", hostile_cut (hostile_saved ("webp"), 0.5), 0, 0, "damaged" },
  };

  (void) state;
  if (webp->len == 0)
    skip ();
  CHECK_ALL (lines);
}

/* --- files ------------------------------------------------------------------------------- */

static void
make_pipe (const char *path)
{
  assert_int_equal (mkfifo (path, 0600), 0);
}

static void
make_folder (const char *path)
{
  assert_int_equal (g_mkdir (path, 0700), 0);
}

static void
link_to_zeros (const char *path)
{
  assert_int_equal (symlink ("/dev/zero", path), 0);
}

static void
link_to_terminal (const char *path)
{
  assert_int_equal (symlink ("/dev/tty", path), 0);
}

static void
link_to_itself (const char *path)
{
  assert_int_equal (symlink (path, path), 0);
}

static void
link_to_nothing (const char *path)
{
  assert_int_equal (symlink ("/nowhere/at/all", path), 0);
}

/* A hole behind a JPEG's first bytes. */
static void
make_large (const char *path)
{
  assert_true (g_file_set_contents (path, "\xff\xd8\xff\xe0", 4, NULL));
  assert_int_equal (truncate (path, 257 << 20), 0);
}

static void
make_hole (const char *path)
{
  assert_true (g_file_set_contents (path, "\xff\xd8\xff\xe0", 4, NULL));
  assert_int_equal (truncate (path, 256 << 20), 0);
}

static void
make_tiff_hole (const char *path)
{
  g_autoptr (GByteArray) bytes = tiff (12000, 10000, 0);

  assert_true (g_file_set_contents (path, (const char *) bytes->data, bytes->len, NULL));
  assert_int_equal (truncate (path, 256 << 20), 0);
}

static void
make_svg (const char *path)
{
  g_autoptr (GString) svg = g_string_new (SVG "width='4000' height='4000'><filter id='f'>");

  for (int i = 0; i < 30; i++)
    g_string_append (svg, "<feGaussianBlur stdDeviation='900'/><feTurbulence/>");
  g_string_append (svg, "</filter><rect width='4000' height='4000' filter='url(#f)'/></svg>");
  assert_true (g_file_set_contents (path, svg->str, (gssize) svg->len, NULL));
}

static void
make_pdf (const char *path)
{
  assert_true (g_file_set_contents (path, "%PDF-1.7\n1 0 obj<</Type/Catalog>>endobj\n", -1, NULL));
}

static void
files (void **state)
{
  static const struct {
    const char *name;
    void (*make) (const char *path);
    const char *says;
  } lines[] = {
    { "pipe.jpg", make_pipe, "not a photo; copy" },
    { "folder.jpg", make_folder, "is a folder" },
    { "zeros.jpg", link_to_zeros, "not a photo; copy" },
    { "terminal.jpg", link_to_terminal, "terminal.jpg" },
    { "circle.jpg", link_to_itself, "cannot be read" },
    { "nothing.jpg", link_to_nothing, "no file" },
    { "large.jpg", make_large, "larger than" },
    { "hole.jpg", make_hole, "damaged" },
    { "hole.tif", make_tiff_hole, "more memory" },
    { "svg.jpg", make_svg, "is SVG" },
    { "pdf.png", make_pdf, "not a photo" },
  };
  char *folder = kit_folder ();

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (lines); i++) {
    g_autofree char *path = g_build_filename (folder, lines[i].name, NULL);
    lines[i].make (path);
    Measured m = measured_photo (NULL, path);
    refused (lines[i].name, lines[i].says, &m);
  }
  kit_folder_gone (folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (no_pictures),    cmocka_unit_test (png_pictures),  cmocka_unit_test (jpeg_pictures),
    cmocka_unit_test (other_pictures), cmocka_unit_test (webp_pictures), cmocka_unit_test (files),
  };

  return cmocka_run_group_tests_name ("hostile", tests, NULL, NULL);
}
