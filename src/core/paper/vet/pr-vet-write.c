/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-vet-write.h"

#include <glib/gi18n-lib.h>

#include "pr-atomic-file.h"
#include "pr-card-title.h"
#include "pr-error.h"
#include "pr-ink.h"
#include "pr-language.h"
#include "pr-page-png.h"
#include "pr-pdf.h"
#include "pr-vet-page.h"

#define PER_METRE 11811 /* 300 dpi */
#define MARGIN_MM 5.0
#define TYPE_MM 3.6
#define WORDS_MM 17.0 /* title, caption and the line it is measured by, below the picture */

static void
draw_page (gpointer page, int nr, cairo_t *cr)
{
  (void) nr;
  pr_vet_page_draw (page, cr);
}

bool
pr_vet_pdf (const PrVetAbout *about, const PrPageOptions *options, GByteArray *out, GError **error)
{
  PR_PLAIN_NUMBERS;
  g_autoptr (PrVetPage) page = pr_vet_page_new (about, options);
  double width, height;

  if (!pr_vet_page_holds (page, error))
    return false;
  pr_vet_page_size (page, &width, &height);
  return pr_pdf_make (out, width, height, _ ("Sheet for the vet"), 1, draw_page, page, error);
}

/* A picture under way. */
typedef struct {
  const PrVetPictures *pictures;
  PrVetPicture which;
  const char *title;
  double width, height;
} Sheet;

static void
paint (gpointer data, cairo_t *cr)
{
  const Sheet *sheet = data;
  double y = sheet->height - MARGIN_MM - WORDS_MM + 1.4 * TYPE_MM;

  cairo_save (cr);
  cairo_translate (cr, MARGIN_MM, MARGIN_MM);
  pr_vet_pictures_draw (sheet->pictures, sheet->which, cr, 1);
  cairo_restore (cr);
  pr_ink (cr, pr_ink_light.text);
  pr_text_face (cr, TYPE_MM, true);
  g_autofree char *title = pr_text_cut (cr, sheet->title, sheet->width - 2 * MARGIN_MM);
  pr_text (cr, MARGIN_MM, y, PR_LEFT, title);
  pr_text_face (cr, TYPE_MM, false);
  pr_text (cr, MARGIN_MM, y + 1.4 * TYPE_MM, PR_LEFT,
           pr_vet_pictures_caption (sheet->pictures, sheet->which));
  cairo_translate (cr, MARGIN_MM, y + 3 * TYPE_MM);
  pr_vet_pictures_draw_bar (sheet->pictures, cr, 1, TYPE_MM);
}

bool
pr_vet_png (const PrVetAbout *about, PrVetPicture which, const PrPageOptions *options, GByteArray *out,
            GError **error)
{
  PR_PLAIN_NUMBERS;
  g_auto (PrVetPictures) pictures = { 0 };
  g_autofree char *title = pr_card_title (about->job, options->date, options->horse);
  Sheet sheet = { &pictures, which, title, 0, 0 };

  pr_vet_pictures_make (&pictures, about, options->unit);
  pr_vet_pictures_size (&pictures, 1, &sheet.width, &sheet.height);
  sheet.width = ceil (sheet.width + 2 * MARGIN_MM);
  sheet.height = ceil (sheet.height + 2 * MARGIN_MM + WORDS_MM);
  if (pr_page_png (sheet.width, sheet.height, PER_METRE, paint, &sheet, out))
    return true;
  g_set_error_literal (error, PR_ERROR, PR_ERROR_FILE,
                       _ ("The picture of the foot is too large to be drawn."));
  return false;
}

const char *const *
pr_vet_write_names (void)
{
  static const char *const names[] = { "vet.pdf", "before.png", "after.png", NULL };

  return names;
}

bool
pr_vet_write (const PrVetAbout *about, const PrPageOptions *options, const char *dir, const char *stem,
              GError **error)
{
  g_autoptr (GByteArray) pdf = g_byte_array_new (), before = g_byte_array_new (), after = g_byte_array_new ();
  GByteArray *const bytes[] = { pdf, before, after };
  PrAtomicFile files[G_N_ELEMENTS (bytes)];
  g_autoptr (GPtrArray) paths = g_ptr_array_new_with_free_func (g_free);

  if (!pr_vet_pdf (about, options, pdf, error) || !pr_vet_png (about, PR_VET_BEFORE, options, before, error)
      || !pr_vet_png (about, PR_VET_AFTER, options, after, error))
    return false;
  for (gsize i = 0; i < G_N_ELEMENTS (bytes); i++) {
    g_autofree char *name = g_strdup_printf ("%s-%s", stem, pr_vet_write_names ()[i]);

    g_ptr_array_add (paths, g_build_filename (dir, name, NULL));
    files[i] = (PrAtomicFile){ paths->pdata[i], (const char *) bytes[i]->data, bytes[i]->len };
  }
  return pr_atomic_files_write (files, G_N_ELEMENTS (files), error);
}
