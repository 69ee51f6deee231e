/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bad pictures, a line per file: each is decoded to a known size, or refused in one sentence that says what to
 * do; what is decoded can be traced without harm. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "hostile.h"
#include "pr-error.h"
#include "pr-trace.h"

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

/* WIDTH 0: refused, and the message holds SAYS. */
typedef struct {
  const char *name;
  GByteArray *bytes;
  int width, height;
  const char *says;
} Line;

static void
refused (const Line *line, PrPhoto *photo, GError *error)
{
  if (photo != NULL)
    fail_msg ("%s: decoded to %d x %d", line->name, photo->width, photo->height);
  if (error == NULL)
    fail_msg ("%s: refused without a word", line->name);
  if (error->domain != PR_ERROR)
    fail_msg ("%s: not an error of ours: %s", line->name, error->message);
  if (!g_str_has_suffix (error->message, ".") || strstr (error->message, ". ") != NULL
      || strchr (error->message, '\n') != NULL || strlen (error->message) < 30
      || !g_utf8_validate (error->message, -1, NULL))
    fail_msg ("%s: not one sentence: %s", line->name, error->message);
  if (strstr (error->message, line->says) == NULL)
    fail_msg ("%s: does not say “%s”: %s", line->name, line->says, error->message);
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
  g_autoptr (PrPhoto) photo = pr_photo_decode (bytes, "IMG_1.jpg", &error);

  if (line->width > 0)
    decoded (line, photo, error);
  else
    refused (line, photo, error);
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
    { "one byte", raw ("\xff", 1), 0, 0, "not a picture" },
    { "text", hostile_text ("The near fore is long in the toe.\n"), 0, 0, "not a picture" },
    { "zeros", raw ("\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0", 16), 0, 0, "not a picture" },
    { "JSON", hostile_text ("{\"outline_mm\":[[1,2]]}"), 0, 0, "not a picture" },
    { "PDF", hostile_text ("%PDF-1.4\n"), 0, 0, "not a picture" },
    { "a box that says HEIC", raw ("\0\0\0\30ftypheic\0\0\0\0mif1heic", 24), 0, 0, "IMG_1.jpg" },
    { "SVG without size", hostile_text (SVG "/>"), 0, 0, "IMG_1.jpg" },
    { "SVG that is cut short", hostile_text (SVG "width='90' height='90'><path d='M9"), 0, 0,
      "not a picture" },
    { "SVG too large", hostile_text (SVG "width='99999' height='99999'/>"), 0, 0, "120 million" },
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
    /* libpng's readers take what is there */
    { "fewer rows than told", png (96, 80, 8, PNG_RGB, 40), 96, 80, NULL },
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
    { "BMP", hostile_saved ("bmp"), 96, 80, NULL },
    { "BMP too wide", hostile_set (hostile_saved ("bmp"), 18, 4, 0xffffff7f), 0, 0, "IMG_1.jpg" },
    { "BMP cut at a half", hostile_cut (hostile_saved ("bmp"), 0.5), 96, 80, NULL },
    { "ICO", hostile_saved ("ico"), 96, 80, NULL },
    { "GIF", hostile_gif (96, 80), 96, 80, NULL },
    { "GIF too large", hostile_set (hostile_gif (96, 80), 6, 4, 0xffffffff), 0, 0, "120 million" },
    { "GIF cut at a half", hostile_cut (hostile_gif (96, 80), 0.5), 0, 0, "IMG_1.jpg" },
    { "SVG", hostile_text (SVG "width='96' height='80'><path d='M9 9L90 70'/></svg>"), 96, 80, NULL },
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

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (no_pictures),    cmocka_unit_test (png_pictures),  cmocka_unit_test (jpeg_pictures),
    cmocka_unit_test (other_pictures), cmocka_unit_test (webp_pictures),
  };

  /* some loaders warn in the log about what they are given */
  g_log_set_always_fatal (G_LOG_FATAL_MASK | G_LOG_LEVEL_CRITICAL);
  return cmocka_run_group_tests_name ("hostile", tests, NULL, NULL);
}
