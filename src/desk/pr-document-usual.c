/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the style would give on this hoof if nothing had been changed by hand, and the way back to it. */
#include "pr-document-private.h"

#include <glib/gi18n-lib.h>
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

const PrPlan *
pr_document_usual (PrDocument *doc)
{
  const PrStyle *style = pr_document_has_line (doc) ? own_style (doc) : NULL;

  if (!style)
    return NULL;
  if (!doc->has_usual || !g_str_equal (doc->usual.style, style->id))
    doc->has_usual = pr_job_usual_plan (doc->job, style, &doc->usual);
  if (doc->has_usual)
    pr_document_own_losses (&doc->usual);
  return doc->has_usual ? &doc->usual : NULL;
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
