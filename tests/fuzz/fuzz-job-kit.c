/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz-job-kit.h"

#include "drawn.h"
#include "pr-json.h"
#include "pr-paper.h"
#include "pr-shrink.h"

static GPtrArray *styles;

const GPtrArray *
fuzz_styles (void)
{
  fuzz_folder ();
  if (styles == NULL)
    styles = pr_styles_load (NULL);
  return styles;
}

PrJob *
fuzz_job (void)
{
  enum { N = 121 };
  PrSheetPt outline[N];
  PrJob *job = pr_job_new ();

  kit_drawn (PR_FOOT_LF, 1, outline, N);
  job->sources.foot = PR_FOOT_LF;
  fuzz_must (pr_job_take_outline (job, outline, N, false, NULL), "the good outline is refused");
  fuzz_must (pr_job_set_style (job, fuzz_styles ()->pdata[0], NULL), "the first style does not fit");
  return job;
}

static void
take_offers (const PrJob *job)
{
  PrPlan next;

  for (guint i = 0; i < job->findings->len; i++) {
    const PrFinding *f = job->findings->pdata[i];

    fuzz_must (f->text != NULL && *f->text && f->source != NULL, f->id);
    if (f->offer != NULL)
      pr_offer_apply (f->id, &job->hoof, &job->sources.plan, job->shoe, &job->iron, &next);
  }
  if (job->sources.plan.given > 0)
    pr_plan_shrink (&job->hoof, &job->sources.plan, job->sources.plan.given, &next);
}

void
fuzz_use_job (PrJob *job)
{
  g_autoptr (JsonNode) report = pr_report_json (job), trace = pr_job_trace_json (job),
                       plan = pr_job_plan_json (job);
  g_autofree char *json = json_to_string (report, FALSE), *text = pr_report_text (job, PR_UNIT_INCH);
  g_autofree char *traced = json_to_string (trace, FALSE);
  g_autoptr (GArray) rack = pr_rack_load (NULL);
  g_autoptr (GArray) lines = pr_rack_rank (rack, &job->hoof, &job->sources.plan, job->shoe);
  g_autoptr (PrJob) back = pr_job_new ();
  GError *error = NULL;

  fuzz_must (g_utf8_validate (json, -1, NULL) && g_utf8_validate (text, -1, NULL),
             "a report that is not UTF-8");
  fuzz_must (isfinite (job->iron.volume) && isfinite (job->iron.needed), "a bar that is no length");
  /* what is kept can be read again */
  bool again = pr_job_take_plan_json (back, plan, &error);
  fuzz_must (again, error ? error->message : "a plan of ours refused");
  fuzz_must (pr_plan_equal (&back->sources.plan, &job->sources.plan), "a plan of ours came back another");
  take_offers (job);
}

JsonNode *
fuzz_json (const uint8_t *data, size_t size)
{
  return pr_json_parse ((const char *) data, size, NULL);
}

void
fuzz_seed_json (GPtrArray *seeds, JsonNode *node)
{
  g_autofree char *text = json_to_string (node, FALSE);

  fuzz_seed_text (seeds, text);
  json_node_unref (node);
}
