/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-offer.h"

#include <math.h>
#include <string.h>

#include "pr-offers.h"
#include "pr-run.h"

/* The worst that FINDINGS tell under ID. */
static PrState
worst_under (const GPtrArray *findings, const char *id)
{
  PrState worst = PR_FITS;

  for (guint i = 0; i < findings->len; i++) {
    const PrFinding *finding = findings->pdata[i];

    if (strcmp (finding->id, id) == 0)
      worst = MAX (worst, finding->state);
  }
  return worst;
}

/* By how much more of its limit a finding that was there may be beyond it: less is not seen. */
#define WORSE_SHARE 0.1

/* Was FINDING not so bad in WAS, or is it now further beyond its limit than all that stood under its id there? */
static bool
got_worse (const PrFinding *finding, const GPtrArray *was)
{
  double most = -INFINITY;

  if (finding->state > worst_under (was, finding->id))
    return true;
  for (guint i = 0; i < was->len; i++) {
    const PrFinding *before = was->pdata[i];

    if (strcmp (before->id, finding->id) == 0)
      most = MAX (most, fabs (before->value - before->limit));
  }
  return fabs (finding->value - finding->limit) > most + WORSE_SHARE * fabs (finding->limit);
}

/* Is ID gone from IS, and nothing else there that is as bad as it was and was not, or not so far, in WAS? */
static bool
mends (const char *id, const GPtrArray *was, const GPtrArray *is)
{
  PrState bad = worst_under (was, id);

  if (bad == PR_FITS || worst_under (is, id) != PR_FITS)
    return false;
  for (guint i = 0; i < is->len; i++) {
    const PrFinding *finding = is->pdata[i];

    if (pr_offer_costs (id, finding->id) && finding->state <= bad) /* never for something worse */
      continue;
    if (finding->state >= bad && got_worse (finding, was))
      return false;
  }
  return true;
}

/* What the checks say of PLAN, NULL when no shoe can be made of it. */
static GPtrArray *
findings_on (const PrHoof *hoof, const PrPlan *plan)
{
  g_autoptr (PrShoe) made = pr_shoe_new ();
  g_auto (PrIron) taken = { 0 };

  if (!pr_shoe_build (made, hoof, plan, NULL))
    return NULL;
  pr_iron_plan (&taken, hoof, plan, made);
  return pr_checks_run (hoof, plan, made, &taken, NULL, PR_UNIT_MM);
}

bool
pr_offer_apply (const char *id, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe,
                const PrIron *iron, PrPlan *next)
{
  if (!pr_offer_change (id, hoof, plan, shoe, iron, next))
    return false;
  g_autoptr (GPtrArray) was = pr_checks_run (hoof, plan, shoe, iron, NULL, PR_UNIT_MM);
  g_autoptr (GPtrArray) is = findings_on (hoof, next);
  if (is && mends (id, was, is))
    return true;
  *next = *plan;
  return false;
}

bool
pr_offer_works (const char *id, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe,
                const PrIron *iron)
{
  PrPlan next;

  return pr_offer_apply (id, hoof, plan, shoe, iron, &next);
}
