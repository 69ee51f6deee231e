/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the core takes for what a drag asks of it. Printed, never asserted: the clock is not a test. Ratios
 * within one run can be compared between machines. */
#include <stdio.h>
#include <stdlib.h>

#include "by-value.h"
#include "kit.h"
#include "pr-handle.h"
#include "pr-stage-look.h"
#include "pr-stage.h"

#define ROUNDS 400

static void
report (const char *name, double *ms, int n)
{
  qsort (ms, n, sizeof *ms, by_value);
  printf ("%-44s median %7.3f ms   99th %7.3f ms\n", name, ms[n / 2], ms[(int) (n * 0.99)]);
}

int
main (void)
{
  const KitFoot shape = KIT_FOOT;
  static double build[ROUNDS], iron[ROUNDS], checks[ROUNDS], all[ROUNDS], draw[ROUNDS], fit[ROUNDS],
      stage[ROUNDS], stage_draw[ROUNDS];
  static const char *const styles[] = { "quarter-clipped", "toe-extension", "egg-bar", "heart-bar" };

  for (size_t k = 0; k < G_N_ELEMENTS (styles); k++) {
    g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, styles[k]);
    const PrDrawOptions options = PR_DRAW_TEMPLATE (PR_FACE_FOOT);
    g_auto (PrStage) bent = { 0 };
    cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 1920, 1080);

    for (int i = 0; i < ROUNDS; i++) {
      PrPlan plan = job->sources.plan;
      gint64 t0;

      job->sources.plan.knot[PR_KNOT_TOE].y += (i % 2 ? -0.5 : 0.5);
      t0 = g_get_monotonic_time ();
      pr_shoe_build (job->shoe, &job->hoof, &job->sources.plan, NULL);
      build[i] = (double) (g_get_monotonic_time () - t0) / 1000;
      t0 = g_get_monotonic_time ();
      pr_iron_plan (&job->iron, &job->hoof, &job->sources.plan, job->shoe);
      iron[i] = (double) (g_get_monotonic_time () - t0) / 1000;
      t0 = g_get_monotonic_time ();
      g_ptr_array_unref (
          pr_checks_run (&job->hoof, &job->sources.plan, job->shoe, &job->iron, NULL, PR_UNIT_MM));
      checks[i] = (double) (g_get_monotonic_time () - t0) / 1000;
      t0 = g_get_monotonic_time ();
      pr_job_refresh (job, NULL);
      all[i] = (double) (g_get_monotonic_time () - t0) / 1000;
      t0 = g_get_monotonic_time ();
      cairo_t *cr = cairo_create (surface);
      cairo_scale (cr, 5, 5);
      pr_draw_enter_foot (cr, job->sources.foot, PR_FACE_FOOT, 190, 100);
      pr_draw_job (cr, job, &options);
      cairo_destroy (cr);
      draw[i] = (double) (g_get_monotonic_time () - t0) / 1000;
      PrStageProgress half = pr_stage_finished;
      half.turned[PR_LATERAL] = 0.5;
      t0 = g_get_monotonic_time ();
      pr_stage_build (&bent, &job->sources.plan, job->shoe, &job->iron, &half);
      stage[i] = (double) (g_get_monotonic_time () - t0) / 1000;
      const PrStageLook look = {
        .show = { .crease = true, .nails = true, .clips = true }, .hot = PR_PART_TOE, .dot = 1, .text = 4
      };
      t0 = g_get_monotonic_time ();
      cr = cairo_create (surface);
      cairo_scale (cr, 5, 5);
      pr_draw_enter_foot (cr, job->sources.foot, PR_FACE_FOOT, 190, 100);
      pr_stage_draw (cr, job, &bent, &look);
      cairo_destroy (cr);
      stage_draw[i] = (double) (g_get_monotonic_time () - t0) / 1000;
      if (i < 60) {
        t0 = g_get_monotonic_time ();
        pr_fit (&plan, &job->hoof, NULL, NULL);
        fit[i] = (double) (g_get_monotonic_time () - t0) / 1000;
      }
    }
    cairo_surface_destroy (surface);
    printf ("%s\n", styles[k]);
    report ("  plan to shoe", build, ROUNDS);
    report ("  iron", iron, ROUNDS);
    report ("  checks", checks, ROUNDS);
    report ("  plan to shoe, iron and checks", all, ROUNDS);
    report ("  drawing at 1920 x 1080 (cairo, in memory)", draw, ROUNDS);
    report ("  fit", fit, 60);
    report ("  a stage between bar and shoe", stage, ROUNDS);
    report ("  drawing of it", stage_draw, ROUNDS);
    printf ("%-44s %.2f\n", "  stage over plan to shoe, medians", stage[ROUNDS / 2] / build[ROUNDS / 2]);
  }
  return 0;
}
