/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A plan's JSON, as it comes out of a book somebody sent, built and used on a good foot. */
#include "fuzz-job-kit.h"

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (JsonNode) node = size <= 60000 ? fuzz_json (data, size) : NULL;
  g_autoptr (PrJob) job = node != NULL ? fuzz_job () : NULL;
  GError *error = NULL;

  if (node == NULL || !fuzz_said (pr_job_take_plan_json (job, node, &error), &error, false))
    return 0;
  if (fuzz_said (pr_job_refresh (job, &error), &error, false)) {
    fuzz_use_job (job);
    if (fuzz_said (pr_job_fit (job, &error), &error, false))
      fuzz_use_job (job);
  }
  return 0;
}

void
fuzz_seeds (GPtrArray *seeds)
{
  g_autoptr (PrJob) job = fuzz_job ();
  const GPtrArray *styles = fuzz_styles ();

  job->sources.order = g_strdup ("Cut the bar.\nMark the toe.");
  for (guint i = 0; i < styles->len; i++) {
    fuzz_must (pr_job_set_style (job, styles->pdata[i], NULL), "a style does not fit");
    job->sources.plan.given = 100 * i;
    fuzz_seed_json (seeds, pr_job_plan_json (job));
  }
  fuzz_seed_text (seeds,
                  "{\"style\":\"x\",\"locks\":-1,\"toe\":\"squared\",\"toe.amount\":30,\"web.toe\":60}");
  fuzz_seed_text (seeds, "{\"nails.count.medial\":6,\"nails.count.lateral\":6,\"nails.first.medial\":1.3,"
                         "\"nails.last.medial\":0,\"crease.from.medial\":1.3,\"crease.to.medial\":0}");
  fuzz_seed_text (
      seeds, "{\"edge.toe.x\":0,\"edge.toe.y\":0,\"edge.quarter.medial.x\":0,\"edge.quarter.medial.y\":0}");
}
