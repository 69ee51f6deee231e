/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-vet-sheaf.h"

#include <glib/gi18n-lib.h>

#include "pr-compare.h"
#include "pr-vet-page.h"

/* What the sheaf's pages are drawn from. */
typedef struct {
  PrJob *job;
  PrVetNote note;
  PrComparison forged;
  bool has_forged;
} Held;

static void
held_free (gpointer data)
{
  Held *held = data;

  if (held->has_forged)
    pr_comparison_clear (&held->forged);
  pr_vet_note_clear (&held->note);
  pr_job_free (held->job);
  g_free (held);
}

static gpointer
lay_page (gpointer data, const PrPageOptions *options)
{
  const Held *held = data;
  const PrVetAbout about = { held->job, held->has_forged ? &held->forged : NULL, &held->note };

  return pr_vet_page_new (&about, options);
}

static bool
can (gpointer data, const PrPageOptions *options, GError **error)
{
  g_autoptr (PrVetPage) page = lay_page (data, options);

  return pr_vet_page_holds (page, error);
}

static void
size (gpointer page, double *width, double *height)
{
  pr_vet_page_size (page, width, height);
}

static void
draw (gpointer page, int nr, cairo_t *cr)
{
  (void) nr;
  pr_vet_page_draw (page, cr);
}

static void
page_free (gpointer page)
{
  pr_vet_page_free (page);
}

static const PrSheafKind kind = { lay_page, NULL, size, draw, page_free, can };

PrSheaf *
pr_vet_sheaf_new (const PrJob *job, const PrVetNote *note, const PrSeen *seen, PrLay lay)
{
  Held *held = g_new0 (Held, 1);

  held->job = pr_job_copy (job);
  pr_vet_note_take (&held->note, note);
  held->has_forged = seen != NULL && pr_compare (&held->forged, held->job, seen, lay, NULL);
  return pr_sheaf_new_pages (&kind, _ ("sheet for the vet"), held, held_free);
}
