/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-forged-sheaf.h"

#include <glib/gi18n-lib.h>

#include "pr-compare.h"
#include "pr-forged-page.h"

typedef struct {
  PrJob *job;
  PrComparison c;
} Held;

static void
held_free (gpointer data)
{
  Held *held = data;

  pr_comparison_clear (&held->c);
  pr_job_free (held->job);
  g_free (held);
}

static gpointer
lay (gpointer data, const PrPageOptions *options)
{
  const Held *held = data;

  return pr_forged_pages_new (held->job, &held->c, options);
}

static int
count (gpointer pages)
{
  return pr_forged_pages_count (pages);
}

static void
size (gpointer pages, double *width, double *height)
{
  pr_forged_pages_size (pages, width, height);
}

static void
draw (gpointer pages, int page, cairo_t *cr)
{
  pr_forged_pages_draw (pages, page, cr);
}

static void
pages_free (gpointer pages)
{
  pr_forged_pages_free (pages);
}

static const PrSheafKind kind = { lay, count, size, draw, pages_free };

PrSheaf *
pr_forged_sheaf_new (const PrJob *job, const PrSeen *seen, PrLay way, GError **error)
{
  Held *held = g_new0 (Held, 1);

  held->job = pr_job_copy (job);
  if (pr_compare (&held->c, held->job, seen, way, error))
    return pr_sheaf_new_pages (&kind, _ ("forged shoe on its plan"), held, held_free);
  held_free (held);
  return NULL;
}
