/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages. Scale is an input, never a result: what does not fit is tiled with overlap and marks.
 * Every page carries a 100 mm and a 4 in check bar both ways and one sentence what for. PDFs say
 * /PrintScaling /None (ISO 32000-1, 12.2). Files are whole or not there (pr-atomic-file.h). */
#pragma once
#include "pr-draw.h"
#include "pr-report.h"

/* The check page carries the check bars and nothing else. It is what a printer is measured with. */
typedef enum {
  PR_DOC_TEMPLATE,
  PR_DOC_GROUND,
  PR_DOC_SILHOUETTE,
  PR_DOC_BAR,
  PR_DOC_CARD,
  PR_DOC_TRACING_SHEET,
  PR_DOC_SHEET_GUIDE, /* the page that comes with it */
  PR_DOC_CHECK
} PrDoc;
#define PR_N_SHOE_DOCS 5 /* the first so many are of a shoe */

typedef struct {
  PrPaper paper;               /* page the template is printed on */
  double margin_mm;            /* left blank by the printer: 8 */
  double overlap_mm;           /* between tiles: 10 */
  double correct_x, correct_y; /* printer's correction: all that is drawn is multiplied
                              by it (100 mm over what the check bar measures), 1.0 = none; printed
                              on the page; one that pr_correction_usable refuses counts as 1 */
  PrUnit unit;
  bool cautions;             /* print the cautions (first print) */
  bool dxf;                  /* pr_write_all: template.dxf too */
  const char *stem;          /* pr_write_all: STEM-template.pdf and so on; NULL: template.pdf. UTF-8 */
  const char *horse, *date;  /* in the title of every page of a shoe; NULL: not known. A name as pr_name_fit
                              gives it; the day as it is to be read */
  int colour;                /* of the day's card (pr-card-colour.h), on its pages; 0: none */
  PrDoc doc[PR_N_SHOE_DOCS]; /* pr_write_all: pages.pdf too, of these in this order */
  int n_docs;                /* 0: no pages.pdf */
} PrPageOptions;
#define PR_PAGE_OPTIONS_DEFAULT                                                             \
  {                                                                                         \
    .paper = PR_PAPER_A4, .margin_mm = 8, .overlap_mm = 10, .correct_x = 1, .correct_y = 1, \
    .unit = PR_UNIT_MM, .cautions = true                                                    \
  }

/* Is FACTOR one a printer can be off by? A per cent or two is; ten is a slip of the keyboard, or a
 * page that was not printed at actual size. */
#define PR_CORRECTION_MIN 0.9
#define PR_CORRECTION_MAX 1.1
bool pr_correction_usable (double factor);
/* "Corrected for this printer: x 1.0204 across, x 0.9901 down.", as the pages say it; NULL when both
 * are 1. Transfer full. */
char *pr_correction_text (double correct_x, double correct_y);

/* One page of a document, drawn on a context whose unit is 1 mm, page's top left at (0,0). The same
 * function serves PDF, preview and printer. A document is laid out once and drawn page by page.
 * The tracing sheet comes on the first PR_N_SHEET_PAPERS papers only; it, its guide and the check page need
 * no job. */
typedef struct _PrPages PrPages;
PrPages *pr_pages_new (PrDoc doc, const PrJob *job, /* JOB must outlive it */
                       const PrPageOptions *options);
void pr_pages_free (PrPages *pages);
int pr_pages_count (const PrPages *pages);
void pr_pages_size (const PrPages *pages, double *width, double *height); /* mm */
void pr_pages_draw (const PrPages *pages, int page, cairo_t *cr);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrPages, pr_pages_free)

/* Files have numbers with a point, whatever the locale; pages drawn for screen and printer have its own mark.
 * Template: foot surface page(s), then ground surface page(s), then the silhouette. */
bool pr_write_template_pdf (const PrJob *job, const PrPageOptions *options, const char *file, GError **error);
#define PR_PNG_PX_PER_MM 11.811 /* 300 dpi to four digits: pHYs 11811 per metre (ISO/IEC 15948) */
/* One page as large as it takes, mm; of OPTIONS only unit, horse and date count. */
bool pr_write_template_svg (const PrJob *job, PrFace face, const PrPageOptions *options, const char *file,
                            GError **error);
bool pr_write_template_png (const PrJob *job, PrFace face, const PrPageOptions *options, double px_per_mm,
                            const char *file, GError **error);
/* ASCII DXF, release 12, 1 unit = 1 mm, for a program that cuts or draws. */
bool pr_write_template_dxf (const PrJob *job, PrFace face, const char *file, GError **error);
bool pr_write_bar_pdf (const PrJob *job, const PrPageOptions *options, const char *file, GError **error);
/* The tracing sheet: a form to draw on; needs no job. */
void pr_draw_tracing_sheet (cairo_t *cr, PrPaper paper, PrFoot foot);
/* The same for a printer that needs the correction: its fiducials carry the scale, so all of it is
 * multiplied, about the middle of the paper; the sheet tells its factors. A correction for which
 * pr_tracing_sheet_fits is FALSE would push fiducials off the paper: not to be printed. */
void pr_draw_tracing_sheet_corrected (cairo_t *cr, PrPaper paper, PrFoot foot, double correct_x,
                                      double correct_y);
bool pr_tracing_sheet_fits (PrPaper paper, double correct_x, double correct_y);
/* The sheet, and the page on how to use it. */
bool pr_write_tracing_sheet (PrPaper paper, PrFoot foot, const char *file, GError **error);

/* All eight files of `plan` in folder DIR (made when missing), one more with options->dxf and one with options->n_docs:
 * one set, which takes the place of an older one as a whole (pr-file-set.h), a template.dxf and a pages.pdf of that older
 * one too. All or none. */
bool pr_write_all (const PrJob *job, const PrPageOptions *options, const char *dir, GError **error);
/* What they are called without a stem, NULL-terminated, the DXF and the chosen pages among them; the report for programs is the last. */
const char *const *pr_write_all_names (void);
