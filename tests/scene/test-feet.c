/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table's feet are the feet the table says, as the hoof measures them; none has a corner. */
#include "near.h"
#include "pr-hoof.h"
#include "scene-feet.h"

#include <string.h>

typedef struct {
  SceneFootLine line;
  PrHoof hoof;
} Laid;

/* As a person marks it, through the sheet. */
static void
lay (Laid *laid, const SceneFoot *foot)
{
  g_autoptr (GError) error = NULL;
  PrLandmarks marks = { .has_toe = true, .has_buttress = { true, true } };

  *laid = (Laid){ 0 };
  scene_foot_line (foot, &laid->line);
  g_autofree PrSheetPt *sheet = g_new (PrSheetPt, laid->line.outline.n);
  for (size_t i = 0; i < laid->line.outline.n; i++)
    sheet[i] = scene_foot_on_sheet (foot, laid->line.outline.p[i]);
  marks.toe = scene_foot_on_sheet (foot, laid->line.toe);
  for (int side = 0; side < 2; side++)
    marks.buttress[side] = scene_foot_on_sheet (foot, laid->line.buttress[side]);
  if (!pr_hoof_from_outline (&laid->hoof, sheet, laid->line.outline.n, false, foot->foot, &marks, &error))
    fail_msg ("%s: %s", foot->name, error->message);
}

static void
clear (Laid *laid)
{
  scene_foot_line_clear (&laid->line);
  pr_hoof_clear (&laid->hoof);
}

static void
test_measures (void **state)
{
  size_t n;
  const SceneFoot *feet = scene_feet (&n);

  (void) state;
  for (size_t i = 0; i < n; i++) {
    const SceneFoot *f = &feet[i];
    Laid laid;

    print_message ("%s\n", f->name);
    lay (&laid, f);
    NEAR (laid.hoof.width, f->width, 0.1);
    NEAR (laid.hoof.length, f->length,
          0.4); /* the toe is drawn over: its foremost point is not on the centre line */
    /* the widest line is flat: a flare and a centre line turned by a degree move it */
    NEAR (laid.hoof.toe_to_widest, f->ahead * f->length, 1.5);
    NEAR (laid.hoof.heel_width, f->heels * f->width, 0.3);
    NEAR (laid.hoof.width_side[PR_LATERAL] - laid.hoof.width_side[PR_MEDIAL],
          f->flare[1] - f->flare[0] + f->uneven, 2.5);
    clear (&laid);
  }
}

/* Least radius of the outline over three steps, mm. */
static double
least_radius (const PrPath *path)
{
  double least = INFINITY;

  for (size_t i = 3; i + 3 < path->n; i++) {
    PrPt a = pr_pt_sub (path->p[i], path->p[i - 3]), b = pr_pt_sub (path->p[i + 3], path->p[i]);
    double turn = fabs (atan2 (pr_pt_cross (a, b), pr_pt_dot (a, b)));

    least = MIN (least, turn > 0 ? 3 * SCENE_FEET_STEP_MM / turn : INFINITY);
  }
  return least;
}

/* Degrees by which the wall turns inward over its last REACH mm. */
static double
heel_turn (const PrPath *path, int side, double reach)
{
  double total = pr_path_length (path);
  PrPt end, before;

  pr_path_at (path, side ? total - 0.1 : 0.1, &end);
  pr_path_at (path, side ? total - reach : reach, &before);
  return fabs (atan2 (pr_pt_cross (before, end), pr_pt_dot (before, end))) * 180 / G_PI;
}

static void
test_smooth (void **state)
{
  size_t n;
  const SceneFoot *feet = scene_feet (&n);

  (void) state;
  for (size_t i = 0; i < n; i++) {
    g_auto (SceneFootLine) line = { 0 };

    scene_foot_line (&feet[i], &line);
    /* the sharpest bend is where a heel turns in, and even that is the width of a finger's end */
    if (least_radius (&line.outline) < 0.04 * feet[i].width)
      fail_msg ("%s has a corner of %.1f mm", feet[i].name, least_radius (&line.outline));
    for (int side = 0; side < 2; side++)
      if (heel_turn (&line.outline, side, 0.1 * feet[i].width) < 10)
        fail_msg ("%s: heel turned in by %.1f degrees only", feet[i].name,
                  heel_turn (&line.outline, side, 0.1 * feet[i].width));
  }
}

static void
test_table (void **state)
{
  size_t n, fore = 0;
  const SceneFoot *feet = scene_feet (&n);

  (void) state;
  for (size_t i = 0; i < n; i++) {
    bool hind = pr_foot_is_hind (feet[i].foot);

    fore += !hind;
    assert_in_range ((int) feet[i].width, 90, 182);
    assert_true (feet[i].heels >= 0.55 && feet[i].heels <= 0.75);
    /* Lungwitz & Adams: a hind hoof is widest between its middle and rear thirds */
    assert_true (hind ? feet[i].ahead >= 0.58 && feet[i].ahead <= 0.68 : feet[i].ahead < 0.58);
    for (size_t k = 0; k < i; k++)
      assert_string_not_equal (feet[i].name, feet[k].name);
  }
  assert_true (n >= 12 && fore >= 6 && n - fore >= 4);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_measures),
    cmocka_unit_test (test_smooth),
    cmocka_unit_test (test_table),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
