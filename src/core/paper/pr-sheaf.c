/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sheaf.h"

#include <glib/gi18n-lib.h>
#include "pr-error.h"

#define MOST_DOCS 5

static const PrDoc shoe_docs[]
    = { PR_DOC_TEMPLATE, PR_DOC_GROUND, PR_DOC_SILHOUETTE, PR_DOC_BAR, PR_DOC_CARD };

struct _PrSheaf {
  PrDoc doc[MOST_DOCS];
  PrFoot foot[MOST_DOCS]; /* of tracing sheets */
  int n_docs;
  char *title;               /* NULL: by what it holds */
  char *horse, *date;        /* in the pages' title; NULL: not known */
  PrJob *job;                /* NULL where none is needed */
  PrPages *pages[MOST_DOCS]; /* NULL before they are laid out, and for tracing sheets */
  PrPageOptions options;
  bool laid;
};

PrSheaf *
pr_sheaf_new_job (const PrJob *job)
{
  PrSheaf *sheaf = g_new0 (PrSheaf, 1);

  sheaf->job = pr_job_copy (job);
  sheaf->n_docs = G_N_ELEMENTS (shoe_docs);
  for (int i = 0; i < sheaf->n_docs; i++)
    sheaf->doc[i] = shoe_docs[i];
  return sheaf;
}

PrSheaf *
pr_sheaf_new_sheets (const PrFoot *feet, int n)
{
  PrSheaf *sheaf = g_new0 (PrSheaf, 1);

  g_assert (n >= 1 && n <= MOST_DOCS);
  sheaf->n_docs = n;
  for (int i = 0; i < n; i++) {
    sheaf->doc[i] = PR_DOC_TRACING_SHEET;
    sheaf->foot[i] = feet[i];
  }
  return sheaf;
}

PrSheaf *
pr_sheaf_new_check (void)
{
  PrSheaf *sheaf = g_new0 (PrSheaf, 1);

  sheaf->n_docs = 1;
  sheaf->doc[0] = PR_DOC_CHECK;
  return sheaf;
}

void
pr_sheaf_free (PrSheaf *sheaf)
{
  if (!sheaf)
    return;
  for (int i = 0; i < sheaf->n_docs; i++)
    g_clear_pointer (&sheaf->pages[i], pr_pages_free);
  g_clear_pointer (&sheaf->job, pr_job_free);
  g_free (sheaf->title);
  g_free (sheaf->horse);
  g_free (sheaf->date);
  g_free (sheaf);
}

/* --- laying out --- */

static bool
sheets_can (const PrPageOptions *options, GError **error)
{
  if (options->paper >= (PrPaper) PR_N_SHEET_PAPERS)
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("The tracing sheet does not come on %s; choose A4, Letter, A3 or Tabloid."),
                 pr_paper_name (options->paper));
  else if (!pr_tracing_sheet_fits (options->paper, options->correct_x, options->correct_y))
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("With the correction kept for this printer the corner marks would leave the paper; "
                    "set the printer to 100 %% (actual size) and measure it again."));
  else
    return true;
  return false;
}

bool
pr_sheaf_lay (PrSheaf *sheaf, const PrPageOptions *wanted, GError **error)
{
  PrPageOptions options = *wanted;

  if (sheaf->doc[0] == PR_DOC_CHECK)
    options.correct_x = options.correct_y = 1;
  if (sheaf->doc[0] == PR_DOC_TRACING_SHEET && !sheets_can (&options, error))
    return false;
  options.horse = sheaf->horse;
  options.date = sheaf->date;
  sheaf->options = options;
  sheaf->laid = true;
  for (int i = 0; i < sheaf->n_docs; i++) {
    g_clear_pointer (&sheaf->pages[i], pr_pages_free);
    if (sheaf->doc[i] != PR_DOC_TRACING_SHEET)
      sheaf->pages[i] = pr_pages_new (sheaf->doc[i], sheaf->job, &options);
  }
  return true;
}

static int
doc_count (const PrSheaf *sheaf, int doc)
{
  return sheaf->pages[doc] ? pr_pages_count (sheaf->pages[doc]) : 1;
}

int
pr_sheaf_count (const PrSheaf *sheaf)
{
  int n = 0;

  for (int i = 0; sheaf->laid && i < sheaf->n_docs; i++)
    n += doc_count (sheaf, i);
  return n;
}

/* Which document page *PAGE of all belongs to; *PAGE becomes that document's. */
static int
find_doc (const PrSheaf *sheaf, int *page)
{
  int doc = 0;

  g_assert (*page >= 0 && *page < pr_sheaf_count (sheaf));
  while (*page >= doc_count (sheaf, doc))
    *page -= doc_count (sheaf, doc++);
  return doc;
}

/* --- asking --- */

int
pr_sheaf_papers (const PrSheaf *sheaf)
{
  return sheaf->doc[0] == PR_DOC_TRACING_SHEET ? PR_N_SHEET_PAPERS : PR_N_PAPERS;
}

bool
pr_sheaf_is_shoe (const PrSheaf *sheaf)
{
  return sheaf->job != NULL;
}

void
pr_sheaf_set_title (PrSheaf *sheaf, const char *title)
{
  g_free (sheaf->title);
  sheaf->title = g_strdup (title);
}

void
pr_sheaf_set_horse (PrSheaf *sheaf, const char *horse, const char *date)
{
  g_free (sheaf->horse);
  g_free (sheaf->date);
  sheaf->horse = g_strdup (horse);
  sheaf->date = g_strdup (date);
}

const char *
pr_sheaf_title (const PrSheaf *sheaf)
{
  if (sheaf->title)
    return sheaf->title;
  switch (sheaf->doc[0]) {
  case PR_DOC_TRACING_SHEET:
    return _ ("Tracing sheet");
  case PR_DOC_CHECK:
    return _ ("Check page");
  default:
    return _ ("Shoe template");
  }
}

const char *
pr_sheaf_page_name (const PrSheaf *sheaf, int page)
{
  int doc = find_doc (sheaf, &page);

  switch (sheaf->doc[doc]) {
  case PR_DOC_TEMPLATE:
    return pr_face_name (PR_FACE_FOOT);
  case PR_DOC_GROUND:
    return pr_face_name (PR_FACE_GROUND);
  case PR_DOC_SILHOUETTE:
    return _ ("silhouette");
  case PR_DOC_BAR:
    return _ ("bar layout");
  case PR_DOC_CARD:
    return C_ ("for the anvil", "card");
  case PR_DOC_TRACING_SHEET:
    return pr_foot_name (sheaf->foot[doc]);
  case PR_DOC_CHECK:
    break;
  }
  return _ ("check page");
}

void
pr_sheaf_page_size (const PrSheaf *sheaf, int page, double *width, double *height)
{
  int doc = find_doc (sheaf, &page);

  if (sheaf->pages[doc])
    pr_pages_size (sheaf->pages[doc], width, height);
  else
    pr_paper_size (sheaf->options.paper, width, height);
}

void
pr_sheaf_draw (const PrSheaf *sheaf, int page, cairo_t *cr)
{
  int doc = find_doc (sheaf, &page);

  if (sheaf->pages[doc])
    pr_pages_draw (sheaf->pages[doc], page, cr);
  else
    pr_draw_tracing_sheet_corrected (cr, sheaf->options.paper, sheaf->foot[doc], sheaf->options.correct_x,
                                     sheaf->options.correct_y);
}
