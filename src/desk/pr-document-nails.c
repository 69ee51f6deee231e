/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The nails in the farrier's own box, and the shoe nailed with them. */
#include "pr-document-private.h"

#include "pr-own-nails.h"
#include "pr-size.h"

const GPtrArray *
pr_document_nails (PrDocument *doc)
{
  if (!doc->nails)
    doc->nails = pr_own_nails_load (NULL);
  return doc->nails;
}

static void
nails_changed (PrDocument *doc)
{
  g_clear_pointer (&doc->nails, g_ptr_array_unref);
  pr_document_changed (doc, PR_CHANGED_STYLES);
}

/* As the foot's size asks for, and with them the crease. */
static void
use_usual (PrDocument *doc, PrPlan *plan)
{
  PrPlan usual = *plan;

  plan->nail[0] = usual.nail[0] = '\0';
  pr_size_apply (&doc->job->hoof, &usual);
  for (size_t i = 0; i < pr_n_params; i++)
    if (pr_param_of_nail (&pr_params[i]))
      pr_param_set (plan, &pr_params[i], pr_param_get (&usual, &pr_params[i]));
  plan->crease_width = usual.crease_width;
  plan->crease_depth = pr_param_find ("crease.depth")->normal;
}

bool
pr_document_use_nails (PrDocument *doc, const char *name, GError **error)
{
  const PrOwnNail *nail = name ? pr_own_nails_find (pr_document_nails (doc), name) : NULL;

  g_return_val_if_fail (doc->job, false);
  pr_document_begin (doc);
  if (nail)
    pr_own_nail_use (nail, &doc->job->sources.plan);
  else
    use_usual (doc, &doc->job->sources.plan);
  pr_document_forget_usual (doc);
  return pr_document_finish (doc, pr_job_refresh (doc->job, error), PR_CHANGED_PLAN, NULL);
}

bool
pr_document_keep_nails (PrDocument *doc, const char *name, GError **error)
{
  g_return_val_if_fail (doc->job, false);
  if (!pr_own_nails_keep (name, &doc->job->sources.plan, error))
    return false;
  nails_changed (doc);
  return pr_document_use_nails (doc, name, error);
}

bool
pr_document_forget_nails (PrDocument *doc, const char *name, GError **error)
{
  if (!pr_own_nails_forget (name, error))
    return false;
  nails_changed (doc);
  return true;
}
