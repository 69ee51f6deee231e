/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-pages.h"

#include "pr-card-pages.h"
#include "pr-card-title.h"
#include "pr-leaf.h"
#include "pr-sheet-guide.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define MARGIN_MAX_MM 20.0

struct _PrPages {
  PrDoc doc;
  const PrJob *job;
  PrPageOptions options;
  PrLeaf leaf;
  double width, height; /* of the paper */
  /* one of these, by the document */
  PrTiled tiled;
  PrStrips strips;
  PrCardPages card;
  int n;
  int first, of; /* as they are counted; OF 0: by themselves */
};

/* --- laying out -------------------------------------------------------------------------- */

/* What is dashed on a template is the foot's line, which a specimen has not. */
static char *
face_words (PrDoc doc, const PrJob *job)
{
  bool specimen = job != NULL && pr_sources_is_specimen (&job->sources);

  if (doc == PR_DOC_SILHOUETTE)
    return g_strdup (
        _ ("The shoe as it meets the ground, seen from below: to hold beside the work, or to cut "
           "out. Shown 1 : 1."));
  if (doc == PR_DOC_TEMPLATE && specimen)
    return g_strdup (
        _ ("The side that lies against the foot, seen from above. Dashed: the specimen's outer edge. "
           "Shown 1 : 1."));
  if (doc == PR_DOC_TEMPLATE)
    return g_strdup (
        _ ("The side that lies against the foot, seen from above. Dashed: the wall. Shown 1 : 1."));
  if (specimen)
    return g_strdup (_ ("The side that meets the ground, seen from below. Dashed: the specimen's outer edge. "
                        "Shown 1 : 1."));
  return g_strdup (_ ("The side that meets the ground, seen from below. Dashed: the wall. "
                      "Shown 1 : 1."));
}

static double
sane_factor (double factor)
{
  return pr_correction_usable (factor) ? factor : 1;
}

static PrPages *
pages_start (PrDoc doc, const PrJob *job, const PrPageOptions *options)
{
  PrPages *pages = g_new0 (PrPages, 1);

  pages->doc = doc;
  pages->job = job;
  pages->options = *options;
  pages->options.horse = pages->options.date = NULL; /* they are in the title, and the caller's */
  pages->leaf.margin = CLAMP (options->margin_mm, 0, MARGIN_MAX_MM);
  pages->leaf.correct_x = sane_factor (options->correct_x);
  pages->leaf.correct_y = sane_factor (options->correct_y);
  pages->leaf.cautions = options->cautions;
  if (job != NULL) {
    pages->leaf.title = pr_card_title (job, options->date, options->horse);
    pages->leaf.figures
        = doc == PR_DOC_BAR ? pr_card_bar_figures (job, options->unit) : pr_card_figures (job, options->unit);
  }
  return pages;
}

static void
take_paper (PrPages *pages)
{
  pr_paper_size (pages->options.paper, &pages->width, &pages->height);
  pages->leaf.width = pages->width / pages->leaf.correct_x;
  pages->leaf.height = pages->height / pages->leaf.correct_y;
}

static void
lay_template (PrPages *pages)
{
  pr_tiled_lay (&pages->tiled, pages->job, pages->doc, pages->options.unit, pages->options.overlap_mm,
                pr_leaf_field (&pages->leaf));
  pages->n = (int) pages->tiled.tile->len;
}

static void
lay_check (PrPages *pages)
{
  g_free (pages->leaf.title);
  g_clear_pointer (&pages->leaf.figures, g_free);
  pages->leaf.title = g_strdup (_ ("Check page"));
  pages->leaf.face = g_strdup (pr_paper_name (pages->options.paper));
  pages->leaf.words = g_strdup (
      _ ("Measure one of these lines across the page and one down, from end to end, with a steel rule."));
  pages->n = 1;
}

static void
lay_guide (PrPages *pages)
{
  g_free (pages->leaf.title);
  g_clear_pointer (&pages->leaf.figures, g_free);
  pages->leaf.title = g_strdup (_ ("How to use the tracing sheet"));
  pages->n = 1;
}

PrPages *
pr_pages_new (PrDoc doc, const PrJob *job, const PrPageOptions *options)
{
  g_assert (job != NULL || doc >= PR_N_SHOE_DOCS);
  PrPages *pages = pages_start (doc, job, options);

  take_paper (pages);
  switch (doc) {
  case PR_DOC_TEMPLATE:
  case PR_DOC_GROUND:
  case PR_DOC_SILHOUETTE:
    pages->leaf.face
        = g_strdup (doc == PR_DOC_SILHOUETTE ? _ ("silhouette") : pr_face_name (pr_tiled_face (doc)));
    pages->leaf.words = face_words (doc, job);
    lay_template (pages);
    break;
  case PR_DOC_BAR:
    pages->leaf.face = g_strdup (_ ("bar strip"));
    pages->leaf.words = g_strdup (_ (
        "Shown 1 : 1. Lay the stock along it, or measure from the end: distances run from the medial heel."));
    pr_strips_lay (&pages->strips, job, options->unit, options->overlap_mm, pr_leaf_field (&pages->leaf));
    pages->n = pages->strips.n_pages;
    break;
  case PR_DOC_CARD:
    pages->leaf.face = g_strdup (C_ ("for the anvil", "card"));
    pages->leaf.colour = options->colour;
    pr_card_pages_lay (&pages->card, job, options->unit, pr_leaf_field (&pages->leaf));
    pages->n = pages->card.n_pages;
    break;
  case PR_DOC_TRACING_SHEET:
    pages->n = 1;
    break;
  case PR_DOC_SHEET_GUIDE:
    lay_guide (pages);
    break;
  case PR_DOC_CHECK:
    lay_check (pages);
    break;
  }
  return pages;
}

PrPages *
pr_pages_new_single (const PrJob *job, PrFace face, const PrPageOptions *wanted)
{
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  double w, h;

  options.unit = wanted->unit;
  options.horse = wanted->horse;
  options.date = wanted->date;
  options.cautions = false;
  PrDoc doc = face == PR_FACE_FOOT ? PR_DOC_TEMPLATE : PR_DOC_GROUND;
  PrPages *pages = pages_start (doc, job, &options);
  pages->leaf.face = g_strdup (pr_face_name (face));
  pages->leaf.words = face_words (doc, job);
  pr_tiled_size (job, &w, &h);
  pr_leaf_fit (&pages->leaf, w, h);
  pages->leaf.width = pages->width = ceil (pages->leaf.width);
  pages->leaf.height = pages->height = ceil (pages->leaf.height);
  lay_template (pages);
  g_assert (pages->n == 1);
  return pages;
}

void
pr_pages_free (PrPages *pages)
{
  if (pages == NULL)
    return;
  pr_leaf_clear (&pages->leaf);
  pr_tiled_clear (&pages->tiled);
  pr_strips_clear (&pages->strips);
  pr_card_pages_clear (&pages->card);
  g_free (pages);
}

int
pr_pages_count (const PrPages *pages)
{
  return pages->n;
}

void
pr_pages_number (PrPages *pages, int first, int of)
{
  g_assert (first >= 0 && of >= first + pages->n);
  pages->first = first;
  pages->of = of;
}

void
pr_pages_size (const PrPages *pages, double *width, double *height)
{
  *width = pages->width;
  *height = pages->height;
}

const PrTiled *
pr_pages_tiled (const PrPages *pages)
{
  return &pages->tiled;
}

const PrStrips *
pr_pages_strips (const PrPages *pages)
{
  return &pages->strips;
}

/* --- a page ------------------------------------------------------------------------------ */

void
pr_pages_draw (const PrPages *pages, int page, cairo_t *cr)
{
  g_assert (page >= 0 && page < pages->n);
  cairo_save (cr);
  cairo_new_path (cr);
  if (pages->doc == PR_DOC_TRACING_SHEET) {
    pr_draw_tracing_sheet_corrected (cr, pages->options.paper,
                                     pages->job != NULL ? pages->job->sources.foot : PR_FOOT_ANY,
                                     pages->leaf.correct_x, pages->leaf.correct_y);
  } else {
    cairo_scale (cr, pages->leaf.correct_x, pages->leaf.correct_y);
    pr_leaf_draw (&pages->leaf, cr, pages->first + page, pages->of > 0 ? pages->of : pages->n);
  }
  if (pages->doc == PR_DOC_SHEET_GUIDE)
    pr_sheet_guide_draw (cr, pr_leaf_field (&pages->leaf));
  if (pages->tiled.tile != NULL) {
    const PrBox niche = pr_leaf_niche (&pages->leaf);
    pr_tiled_draw (&pages->tiled, page, &niche, cr);
  }
  if (pages->strips.strip != NULL)
    pr_strips_draw (&pages->strips, page, cr);
  if (pages->card.line != NULL)
    pr_card_pages_draw (&pages->card, page, cr);
  cairo_restore (cr);
}
