/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heels of lines drawn closed round the bulbs, and the ends of open ones: whichever way they
 * lie on the sheet, what is called good is right. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "photo-kit.h"

/* A heel found is this near the true one, mm; the end of an open line this near. */
#define HEEL_MOST 3.0
#define END_MOST 1.5
/* And under a tick as wide as the pen, which hides it, this near, mm. */
#define TICKED_MOST 2.0

/* Named by how it lies on the sheet. */
static PrTracing *
traced (const SceneOptions *o, Measure *m)
{
  g_autofree char *what = g_strdup_printf ("turned %.0f soft %+.1f", o->drawn_deg, o->soft);

  return scene_traced (o, what, m);
}

static void
drawn (SceneOptions *o, guint32 seed, double deg)
{
  scene_of_width (o, seed, 1500);
  o->hoof_length = 116;
  o->hoof_width = 110;
  o->tags = false;
  o->drawn_deg = deg;
}

static void
check_right (const SceneOptions *o, double most)
{
  Measure m;
  g_autoptr (PrTracing) t = traced (o, &m);

  assert_int_equal (t->closed, o->closed);
  assert_int_equal (t->scale.verdict, PR_VERDICT_GOOD);
  if (fmax (m.heel[0], m.heel[1]) > most)
    fail_msg ("turned %g: heels %.2f %.2f mm off", o->drawn_deg, m.heel[0], m.heel[1]);
}

/* The toe up again in the frame that is handed out. */
static void
test_closed_any_way_up (void **state)
{
  SceneOptions o;

  (void) state;
  for (int k = 0; k < 9; k++) {
    drawn (&o, 40 + (guint32) k, 40 * k + 7);
    o.closed = true;
    o.frog = k % 2 == 0;
    o.ticks = k % 3 == 0;
    o.pen = (ScenePen) (k % 3);
    Measure m;
    g_autoptr (PrTracing) t = traced (&o, &m);
    assert_true (t->closed);
    if (fmax (m.heel[0], m.heel[1]) > HEEL_MOST)
      fail_msg ("turned %g: heels %.2f %.2f mm off", o.drawn_deg, m.heel[0], m.heel[1]);
    assert_int_equal (t->scale.verdict, PR_VERDICT_GOOD);
    PrSheetPt a = t->outline[0], b = t->outline[t->n_outline - 1], toe = t->outline[t->n_outline / 2];
    assert_true (toe.y < fmin (a.y, b.y));
  }
}

/* Printed sheets tell where the toe is, but a drawing on one may lean. */
static void
test_closed_leaning (void **state)
{
  static const double lean[] = { -17, -13, 14, 18 };
  SceneOptions o;

  (void) state;
  for (int k = 0; k < 6; k++) {
    drawn (&o, 60 + (guint32) k, lean[k % 4]);
    o.tags = k < 3;
    o.closed = true;
    check_right (&o, HEEL_MOST);
  }
}

/* The bulbs stand out beyond the heel: the line turns back on itself there, but does not end. */
static void
test_closed_with_a_step (void **state)
{
  SceneOptions o;

  (void) state;
  for (int k = 0; k < 5; k++) {
    drawn (&o, 70 + (guint32) k, 75 * k);
    o.closed = true;
    o.soft = -0.5 - 0.12 * k;
    check_right (&o, HEEL_MOST);
  }
}

static double
doubt_at (const PrTracing *t, bool last)
{
  double length = 0, sum = 0;

  for (size_t i = 1; i < t->n_outline; i++)
    length += hypot (t->outline[i].x - t->outline[i - 1].x, t->outline[i].y - t->outline[i - 1].y);
  for (size_t i = 0; i < t->n_doubt; i++)
    if (last ? t->doubt[i].to_mm > length - 0.5 : t->doubt[i].from_mm < 0.5)
      sum = fmax (sum, t->doubt[i].to_mm - t->doubt[i].from_mm);
  return sum;
}

/* Where the wall runs into the bulb without a corner the heel is a guess, and said to be one. */
static void
test_closed_without_a_corner (void **state)
{
  SceneOptions o;
  int honest = 0;

  (void) state;
  for (int k = 0; k < 6; k++) {
    Measure m;
    drawn (&o, 80 + (guint32) k, 47 * k);
    o.closed = true;
    o.soft = 0.6 + 0.1 * (k % 5);
    g_autoptr (PrTracing) t = traced (&o, &m);
    if (fmax (m.heel[0], m.heel[1]) <= HEEL_MOST)
      continue;
    honest++;
    assert_int_not_equal (t->scale.verdict, PR_VERDICT_GOOD);
    assert_true (fmin (doubt_at (t, false), doubt_at (t, true)) > HEEL_MOST
                 || fmin (m.heel[0], m.heel[1]) <= HEEL_MOST);
  }
  print_message ("%d guessed\n", honest);
}

/* Ticks as dark as the line across its ends: the line does not run on along them. */
static void
test_ticks_at_open_heels (void **state)
{
  static const double lean[] = { -18, -8, 15, 40 }; /* to the line: 34 to 92 degrees */
  SceneOptions o;

  (void) state;
  for (int k = 0; k < 8; k++) {
    drawn (&o, 90 + (guint32) k, k < 4 ? 0 : 45 * k + 10);
    o.tags = k < 4;
    o.ticks = o.frog = true;
    o.tick_deg = lean[k % 4];
    check_right (&o, TICKED_MOST);
  }
}

/* Ends are found whichever way the drawing lies, with words where the heels open. */
static void
test_open_any_way_up (void **state)
{
  SceneOptions o;

  (void) state;
  for (int k = 0; k < 8; k++) {
    drawn (&o, 100 + (guint32) k, 41 * k + 12);
    o.writing = true;
    check_right (&o, END_MOST);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_closed_any_way_up),   cmocka_unit_test (test_closed_leaning),
    cmocka_unit_test (test_closed_with_a_step),  cmocka_unit_test (test_closed_without_a_corner),
    cmocka_unit_test (test_ticks_at_open_heels), cmocka_unit_test (test_open_any_way_up),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
