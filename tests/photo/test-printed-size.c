/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sheet that its printer drew too small, found out by the cut edges of its paper. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "photo-kit.h"

/* How far a share may be from the true one, and the line from the true line (mean, mm). */
#define SHARE_WITHIN 0.001
#define LINE_WITHIN 0.15

static void
scene_of (SceneOptions *o, guint32 seed, double x, double y)
{
  static const PrPaper papers[] = { PR_PAPER_A4, PR_PAPER_LETTER, PR_PAPER_A3, PR_PAPER_TABLOID };

  scene_of_width (o, seed, seed % 4 < 2 ? 1500 : 2100);
  o->paper = papers[seed % G_N_ELEMENTS (papers)];
  o->bench = (SceneBench) (seed / 2 % 4);
  o->tilt_deg = 7 * (seed % 6);
  o->tilt_dir_deg = 67.0 * seed;
  o->turn_deg = 3.0 * (seed % 5) - 6;
  o->k1 = 0.02 * (seed % 4) - 0.03;
  o->shadow = seed % 2;
  o->dirt = seed % 3 == 0;
  o->print_x = x;
  o->print_y = y;
  o->print_off[0] = 1.0 - seed % 3;
  o->print_off[1] = seed % 2 - 0.5;
}

static PrTracing *
traced (const Scene *scene, PrTrust trust, const char *what)
{
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  g_autoptr (PrPhoto) photo = photo_taken (scene);

  options.trust = trust;
  return photo_traced (photo, &options, what);
}

static void
test_told (void **state)
{
  static const double prints[][2]
      = { { 0.94, 0.94 }, { 0.97, 0.97 }, { 0.98, 0.98 }, { 0.99, 0.99 }, { 0.97, 1 }, { 1.02, 1.02 } };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (prints); i++) {
    SceneOptions o;
    scene_of (&o, (guint32) (2 * i + 1), prints[i][0], prints[i][1]);
    g_autoptr (Scene) scene = scene_render (&o);
    g_autoptr (PrTracing) t = traced (scene, PR_TRUST_ASK, "print");
    g_autofree char *percent = g_strdup_printf ("printed at %.0f %%", 100 * prints[i][0]);
    print_message ("%s %g x %g: %.4f %.4f %s\n", pr_paper_name (o.paper), prints[i][0], prints[i][1],
                   t->scale.printed[0], t->scale.printed[1], t->scale.why);
    for (int k = 0; k < 2; k++)
      assert_true (fabs (t->scale.printed[k] - prints[i][k]) < SHARE_WITHIN);
    assert_int_equal (t->scale.verdict, PR_VERDICT_USABLE);
    assert_int_equal (t->scale.question, PR_QUESTION_TRUST);
    assert_int_equal (t->scale.trust, PR_TRUST_ASK);
    assert_non_null (strstr (t->scale.why, percent));
  }
}

static void
test_true_is_not_doubted (void **state)
{
  (void) state;
  for (guint32 seed = 1; seed < 9; seed++) {
    SceneOptions o;
    scene_of (&o, seed, 1, 1);
    g_autoptr (Scene) scene = scene_render (&o);
    g_autoptr (PrTracing) t = traced (scene, PR_TRUST_ASK, "true");
    assert_int_equal (t->scale.question, PR_QUESTION_NONE);
    assert_true (fabs (t->scale.printed[0] - 1) < SHARE_WITHIN
                 && fabs (t->scale.printed[1] - 1) < SHARE_WITHIN);
  }
}

/* Paper cut half a millimetre too large both ways is no wrong print. */
static void
test_cut_within_reason (void **state)
{
  (void) state;
  for (int k = -1; k <= 1; k += 2) {
    SceneOptions o;
    scene_of (&o, 4, 1, 1);
    pr_paper_size (o.paper, &o.leaf_mm[0], &o.leaf_mm[1]);
    o.leaf_mm[0] += 0.5 * k;
    o.leaf_mm[1] += 0.5 * k;
    g_autoptr (Scene) scene = scene_render (&o);
    g_autoptr (PrTracing) t = traced (scene, PR_TRUST_ASK, "cut");
    assert_int_equal (t->scale.question, PR_QUESTION_NONE);
  }
}

/* The paper taken as true puts the line where it was drawn; the print as true leaves it off by what it is off. Either
 * leaves no doubt, and says what was chosen. */
static void
test_answers (void **state)
{
  (void) state;
  for (guint32 seed = 2; seed < 6; seed++) {
    SceneOptions o;
    Measure m[3];
    scene_of (&o, seed, 0.97, seed % 2 ? 0.97 : 1);
    g_autoptr (Scene) scene = scene_render (&o);
    for (PrTrust trust = PR_TRUST_ASK; trust <= PR_TRUST_PRINT; trust++) {
      g_autoptr (PrTracing) t = traced (scene, trust, "answer");
      measure_tracing (&m[trust], t, scene, o.paper);
      print_measure (pr_trust_code (trust), &m[trust], t);
      assert_int_equal (t->scale.trust, trust);
      assert_int_equal (t->scale.question, PR_QUESTION_TRUST);
      if (trust != PR_TRUST_ASK) {
        bool said = false;
        for (size_t i = 0; i < t->scale.n_reasons; i++)
          said |= strstr (t->scale.reason[i].text, "as you chose") != NULL;
        assert_true (said);
      }
    }
    assert_true (m[PR_TRUST_PAPER].line_mean < LINE_WITHIN);
    assert_true (m[PR_TRUST_PRINT].line_mean > 3 * LINE_WITHIN);
    assert_true (fabs (m[PR_TRUST_ASK].line_mean - m[PR_TRUST_PRINT].line_mean) < 1e-9);
  }
}

/* The form is printed elsewhere on the paper and smaller; the empty middle lies where that puts it. */
static void
test_field_follows_the_paper (void **state)
{
  PrScale scale = { .paper = PR_PAPER_A4, .moved = { -3, 2 }, .by = { 0.97, 0.98 } };
  PrSheetPt low, high, was_low, was_high;

  (void) state;
  pr_sheet_field (PR_PAPER_A4, &was_low, &was_high);
  pr_scale_field (&scale, &low, &high);
  assert_true (fabs (low.x - (was_low.x + 3) * 0.97) < 1e-9 && fabs (low.y - (was_low.y - 2) * 0.98) < 1e-9);
  assert_true (fabs (high.x - (was_high.x + 3) * 0.97) < 1e-9
               && fabs (high.y - (was_high.y - 2) * 0.98) < 1e-9);
  scale.by[0] = scale.by[1] = 0;
  pr_scale_field (&scale, &low, &high);
  assert_true (low.x == was_low.x && high.y == was_high.y);
}

/* PHOTO without so many of its columns at the left. */
static PrPhoto *
cropped (const PrPhoto *photo, int columns)
{
  PrPhoto *copy = photo_copy (photo);

  for (int y = 0; y < copy->height; y++)
    memmove (copy->rgb + (size_t) y * (size_t) (copy->width - columns) * 3,
             photo->rgb + (size_t) y * photo->stride + 3 * (size_t) columns,
             3 * (size_t) (copy->width - columns));
  copy->width -= columns;
  copy->stride = 3 * (size_t) copy->width;
  return copy;
}

/* Three edges in the picture: the two across from each other tell it for their way; where they are true and the third
 * is far from its place, that is told. */
static void
test_three_edges (void **state)
{
  static const double prints[][2] = { { 0.97, 0.97 }, { 0.99, 0.99 }, { 0.94, 1 }, { 0.97, 1 }, { 1, 1 } };
  const PrTraceOptions usual = PR_TRACE_OPTIONS_DEFAULT;

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (prints); i++) {
    SceneOptions o;
    scene_of (&o, 4, prints[i][0], prints[i][1]);
    o.turn_deg = 0;
    o.tilt_deg = 5;
    o.width = 2100;
    o.height = 2800;
    o.k1 = 0; /* the lens looks at the middle of the whole photo */
    o.print_off[0] = 0;
    g_autoptr (Scene) scene = scene_render (&o);
    g_autoptr (PrPhoto) whole = photo_taken (scene);
    PrPx a = pr_camera_to_photo (&scene->camera, (PrSheetPt){ 3, 0 });
    PrPx b = pr_camera_to_photo (&scene->camera, (PrSheetPt){ 3, 297 });
    g_autoptr (PrPhoto) photo = cropped (whole, (int) fmax (a.x, b.x));
    g_autoptr (PrTracing) t = photo_traced (photo, &usual, "three edges");
    print_message ("%g x %g, three edges: %.4f %.4f %s\n", prints[i][0], prints[i][1], t->scale.printed[0],
                   t->scale.printed[1], t->scale.why);
    bool wrong = prints[i][0] < 1 || prints[i][1] < 1;
    assert_int_equal (t->scale.verdict, wrong ? PR_VERDICT_USABLE : PR_VERDICT_GOOD);
    assert_true (t->scale.printed[0] == 0);
    assert_true (fabs (t->scale.printed[1] - prints[i][1]) < 2 * SHARE_WITHIN);
    assert_int_equal (t->scale.question, prints[i][1] < 1 ? PR_QUESTION_TRUST : PR_QUESTION_NONE);
  }
}

/* An A4 form that came out on Letter paper, made to fit: the paper is told by its shape. */
static void
test_other_paper (void **state)
{
  SceneOptions o;

  (void) state;
  scene_of (&o, 4, 0.92, 0.92);
  pr_paper_size (PR_PAPER_LETTER, &o.leaf_mm[0], &o.leaf_mm[1]);
  g_autoptr (Scene) scene = scene_render (&o);
  g_autoptr (PrTracing) t = traced (scene, PR_TRUST_ASK, "other paper");
  print_message ("%s\n", t->scale.why);
  assert_int_equal (t->scale.question, PR_QUESTION_TRUST);
  assert_non_null (strstr (t->scale.why, "lies on Letter paper and was printed at 92 %"));
  g_autoptr (PrTracing) trusted = traced (scene, PR_TRUST_PAPER, "other paper");
  assert_true (fabs (trusted->scale.width_mm - 215.9) < 1e-9
               && fabs (trusted->scale.height_mm - 279.4) < 1e-9);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_told),        cmocka_unit_test (test_true_is_not_doubted),
    cmocka_unit_test (test_answers),     cmocka_unit_test (test_field_follows_the_paper),
    cmocka_unit_test (test_three_edges), cmocka_unit_test (test_cut_within_reason),
    cmocka_unit_test (test_other_paper),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
