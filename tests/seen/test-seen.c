/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A shoe on the sheet: the edges found held against the solid that was photographed, and every photo that cannot be used. */
#include <string.h>
#include "kit.h"
#include "pr-error.h"
#include "seen-measure.h"

/* No more than about twice what each photo comes to, mm, and less than what is asked of the field (0.30, 1.2, 1.0, 0.5) or of hard
 * photos (0.6 in the mean); tests/seen/sweep.c prints the figures of many. */
typedef struct {
  const char *kind;
  guint32 seed;
  double mean, p99, heels, sides;
} Case;

static const Case cases[] = {
  { "steel", 2, 0.18, 0.80, 0.2, 0.35 },    { "egg-bar", 1, 0.10, 0.70, 0.2, 0.15 },
  { "aluminium", 1, 0.28, 0.90, 0.3, 0.3 }, { "bright", 1, 0.15, 1.00, 0.3, 0.3 },
  { "shadow", 1, 0.25, 0.80, 0.4, 0.3 },    { "shadow", 31, 0.15, 0.80, 0.2, 0.3 },
  { "plain", 1, 0.18, 0.40, 0.3, 0.35 },    { "drawn", 1, 0.08, 0.25, 0.1, 0.2 },
};

static void
edges_are_found (void **state)
{
  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++) {
    const Case *c = &cases[i];
    const ShoeKind *kind = shoe_kind (c->kind);
    g_auto (ShoeScene) s = { 0 };
    g_auto (PrSeen) seen = { 0 };
    g_autoptr (PrTracing) t = NULL;
    g_autoptr (GError) error = NULL;
    SeenError e;
    double ms;

    shoe_scene_make (&s, kind, c->seed);
    if (!seen_scene (&seen, &t, &s, kind, NULL, &ms, &error))
      fail_msg ("%s %u: %s", c->kind, c->seed, error->message);
    seen_measure (&e, &seen, t, &s);
    print_message (
        "%-10s outer %.2f inner %.2f p99 %.2f heels %.2f length %+.2f width %+.2f, height left in %.2f\n",
        c->kind, e.outer.mean, e.inner.mean, fmax (e.outer.p99, e.inner.p99), e.heels, e.length, e.width,
        e.flat.mean);
    assert_true (e.outer.mean < c->mean && e.inner.mean < c->mean);
    assert_true (e.outer.p99 < c->p99 && e.inner.p99 < c->p99 && e.heels < c->heels);
    assert_true (fabs (e.length) < c->sides && fabs (e.width) < c->sides);
    assert_int_equal (e.openings, 0);
    assert_true (e.silent < 1);
    assert_true (e.nail < 2);
    assert_true (kind->drawn || e.flat.mean > 2 * e.outer.mean);
  }
}

/* --- plain data -------------------------------------------------------------------------- */

static double
twice_area (const PrSeenRing *a, const PrSeenRing *b)
{
  double sum = 0;
  size_t n = a->n + b->n;

  for (size_t i = 0; i < n; i++) {
    size_t k = (i + 1) % n;
    PrSheetPt p = i < a->n ? a->p[i] : b->p[i - a->n], q = k < a->n ? a->p[k] : b->p[k - a->n];
    sum += p.x * q.y - p.y * q.x;
  }
  return sum;
}

/* The small photo of a case that is to be refused, or looked at for its form. */
static bool
look (PrSeen *seen, const ShoeScene *s, double thick, bool drawn, GError **error)
{
  PrTraceOptions trace = PR_TRACE_OPTIONS_DEFAULT;
  PrSeenOptions options = { thick, s->face, drawn, 0 };
  g_autoptr (Scene) made = scene_render (&s->options);
  g_autoptr (PrPhoto) photo = pr_photo_decode (made->jpeg, "shoe.jpg", error);

  assert_non_null (photo);
  return pr_seen_find (seen, NULL, photo, &trace, &options, NULL, error);
}

static void
small (ShoeScene *s, const char *kind)
{
  shoe_scene_make (s, shoe_kind (kind), 2);
  s->options.width = 1500;
  s->options.height = 2000;
  s->options.far_mm = 0;
  s->options.fill = 0.85;
  s->options.tilt_deg = 8;
}

static void
an_open_shoe_is_parted_at_its_heels (void **state)
{
  g_auto (ShoeScene) s = { 0 };
  g_auto (PrSeen) seen = { 0 }, copy = { 0 };
  g_autoptr (GError) error = NULL;

  (void) state;
  small (&s, "rusty");
  if (!look (&seen, &s, s.shoe.thick, false, &error))
    fail_msg ("%s", error->message);
  assert_true (seen.open && seen.n_opening == 0 && seen.outer.n > seen.inner.n && seen.inner.n > 100);
  assert_true (twice_area (&seen.outer, &seen.inner) > 0); /* clockwise, y down */
  for (int end = 0; end < 2; end++) {
    PrSheetPt p = end ? seen.outer.p[seen.outer.n - 1] : seen.outer.p[0];
    double to
        = fmin (hypot (p.x - s.heel[0].x, p.y - s.heel[0].y), hypot (p.x - s.heel[1].x, p.y - s.heel[1].y));
    assert_true (to < 6);
  }
  assert_true (seen.outer.p[seen.outer.n - 1].x == seen.inner.p[0].x
               && seen.outer.p[0].x == seen.inner.p[seen.inner.n - 1].x);
  assert_true (seen.height_mm > 0.3 && seen.focal_px > 1000 && seen.thickness_mm == s.shoe.thick);
  pr_seen_copy (&copy, &seen);
  assert_int_equal (copy.inner.n, seen.inner.n);
  assert_ptr_not_equal (copy.inner.p, seen.inner.p);
}

/* --- what cannot be used ------------------------------------------------------------------ */

static void
move_rings (ShoeScene *s, double x, double y)
{
  for (size_t i = 0; i < s->shoe.n_ring; i++)
    for (size_t k = 0; k < s->shoe.ring[i].n; k++)
      s->shoe.ring[i].p[k] = pr_pt_add (s->shoe.ring[i].p[k], pr_pt (x, y));
  s->shoe.n_crease = 0;
}

static void
shoe_away (ShoeScene *s)
{
  s->options.shoe = NULL;
}

static void
half_outside (ShoeScene *s)
{
  move_rings (s, 85, 0);
}

static void
over_a_mark (ShoeScene *s)
{
  move_rings (s, -36, -76);
}

static void
glowing (ShoeScene *s)
{
  s->shoe.kind = SCENE_IRON_HOT;
}

/* Rusty, so that its colour fades as well. */
static void
steaming (ShoeScene *s)
{
  s->shoe.steam = 0.9;
  s->shoe.seed = 1;
}

/* Half as large, and once more beside. */
static void
two_of_them (ShoeScene *s)
{
  PrPath *ring = s->shoe.ring;

  s->shoe.n_ring = 1;
  s->shoe.n_crease = 0;
  for (size_t k = 0; k < ring[0].n; k++) {
    PrPt p = pr_pt_scale (pr_pt_sub (ring[0].p[k], pr_pt (105, 148)), 0.55);
    ring[0].p[k] = pr_pt_add (p, pr_pt (62, 130));
    pr_path_empty (k == 0 ? &ring[1] : &ring[2]);
  }
  for (size_t k = 0; k < ring[0].n; k++)
    pr_path_add (&ring[1], pr_pt_add (ring[0].p[k], pr_pt (86, 25)));
  s->shoe.n_ring = 2;
}

static void
nothing (ShoeScene *s)
{
  (void) s;
}

typedef struct {
  const char *kind;
  void (*spoil) (ShoeScene *s);
  double thick;
  bool drawn;
  int code;
  const char *says;
} Bad;

static const Bad bad[] = {
  { "rusty", shoe_away, 10, false, PR_ERROR_LINE, "No shoe was found" },
  { "rusty", half_outside, 10, false, PR_ERROR_LINE, "over the edge" },
  { "rusty", over_a_mark, 10, false, PR_ERROR_LINE, "corner mark" },
  { "rusty", two_of_them, 10, false, PR_ERROR_LINE, "Two shoes" },
  { "rusty", glowing, 10, false, PR_ERROR_LINE, "glowing" },
  { "rusty", steaming, 10, false, PR_ERROR_LINE, "still steaming" },
  { "rusty", nothing, 2.5, false, PR_ERROR_INPUT, "2.5 mm thick" },
  { "rusty", nothing, 25.5, false, PR_ERROR_INPUT, "25.5 mm thick" },
  { "drawn", nothing, 10, false, PR_ERROR_LINE, "drawn line" },
  { "rusty", nothing, 0, true, PR_ERROR_LINE, "No closed line" },
};

static void
what_cannot_be_used_is_said (void **state)
{
  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++) {
    g_auto (ShoeScene) s = { 0 };
    g_auto (PrSeen) seen = { 0 };
    g_autoptr (GError) error = NULL;

    small (&s, bad[i].kind);
    bad[i].spoil (&s);
    if (look (&seen, &s, bad[i].thick, bad[i].drawn, &error))
      fail_msg ("%s was found", bad[i].says);
    print_message ("%s\n", error->message);
    assert_true (error->domain == PR_ERROR);
    assert_int_equal (error->code, bad[i].code);
    assert_non_null (strstr (g_strdelimit (error->message, ",", '.'), bad[i].says)); /* the locale's mark */
    assert_true (seen.outer.p == NULL && seen.n_doubt == 0);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (edges_are_found),
    cmocka_unit_test (an_open_shoe_is_parted_at_its_heels),
    cmocka_unit_test (what_cannot_be_used_is_said),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
