/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the style would give on this hoof if nothing had been changed by hand, and the way back to it. */
#include "pr-document-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>
#include "pr-settings.h"

void
pr_document_own_losses (PrPlan *plan)
{
  plan->loss = pr_settings_double ("usual-loss");
  plan->weld_allowance = pr_settings_double ("usual-weld");
}

static const PrStyle *
own_style (PrDocument *doc)
{
  const PrStyle *style = pr_styles_find (doc->styles, doc->job->sources.plan.style);

  return style ? style : doc->styles->len > 0 ? g_ptr_array_index (doc->styles, 0) : NULL;
}

/* --- found in a thread --- */

struct _PrUsualSearch {
  PrDocument *doc;
  GThread *thread;
  guint told; /* the source that takes what was found */
  PrJob *job; /* only what of the document's the plan is made of */
  const PrStyle *style;
  GPtrArray *styles; /* which hold it */
  PrPlan usual;
  bool found, stale; /* STALE: something has changed since */
};

static void
put_usual (PrDocument *doc, const PrStyle *style, const PrPlan *usual)
{
  doc->has_usual = usual != NULL;
  doc->no_usual = !usual;
  if (usual)
    doc->usual = *usual;
  g_strlcpy (doc->usual.style, style->id, sizeof doc->usual.style);
}

static bool
is_known (PrDocument *doc, const PrStyle *style)
{
  return (doc->has_usual || doc->no_usual)
         && strncmp (doc->usual.style, style->id, sizeof doc->usual.style - 1) == 0;
}

/* Waits for the thread. What it found is the document's, unless something has changed meanwhile. */
static void
end_search (PrDocument *doc)
{
  PrUsualSearch *search = g_steal_pointer (&doc->usual_search);

  g_thread_join (search->thread);
  g_clear_handle_id (&search->told, g_source_remove);
  if (!search->stale)
    put_usual (doc, search->style, search->found ? &search->usual : NULL);
  pr_job_free (search->job);
  g_ptr_array_unref (search->styles);
  g_free (search);
}

static gboolean
tell_known (gpointer data)
{
  PrDocument *doc = data;

  doc->telling_usual = 0;
  pr_document_changed (doc, PR_CHANGED_USUAL);
  return G_SOURCE_REMOVE;
}

static gboolean
tell_found (gpointer data)
{
  PrDocument *doc = data;

  end_search (doc); /* and this source */
  pr_document_changed (doc, PR_CHANGED_USUAL);
  return G_SOURCE_CONTINUE;
}

static gpointer
find_usual (gpointer data)
{
  PrUsualSearch *search = data;

  search->found = pr_job_usual_plan (search->job, search->style, &search->usual);
  search->told = g_idle_add_full (G_PRIORITY_DEFAULT, tell_found, search->doc, NULL);
  return NULL;
}

static void
start_search (PrDocument *doc, const PrStyle *style)
{
  PrUsualSearch *search = g_new0 (PrUsualSearch, 1);

  search->doc = doc;
  search->job = pr_job_new ();
  search->job->unit = doc->job->unit;
  search->job->sources.plan = doc->job->sources.plan;
  pr_hoof_copy (&search->job->hoof, &doc->job->hoof);
  search->style = style;
  search->styles = g_ptr_array_ref (doc->styles);
  doc->usual_search = search;
  search->thread = g_thread_new ("usual", find_usual, search);
}

void
pr_document_stop_usual (PrDocument *doc)
{
  if (doc->usual_search)
    end_search (doc);
  g_clear_handle_id (&doc->telling_usual, g_source_remove);
}

void
pr_document_forget_usual (PrDocument *doc)
{
  doc->has_usual = doc->no_usual = false;
  if (doc->usual_search)
    doc->usual_search->stale = true;
}

/* --- for whoever asks --- */

static const PrPlan *
known (PrDocument *doc, const PrStyle *style)
{
  if (!is_known (doc, style) || !doc->has_usual)
    return NULL;
  pr_document_own_losses (&doc->usual);
  return &doc->usual;
}

const PrPlan *
pr_document_known_usual (PrDocument *doc)
{
  const PrStyle *style = pr_document_has_line (doc) ? own_style (doc) : NULL;

  if (!style)
    return NULL;
  if (!is_known (doc, style) && !doc->usual_search)
    start_search (doc, style);
  return known (doc, style);
}

const PrPlan *
pr_document_usual (PrDocument *doc)
{
  const PrStyle *style = pr_document_has_line (doc) ? own_style (doc) : NULL;
  PrPlan usual;

  if (!style)
    return NULL;
  if (!is_known (doc, style) && doc->usual_search && !doc->usual_search->stale) {
    end_search (doc);
    if (!doc->telling_usual) /* whoever could wait still does */
      doc->telling_usual = g_idle_add_full (G_PRIORITY_DEFAULT, tell_known, doc, NULL);
  }
  if (!is_known (doc, style))
    put_usual (doc, style, pr_job_usual_plan (doc->job, style, &usual) ? &usual : NULL);
  return known (doc, style);
}

void
pr_document_limits_changed (PrDocument *doc)
{
  if (doc->job && !pr_document_editing (doc) && pr_document_has_line (doc)
      && pr_job_refresh_hoof (doc->job, NULL)) /* what stood before can be built */
    pr_document_changed (doc, PR_CHANGED_HOOF | PR_CHANGED_PLAN);
}

bool
pr_document_reset (PrDocument *doc, const PrParam *const *params, size_t n, GError **error)
{
  const PrPlan *usual = pr_document_usual (doc);

  g_return_val_if_fail (usual, false);
  pr_document_begin (doc);
  for (size_t i = 0; i < n; i++)
    pr_param_set (&doc->job->sources.plan, params[i], pr_param_get (usual, params[i]));
  return pr_document_finish (doc, pr_job_refresh (doc->job, error), PR_CHANGED_PLAN, NULL);
}
