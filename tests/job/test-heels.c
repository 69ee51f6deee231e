/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heels of a line drawn closed that nothing told, set by hand: the line ends there, the doubts and the verdict that
 * rested on them go, and all of it is kept, and undone. */
#include <string.h>

#include "kit.h"
#include "pr-marks.h"
#include "pr-path.h"
#include "pr-sources-set.h"
#include "pr-tracing-heels.h"

#define RANGE 20.0
#define OFFSET 12.0 /* a heel is set so far beyond, mm along the line */

static const KitFoot regular = KIT_FOOT;

/* A foot whose ends are joined by half a circle, and its heels in doubt. */
static PrJob *
closed_job (void)
{
  PrJob *job = kit_job (&regular, PR_FOOT_LF);
  PrTracing *t = job->sources.tracing;
  PrSheetPt a = t->outline[t->n_outline - 1], b = t->outline[0];
  PrPt middle = pr_pt ((a.x + b.x) / 2, (a.y + b.y) / 2), from = pr_pt_sub (pr_pt (a.x, a.y), middle);
  double sense
      = pr_pt_cross (from, pr_pt_sub (pr_pt (t->outline[t->n_outline / 2].x, t->outline[t->n_outline / 2].y),
                                      middle))
                > 0
            ? -1
            : 1;
  double length = 0;

  for (size_t i = 1; i < t->n_outline; i++)
    length += hypot (t->outline[i].x - t->outline[i - 1].x, t->outline[i].y - t->outline[i - 1].y);
  t->n_rest = 181;
  t->rest = g_new (PrSheetPt, t->n_rest);
  for (int i = 0; i <= 180; i++) {
    double turn = sense * i * G_PI / 180;
    t->rest[i] = (PrSheetPt){ middle.x + from.x * cos (turn) - from.y * sin (turn),
                              middle.y + from.x * sin (turn) + from.y * cos (turn) };
  }
  t->rest[180] = b;
  t->closed = true;
  t->heel_range[0] = t->heel_range[1] = RANGE;
  t->n_doubt = 3;
  t->doubt = g_new0 (PrDoubt, 3);
  t->doubt[0] = (PrDoubt){ 100, 110, g_strdup ("faint"), false };
  t->doubt[1] = (PrDoubt){ 0, RANGE, g_strdup ("heel"), true };
  t->doubt[2] = (PrDoubt){ length - RANGE, length, g_strdup ("heel"), true };
  pr_tracing_ask_heels (t);
  return job;
}

static double
length_of (const PrSheetPt *p, size_t n)
{
  double length = 0;

  for (size_t i = 1; i < n; i++)
    length += hypot (p[i].x - p[i - 1].x, p[i].y - p[i - 1].y);
  return length;
}

/* The point of the ring BY mm beyond the outline's end E, back along it when negative. */
static PrSheetPt
beyond (const PrTracing *t, int e, double by)
{
  g_auto (PrPath) path = { 0 };
  const PrSheetPt *p = by > 0 ? t->rest : t->outline;
  size_t n = by > 0 ? t->n_rest : t->n_outline;
  bool from_start = (e == 1) == (by > 0);

  for (size_t i = 0; i < n; i++)
    pr_path_add (&path, pr_pt (p[i].x, p[i].y));
  double length = pr_path_length (&path);
  PrPt at = pr_path_at (&path, from_start ? fabs (by) : length - fabs (by), NULL);
  return (PrSheetPt){ at.x, at.y };
}

static void
ends_where_it_is_set (void **state)
{
  static const double by[] = { OFFSET, -OFFSET };

  (void) state;
  for (int e = 0; e < 2; e++)
    for (int k = 0; k < 2; k++) {
      g_autoptr (PrJob) job = closed_job ();
      PrTracing *t = job->sources.tracing;
      double outline = length_of (t->outline, t->n_outline), rest = length_of (t->rest, t->n_rest);
      PrSheetPt at = beyond (t, e, by[k]);

      assert_true (pr_tracing_set_heel (t, at));
      PrSheetPt end = t->outline[e == 0 ? 0 : t->n_outline - 1];
      NEAR (hypot (end.x - at.x, end.y - at.y), 0, 0.01);
      NEAR (length_of (t->outline, t->n_outline), outline + by[k], 0.05);
      NEAR (length_of (t->rest, t->n_rest), rest - by[k], 0.05);
      NEAR (t->heel_range[e], 0, 0);
      NEAR (t->heel_range[1 - e], RANGE, 0);
      /* the other heel's doubt and the faint stretch lie where they lay, the reason stays while one heel waits */
      assert_int_equal (t->n_doubt, 2);
      NEAR (t->doubt[0].from_mm, 100 + (e == 0 ? by[k] : 0), 0.01);
      assert_int_equal (t->scale.verdict, PR_VERDICT_USABLE);
      g_autoptr (PrTracing) before = pr_tracing_copy (t);
      assert_true (pr_tracing_set_heel (t, at));
      assert_true (pr_tracing_equal (before, t));
    }
}

/* The marks wait, a click near the range finds its own, and by name both are set; then nothing waits and the foot is good. */
static void
marks_are_put (void **state)
{
  g_autoptr (PrJob) job = closed_job ();
  PrTracing *t = job->sources.tracing;
  PrSheetPt at[2] = { beyond (t, 0, OFFSET), beyond (t, 1, OFFSET) };
  bool known;
  PrPt on;

  (void) state;
  for (int e = 0; e < 2; e++) {
    PrPt p = pr_foot_frame_in (&job->hoof.frame, at[e]);
    PrLandmark mark = p.x < 0 ? PR_MARK_BUTTRESS_MEDIAL : PR_MARK_BUTTRESS_LATERAL;

    pr_mark_at (job, mark, &known);
    assert_true (pr_mark_waits (job, mark) && !known);
    assert_int_equal (pr_mark_waiting_at (job, pr_pt_add (p, pr_pt (1, 0)), 2, &on), mark);
    NEAR (pr_pt_dist (on, p), 0, 1.1);
    assert_int_equal (pr_mark_waiting_at (job, job->hoof.toe, 2, &on), -1);
    pr_mark_set (&job->sources.marks, mark, at[e]);
    assert_true (pr_job_refresh_hoof (job, NULL));
    assert_false (pr_mark_waits (job, mark));
    NEAR (pr_pt_dist (pr_foot_frame_in (&job->hoof.frame, at[e]), pr_mark_at (job, mark, &known)), 0, 0.05);
    assert_true (known);
  }
  assert_int_equal (t->n_doubt, 1);
  assert_int_equal (t->scale.verdict, PR_VERDICT_GOOD);
  assert_null (strstr (t->scale.why, "heels"));
}

static int
found (const PrJob *job, PrGroup group, const char *id)
{
  int n = 0;

  for (guint i = 0; i < job->findings->len; i++) {
    const PrFinding *finding = job->findings->pdata[i];
    n += id ? strcmp (finding->id, id) == 0 : finding->group == group;
  }
  return n;
}

/* A guess is asked for and not told to be wrong; once both are set they are held against their limits. */
static void
guessed_heels_are_not_judged (void **state)
{
  g_autoptr (PrJob) job = closed_job ();
  PrTracing *t = job->sources.tracing;
  PrSheetPt at[2] = { beyond (t, 0, OFFSET), beyond (t, 1, OFFSET) };

  (void) state;
  t->width_px = t->height_px = 1000; /* as from a photo */
  t->scale.method = PR_SCALE_PLAIN;
  t->scale.px_per_mm = t->raster = 8;
  assert_true (pr_job_refresh_hoof (job, NULL) && pr_job_fit (job, NULL));
  assert_int_equal (found (job, PR_GROUP_HEELS, "heels.unset"), 1);
  assert_int_equal (found (job, PR_GROUP_HEELS, NULL), 1);
  for (int e = 0; e < 2; e++) {
    PrPt p = pr_foot_frame_in (&job->hoof.frame, at[e]);
    pr_mark_set (&job->sources.marks, p.x < 0 ? PR_MARK_BUTTRESS_MEDIAL : PR_MARK_BUTTRESS_LATERAL, at[e]);
    assert_true (pr_job_refresh_hoof (job, NULL));
  }
  assert_int_equal (found (job, PR_GROUP_HEELS, "heels.unset"), 0);
  assert_true (found (job, PR_GROUP_HEELS, NULL) > 3);
}

/* To JSON and back: what waits, and what was set. */
static void
kept_in_json (void **state)
{
  g_autoptr (PrJob) job = closed_job (), again = pr_job_new (), set = pr_job_new ();
  PrTracing *t = job->sources.tracing;

  (void) state;
  t->width_px = t->height_px = 1000; /* as from a photo */
  t->scale.method = PR_SCALE_PLAIN;
  t->scale.px_per_mm = t->raster = 8;
  t->scale.width_mm = t->scale.height_mm = 250;
  t->camera = (PrCamera){ .h = { 8, 0, 0, 0, 8, 0, 0, 0, 1 }, .radius = 700 };
  g_autoptr (JsonNode) node = pr_job_trace_json (job);
  assert_true (pr_job_take_trace_json (again, node, NULL));
  PrTracing *r = again->sources.tracing;
  assert_int_equal (r->n_rest, t->n_rest);
  NEAR (r->heel_range[0], RANGE, 0);
  NEAR (r->heel_range[1], RANGE, 0);
  assert_true (r->doubt[1].heel && !r->doubt[0].heel && r->scale.reason[0].about == PR_ABOUT_HEELS);
  assert_true (memcmp (r->rest, t->rest, t->n_rest * sizeof *t->rest) == 0);
  pr_mark_set (&again->sources.marks, PR_MARK_BUTTRESS_MEDIAL, beyond (r, 0, OFFSET));
  assert_true (pr_job_refresh_hoof (again, NULL));
  g_autoptr (JsonNode) after = pr_job_trace_json (again);
  assert_true (pr_job_take_trace_json (set, after, NULL));
  assert_int_equal (pr_sources_differ (&again->sources, &set->sources), 0);
}

/* A step back is the sources as they were. */
static void
undone_with_the_sources (void **state)
{
  g_autoptr (PrJob) job = closed_job ();
  g_autoptr (PrSources) before = pr_sources_dup (&job->sources);
  PrSheetPt at = beyond (job->sources.tracing, 1, OFFSET);
  double width = job->hoof.heel_width;

  (void) state;
  pr_mark_set (&job->sources.marks,
               pr_foot_frame_in (&job->hoof.frame, at).x < 0 ? PR_MARK_BUTTRESS_MEDIAL
                                                             : PR_MARK_BUTTRESS_LATERAL,
               at);
  assert_true (pr_job_refresh_hoof (job, NULL));
  assert_true (fabs (job->hoof.heel_width - width) > 0.5);
  assert_true (pr_job_take_sources (job, before, NULL));
  NEAR (job->hoof.heel_width, width, 1e-9);
  assert_int_equal (pr_sources_differ (before, &job->sources), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (ends_where_it_is_set),    cmocka_unit_test (guessed_heels_are_not_judged),
    cmocka_unit_test (marks_are_put),           cmocka_unit_test (kept_in_json),
    cmocka_unit_test (undone_with_the_sources),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
