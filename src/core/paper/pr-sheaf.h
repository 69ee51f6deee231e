/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrSheaf: what one print gives, page by page, laid out on one paper. Printer and preview draw the
 * same pages. It holds a copy of the job as it stood, so that work can go on meanwhile. */
#pragma once
#include "pr-paper.h"

typedef struct _PrSheaf PrSheaf;

/* Template (both faces), silhouette, bar and card of a copy of JOB, as far as they are chosen. */
PrSheaf *pr_sheaf_new_job (const PrJob *job);
/* A tracing sheet for each of N (1 to 4) feet, and one page on how to use them. */
PrSheaf *pr_sheaf_new_sheets (const PrFoot *feet, int n);
/* The page a printer is measured with: it leaves out any correction. */
PrSheaf *pr_sheaf_new_check (void);
/* Pages of any kind once they are laid out; PAGES as LAY gave them. */
typedef struct {
  gpointer (*lay) (gpointer data, const PrPageOptions *options); /* transfer full, to FREE */
  int (*count) (gpointer pages);                                 /* NULL: one */
  void (*size) (gpointer pages, double *width, double *height);  /* of each page, mm */
  void (*draw) (gpointer pages, int page, cairo_t *cr);
  void (*free) (gpointer pages);
  bool (*can) (gpointer data, const PrPageOptions *options,
               GError **error); /* be laid out so? NULL: always */
} PrSheafKind;
/* Those that another room makes of DATA, which lives as long as the sheaf, then goes by FREE_DATA; all called NAME (copied). */
PrSheaf *pr_sheaf_new_pages (const PrSheafKind *kind, const char *name, gpointer data,
                             GDestroyNotify free_data);
void pr_sheaf_free (PrSheaf *sheaf);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrSheaf, pr_sheaf_free)

/* Which documents of a shoe are in it when it is laid out next: a bit (1 << PrDoc) each, at first all. */
#define PR_ALL_SHOE_DOCS ((1u << PR_N_SHOE_DOCS) - 1)
void pr_sheaf_choose (PrSheaf *sheaf, guint docs);
guint pr_sheaf_chosen (const PrSheaf *sheaf);
/* Another foot that is shod with it: its pages are there too, the feet in the order of PrFoot, when all feet are wanted. The
 * horse and the day are the same. A copy of JOB is kept. */
void pr_sheaf_add_foot (PrSheaf *sheaf, const PrJob *job);
int pr_sheaf_feet (const PrSheaf *sheaf); /* the first one and those added; 0 where it holds no shoe */
void pr_sheaf_set_all_feet (PrSheaf *sheaf, bool all);
bool pr_sheaf_all_feet (const PrSheaf *sheaf);
/* "bar layout". */
const char *pr_sheaf_doc_name (PrDoc doc);
/* Lays the pages out anew, those of a shoe counted through. FALSE with a sentence where that paper or that correction cannot
 * be, or no document is chosen; what was laid out before then stays. */
bool pr_sheaf_lay (PrSheaf *sheaf, const PrPageOptions *options, GError **error);
/* 0 before it was laid out. */
int pr_sheaf_count (const PrSheaf *sheaf);
/* Papers it can be laid out on are the first so many of PrPaper. */
int pr_sheaf_papers (const PrSheaf *sheaf);
/* Are the cautions to be read before it is printed? */
bool pr_sheaf_is_shoe (const PrSheaf *sheaf);
/* What it is called in the print queue and in file names: as was set, else by what it holds. */
const char *pr_sheaf_title (const PrSheaf *sheaf);
void pr_sheaf_set_title (PrSheaf *sheaf, const char *title);
/* Which horse the shoe is for and of which day it is, for the title of its pages as they are laid out next. Either may be
 * NULL. */
void pr_sheaf_set_horse (PrSheaf *sheaf, const char *horse, const char *date);
/* What colour that day's card has (pr-card-colour.h). */
void pr_sheaf_set_colour (PrSheaf *sheaf, int colour);
/* What page PAGE (from 0) shows: "bar layout"; with more feet than one "near fore, bar layout". */
const char *pr_sheaf_page_name (const PrSheaf *sheaf, int page);
void pr_sheaf_page_size (const PrSheaf *sheaf, int page, double *width, double *height); /* mm */
/* On a context whose unit is 1 mm, page's top left at (0,0). */
void pr_sheaf_draw (const PrSheaf *sheaf, int page, cairo_t *cr);
