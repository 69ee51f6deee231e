/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages. Scale is an input, never a result: what does not fit is tiled with overlap and marks.
 * Every page carries a 100 mm and a 4 in check bar both ways and one sentence what for. PDFs say
 * /PrintScaling /None (ISO 32000-1, 12.2). Files are written beside their name and renamed when
 * whole; on error nothing is left. */
#pragma once
#include "pr-draw.h"

typedef struct {
  PrPaper paper;           /* page the template is printed on */
  double  margin_mm;       /* left blank by the printer: 8 */
  double  overlap_mm;      /* between tiles: 10 */
  double  correct_x, correct_y;   /* printer's correction: all that is drawn is multiplied
                              by it (100 mm over what the check bar measures), 1.0 = none; printed
                              on the page; a factor beyond 0.9 to 1.1 counts as 1 */
  PrUnit  unit;
  bool    cautions;        /* print the cautions (first print) */
  bool    dxf;             /* pr_write_all: template.dxf too */
} PrPageOptions;
#define PR_PAGE_OPTIONS_DEFAULT { .paper = PR_PAPER_A4, .margin_mm = 8, .overlap_mm = 10, \
  .correct_x = 1, .correct_y = 1, .unit = PR_UNIT_MM, .cautions = true }

typedef enum { PR_DOC_TEMPLATE, PR_DOC_GROUND, PR_DOC_BAR, PR_DOC_CARD,
               PR_DOC_TRACING_SHEET } PrDoc;

/* One page of a document, drawn on a context whose unit is 1 mm, page's top left at (0,0). The same
 * function serves PDF, preview and printer. A document is laid out once and drawn page by page.
 * The tracing sheet comes on the first PR_N_SHEET_PAPERS papers only, and needs no job. */
typedef struct _PrPages PrPages;
PrPages *pr_pages_new (PrDoc doc, const PrJob *job,     /* JOB must outlive it */
                       const PrPageOptions *options);
void     pr_pages_free (PrPages *pages);
int      pr_pages_count (const PrPages *pages);
void     pr_pages_size (const PrPages *pages, double *width, double *height);        /* mm */
void     pr_pages_draw (const PrPages *pages, int page, cairo_t *cr);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrPages, pr_pages_free)

/* Template: foot surface page(s), then ground surface page(s). */
bool pr_write_template_pdf (const PrJob *job, const PrPageOptions *options, const char *file,
                            GError **error);
bool pr_write_template_svg (const PrJob *job, PrFace face, const char *file,    /* mm */
                            GError **error);
bool pr_write_template_png (const PrJob *job, PrFace face, double px_per_mm, const char *file,
                            GError **error);
/* ASCII DXF, release 12, 1 unit = 1 mm, for a program that cuts or draws. */
bool pr_write_template_dxf (const PrJob *job, PrFace face, const char *file, GError **error);
bool pr_write_bar_pdf (const PrJob *job, const PrPageOptions *options, const char *file,
                       GError **error);
/* The tracing sheet: a form to draw on; needs no job. */
void pr_draw_tracing_sheet (cairo_t *cr, PrPaper paper, PrFoot foot);
bool pr_write_tracing_sheet (PrPaper paper, PrFoot foot, const char *file, GError **error);

/* The card as text (transfer full), and the report as JSON (transfer full). */
char     *pr_report_text (const PrJob *job, PrUnit unit);
JsonNode *pr_report_json (const PrJob *job);
/* Writes LEN bytes so that FILE is either whole or untouched. */
bool pr_write_whole (const char *file, const char *data, gsize len, GError **error);
/* All six files of `plan` in folder DIR (made when missing), seven with options->dxf: each whole, or
 * none of them. */
bool pr_write_all (const PrJob *job, const PrPageOptions *options, const char *dir, GError **error);
