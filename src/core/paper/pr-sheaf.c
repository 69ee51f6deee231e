/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-sheaf.h"

#include <glib/gi18n-lib.h>
#include "pr-error.h"
#include "pr-pages.h"

#define MOST_SHEETS 4

/* A document of the sheaf. */
typedef struct {
  const PrSheafKind *kind;
  char *name; /* of its pages */
  gpointer pages;
} Part;

struct _PrSheaf {
  PrDoc kind; /* of a shoe: the first of its documents */
  PrFoot foot[MOST_SHEETS];
  int n_sheets;
  PrJob *job;        /* NULL where none is needed */
  GPtrArray *others; /* PrJob: feet shod with it */
  bool all_feet;
  guint docs;             /* chosen of a shoe's, a bit (1 << PrDoc) each */
  char *title;            /* NULL: by what it holds */
  char *horse, *date;     /* in the pages' title; NULL: not known */
  int colour;             /* of the card; 0: none */
  GArray *part;           /* Part, as laid out; empty before */
  const PrSheafKind *own; /* made by another room; NULL: by this one */
  char *own_name;
  gpointer own_data;
  GDestroyNotify own_free;
};

static void
part_clear (gpointer data)
{
  Part *part = data;

  part->kind->free (part->pages);
  g_free (part->name);
}

static GArray *
parts_new (void)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (Part));

  g_array_set_clear_func (parts, part_clear);
  return parts;
}

static PrSheaf *
sheaf_new (PrDoc kind)
{
  PrSheaf *sheaf = g_new0 (PrSheaf, 1);

  sheaf->kind = kind;
  sheaf->docs = PR_ALL_SHOE_DOCS;
  sheaf->part = parts_new ();
  sheaf->others = g_ptr_array_new_with_free_func ((GDestroyNotify) pr_job_free);
  return sheaf;
}

PrSheaf *
pr_sheaf_new_job (const PrJob *job)
{
  PrSheaf *sheaf = sheaf_new (PR_DOC_TEMPLATE);

  sheaf->job = pr_job_copy (job);
  return sheaf;
}

PrSheaf *
pr_sheaf_new_sheets (const PrFoot *feet, int n)
{
  PrSheaf *sheaf = sheaf_new (PR_DOC_TRACING_SHEET);

  g_assert (n >= 1 && n <= MOST_SHEETS);
  sheaf->n_sheets = n;
  for (int i = 0; i < n; i++)
    sheaf->foot[i] = feet[i];
  return sheaf;
}

PrSheaf *
pr_sheaf_new_check (void)
{
  return sheaf_new (PR_DOC_CHECK);
}

PrSheaf *
pr_sheaf_new_pages (const PrSheafKind *kind, const char *name, gpointer data, GDestroyNotify free_data)
{
  PrSheaf *sheaf = sheaf_new (PR_DOC_TEMPLATE);

  sheaf->own = kind;
  sheaf->own_name = g_strdup (name);
  sheaf->own_data = data;
  sheaf->own_free = free_data;
  return sheaf;
}

void
pr_sheaf_free (PrSheaf *sheaf)
{
  if (!sheaf)
    return;
  g_array_unref (sheaf->part);
  if (sheaf->own_free)
    sheaf->own_free (sheaf->own_data);
  g_free (sheaf->own_name);
  g_ptr_array_unref (sheaf->others);
  g_clear_pointer (&sheaf->job, pr_job_free);
  g_free (sheaf->title);
  g_free (sheaf->horse);
  g_free (sheaf->date);
  g_free (sheaf);
}

void
pr_sheaf_choose (PrSheaf *sheaf, guint docs)
{
  sheaf->docs = docs & PR_ALL_SHOE_DOCS;
}

void
pr_sheaf_add_foot (PrSheaf *sheaf, const PrJob *job)
{
  g_assert (sheaf->job != NULL);
  g_ptr_array_add (sheaf->others, pr_job_copy (job));
}

int
pr_sheaf_feet (const PrSheaf *sheaf)
{
  return sheaf->job != NULL ? (int) sheaf->others->len + 1 : 0;
}

void
pr_sheaf_set_all_feet (PrSheaf *sheaf, bool all)
{
  sheaf->all_feet = all && sheaf->others->len > 0;
}

bool
pr_sheaf_all_feet (const PrSheaf *sheaf)
{
  return sheaf->all_feet;
}

guint
pr_sheaf_chosen (const PrSheaf *sheaf)
{
  return sheaf->docs;
}

/* --- laying out --- */

static bool
sheets_can (const PrPageOptions *options, GError **error)
{
  if (options->paper >= (PrPaper) PR_N_SHEET_PAPERS)
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("There is no tracing sheet on %s; choose A4, Letter, A3 or Tabloid."),
                 pr_paper_name (options->paper));
  else if (!pr_tracing_sheet_fits (options->paper, options->correct_x, options->correct_y))
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("With the correction saved for this printer the corner marks would leave the paper; set "
                    "the printer to 100 %% (actual size) and measure it again."));
  else
    return true;
  return false;
}

static bool
shoe_can (const PrSheaf *sheaf, GError **error)
{
  if (sheaf->docs == 0)
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("No page of the shoe is ticked; tick those that are to be printed."));
  return sheaf->docs != 0;
}

/* --- the kinds --- */

static int
pages_count (gpointer pages)
{
  return pr_pages_count (pages);
}

static void
pages_size (gpointer pages, double *width, double *height)
{
  pr_pages_size (pages, width, height);
}

static void
pages_draw (gpointer pages, int page, cairo_t *cr)
{
  pr_pages_draw (pages, page, cr);
}

static void
pages_free (gpointer pages)
{
  pr_pages_free (pages);
}

/* A document's pages (pr-pages.h), laid out by add_doc. */
static const PrSheafKind doc_kind = { NULL, pages_count, pages_size, pages_draw, pages_free };

/* A tracing sheet: one page, whatever is laid out. */
typedef struct {
  PrFoot foot;
  PrPaper paper;
  double correct_x, correct_y;
} Sheet;

static void
sheet_size (gpointer sheet, double *width, double *height)
{
  pr_paper_size (((Sheet *) sheet)->paper, width, height);
}

static void
sheet_draw (gpointer data, int page, cairo_t *cr)
{
  const Sheet *sheet = data;

  (void) page;
  pr_draw_tracing_sheet_corrected (cr, sheet->paper, sheet->foot, sheet->correct_x, sheet->correct_y);
}

static const PrSheafKind sheet_kind = { NULL, NULL, sheet_size, sheet_draw, g_free };

/* NAME and PAGES are taken over. */
static void
add_part (GArray *parts, const PrSheafKind *kind, char *name, gpointer pages)
{
  const Part part = { kind, name, pages };

  g_array_append_val (parts, part);
}

static void
add_sheet (GArray *parts, PrFoot foot, const PrPageOptions *options)
{
  const Sheet sheet = { foot, options->paper, options->correct_x, options->correct_y };

  add_part (parts, &sheet_kind, g_strdup (pr_foot_name (foot)), g_memdup2 (&sheet, sizeof sheet));
}

/* --- laid out --- */

/* The pages of a shoe say which of how many they are. */
static void
number_all (GArray *parts)
{
  int all = 0, first = 0;

  for (guint i = 0; i < parts->len; i++)
    all += pr_pages_count (g_array_index (parts, Part, i).pages);
  for (guint i = 0; i < parts->len; i++) {
    PrPages *pages = g_array_index (parts, Part, i).pages;

    pr_pages_number (pages, first, all);
    first += pr_pages_count (pages);
  }
}

/* The feet to print, in the order of PrFoot. Element type PrJob, not owned. */
static GPtrArray *
feet_of (const PrSheaf *sheaf)
{
  GPtrArray *feet = g_ptr_array_new ();

  if (!sheaf->all_feet) {
    g_ptr_array_add (feet, sheaf->job);
    return feet;
  }
  for (int foot = 0; foot < PR_N_FEET; foot++) {
    if (sheaf->job->sources.foot == (PrFoot) foot)
      g_ptr_array_add (feet, sheaf->job);
    for (guint i = 0; i < sheaf->others->len; i++)
      if (((const PrJob *) sheaf->others->pdata[i])->sources.foot == (PrFoot) foot)
        g_ptr_array_add (feet, sheaf->others->pdata[i]);
  }
  return feet;
}

static GArray *
lay_shoes (const PrSheaf *sheaf, const PrPageOptions *options)
{
  g_autoptr (GPtrArray) feet = feet_of (sheaf);
  GArray *parts = parts_new ();

  for (guint i = 0; i < feet->len; i++)
    for (int doc = 0; doc < PR_N_SHOE_DOCS; doc++) {
      const PrJob *job = feet->pdata[i];
      const char *name = pr_sheaf_doc_name ((PrDoc) doc), *foot = pr_foot_name (job->sources.foot);

      if (sheaf->docs & 1u << doc)
        add_part (parts, &doc_kind, feet->len > 1 ? g_strdup_printf ("%s, %s", foot, name) : g_strdup (name),
                  pr_pages_new ((PrDoc) doc, job, options));
    }
  number_all (parts);
  return parts;
}

/* Sheets and the page on how to use them, or the one page of another kind. */
static GArray *
lay_sheets (const PrSheaf *sheaf, const PrPageOptions *options)
{
  GArray *parts = parts_new ();
  PrDoc last = sheaf->n_sheets > 0 ? PR_DOC_SHEET_GUIDE : sheaf->kind;

  for (int i = 0; i < sheaf->n_sheets; i++)
    add_sheet (parts, sheaf->foot[i], options);
  add_part (parts, &doc_kind, g_strdup (pr_sheaf_doc_name (last)), pr_pages_new (last, NULL, options));
  return parts;
}

static GArray *
lay_own (const PrSheaf *sheaf, const PrPageOptions *options)
{
  GArray *parts = parts_new ();

  add_part (parts, sheaf->own, g_strdup (sheaf->own_name), sheaf->own->lay (sheaf->own_data, options));
  return parts;
}

bool
pr_sheaf_lay (PrSheaf *sheaf, const PrPageOptions *wanted, GError **error)
{
  PrPageOptions options = *wanted;

  if (sheaf->kind == PR_DOC_CHECK)
    options.correct_x = options.correct_y = 1;
  if (sheaf->kind == PR_DOC_TRACING_SHEET && !sheets_can (&options, error))
    return false;
  if (sheaf->job != NULL && !shoe_can (sheaf, error))
    return false;
  if (sheaf->own != NULL && sheaf->own->can != NULL && !sheaf->own->can (sheaf->own_data, &options, error))
    return false;
  options.horse = sheaf->horse;
  options.date = sheaf->date;
  options.colour = sheaf->colour;
  g_array_unref (sheaf->part);
  sheaf->part = sheaf->own != NULL   ? lay_own (sheaf, &options)
                : sheaf->job != NULL ? lay_shoes (sheaf, &options)
                                     : lay_sheets (sheaf, &options);
  return true;
}

static int
part_count (const Part *part)
{
  return part->kind->count != NULL ? part->kind->count (part->pages) : 1;
}

int
pr_sheaf_count (const PrSheaf *sheaf)
{
  int n = 0;

  for (guint i = 0; i < sheaf->part->len; i++)
    n += part_count (&g_array_index (sheaf->part, Part, i));
  return n;
}

/* What page *PAGE of all belongs to; *PAGE becomes that document's. */
static const Part *
find_part (const PrSheaf *sheaf, int *page)
{
  const Part *part = &g_array_index (sheaf->part, Part, 0);

  g_assert (*page >= 0 && *page < pr_sheaf_count (sheaf));
  while (*page >= part_count (part))
    *page -= part_count (part++);
  return part;
}

/* --- asking --- */

int
pr_sheaf_papers (const PrSheaf *sheaf)
{
  return sheaf->kind == PR_DOC_TRACING_SHEET ? PR_N_SHEET_PAPERS : PR_N_PAGE_PAPERS;
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
  switch (sheaf->kind) {
  case PR_DOC_TRACING_SHEET:
    return _ ("Tracing sheet");
  case PR_DOC_CHECK:
    return _ ("Check page");
  default:
    return _ ("Shoe template");
  }
}

void
pr_sheaf_set_colour (PrSheaf *sheaf, int colour)
{
  sheaf->colour = colour;
}

const char *
pr_sheaf_doc_name (PrDoc doc)
{
  switch (doc) {
  case PR_DOC_TEMPLATE:
    return pr_face_name (PR_FACE_FOOT);
  case PR_DOC_GROUND:
    return pr_face_name (PR_FACE_GROUND);
  case PR_DOC_SILHOUETTE:
    return _ ("silhouette");
  case PR_DOC_BAR:
    return _ ("bar strip");
  case PR_DOC_CARD:
    return C_ ("for the anvil", "card");
  case PR_DOC_TRACING_SHEET:
    return _ ("Tracing sheet");
  case PR_DOC_SHEET_GUIDE:
    return _ ("how to use it");
  case PR_DOC_CHECK:
    break;
  }
  return _ ("check page");
}

const char *
pr_sheaf_page_name (const PrSheaf *sheaf, int page)
{
  return find_part (sheaf, &page)->name;
}

void
pr_sheaf_page_size (const PrSheaf *sheaf, int page, double *width, double *height)
{
  const Part *part = find_part (sheaf, &page);

  part->kind->size (part->pages, width, height);
}

void
pr_sheaf_draw (const PrSheaf *sheaf, int page, cairo_t *cr)
{
  const Part *part = find_part (sheaf, &page);

  part->kind->draw (part->pages, page, cr);
}
