/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Edges drawn anew by hand, on shoes made of circles: what the camera shows of them is a closed form. */
#include <math.h>
#include <string.h>
#include "kit.h"
#include "pr-error.h"
#include "pr-seen-redraw.h"
#include "pr-seen-rounds.h"

#define OUTER 65.0
#define INNER 43.0
#define THICK 10.0
#define STEP 0.5
#define HALF_MOUTH 0.5 /* radians from straight down to either branch's end */

static const PrSheetPt middle = { 105, 148 };
/* Left of the shoe: its left outer edge leans towards the camera, its right one away. */
static const PrSheetPt camera = { 5, 140 };
#define CAMERA_MM 500.0
/* The finder takes the upper edge for a little lower than the face, as its arris is rounded: at 165 mm from the camera's foot point
 * 0.35 mm of height are 0.115 mm (computed). */
#define ARRIS_OFF 0.12

static PrSheetPt
on_circle (double radius, double angle)
{
  return (PrSheetPt){ middle.x + radius * cos (angle), middle.y + radius * sin (angle) };
}

/* From FROM to TO (radians, clockwise as seen), points STEP apart; appended. */
static void
add_arc (GArray *a, double radius, double from, double to)
{
  int n = (int) ceil (fabs (to - from) * radius / STEP);

  for (int i = 0; i <= n; i++) {
    PrSheetPt p = on_circle (radius, from + (to - from) * i / n);
    g_array_append_val (a, p);
  }
}

static void
add_line (GArray *a, PrSheetPt from, PrSheetPt to)
{
  int n = (int) ceil (hypot (to.x - from.x, to.y - from.y) / STEP);

  for (int i = 1; i < n; i++) {
    PrSheetPt p = { from.x + (to.x - from.x) * i / n, from.y + (to.y - from.y) * i / n };
    g_array_append_val (a, p);
  }
}

static void
set (PrSeenRing *ring, GArray *a)
{
  pr_seen_ring_set (ring, (const PrSheetPt *) (void *) a->data, a->len);
  g_array_set_size (a, 0);
}

#define LEFT_END (G_PI / 2 + HALF_MOUTH)
#define RIGHT_END (2.5 * G_PI - HALF_MOUTH)

/* Open at the bottom; each end's middle parts the edges. */
static void
open_shoe (PrSeen *seen)
{
  g_autoptr (GArray) a = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));
  double web = (OUTER + INNER) / 2;
  PrSheetPt left = on_circle (web, LEFT_END), right = on_circle (web, RIGHT_END);

  *seen = (PrSeen){ .open = true, .thickness_mm = THICK, .camera_at = camera, .camera_mm = CAMERA_MM };
  g_array_append_val (a, left);
  add_line (a, left, on_circle (OUTER, LEFT_END));
  add_arc (a, OUTER, LEFT_END, RIGHT_END);
  add_line (a, on_circle (OUTER, RIGHT_END), right);
  g_array_append_val (a, right);
  set (&seen->outer, a);
  g_array_append_val (a, right);
  add_line (a, right, on_circle (INNER, RIGHT_END));
  add_arc (a, INNER, RIGHT_END, LEFT_END);
  add_line (a, on_circle (INNER, LEFT_END), left);
  g_array_append_val (a, left);
  set (&seen->inner, a);
}

/* Closed all round, with one opening. */
static void
bar_shoe (PrSeen *seen)
{
  g_autoptr (GArray) a = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));

  *seen = (PrSeen){ .thickness_mm = THICK, .camera_at = camera, .camera_mm = CAMERA_MM };
  add_arc (a, OUTER, 0, 2 * G_PI - STEP / OUTER);
  set (&seen->outer, a);
  seen->n_opening = 1;
  seen->opening = g_new0 (PrSeenRing, 1);
  add_arc (a, INNER, 0, 2 * G_PI - STEP / INNER);
  set (&seen->opening[0], a);
}

/* Where the sheet has the edge of a circle, seen from the camera: a plane at the height THICK is seen enlarged about the camera's
 * foot point by 1 / (1 - THICK / height); the upper edge shows where the normal out of the iron leans away. SIGN: of the normal. */
static PrSheetPt
shown (double radius, double angle, double sign, double thick)
{
  PrSheetPt p = on_circle (radius, angle);
  double away = sign * (cos (angle) * (p.x - camera.x) + sin (angle) * (p.y - camera.y));
  double larger = away > 0 ? 1 / (1 - thick / CAMERA_MM) : 1;

  return (PrSheetPt){ camera.x + (p.x - camera.x) * larger, camera.y + (p.y - camera.y) * larger };
}

static GArray *
stroke_along (double radius, double from, double to, double sign, double thick)
{
  GArray *a = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));

  for (int i = 0; i <= 60; i++) {
    PrSheetPt p = shown (radius, from + (to - from) * i / 60, sign, thick);
    g_array_append_val (a, p);
  }
  return a;
}

static bool
redraw (PrSeen *seen, const GArray *stroke, GError **error)
{
  return pr_seen_redraw (seen, (const PrSheetPt *) (const void *) stroke->data, stroke->len, error);
}

static double
angle_of (PrSheetPt p)
{
  double a = atan2 (p.y - middle.y, p.x - middle.x);

  return a < G_PI / 2 ? a + 2 * G_PI : a; /* from straight down on, clockwise */
}

/* How far a ring lies off a circle at the most, between two angles; how many points there. */
static double
off_circle (const PrSeenRing *ring, double radius, double from, double to, size_t *n)
{
  double most = 0;

  *n = 0;
  for (size_t i = 0; i < ring->n; i++)
    if (angle_of (ring->p[i]) > from && angle_of (ring->p[i]) < to) {
      most = fmax (most, fabs (hypot (ring->p[i].x - middle.x, ring->p[i].y - middle.y) - radius));
      (*n)++;
    }
  return most;
}

/* A stretch that was led astray by BY mm. */
static void
spoil (PrSeenRing *ring, double from, double to, double by)
{
  for (size_t i = 0; i < ring->n; i++) {
    double a = angle_of (ring->p[i]);
    if (a > from && a < to)
      ring->p[i] = (PrSheetPt){ ring->p[i].x + by * cos (a), ring->p[i].y + by * sin (a) };
  }
}

static double
arc_at (const PrSeenRing *ring, double angle)
{
  double at = 0;

  for (size_t i = 1; i < ring->n && angle_of (ring->p[i]) < angle; i++)
    at += hypot (ring->p[i].x - ring->p[i - 1].x, ring->p[i].y - ring->p[i - 1].y);
  return at;
}

static bool
same_ring (const PrSeenRing *a, const PrSeenRing *b)
{
  return a->n == b->n && memcmp (a->p, b->p, a->n * sizeof *a->p) == 0;
}

/* On the side away from the camera and on the side towards it, drawn either way. */
static void
a_stretch_of_the_outer_edge (void **state)
{
  static const double places[2][2] = { { 5.8, 6.8 }, { 2.6, 3.6 } }; /* right, left */

  (void) state;
  for (int k = 0; k < 4; k++) {
    const double *place = places[k / 2];
    g_auto (PrSeen) seen = { 0 }, was = { 0 };
    g_autoptr (GError) error = NULL;
    size_t n;

    open_shoe (&seen);
    spoil (&seen.outer, place[0] + 0.1, place[1] - 0.1, 4);
    pr_seen_add_doubt (&seen, PR_SEEN_OUTER, PR_SEEN_OPEN, arc_at (&seen.outer, place[0] + 0.15),
                       arc_at (&seen.outer, place[1] - 0.15), g_strdup ("over the place"));
    double from = arc_at (&seen.outer, 4.5), to = arc_at (&seen.outer, 4.8);
    pr_seen_add_doubt (&seen, PR_SEEN_OUTER, PR_SEEN_OPEN, from, to, g_strdup ("at the toe"));
    pr_seen_add_doubt (&seen, PR_SEEN_INNER, PR_SEEN_OPEN, 30, 40, g_strdup ("inside"));
    pr_seen_copy (&was, &seen);
    assert_true (off_circle (&seen.outer, OUTER, place[0], place[1], &n) > 3.9);

    g_autoptr (GArray) stroke = k % 2 ? stroke_along (OUTER, place[1], place[0], 1, THICK)
                                      : stroke_along (OUTER, place[0], place[1], 1, THICK);
    assert_true (redraw (&seen, stroke, &error));
    assert_true (off_circle (&seen.outer, OUTER, LEFT_END + 0.1, RIGHT_END - 0.1, &n) < ARRIS_OFF);
    assert_true (n > 500);
    assert_true (same_ring (&seen.inner, &was.inner));
    assert_true (seen.outer.p[0].x == seen.inner.p[seen.inner.n - 1].x
                 && seen.outer.p[seen.outer.n - 1].x == seen.inner.p[0].x);
    assert_int_equal (seen.n_doubt, 2);
    for (size_t i = 0; i < 2; i++) {
      const PrSeenDoubt *d = &seen.doubt[i];
      bool outer = d->edge == PR_SEEN_OUTER;
      double begins = outer ? arc_at (&seen.outer, 4.5) : 30, ends = outer ? arc_at (&seen.outer, 4.8) : 40;
      assert_string_equal (d->why, outer ? "at the toe" : "inside");
      assert_true (fabs (d->from_mm - begins) < 2 * STEP && fabs (d->to_mm - ends) < 2 * STEP);
    }
  }
}

/* The hand draws where the upper edge is seen: right of the camera that is out by the enlargement, left of the shoe not at all. */
static void
height_is_taken_out_edge_by_edge (void **state)
{
  g_auto (PrSeen) seen = { 0 };
  g_autoptr (GError) error = NULL;
  size_t n;

  (void) state;
  open_shoe (&seen);
  g_autoptr (GArray) flat = stroke_along (OUTER, 5.8, 6.8, 1, 0);
  assert_true (redraw (&seen, flat, &error));
  double in = off_circle (&seen.outer, OUTER, 5.9, 6.7, &n), larger = 1 / (1 - THICK / CAMERA_MM);
  /* at the circle's rightmost place; the arris lowers the edge a little */
  double most = (middle.x + OUTER - camera.x) * (1 - 1 / larger);
  assert_true (in > 0.9 * most && in < most + 0.05);
  g_autoptr (GArray) left = stroke_along (OUTER, 2.6, 3.6, 1, 0);
  assert_true (redraw (&seen, left, &error));
  assert_true (off_circle (&seen.outer, OUTER, 2.7, 3.5, &n) < 0.02);
}

static void
the_inner_edge_and_openings (void **state)
{
  g_auto (PrSeen) seen = { 0 }, was = { 0 };
  g_autoptr (GError) error = NULL;
  size_t n;

  (void) state;
  open_shoe (&seen);
  spoil (&seen.inner, 4.2, 5.0, -3);
  pr_seen_copy (&was, &seen);
  g_autoptr (GArray) stroke = stroke_along (INNER, 4.1, 5.1, -1, THICK);
  assert_true (redraw (&seen, stroke, &error));
  assert_true (off_circle (&seen.inner, INNER, LEFT_END + 0.1, RIGHT_END - 0.1, &n) < ARRIS_OFF);
  assert_true (same_ring (&seen.outer, &was.outer));
}

/* Drawn all round, either way; the doubts of the other ring stay. */
static void
an_opening_all_round (void **state)
{
  (void) state;
  for (int k = 0; k < 2; k++) {
    g_auto (PrSeen) bar = { 0 };
    g_autoptr (GError) error = NULL;
    size_t n;

    bar_shoe (&bar);
    spoil (&bar.opening[0], 2, 7, -5);
    pr_seen_add_doubt (&bar, PR_SEEN_INNER, 0, 250, 20, g_strdup ("of the opening"));
    pr_seen_add_doubt (&bar, PR_SEEN_OUTER, 0, 390, 15, g_strdup ("of the outside"));
    g_autoptr (GArray) round = k ? stroke_along (INNER, 0.35 + 2 * G_PI, 0.4, -1, THICK)
                                 : stroke_along (INNER, 0.4, 0.35 + 2 * G_PI, -1, THICK);
    assert_true (redraw (&bar, round, &error));
    assert_true (off_circle (&bar.opening[0], INNER, 0, 10, &n) < ARRIS_OFF);
    assert_true (n > 500 && bar.n_doubt == 1 && bar.n_opening == 1);
    assert_string_equal (bar.doubt[0].why, "of the outside");
    assert_true (bar.doubt[0].from_mm == 390 && bar.doubt[0].to_mm == 15);
  }
}

static bool
in_doubt (const PrSeen *seen, double angle)
{
  g_autoptr (GArray) rounds = pr_seen_rounds (seen);
  const PrSeenRound *round = &g_array_index (rounds, PrSeenRound, 0);
  PrSheetPt p = on_circle (OUTER, angle);

  return round->doubt[pr_path_nearest_point (&round->ring, pr_pt (p.x, p.y))] >= 0;
}

/* A doubt that runs over a ring's first point stays where it is, wherever the ring begins afterwards. */
static void
a_doubt_over_the_first_point (void **state)
{
  g_auto (PrSeen) bar = { 0 };
  g_autoptr (GError) error = NULL;

  (void) state;
  bar_shoe (&bar);
  pr_seen_add_doubt (&bar, PR_SEEN_OUTER, 0, OUTER * (2 * G_PI - 0.3), OUTER * 0.3, g_strdup ("here"));
  g_autoptr (GArray) stroke = stroke_along (OUTER, 3, 4, 1, THICK);
  assert_true (redraw (&bar, stroke, &error));
  for (double a = -0.28; a < 0.3; a += 0.04)
    assert_true (in_doubt (&bar, a));
  assert_false (in_doubt (&bar, -0.33) || in_doubt (&bar, 0.33) || in_doubt (&bar, 3.5));
}

/* A branch drawn shorter: its end is found anew, and both edges meet there. */
static void
a_branch_end (void **state)
{
  g_auto (PrSeen) seen = { 0 };
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) a = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));
  double end = RIGHT_END - 0.25;

  (void) state;
  open_shoe (&seen);
  seen.camera_mm = 0; /* flat: a line drawn round */
  seen.thickness_mm = 0;
  seen.drawn = true;
  add_arc (a, OUTER, end - 0.2, end);
  add_line (a, on_circle (OUTER, end), on_circle (INNER, end));
  add_arc (a, INNER, end, end - 0.2);
  assert_true (redraw (&seen, a, &error));
  PrSheetPt last = seen.outer.p[seen.outer.n - 1], truth = on_circle ((OUTER + INNER) / 2, end);
  assert_true (hypot (last.x - truth.x, last.y - truth.y) < 3); /* as the finder parts a branch's end */
  assert_true (last.x == seen.inner.p[0].x && last.y == seen.inner.p[0].y);
  PrSheetPt first = seen.outer.p[0], other = on_circle ((OUTER + INNER) / 2, LEFT_END);
  assert_true (first.x == other.x && first.y == other.y);
}

static void
refuse (const PrSeen *was, GArray *stroke)
{
  g_auto (PrSeen) seen = { 0 };
  g_autoptr (GError) error = NULL;

  pr_seen_copy (&seen, was);
  assert_false (redraw (&seen, stroke, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_LINE));
  print_message ("%s\n", error->message);
  assert_true (same_ring (&seen.outer, &was->outer) && same_ring (&seen.inner, &was->inner));
  assert_int_equal (seen.n_doubt, was->n_doubt);
  g_array_set_size (stroke, 0);
}

static void
what_is_no_edge_is_said (void **state)
{
  g_auto (PrSeen) seen = { 0 };
  g_autoptr (GArray) a = g_array_new (FALSE, FALSE, sizeof (PrSheetPt));

  (void) state;
  open_shoe (&seen);
  pr_seen_add_doubt (&seen, PR_SEEN_OUTER, PR_SEEN_OPEN, 30, 40, g_strdup ("here"));
  refuse (&seen, a);
  add_arc (a, OUTER, 4, 4.03);
  refuse (&seen, a);
  add_arc (a, OUTER + 25, 4, 5);
  refuse (&seen, a);
  add_arc (a, OUTER, 4, 4.4); /* then across the web, through the opening and back */
  add_line (a, on_circle (OUTER, 4.4), on_circle (INNER - 20, 4.5));
  add_arc (a, OUTER, 4.6, 5);
  refuse (&seen, a);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_stretch_of_the_outer_edge),  cmocka_unit_test (height_is_taken_out_edge_by_edge),
    cmocka_unit_test (the_inner_edge_and_openings),  cmocka_unit_test (an_opening_all_round),
    cmocka_unit_test (a_doubt_over_the_first_point), cmocka_unit_test (a_branch_end),
    cmocka_unit_test (what_is_no_edge_is_said),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
