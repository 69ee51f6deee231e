/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heels of many rings, from their shape alone, without a photo: what is found is right, and what is not lies in
 * its range. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "heel-scenes.h"
#include "pr-bulb-heels.h"
#include "scene-parts.h"

#define RINGS 400
/* A heel that is found is this near, one further off than the second lies in its range, mm. */
#define FOUND_MOST 3.0
#define RANGE_FROM 5.0
/* Rings without any sign of where the rear is, of RINGS. */
#define LOST_MOST 1

/* The ring as drawn, PR_BULB_HEELS_STEP apart; HEEL: where the wall ends. */
static void
ring_of (HeelsKind kind, guint32 seed, PrPath *ring, PrPt heel[2])
{
  g_auto (PrPath) drawn = { 0 };
  SceneOptions o;
  HoofLine hoof;

  heels_scene (kind, seed, 1500, &o);
  Chance chance = chance_new (o.seed, 3);
  hoof_line_make (&hoof, &o, (PrSheetPt){ 105, 140 }, &chance);
  for (size_t i = 0; i < hoof.n; i++)
    pr_path_add (&drawn, pr_pt (hoof.line[i].x, hoof.line[i].y));
  for (size_t i = 1; i < hoof.n_bulbs; i++)
    pr_path_add (&drawn, pr_pt (hoof.bulbs[i].x, hoof.bulbs[i].y));
  pr_path_resample (ring, &drawn, (size_t) (pr_path_length (&drawn) / PR_BULB_HEELS_STEP) + 1);
  ring->n--; /* the first point again */
  for (int side = 0; side < 2; side++)
    heel[side] = pr_pt (hoof.heel[side].x, hoof.heel[side].y);
  hoof_line_clear (&hoof);
}

/* How far the further one of HEELS is off. */
static double
off_by (const PrBulbHeels *heels, const PrPath *ring, const PrPt heel[2])
{
  double off[2];

  for (int k = 0; k < 2; k++)
    off[k]
        = fmax (pr_pt_dist (ring->p[heels->at[0]], heel[k]), pr_pt_dist (ring->p[heels->at[1]], heel[1 - k]));
  return fmin (off[0], off[1]);
}

/* Share of the rings of KIND whose heels are found. */
static double
found_of (HeelsKind kind)
{
  int found = 0, lost = 0;

  for (guint32 seed = 1; seed <= RINGS; seed++) {
    g_auto (PrPath) ring = { 0 };
    PrBulbHeels heels;
    PrPt heel[2];

    ring_of (kind, seed, &ring, heel);
    if (!pr_bulb_heels_find (&heels, &ring, pr_pt (0, 1)))
      continue;
    double off = off_by (&heels, &ring, heel);
    found += heels.found;
    lost += off > fmax (heels.spread[0], RANGE_FROM);
    if (heels.found && off > FOUND_MOST)
      fail_msg ("%s %u: found, %.1f mm off", heels_names[kind], seed, off);
  }
  print_message ("%s: %d of %d found, %d not in their range\n", heels_names[kind], found, RINGS, lost);
  assert_true (lost <= LOST_MOST);
  return (double) found / RINGS;
}

static void
test_rings (void **state)
{
  (void) state;
  assert_true (found_of (HEELS_CORNER) > 0.95);
  assert_true (found_of (HEELS_STEPPED) > 0.98);
  assert_true (found_of (HEELS_CLEFT) > 0.25);
  assert_true (found_of (HEELS_SMOOTH) < 0.02);
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_rings) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
