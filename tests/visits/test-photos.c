/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One foot photographed on two visits, grown in between: what photo, tracing and laying come to together, against the same
 * change between the lines and frogs as they were drawn in truth. */
#include "photo-kit.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "pr-visit-change.h"

#define TOLD_MM 0.3
#define PAIRS 4
#define WIDTH_PX 2400

/* A job of N points of a line and of its marks, all on the sheet. Transfer full. */
static PrJob *
job_of (PrFoot foot, const PrSheetPt *line, size_t n, const PrLandmarks *marks)
{
  g_autoptr (GError) error = NULL;
  PrJob *job = pr_job_new ();

  job->sources.foot = foot;
  if (!pr_job_take_outline (job, line, n, false, &error))
    fail_msg ("%s", error->message);
  job->sources.marks = *marks;
  if (!pr_job_refresh_hoof (job, &error))
    fail_msg ("%s", error->message);
  return job;
}

/* As it was drawn. */
static PrJob *
true_job (const Scene *scene, PrFoot foot)
{
  const PrLandmarks marks = { .has_frog_apex = true,
                              .has_frog = { true, true },
                              .frog_apex = scene->frog[1],
                              .frog = { scene->frog[0], scene->frog[2] } };

  return job_of (foot, scene->line, scene->n_line, &marks);
}

/* As it was found. */
static PrJob *
found_job (const Scene *scene, PrFoot foot)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (PrPhoto) photo = photo_taken (scene);
  PrTracing *tracing = photo_traced (photo, NULL, "a visit");
  PrJob *job = pr_job_new ();

  job->sources.foot = foot;
  if (!pr_job_take_tracing (job, tracing, &error))
    fail_msg ("%s", error->message);
  return job;
}

/* FOOT on both visits, with the same camera's faults and another hand's tremor. */
static void
scenes_of (guint32 nr, Scene *scene[2], PrFoot foot)
{
  for (int visit = 0; visit < 2; visit++) {
    SceneOptions o;

    scene_of_width (&o, 300 + 2 * nr + (guint32) visit, WIDTH_PX);
    o.frog = o.ticks = true;
    o.foot = foot;
    o.hoof_width = 122 + 6 * nr + (visit ? 2.5 : 0);
    o.hoof_length = 126 + 6 * nr + (visit ? 4 : 0);
    o.tilt_dir_deg = 80 + 70 * visit;
    o.drawn_deg = visit ? 4 : -3;
    scene[visit] = scene_render (&o);
  }
}

static void
held_against_truth (PrVisitLay lay, double within)
{
  double worst = 0;

  for (guint32 nr = 0; nr < PAIRS; nr++) {
    PrFoot foot = (PrFoot) (PR_FOOT_LF + nr % 4);
    Scene *scene[2];

    scenes_of (nr, scene, foot);
    g_autoptr (PrJob) true_before = true_job (scene[0], foot), true_now = true_job (scene[1], foot);
    g_autoptr (PrJob) before = found_job (scene[0], foot), now = found_job (scene[1], foot);
    g_auto (PrVisitChange) want = { 0 }, got = { 0 };
    assert_true (pr_visit_change (&want, true_now, true_before, lay, NULL));
    assert_true (pr_visit_change (&got, now, before, lay, NULL));
    for (PrVisitPlace place = 0; place < PR_N_VISIT_PLACES; place++) {
      double off = got.place[place].mm - want.place[place].mm;

      print_message ("pair %u, way %d, place %d: %+.2f mm, in truth %+.2f\n", nr, lay, place,
                     got.place[place].mm, want.place[place].mm);
      worst = fmax (worst, fabs (off));
    }
    scene_free (scene[0]);
    scene_free (scene[1]);
  }
  print_message ("way %d: %.2f mm off at worst\n", lay, worst);
  assert_true (worst < within);
}

static void
by_the_drawn_frog (void **state)
{
  (void) state;
  held_against_truth (PR_VISIT_FROG, TOLD_MM);
}

static void
by_best_fit (void **state)
{
  (void) state;
  held_against_truth (PR_VISIT_BEST, TOLD_MM);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (by_the_drawn_frog),
    cmocka_unit_test (by_best_fit),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
