/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Feet of many shapes: heels are where joints or ticks tell them, else a range that holds them; what is hidden is
 * bridged, named and in doubt; short feet are whole, and parts are told to be parts. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>
#include "heel-scenes.h"
#include "photo-kit.h"

#define WIDTH 1800
/* A heel that is called good is this near, one further off than the second is doubted as far as it is off, mm. */
#define GOOD_MOST 3.0
#define UNDOUBTED_MOST 5.0
/* The end of an outline, and what a doubt may lack of the error, mm. */
#define AT_END 0.5

static PrTracing *
traced (HeelsKind kind, guint32 seed, SceneOptions *o, Measure *m)
{
  g_autofree char *what = g_strdup_printf ("%s %u", heels_names[kind], seed);

  heels_scene (kind, seed, WIDTH, o);
  return scene_traced (o, what, m);
}

static double
doubt_at (const PrTracing *t, bool last)
{
  double length = 0, most = 0;

  for (size_t i = 1; i < t->n_outline; i++)
    length += hypot (t->outline[i].x - t->outline[i - 1].x, t->outline[i].y - t->outline[i - 1].y);
  for (size_t i = 0; i < t->n_doubt; i++)
    if (last ? t->doubt[i].to_mm > length - AT_END : t->doubt[i].from_mm < AT_END)
      most = fmax (most, t->doubt[i].to_mm - t->doubt[i].from_mm);
  return most;
}

static const PrReason *
reason_with (const PrTracing *t, const char *word)
{
  for (size_t i = 0; i < t->scale.n_reasons; i++)
    if (strstr (t->scale.reason[i].text, word) != NULL)
      return &t->scale.reason[i];
  return NULL;
}

static void
check_heels (const PrTracing *t, const Measure *m)
{
  for (int side = 0; side < 2; side++)
    if (m->heel[side] > UNDOUBTED_MOST && m->heel[side] > doubt_at (t, (side == 1) != m->swapped) + AT_END)
      fail_msg ("a heel %.1f mm off, and no doubt as long", m->heel[side]);
  if (t->scale.verdict == PR_VERDICT_GOOD && fmax (m->heel[0], m->heel[1]) > GOOD_MOST)
    fail_msg ("good, with heels %.1f and %.1f mm off", m->heel[0], m->heel[1]);
}

/* What is no heel's doubt ends where the other part of the ring goes on. */
static void
check_ring (const PrTracing *t)
{
  assert_true (t->closed && t->n_rest > 2);
  assert_true (
      hypot (t->rest[0].x - t->outline[t->n_outline - 1].x, t->rest[0].y - t->outline[t->n_outline - 1].y)
      < 0.01);
  assert_true (hypot (t->rest[t->n_rest - 1].x - t->outline[0].x, t->rest[t->n_rest - 1].y - t->outline[0].y)
               < 0.01);
}

static void
test_closed (void **state)
{
  static const HeelsKind kinds[] = { HEELS_CORNER, HEELS_STEPPED, HEELS_CLEFT, HEELS_FAINT };
  int good = 0, all = 0;

  (void) state;
  for (size_t k = 0; k < G_N_ELEMENTS (kinds); k++)
    for (guint32 seed = 31; seed < 34; seed++, all++) {
      SceneOptions o;
      Measure m;
      g_autoptr (PrTracing) t = traced (kinds[k], seed, &o, &m);
      check_heels (t, &m);
      if (t->closed)
        check_ring (t);
      good += t->scale.verdict == PR_VERDICT_GOOD;
    }
  print_message ("%d of %d good\n", good, all);
  assert_true (good >= all / 2);
}

/* No shape tells them: asked for, with a place, and both in a range that holds them. */
static void
test_smooth (void **state)
{
  (void) state;
  for (guint32 seed = 31; seed < 36; seed++) {
    SceneOptions o;
    Measure m;
    g_autoptr (PrTracing) t = traced (HEELS_SMOOTH, seed, &o, &m);
    const PrReason *reason = reason_with (t, "set the heels on the board");

    check_heels (t, &m);
    check_ring (t);
    assert_true (t->scale.verdict != PR_VERDICT_GOOD);
    assert_non_null (reason);
    assert_true (reason->has_at && reason->about == PR_ABOUT_HEELS);
    for (int side = 0; side < 2; side++)
      assert_true (t->heel_range[(side == 1) != m.swapped] >= m.heel[side]);
  }
}

static void
test_ticked (void **state)
{
  (void) state;
  for (guint32 seed = 31; seed < 37; seed++) {
    SceneOptions o;
    Measure m;
    g_autoptr (PrTracing) t = traced (HEELS_TICKED, seed, &o, &m);

    assert_true (t->heel_range[0] == 0 && t->heel_range[1] == 0);
    if (fmax (m.heel[0], m.heel[1]) > GOOD_MOST)
      fail_msg ("ticked heels %.1f and %.1f mm off", m.heel[0], m.heel[1]);
  }
}

static void
test_whole_or_part (void **state)
{
  (void) state;
  for (guint32 seed = 31; seed < 36; seed++) {
    SceneOptions o;
    Measure m;
    g_autoptr (PrTracing) brief = traced (HEELS_SHORT, seed, &o, &m);
    g_autoptr (PrTracing) part = traced (HEELS_PARTIAL, seed, &o, &m);

    assert_null (reason_with (brief, "all the way"));
    assert_non_null (reason_with (part, "all the way"));
  }
}

/* Is every part of the outline within the cover in doubt? In the frame of the scene, whose sheet is upright. */
static void
check_hidden (const PrTracing *t, const Scene *scene, const SceneOptions *o)
{
  PrSheetPt at = scene->line[MIN ((size_t) (o->hidden.at * (double) scene->n_line), scene->n_line - 1)];
  PrPx middle = pr_camera_to_photo (&scene->camera, at);
  double s = 0;

  for (size_t i = 1; i < t->n_outline; i++) {
    PrSheetPt p = t->outline[i];
    s += hypot (p.x - t->outline[i - 1].x, p.y - t->outline[i - 1].y);
    PrSheetPt q = pr_camera_to_sheet (&scene->camera, pr_camera_to_photo (&t->camera, p));
    bool doubted = hypot (q.x - at.x, q.y - at.y) > 0.4 * o->hidden.mm;
    for (size_t k = 0; k < t->n_doubt; k++)
      doubted |= s >= t->doubt[k].from_mm && s <= t->doubt[k].to_mm;
    if (!doubted)
      fail_msg ("hidden about %.0f,%.0f px and in no doubt", middle.x, middle.y);
  }
}

static void
test_hidden (void **state)
{
  static const char *const word[] = { "Something lies", "Something lies", "reflection" };

  (void) state;
  for (int k = 0; k < 3; k++)
    for (guint32 seed = 31; seed < 34; seed++) {
      SceneOptions o;
      Measure m;
      heels_scene ((HeelsKind) (HEELS_MUD + k), seed, WIDTH, &o);
      g_autoptr (Scene) scene = scene_render (&o);
      g_autoptr (PrTracing) t = traced ((HeelsKind) (HEELS_MUD + k), seed, &o, &m);

      assert_true (fmax (m.heel[0], m.heel[1]) < GOOD_MOST);
      check_hidden (t, scene, &o);
      assert_true (t->scale.verdict != PR_VERDICT_GOOD);
      assert_non_null (reason_with (t, word[k]));
      assert_null (reason_with (t, "darker"));
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_closed),        cmocka_unit_test (test_smooth), cmocka_unit_test (test_ticked),
    cmocka_unit_test (test_whole_or_part), cmocka_unit_test (test_hidden),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
