/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-offer.h"

#include <string.h>

#include "pr-offers.h"
#include "pr-run.h"

#define BETTER_MM 0.01 /* nearer to the limit by less is no help; a tenth of what is told */

/* How bad a plan is under one id: its worst state, and how far beyond the limit. */
typedef struct {
  PrState state;
  double over;
} Wrong;

static Wrong
wrong_with (const char *id, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron)
{
  g_autoptr (GPtrArray) findings = pr_checks_run (hoof, plan, shoe, iron, NULL, PR_UNIT_MM);
  Wrong wrong = { PR_FITS, 0 };

  for (guint i = 0; i < findings->len; i++) {
    const PrFinding *finding = findings->pdata[i];
    double over = fabs (finding->value - finding->limit);

    if (strcmp (finding->id, id) != 0 || finding->state < wrong.state)
      continue;
    wrong.over = finding->state > wrong.state ? over : MAX (wrong.over, over);
    wrong.state = finding->state;
  }
  return wrong;
}

/* Is NEXT better than PLAN in what ID is about? */
static bool
helps (const char *id, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron,
       const PrPlan *next)
{
  g_autoptr (PrShoe) made = pr_shoe_new ();
  g_auto (PrIron) taken = { 0 };

  if (!pr_shoe_build (made, hoof, next, NULL))
    return false;
  pr_iron_plan (&taken, hoof, next, made);
  Wrong was = wrong_with (id, hoof, plan, shoe, iron), is = wrong_with (id, hoof, next, made, &taken);
  return is.state < was.state || (is.state == was.state && is.over < was.over - BETTER_MM);
}

bool
pr_offer_apply (const char *id, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe,
                const PrIron *iron, PrPlan *next)
{
  if (!pr_offer_change (id, hoof, plan, shoe, iron, next))
    return false;
  if (helps (id, hoof, plan, shoe, iron, next))
    return true;
  *next = *plan;
  return false;
}
