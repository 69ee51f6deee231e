/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A shoe laid on its plan from anywhere on the sheet, by the functions themselves. */
#include "kit.h"
#include "seen.h"

#include "pr-compare.h"
#include "pr-forged-page.h"
#include "pr-forged-sheaf.h"
#include "pr-forged-text.h"
#include "pr-check.h"
#include "pr-seen-json.h"
#include "pr-seen-read.h"
#include "pr-specimen.h"

static double
worst (const PrComparison *c)
{
  double most = 0;

  for (guint i = 0; i < c->offset->len; i++)
    most = fmax (most, fabs (g_array_index (c->offset, PrOffset, i).off));
  return most;
}

static void
any_turn_on_the_sheet_is_found (void **state)
{
  const KitFoot shape = { .half_width = 64, .toe = 66, .back = 110, .heel = 64, .bulge = 5 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  (void) state;

  for (int i = 0; i < 40; i++) {
    PrFoot foot = (PrFoot) (PR_FOOT_LF + i % 4);
    PrFace face = i / 4 % 2 ? PR_FACE_GROUND : PR_FACE_FOOT;
    g_autoptr (PrJob) job = kit_styled (&shape, foot, pr_foot_is_hind (foot) ? "plain-hind" : "plain-front");
    double angle = g_rand_double_range (rand, -G_PI, G_PI);
    g_auto (PrSeen) seen = { 0 };
    g_auto (PrComparison) c = { 0 };

    kit_seen (job, face, angle, g_rand_double_range (rand, -500, 500), g_rand_double_range (rand, -500, 500),
              NULL, &seen);
    assert_true (pr_compare (&c, job, &seen, PR_LAY_BEST, NULL));
    assert_false (c.mirrored);
    assert_true (worst (&c) < 0.1);
    /* turned back; as its mirror the other way round */
    NEAR (remainder (atan2 (c.turn_sin, c.turn_cos) - pr_lateral_sign (foot, face) * angle, 2 * G_PI), 0,
          0.002);
    PrPt toe = pr_comparison_in (&c, seen.outer.p[seen.outer.n / 2]);
    double off = pr_path_nearest (&job->shoe->outer, toe, NULL, NULL);
    NEAR (off, 0, 0.1);
  }
}

static PrPt
open_lateral (PrPt p)
{
  return p.x > 0 && p.y < 20 ? pr_pt (p.x + (20 - p.y) * 0.04, p.y) : p;
}

/* Where it lies on the sheet changes nothing of what is found. */
static void
what_is_found_does_not_depend_on_the_sheet (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_RF, "plain-front");
  g_auto (PrComparison) first = { 0 };
  (void) state;

  for (int i = 0; i < 12; i++) {
    g_auto (PrSeen) seen = { 0 };
    g_auto (PrComparison) c = { 0 };

    kit_seen (job, i % 2 ? PR_FACE_GROUND : PR_FACE_FOOT, i * 0.53, 100, 30 * i, open_lateral, &seen);
    assert_true (pr_compare (&c, job, &seen, PR_LAY_BEST, NULL));
    assert_true (c.correction->len > 0);
    if (i == 0) {
      first = c;
      c = (PrComparison){ 0 };
      continue;
    }
    assert_int_equal (c.offset->len, first.offset->len);
    for (guint k = 0; k < c.offset->len; k++)
      NEAR (g_array_index (c.offset, PrOffset, k).off, g_array_index (first.offset, PrOffset, k).off, 0.03);
  }
}

/* A stretch in doubt may lead over the edge's first point; a copy has all of it. */
static void
doubts_lead_over_the_beginning (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_RF, "plain-front");
  g_auto (PrSeen) seen = { 0 }, copy = { 0 };
  g_auto (PrComparison) c = { 0 };
  guint doubted = 0;
  (void) state;

  kit_seen (job, PR_FACE_GROUND, 1, 0, 0, NULL, &seen);
  pr_seen_add_doubt (&seen, PR_SEEN_OUTER, PR_SEEN_OPEN, 300, 40, g_strdup ("shadow"));
  pr_seen_copy (&copy, &seen);
  assert_true (pr_compare (&c, job, &copy, PR_LAY_BEST, NULL));
  for (guint i = 0; i < c.offset->len; i++)
    doubted += g_array_index (c.offset, PrOffset, i).doubted;
  assert_in_range (doubted, 30,
                   70); /* 40 mm at one end and some 30 at the other, every 1.5 mm, heel cuts aside */
}

static void
no_shoe_and_another_kind_are_refused (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) open = kit_styled (&shape, PR_FOOT_RF, "plain-front");
  g_autoptr (PrJob) closed = kit_styled (&shape, PR_FOOT_RF, "straight-bar");
  g_auto (PrSeen) seen = { 0 }, none = { .open = true };
  g_auto (PrComparison) c = { 0 };
  (void) state;

  kit_seen (open, PR_FACE_GROUND, 1, 0, 0, NULL, &seen);
  for (int i = 0; i < 2; i++) {
    g_autoptr (GError) error = NULL;

    assert_false (pr_compare (&c, i ? closed : open, i ? &seen : &none, PR_LAY_BEST, &error));
    assert_non_null (error);
    assert_null (c.offset);
  }
}

static void
same_ring (const PrSeenRing *a, const PrSeenRing *b)
{
  assert_int_equal (a->n, b->n);
  for (size_t i = 0; i < a->n; i++) {
    NEAR (a->p[i].x, b->p[i].x, 0.0005); /* as fine as it is written */
    NEAR (a->p[i].y, b->p[i].y, 0.0005);
  }
}

/* Reading is the inverse of writing. */
static void
a_shoe_is_read_as_it_was_written (void **state)
{
  const KitFoot shape = KIT_FOOT;
  (void) state;

  for (int bar = 0; bar < 2; bar++) {
    g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_RF, "plain-front");
    g_auto (PrSeen) seen = { 0 }, again = { 0 };
    g_autoptr (JsonBuilder) b = json_builder_new ();

    kit_seen (job, bar ? PR_FACE_FOOT : PR_FACE_GROUND, 1, 150, 140, NULL, &seen);
    if (bar) { /* its inner edge is that of an opening */
      seen.open = false;
      seen.n_opening = 1;
      seen.opening = g_memdup2 (&seen.inner, sizeof seen.inner);
      seen.inner = (PrSeenRing){ 0 };
    }
    for (int i = 0; i < 3; i++)
      pr_seen_add_nail (&seen, (PrSheetPt){ 90 + i * 10, 80 }, 0.25 * (i + 1));
    pr_seen_add_doubt (&seen, PR_SEEN_OUTER, PR_SEEN_OPEN, 12.5, 40, g_strdup ("rust on a dark ground"));
    seen.thickness_mm = 9.5;
    json_builder_begin_object (b);
    json_builder_set_member_name (b, "seen");
    json_builder_add_value (b, pr_seen_to_json (&seen));
    json_builder_end_object (b);
    g_autoptr (JsonNode) node = json_builder_get_root (b);
    assert_true (pr_seen_from_json (&again, node, NULL));
    assert_int_equal (again.face, seen.face);
    assert_int_equal (again.open, !bar);
    assert_int_equal (again.drawn, seen.drawn);
    NEAR (again.thickness_mm, 9.5, 1e-9);
    same_ring (&again.outer, &seen.outer);
    same_ring (&again.inner, &seen.inner);
    assert_int_equal (again.n_opening, seen.n_opening);
    for (size_t i = 0; i < seen.n_opening; i++)
      same_ring (&again.opening[i], &seen.opening[i]);
    assert_int_equal (again.n_nail, seen.n_nail);
    for (size_t i = 0; i < seen.n_nail; i++)
      NEAR (again.nail[i].round, seen.nail[i].round, 0.0005);
    assert_int_equal (again.n_doubt, 1);
    NEAR (again.doubt[0].from_mm, 12.5, 1e-9);
    assert_string_equal (again.doubt[0].why, "rust on a dark ground");
  }
}

/* Whichever face is up, a place of the shoe lies in the photo where it lay before the sheet was turned over: plan and picture
 * are of one frame. */
static void
the_sheet_goes_with_the_specimen (void **state)
{
  const KitFoot shape = KIT_FOOT;
  const PrSheetPt sheet[4] = { { 0, 0 }, { 210, 0 }, { 210, 297 }, { 0, 297 } };
  const PrPx px[4] = { { 310, 420 }, { 2510, 380 }, { 2790, 3650 }, { 150, 3700 } };
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  (void) state;

  for (int i = 0; i < 4; i++) {
    PrFoot foot = i % 2 ? PR_FOOT_RF : PR_FOOT_LF;
    g_autoptr (PrJob) planned = kit_styled (&shape, foot, "plain-front");
    g_autoptr (PrJob) made = pr_job_new ();
    g_autoptr (PrTracing) photo = pr_tracing_new ();
    g_auto (PrSeen) seen = { 0 };
    double worst_off = 0;

    kit_seen (planned, i < 2 ? PR_FACE_GROUND : PR_FACE_FOOT, 0.1 * i, 105, 140, NULL, &seen);
    photo->width_px = 3000;
    photo->height_px = 4000;
    photo->scale.width_mm = 210;
    photo->scale.height_mm = 297;
    assert_true (pr_camera_fit (&photo->camera, 3000, 4000, sheet, px, 4, false, NULL));
    made->sources.foot = foot;
    assert_true (pr_specimen_plan (made, &seen, photo, pr_styles_find (styles, "plain-front"), NULL, NULL));
    const PrTracing *own = made->sources.tracing;
    for (size_t k = 0; k < own->n_outline; k++) {
      PrPx at = pr_camera_to_photo (&own->camera, own->outline[k]);
      PrSheetPt before = pr_camera_to_sheet (&photo->camera, at);
      double nearest = INFINITY;

      for (size_t n = 0; n < seen.outer.n; n++)
        nearest = fmin (nearest, hypot (seen.outer.p[n].x - before.x, seen.outer.p[n].y - before.y));
      worst_off = fmax (worst_off, nearest);
    }
    assert_true (own->n_outline > 50);
    assert_true (worst_off < 0.5); /* half of the step between the points of the edge, and its smoothing */
  }
}

/* What a printer gets are the pages that compare.pdf has, of what stood when it was asked for. */
static void
the_sheaf_has_the_pages (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "plain-front");
  g_auto (PrSeen) seen = { 0 };
  g_auto (PrComparison) c = { 0 };
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  double width, height, wide, high;
  (void) state;

  kit_seen (job, PR_FACE_GROUND, 0.2, 90, 120, open_lateral, &seen);
  assert_true (pr_compare (&c, job, &seen, PR_LAY_HEELS, NULL));
  g_autoptr (PrSheaf) sheaf = pr_forged_sheaf_new (job, &seen, PR_LAY_HEELS, NULL);
  assert_int_equal (pr_sheaf_count (sheaf), 0);
  assert_false (pr_sheaf_is_shoe (sheaf));
  for (PrPaper paper = PR_PAPER_A4; paper <= PR_PAPER_A3; paper++) {
    options.paper = paper;
    assert_true (pr_sheaf_lay (sheaf, &options, NULL));
    g_autoptr (PrForgedPages) pages = pr_forged_pages_new (job, &c, &options);
    assert_int_equal (pr_sheaf_count (sheaf), pr_forged_pages_count (pages));
    pr_forged_pages_size (pages, &width, &height);
    pr_sheaf_page_size (sheaf, 0, &wide, &high);
    NEAR (wide, width, 0);
    NEAR (high, height, 0);
  }
  assert_string_equal (pr_sheaf_page_name (sheaf, 0), "forged shoe on its plan");
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (surface);
  double x, y, w, h;
  pr_sheaf_draw (sheaf, 0, cr);
  cairo_recording_surface_ink_extents (surface, &x, &y, &w, &h);
  assert_true (w > 120 && h > 120 && x >= 0 && x + w <= wide && y + h <= high);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

/* A sheet that was printed for another foot is told, no sheet for none; a doubt is told with its place; a web that ends in one
 * is no web. */
static void
what_is_not_sure_is_told (void **state)
{
  const KitFoot shape = KIT_FOOT;
  g_autoptr (PrJob) job = kit_styled (&shape, PR_FOOT_LF, "plain-front");
  g_auto (PrSeen) seen = { 0 };
  (void) state;

  kit_seen (job, PR_FACE_GROUND, 0.2, 90, 120, NULL, &seen);
  for (PrFoot foot = PR_FOOT_ANY; foot <= PR_FOOT_RH; foot++) {
    g_auto (PrComparison) c = { 0 };

    seen.sheet_foot = foot;
    seen.thickness_mm = 10;
    assert_true (pr_compare (&c, job, &seen, PR_LAY_BEST, NULL));
    g_autofree char *caution = pr_forged_caution (&c, PR_UNIT_MM);
    g_autofree char *doubts = pr_forged_doubts (&c, &seen, PR_UNIT_MM);
    assert_int_equal (caution != NULL, foot != PR_FOOT_ANY && foot != PR_FOOT_LF);
    assert_true (caution == NULL || strstr (caution, pr_foot_name (foot)) != NULL);
    assert_null (doubts);
    assert_true (isfinite (c.size.web[PR_WEB_HEEL_M].seen) && isfinite (c.size.web[PR_WEB_HEEL_L].seen));
  }
  for (int end = 0; end < 2; end++) { /* the first and the last 30 mm of the outer edge, a heel each */
    g_auto (PrSeen) unsure = { 0 };
    g_auto (PrComparison) c = { 0 };
    double length = 0;

    pr_seen_copy (&unsure, &seen);
    for (size_t i = 1; i < seen.outer.n; i++)
      length += hypot (seen.outer.p[i].x - seen.outer.p[i - 1].x, seen.outer.p[i].y - seen.outer.p[i - 1].y);
    pr_seen_add_doubt (&unsure, PR_SEEN_OUTER, PR_SEEN_OPEN, end ? length - 30 : 0, end ? length : 30,
                       g_strdup ("a shadow"));
    assert_true (pr_compare (&c, job, &unsure, PR_LAY_BEST, NULL));
    g_autofree char *doubts = pr_forged_doubts (&c, &unsure, PR_UNIT_MM);
    int branch
        = pr_comparison_in (&c, unsure.outer.p[end ? seen.outer.n - 1 : 0]).x < 0 ? PR_MEDIAL : PR_LATERAL;
    g_autofree char *begins = g_strdup_printf ("outer edge, %s, ", pr_side_word (branch));
    assert_true (g_str_has_prefix (doubts, begins));
    assert_true (g_str_has_suffix (doubts, " mm from the toe: a shadow"));
    NEAR (g_ascii_strtod (doubts + strlen (begins), NULL), c.size.along_edge[branch].plan - 15, 4);
    assert_true (isnan (c.size.web[branch == PR_MEDIAL ? PR_WEB_HEEL_M : PR_WEB_HEEL_L].seen));
    assert_true (isfinite (c.size.web[branch == PR_MEDIAL ? PR_WEB_HEEL_L : PR_WEB_HEEL_M].seen));
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (any_turn_on_the_sheet_is_found),
    cmocka_unit_test (what_is_found_does_not_depend_on_the_sheet),
    cmocka_unit_test (doubts_lead_over_the_beginning),
    cmocka_unit_test (no_shoe_and_another_kind_are_refused),
    cmocka_unit_test (a_shoe_is_read_as_it_was_written),
    cmocka_unit_test (the_sheaf_has_the_pages),
    cmocka_unit_test (what_is_not_sure_is_told),
    cmocka_unit_test (the_sheet_goes_with_the_specimen),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
