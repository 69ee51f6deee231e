/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-forged-write.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-atomic-file.h"
#include "pr-error.h"
#include "pr-forged-page.h"
#include "pr-forged-text.h"
#include "pr-language.h"
#include "pr-page-png.h"
#include "pr-pdf.h"

#define PER_METRE 11811 /* 300 dpi */

static void
draw_page (gpointer pages, int page, cairo_t *cr)
{
  pr_forged_pages_draw (pages, page, cr);
}

bool
pr_forged_pdf (const PrJob *job, const PrComparison *c, const PrPageOptions *options, GByteArray *out,
               GError **error)
{
  PR_PLAIN_NUMBERS;
  g_autoptr (PrForgedPages) pages = pr_forged_pages_new (job, c, options);
  double width, height;

  pr_forged_pages_size (pages, &width, &height);
  return pr_pdf_make (out, width, height, pr_foot_name (job->sources.foot), pr_forged_pages_count (pages),
                      draw_page, pages, error);
}

static void
paint_first (gpointer pages, cairo_t *cr)
{
  pr_forged_pages_draw (pages, 0, cr);
}

bool
pr_forged_png (const PrJob *job, const PrComparison *c, const PrPageOptions *options, GByteArray *out,
               GError **error)
{
  PR_PLAIN_NUMBERS;
  g_autoptr (PrForgedPages) pages = pr_forged_pages_new_single (job, c, options);
  double width, height;

  pr_forged_pages_size (pages, &width, &height);
  if (pr_page_png (width, height, PER_METRE, paint_first, pages, out))
    return true;
  g_set_error_literal (error, PR_ERROR, PR_ERROR_FILE,
                       _ ("The picture of the comparison is too large to be drawn."));
  return false;
}

bool
pr_forged_write (const PrJob *job, const PrComparison *c, const PrPageOptions *options, const char *dir,
                 GError **error)
{
  g_autoptr (GByteArray) pdf = g_byte_array_new (), png = g_byte_array_new ();
  g_autofree char *text = pr_forged_text (job, c, options->unit);
  g_autofree char *pdf_file = g_build_filename (dir, "compare.pdf", NULL);
  g_autofree char *png_file = g_build_filename (dir, "compare.png", NULL);
  g_autofree char *text_file = g_build_filename (dir, "compare.txt", NULL);

  if (!pr_forged_pdf (job, c, options, pdf, error) || !pr_forged_png (job, c, options, png, error))
    return false;
  const PrAtomicFile files[] = { { pdf_file, (const char *) pdf->data, pdf->len },
                                 { png_file, (const char *) png->data, png->len },
                                 { text_file, text, strlen (text) } };
  return pr_atomic_files_write (files, G_N_ELEMENTS (files), error);
}
