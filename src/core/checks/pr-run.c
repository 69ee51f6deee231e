/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-run.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-checks-clips.h"
#include "pr-checks-crease.h"
#include "pr-checks-heels.h"
#include "pr-checks-iron.h"
#include "pr-checks-nails.h"
#include "pr-checks-parts.h"
#include "pr-checks-toe.h"
#include "pr-offers.h"

static int
by_weight (gconstpointer a, gconstpointer b)
{
  const PrFinding *p = *(const PrFinding *const *) a, *q = *(const PrFinding *const *) b;

  return p->group != q->group ? (int) p->group - (int) q->group : (int) q->state - (int) p->state;
}

GPtrArray *
pr_checks_run (const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron,
               const PrScale *scale, PrUnit unit)
{
  PrRun run = { hoof, plan, shoe, iron, scale, unit, g_ptr_array_new_with_free_func (pr_finding_free) };

  pr_check_heels (&run);
  pr_check_nails (&run);
  pr_check_crease (&run);
  pr_check_clips (&run);
  pr_check_parts (&run);
  pr_check_toe (&run);
  pr_check_iron (&run);
  for (guint i = 0; i < run.out->len; i++) {
    PrFinding *finding = run.out->pdata[i];

    finding->offer = finding->state == PR_FITS ? NULL : pr_offer_name (finding->id);
  }
  /* g_ptr_array_sort is stable (merge sort), so findings of one state keep the order above */
  g_ptr_array_sort (run.out, by_weight);
  return run.out;
}

/* Beginnings of the ids of what is held against the foot: its wall, frog, buttresses, widest line and size. */
static const char *const of_foot[]
    = { "fit.",       "heel.past", "heel.frog",  "heel.cover", "heel.overhang", "nail.wall",
        "nail.last.", "sole.",     "style.foot", "toe.back",   "wall.",         "width." };

static bool
needs_foot (const PrFinding *finding)
{
  bool needs = false;

  for (size_t i = 0; i < G_N_ELEMENTS (of_foot); i++)
    needs = needs || g_str_has_prefix (finding->id, of_foot[i]);
  return needs && strcmp (finding->id, "nail.last.even") != 0;
}

static bool
is_of_heels (const PrFinding *finding)
{
  return finding->group == PR_GROUP_HEELS;
}

static void
take_out (GPtrArray *findings, bool (*is) (const PrFinding *finding))
{
  for (guint i = findings->len; i-- > 0;)
    if (is (findings->pdata[i]))
      g_ptr_array_remove_index (findings, i);
}

void
pr_findings_without_foot (GPtrArray *findings)
{
  take_out (findings, needs_foot);
  g_ptr_array_add (
      findings, pr_finding_new ("specimen", PR_GROUP_SHAPE, PR_FITS, 0, 0, "", "",
                                g_strdup (_ ("Planned from a specimen: there is no foot, so nothing is held "
                                             "against wall, frog and buttress."))));
  g_ptr_array_sort (findings, by_weight);
}

void
pr_findings_without_heels (GPtrArray *findings, PrPt at)
{
  PrFinding *finding = pr_finding_new (
      "heels.unset", PR_GROUP_HEELS, PR_LOOK, 0, 0, "", "",
      g_strdup (
          _ ("Where the heels end is a guess on a line drawn closed: drag the two dotted rings to them, "
             "or click each that is right; then they are checked.")));

  take_out (findings, is_of_heels);
  pr_finding_at (finding, at);
  g_ptr_array_add (findings, finding);
  g_ptr_array_sort (findings, by_weight);
}
