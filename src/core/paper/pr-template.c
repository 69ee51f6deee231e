/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-template.h"

#include "pr-atomic-file.h"
#include "pr-error.h"
#include "pr-pages.h"
#include "pr-pdf.h"
#include "pr-language.h"

#include <cairo-svg.h>
#include <glib/gi18n-lib.h>
#include <png.h>

/* A picture larger than this on a side is a wrong scale, not a template (libpng would take it). */
#define PNG_SIDE_MAX 20000

/* --- PDF --------------------------------------------------------------------------------- */

/* All PAGES on SURFACE, whose unit is the point. */
static void
show_pages (cairo_surface_t *surface, const PrPages *pages)
{
  for (int i = 0; i < pr_pages_count (pages); i++) {
    cairo_t *cr = cairo_create (surface);

    cairo_scale (cr, PR_PT_PER_MM, PR_PT_PER_MM);
    pr_pages_draw (pages, i, cr);
    cairo_show_page (cr);
    cairo_destroy (cr);
  }
}

/* The N documents one after the other, their pages counted through. */
static void
show_docs (cairo_surface_t *surface, const PrDoc *docs, int n, const PrJob *job, const PrPageOptions *options)
{
  PrPages *pages[PR_N_SHOE_DOCS];
  int all = 0, first = 0;

  g_assert (n <= PR_N_SHOE_DOCS);
  for (int i = 0; i < n; i++) {
    pages[i] = pr_pages_new (docs[i], job, options);
    all += pr_pages_count (pages[i]);
  }
  for (int i = 0; i < n; i++) {
    pr_pages_number (pages[i], first, all);
    show_pages (surface, pages[i]);
    first += pr_pages_count (pages[i]);
    pr_pages_free (pages[i]);
  }
}

bool
pr_make_pdf (const PrDoc *docs, int n, const PrJob *job, const PrPageOptions *options, GByteArray *out,
             GError **error)
{
  PR_PLAIN_NUMBERS;
  double width, height;

  pr_paper_size (options->paper, &width, &height);
  cairo_surface_t *surface = pr_pdf_surface (out, width, height, pr_foot_name (job->sources.foot));
  show_docs (surface, docs, n, job, options);
  bool done = pr_surface_close (surface, error);
  cairo_surface_destroy (surface);
  return done && pr_pdf_finish (out, error);
}

bool
pr_make_template_pdf (const PrJob *job, const PrPageOptions *options, GByteArray *out, GError **error)
{
  const PrDoc docs[3] = { PR_DOC_TEMPLATE, PR_DOC_GROUND, PR_DOC_SILHOUETTE };

  return pr_make_pdf (docs, 3, job, options, out, error);
}

bool
pr_make_bar_pdf (const PrJob *job, const PrPageOptions *options, GByteArray *out, GError **error)
{
  const PrDoc docs[1] = { PR_DOC_BAR };

  return pr_make_pdf (docs, 1, job, options, out, error);
}

bool
pr_make_card_pdf (const PrJob *job, const PrPageOptions *options, GByteArray *out, GError **error)
{
  const PrDoc docs[1] = { PR_DOC_CARD };

  return pr_make_pdf (docs, 1, job, options, out, error);
}

/* --- SVG --------------------------------------------------------------------------------- */

bool
pr_make_template_svg (const PrJob *job, PrFace face, const PrPageOptions *options, GByteArray *out,
                      GError **error)
{
  PR_PLAIN_NUMBERS;
  g_autoptr (PrPages) pages = pr_pages_new_single (job, face, options);
  double width, height;

  pr_pages_size (pages, &width, &height);
  cairo_surface_t *surface = cairo_svg_surface_create_for_stream (pr_bytes_take, out, width, height);
  /* width and height are then taken as mm, and one unit of the drawing is one mm */
  cairo_svg_surface_set_document_unit (surface, CAIRO_SVG_UNIT_MM);
  cairo_t *cr = cairo_create (surface);
  pr_pages_draw (pages, 0, cr);
  cairo_destroy (cr);
  bool done = pr_surface_close (surface, error);
  cairo_surface_destroy (surface);
  return done;
}

/* --- PNG --------------------------------------------------------------------------------- */

static void
png_take (png_structp png, png_bytep data, png_size_t n)
{
  g_byte_array_append (png_get_io_ptr (png), data, (guint) n);
}

static void
png_flush_nothing (png_structp png)
{
  (void) png;
}

/* cairo's 32-bit pixels as RGB bytes, one row. */
static void
row_to_rgb (const unsigned char *from, guint8 *to, int width)
{
  const guint32 *pixel = (const guint32 *) (const void *) from;

  for (int x = 0; x < width; x++) {
    to[3 * x] = pixel[x] >> 16 & 255;
    to[3 * x + 1] = pixel[x] >> 8 & 255;
    to[3 * x + 2] = pixel[x] & 255;
  }
}

bool
pr_png_encode (cairo_surface_t *surface, guint per_metre, guint8 *row, GByteArray *out)
{
  int width = cairo_image_surface_get_width (surface), height = cairo_image_surface_get_height (surface);
  png_structp png = png_create_write_struct (PNG_LIBPNG_VER_STRING, NULL, NULL, NULL);
  png_infop info = png != NULL ? png_create_info_struct (png) : NULL;

  if (info == NULL || setjmp (png_jmpbuf (png))) {
    png_destroy_write_struct (&png, &info);
    return false;
  }
  png_set_write_fn (png, out, png_take, png_flush_nothing);
  png_set_IHDR (png, info, (png_uint_32) width, (png_uint_32) height, 8, PNG_COLOR_TYPE_RGB,
                PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
  /* lines and even stretches pack well as they are */
  png_set_filter (png, PNG_FILTER_TYPE_BASE, PNG_FILTER_NONE);
  png_set_pHYs (png, info, per_metre, per_metre, PNG_RESOLUTION_METER);
  png_write_info (png, info);
  for (int y = 0; y < height; y++) {
    row_to_rgb (cairo_image_surface_get_data (surface)
                    + (size_t) y * (size_t) cairo_image_surface_get_stride (surface),
                row, width);
    png_write_row (png, row);
  }
  png_write_end (png, NULL);
  png_destroy_write_struct (&png, &info);
  return true;
}

static bool
too_large (GError **error)
{
  g_set_error_literal (error, PR_ERROR, PR_ERROR_FILE,
                       _ ("The template's picture is too large to be drawn; ask for fewer pixels per mm."));
  return false;
}

static cairo_surface_t *
paint_page (const PrPages *pages, double scale, int width, int height)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  pr_pages_draw (pages, 0, cr);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

bool
pr_make_template_png (const PrJob *job, PrFace face, const PrPageOptions *options, double px_per_mm,
                      GByteArray *out, GError **error)
{
  PR_PLAIN_NUMBERS;
  g_autoptr (PrPages) pages = pr_pages_new_single (job, face, options);
  /* pHYs holds whole pixels per metre: the drawing follows what the file can say */
  guint per_metre = (guint) CLAMP (lround (px_per_mm * 1000), 1, 1000000);
  double width, height, scale = per_metre / 1000.0;

  pr_pages_size (pages, &width, &height);
  if (!(width * scale <= PNG_SIDE_MAX && height * scale <= PNG_SIDE_MAX)) /* nor what is no number */
    return too_large (error);
  int w = (int) ceil (width * scale), h = (int) ceil (height * scale);
  cairo_surface_t *surface = paint_page (pages, scale, w, h);
  g_autofree guint8 *row = g_malloc ((size_t) w * 3);
  bool done = cairo_surface_status (surface) == CAIRO_STATUS_SUCCESS
              && pr_png_encode (surface, per_metre, row, out);
  cairo_surface_destroy (surface);
  return done ? true : too_large (error);
}

/* --- files ------------------------------------------------------------------------------- */

/* Writes OUT when it was MADE; OUT is taken over. */
static bool
write_made (bool made, GByteArray *out, const char *file, GError **error)
{
  bool done = made && pr_atomic_file_write (file, (const char *) out->data, out->len, error);

  g_byte_array_unref (out);
  return done;
}

bool
pr_write_template_pdf (const PrJob *job, const PrPageOptions *options, const char *file, GError **error)
{
  GByteArray *out = g_byte_array_new ();

  return write_made (pr_make_template_pdf (job, options, out, error), out, file, error);
}

bool
pr_write_template_svg (const PrJob *job, PrFace face, const PrPageOptions *options, const char *file,
                       GError **error)
{
  GByteArray *out = g_byte_array_new ();

  return write_made (pr_make_template_svg (job, face, options, out, error), out, file, error);
}

bool
pr_write_template_png (const PrJob *job, PrFace face, const PrPageOptions *options, double px_per_mm,
                       const char *file, GError **error)
{
  GByteArray *out = g_byte_array_new ();

  return write_made (pr_make_template_png (job, face, options, px_per_mm, out, error), out, file, error);
}

bool
pr_write_bar_pdf (const PrJob *job, const PrPageOptions *options, const char *file, GError **error)
{
  GByteArray *out = g_byte_array_new ();

  return write_made (pr_make_bar_pdf (job, options, out, error), out, file, error);
}
