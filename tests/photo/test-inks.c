/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is not of the line's ink is not the line: a cup's rim across it, a word beside a gap. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include "photo-kit.h"

/* mm: mean distance from the true line, and line far off in silence. */
#define MEAN_MOST 0.3
#define SILENT_MOST 1.0
#define SEEDS 2

typedef struct {
  const char *name;
  ScenePen pen;
  double stain_mm, gap_mm, pen_mm;
  bool plain, note;
} Case;

static void
check (const Case *k, guint32 seed)
{
  SceneOptions o;
  Measure m;

  scene_of_width (&o, seed, 2100);
  o.tilt_deg = 12;
  o.tags = !k->plain;
  o.pen = k->pen;
  o.pen_mm = k->pen_mm;
  o.stain_mm = k->stain_mm;
  o.gap_mm = k->gap_mm;
  o.note = k->note;
  g_autoptr (PrTracing) t = scene_traced (&o, k->name, &m);
  if (!(m.line_mean <= MEAN_MOST))
    fail_msg ("%s: %.2f mm off in the mean", k->name, m.line_mean);
  if (m.silent > SILENT_MOST)
    fail_msg ("%s: %.1f mm of line far off in silence", k->name, m.silent);
}

static void
check_all (const Case *cases, size_t n)
{
  for (size_t i = 0; i < n; i++)
    for (guint32 seed = 1; seed <= SEEDS; seed++)
      check (&cases[i], 300 + seed);
}

static void
test_stain (void **state)
{
  static const Case cases[] = {
    { "pencil, cup", SCENE_PEN_PENCIL, 42, 0, 0.45 },
    { "pencil, plain, cup", SCENE_PEN_PENCIL, 36, 0, 0.45, .plain = true },
    { "ballpoint, cup", SCENE_PEN_BALLPOINT, 42, 0 },
  };

  (void) state;
  check_all (cases, G_N_ELEMENTS (cases));
}

static void
test_word (void **state)
{
  static const Case cases[] = {
    { "pencil, word", SCENE_PEN_PENCIL, 0, 0, 0.45, .note = true },
    { "pencil, word in gap", SCENE_PEN_PENCIL, 0, 9, .note = true },
    { "marker, word in gap", SCENE_PEN_MARKER, 0, 9, .note = true },
  };

  (void) state;
  check_all (cases, G_N_ELEMENTS (cases));
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_stain), cmocka_unit_test (test_word) };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
