/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long it takes to hold a seen shoe against its plan, to make a plan of it, and to draw the page. Printed, never asserted. */
#include <stdio.h>
#include <stdlib.h>

#include "by-value.h"
#include "kit.h"
#include "pr-compare.h"
#include "pr-forged-write.h"
#include "pr-specimen.h"
#include "seen.h"

#define ROUNDS 40

static void
report (const char *name, double *ms)
{
  qsort (ms, ROUNDS, sizeof *ms, by_value);
  printf ("%-44s median %7.2f ms   worst %7.2f ms\n", name, ms[ROUNDS / 2], ms[ROUNDS - 1]);
}

static PrPt
opened (PrPt p)
{
  return p.x > 0 && p.y < 20 ? pr_pt (p.x + (20 - p.y) * 0.04, p.y) : p;
}

static double
since (gint64 t0)
{
  return (double) (g_get_monotonic_time () - t0) / 1000;
}

int
main (void)
{
  const KitFoot shape = KIT_FOOT;
  static double lay[ROUNDS], plan[ROUNDS], page[ROUNDS];
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "plain-front");
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  for (int i = 0; i < ROUNDS; i++) {
    g_auto (PrSeen) seen = { 0 };
    g_auto (PrComparison) c = { 0 };
    g_autoptr (PrJob) made = pr_job_new ();
    g_autoptr (GByteArray) pdf = g_byte_array_new ();

    kit_seen (job, PR_FACE_GROUND, i * 0.31, 120, 150, opened, &seen);
    gint64 t0 = g_get_monotonic_time ();
    if (!pr_compare (&c, job, &seen, PR_LAY_BEST, NULL))
      return EXIT_FAILURE;
    lay[i] = since (t0);
    made->sources.foot = PR_FOOT_LF;
    t0 = g_get_monotonic_time ();
    if (!pr_specimen_plan (made, &seen, NULL, pr_styles_find (styles, "plain-front"), NULL, NULL))
      return EXIT_FAILURE;
    plan[i] = since (t0);
    t0 = g_get_monotonic_time ();
    if (!pr_forged_pdf (job, &c, &options, pdf, NULL))
      return EXIT_FAILURE;
    page[i] = since (t0);
  }
  report ("seen shoe held against its plan", lay);
  report ("seen shoe made a plan", plan);
  report ("comparison's page", page);
  return EXIT_SUCCESS;
}
