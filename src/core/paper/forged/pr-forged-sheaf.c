/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-forged-sheaf.h"

#include <glib/gi18n-lib.h>

#include "pr-compare.h"
#include "pr-forged-page.h"

typedef struct {
  PrJob *job;
  PrComparison c;
  PrForgedPages *pages; /* NULL before they are laid out */
} Held;

static void
held_free (gpointer data)
{
  Held *held = data;

  pr_forged_pages_free (held->pages);
  pr_comparison_clear (&held->c);
  pr_job_free (held->job);
  g_free (held);
}

static void
lay (gpointer data, const PrPageOptions *options)
{
  Held *held = data;

  pr_forged_pages_free (held->pages);
  held->pages = pr_forged_pages_new (held->job, &held->c, options);
}

static int
count (gpointer data)
{
  return pr_forged_pages_count (((Held *) data)->pages);
}

static void
size (gpointer data, double *width, double *height)
{
  pr_forged_pages_size (((Held *) data)->pages, width, height);
}

static void
draw (gpointer data, int page, cairo_t *cr)
{
  pr_forged_pages_draw (((Held *) data)->pages, page, cr);
}

PrSheaf *
pr_forged_sheaf_new (const PrJob *job, const PrSeen *seen, PrLay way, GError **error)
{
  const PrSheafPages pages = { _ ("forged shoe on its plan"), lay, count, size, draw, held_free };
  Held *held = g_new0 (Held, 1);

  held->job = pr_job_copy (job);
  if (pr_compare (&held->c, held->job, seen, way, error))
    return pr_sheaf_new_pages (&pages, held);
  held_free (held);
  return NULL;
}
