/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-checks-crease.h"

/* The crease itself: rim, depth, width against the nail's head. */
static void
check_rim (const PrRun *run)
{
  PrLimit limit = pr_limit_share ("crease.rim", run->hoof->width);
  double least = INFINITY;
  PrPt at = { 0, 0 };

  for (size_t i = 0; i < run->shoe->n_creases; i++) {
    const PrCrease *crease = &run->shoe->crease[i];
    double place[2] = { crease->place_from, crease->place_to };

    for (int end = 0; end < 2; end++) {
      double rim = pr_plan_inset_at (run->plan, crease->branch, place[end]) - crease->width / 2;

      if (rim < least) {
        least = rim;
        at = crease->middle.p[end ? crease->middle.n - 1 : 0];
      }
    }
  }
  if (!isfinite (least))
    return;
  PrState state = pr_below (least, &limit);
  const char *text = state == PR_FITS
                         ? _ ("Between crease and outer edge %s of metal or more is left (at least %s).")
                         : _ ("Between crease and outer edge only %s of metal is left (at least %s); move "
                              "the nail line in or take a finer nail.");
  pr_finding_at (pr_run_add (run, "crease.rim", PR_GROUP_NAILS, state, least, limit.look, "mm", limit.source,
                             pr_say (run, text, least, limit.look)),
                 at);
}

static void
check_crease_depth (const PrRun *run)
{
  const PrLimit *least = pr_limit ("crease.depth.least"), *most = pr_limit ("crease.depth.most"),
                *floor = pr_limit ("crease.floor");
  double depth = run->plan->crease_depth, thin = MIN (run->plan->thick_toe, run->plan->thick_heel);

  if (run->shoe->n_creases == 0)
    return;
  PrState low = pr_below (depth, least), high = pr_above (depth, most),
          left = pr_below (thin * (1 - depth), floor);
  PrState state = MAX (low, MAX (high, left));
  const PrCrease *crease = &run->shoe->crease[0];
  g_autofree char *d = pr_length_text (depth * thin, run->unit), *t = pr_length_text (thin, run->unit);
  const char *text
      = state == PR_FITS ? _ ("The crease is %s deep in stock %s thick.")
        : low == state
            ? _ ("The crease is only %s deep in stock %s thick: the nails' heads stand proud; deepen it.")
            : _ ("The crease is %s deep in stock %s thick and weakens the branch; make it shallower.");

  char *told
      = state != PR_FITS && left == state && low < state && high < state
            ? pr_say (run,
                      _ ("The crease leaves only %s of metal under it (at least %s); make it shallower."),
                      thin * (1 - depth), floor->look)
            : g_strdup_printf (text, d, t);

  pr_finding_at (pr_run_add (run, "crease.depth", PR_GROUP_NAILS, state, depth,
                             low == state && state != PR_FITS ? least->look : most->look, "", most->source,
                             told),
                 crease->middle.p[crease->middle.n / 2]);
}

/* As wide as the nail's head; and the head wider than the shank. */
static void
check_nail_sizes (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("crease.width");
  const PrPlan *plan = run->plan;
  double off = fabs (plan->crease_width - plan->nail_head_width);
  PrState state = pr_above (off, limit);

  if (run->shoe->n_creases > 0 && run->shoe->n_nails > 0 && state != PR_FITS)
    pr_run_add (
        run, "crease.width", PR_GROUP_NAILS, state, off, limit->look, "mm", limit->source,
        pr_say (run, _ ("The crease is %s wide and a nail's head %s; make the crease as wide as the head."),
                plan->crease_width, plan->nail_head_width));
  if (run->shoe->n_nails > 0 && plan->nail_shank >= MIN (plan->nail_head_width, plan->nail_head_length))
    pr_run_add (
        run, "nail.shank", PR_GROUP_NAILS, PR_MEND, plan->nail_shank, plan->nail_head_width, "mm",
        _ ("common practice, no source"),
        pr_say (run,
                _ ("A nail's shank is %s and its head %s: it would fall through; measure the nail again."),
                plan->nail_shank, plan->nail_head_width));
}

void
pr_check_crease (const PrRun *run)
{
  check_rim (run);
  check_crease_depth (run);
  check_nail_sizes (run);
}
