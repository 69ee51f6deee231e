/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-template.h"

#include "pr-atomic-file.h"
#include "pr-error.h"
#include "pr-page-png.h"
#include "pr-pages.h"
#include "pr-pdf.h"
#include "pr-language.h"

#include <cairo-svg.h>
#include <glib/gi18n-lib.h>

/* A picture larger than this on a side is a wrong scale, not a template (libpng would take it). */

/* --- PDF --------------------------------------------------------------------------------- */

/* Documents one after the other. */
typedef struct {
  PrPages *pages[PR_N_SHOE_DOCS];
  int n;
} Docs;

static void
draw_page (gpointer data, int page, cairo_t *cr)
{
  const Docs *docs = data;
  int i = 0;

  while (page >= pr_pages_count (docs->pages[i]))
    page -= pr_pages_count (docs->pages[i++]);
  pr_pages_draw (docs->pages[i], page, cr);
}

/* Counted through. Returns how many pages there are. */
static int
number_all (Docs *docs)
{
  int all = 0, first = 0;

  for (int i = 0; i < docs->n; i++)
    all += pr_pages_count (docs->pages[i]);
  for (int i = 0; i < docs->n; i++) {
    pr_pages_number (docs->pages[i], first, all);
    first += pr_pages_count (docs->pages[i]);
  }
  return all;
}

bool
pr_make_pdf (const PrDoc *docs, int n, const PrJob *job, const PrPageOptions *options, GByteArray *out,
             GError **error)
{
  PR_PLAIN_NUMBERS;
  Docs all = { .n = n };
  double width, height;

  g_assert (n <= PR_N_SHOE_DOCS);
  for (int i = 0; i < n; i++)
    all.pages[i] = pr_pages_new (docs[i], job, options);
  int count = number_all (&all);
  pr_paper_size (options->paper, &width, &height);
  bool done
      = pr_pdf_make (out, width, height, pr_foot_name (job->sources.foot), count, draw_page, &all, error);
  for (int i = 0; i < n; i++)
    pr_pages_free (all.pages[i]);
  return done;
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
paint_page (gpointer pages, cairo_t *cr)
{
  pr_pages_draw (pages, 0, cr);
}

bool
pr_make_template_png (const PrJob *job, PrFace face, const PrPageOptions *options, double px_per_mm,
                      GByteArray *out, GError **error)
{
  PR_PLAIN_NUMBERS;
  g_autoptr (PrPages) pages = pr_pages_new_single (job, face, options);
  /* pHYs holds whole pixels per metre: the drawing follows what the file can say */
  guint per_metre = (guint) CLAMP (lround (px_per_mm * 1000), 1, 1000000);
  double width, height;

  pr_pages_size (pages, &width, &height);
  if (pr_page_png (width, height, per_metre, paint_page, pages, out))
    return true;
  g_set_error_literal (error, PR_ERROR, PR_ERROR_FILE,
                       _ ("The template's picture is too large to be drawn; ask for fewer pixels per mm."));
  return false;
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
