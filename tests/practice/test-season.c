/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A season's figures against closed forms; scores; what is measured; the table. */
#include "kit.h"
#include "machine.h"
#include "pr-compare-json.h"
#include "pr-compare.h"
#include "pr-json.h"
#include "pr-practice-measured.h"
#include "pr-practice-season.h"
#include "seen.h"

#include <string.h>

#define S ((gint64) G_USEC_PER_SEC)

static PrPracticeRun *
run_of (const PrPracticeClass *class, double seconds, guint heats, double off)
{
  PrPracticeRun *run = pr_practice_run_new (class);
  Machine m;

  machine_on (&m);
  pr_practice_press (run, PR_PRESSED_START, &m.now);
  for (guint i = 0; i < heats; i++)
    pr_practice_press (run, PR_PRESSED_HEAT, &m.now);
  machine_wait (&m, (gint64) (seconds * S));
  pr_practice_press (run, PR_PRESSED_STOP, &m.now);
  run->measured.off = off;
  return run;
}

static GPtrArray *
season (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) pr_practice_run_free);
}

/* Times on a straight line: its slope is the trend, its middle the usual, its end the best; but not before the tenth. */
static void
a_line_is_its_own_trend (void **state)
{
  g_autoptr (PrPracticeClass) class = pr_practice_class_new ();
  g_autoptr (GPtrArray) runs = season ();

  for (guint n = 1; n <= 25; n++) {
    g_ptr_array_add (runs, run_of (class, 900 - 7 * (double) n, 3 + n, 0.1 * n));
    PrSeasonFigure time = pr_season_figure (runs, PR_SEASON_TIME);
    PrSeasonFigure heats = pr_season_figure (runs, PR_SEASON_HEATS);
    PrSeasonFigure off = pr_season_figure (runs, PR_SEASON_OFF);

    assert_int_equal (time.n, n);
    NEAR (time.best, 900 - 7 * (double) n, 1e-6);
    NEAR (time.usual, 900 - 7 * (n + 1) / 2.0, 1e-6);
    assert_int_equal (time.has_trend, n >= 10);
    NEAR (time.trend, n >= 10 ? -7 : 0, 1e-9);
    NEAR (heats.best, 4, 1e-9);
    NEAR (heats.trend, n >= 10 ? 1 : 0, 1e-9);
    NEAR (off.usual, 0.1 * (n + 1) / 2.0, 1e-9);
    assert_int_equal (pr_season_figure (runs, PR_SEASON_SCORE).n, 0);
  }
  (void) state;
}

/* Of 30 values the middle is between the 15th and the 16th; up to 8 wild ones in 30 leave its trend: the breakdown point of these
 * slopes is 1 - sqrt (1/2), 29 % (Sen, 1968, and Rousseeuw & Leroy, 1987: from memory). */
static void
wild_runs_do_not_turn_it (void **state)
{
  g_autoptr (GRand) chance = g_rand_new_with_seed (1968);
  g_autoptr (PrPracticeClass) class = pr_practice_class_new ();

  for (int round = 0; round < 100; round++) {
    g_autoptr (GPtrArray) runs = season ();
    int wild = 0;

    for (int n = 0; n < 30; n++) {
      bool is_wild = wild < 6 && g_rand_int_range (chance, 0, 5) == 0;

      wild += is_wild;
      g_ptr_array_add (runs,
                       run_of (class, is_wild ? g_rand_double_range (chance, 1, 5000) : 800 - 4 * n, 0, -1));
    }
    NEAR (pr_season_figure (runs, PR_SEASON_TIME).trend, -4, 4);
    assert_int_equal (pr_season_figure (runs, PR_SEASON_HEATS).n, 0); /* nobody pressed */
  }
  (void) state;
}

static void
what_is_broken_off_counts_for_nothing (void **state)
{
  g_autoptr (PrPracticeClass) class = pr_practice_class_new ();
  g_autoptr (GPtrArray) runs = season ();
  PrPracticeRun *going = pr_practice_run_new (class), *broken = run_of (class, 10, 1, 0.1);
  Machine m;

  machine_on (&m);
  pr_practice_press (going, PR_PRESSED_START, &m.now);
  broken->broken = true;
  g_ptr_array_add (runs, run_of (class, 700, 5, 2));
  g_ptr_array_add (runs, going);
  g_ptr_array_add (runs, broken);
  for (PrSeasonKind kind = PR_SEASON_TIME; kind <= PR_SEASON_OFF; kind++)
    assert_int_equal (pr_season_figure (runs, kind).n, 1);
  NEAR (pr_season_figure (runs, PR_SEASON_TIME).best, 700, 1e-9);
  (void) state;
}

/* One of two steps was done: no time of it is held against another, until a person says that it was finished. */
static void
what_came_to_no_shoe_counts_for_nothing (void **state)
{
  g_autoptr (PrPracticeClass) class = pr_practice_class_new ();
  PrPracticeRun *run;
  Machine m;

  class->seconds = 720;
  pr_practice_class_add (class, "In the time", 4, PR_MEASURED_TIME);
  for (guint done = 0; done <= 2; done++) {
    g_autoptr (GPtrArray) runs = season ();

    run = pr_practice_run_new (class);
    g_ptr_array_add (runs, run);
    machine_on (&m);
    for (int i = 0; i < 2; i++)
      g_ptr_array_add (run->steps, g_strdup ("Bend the toe."));
    pr_practice_press (run, PR_PRESSED_START, &m.now);
    for (guint i = 0; i < done; i++)
      pr_practice_press (run, PR_PRESSED_STEP, &m.now);
    machine_wait (&m, 35 * S);
    pr_practice_press (run, PR_PRESSED_STOP, &m.now);
    pr_practice_fill_scores (run, 3);
    guint whole = done != 1; /* who pressed none told nothing */
    assert_int_equal (run->unfinished, !whole);
    assert_int_equal (pr_season_figure (runs, PR_SEASON_TIME).n, whole);
    assert_int_equal (pr_season_figure (runs, PR_SEASON_SCORE).n, whole);
    g_autofree char *text = pr_practice_run_text (run);
    g_autoptr (PrPracticeRun) again = pr_practice_run_read (text, NULL);
    assert_int_equal (again->unfinished, !whole);
    run->unfinished = !run->unfinished;
    pr_practice_fill_scores (run, 3);
    assert_int_equal (pr_season_figure (runs, PR_SEASON_SCORE).n, !whole);
    assert_true (pr_practice_take_back (run));
    assert_false (run->unfinished);
  }
  (void) state;
}

static void
a_score_is_a_weighted_mean (void **state)
{
  g_autoptr (PrPracticeClass) class = pr_practice_class_new ();
  guint n;

  pr_practice_class_add (class, "Shape", 10, PR_MEASURED_SHAPE);
  pr_practice_class_add (class, "Weld", 0, PR_MEASURED_NOT);
  pr_practice_class_add (class, "Finish", 5, PR_MEASURED_NOT);
  pr_practice_class_add (class, "Level", 4, PR_MEASURED_NOT);
  g_autoptr (PrPracticeRun) run = pr_practice_run_new (class);
  NEAR (pr_practice_score (run, &n), -1, 0);
  assert_int_equal (n, 0);
  g_array_index (run->scores, PrPracticeScore, 0).value = 8;
  g_array_index (run->scores, PrPracticeScore, 1).value = 1; /* weighs nothing */
  g_array_index (run->scores, PrPracticeScore, 2).value = 5;
  NEAR (pr_practice_score (run, &n), (8 * 10 + 5 * 5) / 15.0, 1e-12);
  assert_int_equal (n, 2);
  /* one that is not judged throughout is held against no other */
  g_autoptr (GPtrArray) runs = season ();
  PrPracticeRun *other = run_of (class, 100, 0, -1);
  for (guint i = 0; i < 4; i++)
    g_array_index (other->scores, PrPracticeScore, i).value = i == 1 ? -1.0 : 4.0 + i;
  g_ptr_array_add (runs, other);
  NEAR (pr_season_figure (runs, PR_SEASON_SCORE).best, (4 * 10 + 6 * 5 + 7 * 4) / 19.0, 1e-12);
  g_array_index (other->scores, PrPracticeScore, 3).value = -1;
  assert_int_equal (pr_season_figure (runs, PR_SEASON_SCORE).n, 0);
  (void) state;
}

static const char compared[]
    = "{\"summary\":{\"outer\":{\"p95_mm\":1.2},\"inner\":{\"p95_mm\":1.5},"
      "\"heels\":[{\"past_buttress_mm\":3,\"planned_past_buttress_mm\":5},{\"past_buttress_mm\":null}],"
      "\"web\":[{\"web_mm\":22.5,\"planned_web_mm\":22},{\"web_mm\":20,\"planned_web_mm\":20.75}],"
      "\"nails\":[{\"off_mm\":0.5},{\"off_mm\":3.0},{\"off_mm\":1e9}],\"clips\":[]}}";

static void
what_is_measured_fills_in (void **state)
{
  g_autoptr (PrPracticeClass) class = pr_practice_class_new ();

  class->seconds = 600;
  pr_practice_class_add (class, "Drawing", 5, PR_MEASURED_SHAPE);
  pr_practice_class_add (class, "Section", 5, PR_MEASURED_SECTION);
  pr_practice_class_add (class, "Nails", 5, PR_MEASURED_NAILS);
  pr_practice_class_add (class, "Clips", 5, PR_MEASURED_CLIPS);
  pr_practice_class_add (class, "Heels", 5, PR_MEASURED_HEELS);
  pr_practice_class_add (class, "Time", 5, PR_MEASURED_TIME);
  pr_practice_class_add (class, "Finish", 5, PR_MEASURED_NOT);
  g_autoptr (PrPracticeRun) run = run_of (class, 660, 0, 4);
  pr_practice_measured_read (&run->measured, compared);
  g_array_index (run->scores, PrPracticeScore, 4).value = 9; /* a person's own stays */
  pr_practice_fill_scores (run, 3.0);
  /* 10 - 5 x 1.5 / 3; 10 - 5 x 0.75 / 3; 10 - 5 x 3 / 3; 10 % over is two marks */
  const double wanted[] = { 7.5, 8.75, 5, -1, 9, 8, -1 };
  for (guint i = 0; i < G_N_ELEMENTS (wanted); i++) {
    const PrPracticeScore *score = &g_array_index (run->scores, PrPracticeScore, i);

    NEAR (score->value, wanted[i], 1e-9);
    assert_int_equal (score->measured, wanted[i] >= 0 && i != 4);
  }
  run->told_minutes = 10; /* what was measured follows; a person says it took no longer */
  pr_practice_fill_scores (run, 3.0);
  NEAR (g_array_index (run->scores, PrPracticeScore, 5).value, 10, 1e-9);
  NEAR (pr_practice_mark (PR_MEASURED_SHAPE, 0, 3), 10, 0);
  NEAR (pr_practice_mark (PR_MEASURED_SHAPE, 60, 3), 0, 0);
  (void) state;
}

static PrPt
wide (PrPt p)
{
  return (PrPt){ p.x + (p.x > 0 ? 2.0 : -1.0), p.y };
}

/* A shoe whose branches stand out by 2 and 1 mm, compared and written as the book keeps it, tells what the comparison found. */
static void
a_real_comparison_is_read (void **state)
{
  const KitFoot foot = KIT_FOOT;
  PrJob *job = kit_styled (&foot, PR_FOOT_LF, "plain-front");
  g_auto (PrSeen) seen = { 0 };
  g_auto (PrComparison) c = { 0 };
  PrPracticeMeasured m = { 0 };
  double section = 0, heels = 0;

  kit_seen (job, PR_FACE_FOOT, 0.2, 150, 150, wide, &seen);
  assert_true (pr_compare (&c, job, &seen, PR_LAY_BEST, NULL));
  g_autoptr (JsonNode) node = pr_compare_json (&c, &seen, NULL);
  g_autofree char *json = pr_json_text (node, false);
  pr_practice_measured_read (&m, json);
  for (int i = 0; i < PR_N_WEBS; i++)
    section = fmax (section, fabs (c.size.web[i].seen - c.size.web[i].plan));
  for (int i = 0; i < 2; i++)
    heels = fmax (heels, fabs (c.size.heel_past[i].seen - c.size.heel_past[i].plan));
  NEAR (m.by[PR_MEASURED_SHAPE], fmax (c.sum[PR_SEEN_OUTER].p95, c.sum[PR_SEEN_INNER].p95), 1.1e-3);
  NEAR (m.by[PR_MEASURED_SECTION], section, 2.1e-3);
  NEAR (m.by[PR_MEASURED_HEELS], heels, 2.1e-3);
  assert_true (m.by[PR_MEASURED_SHAPE] > 1 && m.by[PR_MEASURED_SHAPE] < 2.1);
  pr_job_free (job);
  (void) state;
}

static void
a_run_reads_as_it_was_written (void **state)
{
  g_autoptr (PrPracticeClass) class = pr_practice_class_new ();

  pr_practice_class_add (class, "Shape", 10, PR_MEASURED_SHAPE);
  g_autoptr (PrPracticeRun) run = run_of (class, 661.25, 3, 1.5);
  run->measured.attempt = 12;
  run->measured.by[PR_MEASURED_SHAPE] = 1.25;
  run->leftover = 31.5;
  run->note = (g_free (run->note), g_strdup ("cold \"wind\"\nfrom the east"));
  g_ptr_array_add (run->steps, g_strdup ("cut the bar"));
  g_array_index (run->scores, PrPracticeScore, 0) = (PrPracticeScore){ 7.5, true };
  g_autofree char *text = pr_practice_run_text (run);
  g_autoptr (PrPracticeRun) again = pr_practice_run_read (text, NULL);
  assert_non_null (again);
  g_autofree char *twice = pr_practice_run_text (again);
  assert_string_equal (text, twice);
  NEAR (pr_practice_seconds (again), 661.25, 1e-9);
  assert_int_equal (pr_practice_heats (again), 3);
  assert_string_equal (again->steps->pdata[0], "cut the bar");
  NEAR (again->measured.by[PR_MEASURED_SHAPE], 1.25, 1e-9);
  assert_true (g_array_index (again->scores, PrPracticeScore, 0).measured);
  (void) state;
}

/* Whatever a stranger writes is read as a run that can be. */
static void
strange_records_are_bounded (void **state)
{
  static const char *const records[] = {
    "{}",
    "[]",
    "null",
    "{\"pressed\":[{\"kind\":\"heat\"},{\"kind\":\"stop\"},7,null]}",
    "{\"pressed\":[{\"kind\":\"start\",\"mono_us\":1e300},{\"kind\":\"start\"},{\"kind\":\"stop\",\"wall_"
    "us\":8.9e15,"
    "\"start\":\"x\"},{\"kind\":\"heat\"}],\"told_minutes\":-1,\"leftover_mm\":1e9,\"scores\":[{\"value\":99}"
    "]}",
    "{\"class\":{\"seconds\":1e12,\"heats\":-5,\"shoes\":0,\"criteria\":[{\"name\":\"\"},{\"name\":\"a\","
    "\"weight\":99}]},"
    "\"scores\":[{\"value\":11},{\"value\":3}],\"steps\":[1,{},\"turn\"]}",
  };

  for (size_t i = 0; i < G_N_ELEMENTS (records); i++) {
    g_autoptr (PrPracticeRun) run = pr_practice_run_read (records[i], NULL);

    assert_non_null (run);
    assert_int_equal (run->scores->len, run->as->criteria->len);
    assert_true (pr_practice_seconds (run) >= 0 && pr_practice_seconds (run) <= 6000 * 60);
    assert_true (run->leftover == 0 && run->told_minutes == 0);
    assert_true (run->as->shoes >= 1 && run->as->heats >= 0 && run->as->seconds <= 6000 * 60);
    assert_true (pr_practice_score (run, NULL) <= 10);
    assert_true (run->pressed->len == 0
                 || g_array_index (run->pressed, PrPressed, 0).kind == PR_PRESSED_START);
  }
  assert_null (pr_practice_run_read ("{", NULL));
  (void) state;
}

static void
the_table_is_read_back (void **state)
{
  g_autoptr (PrPracticeClass) class = pr_practice_class_new ();
  g_autoptr (GPtrArray) runs = season ();

  class->seconds = 720;
  g_free (class->name);
  class->name = g_strdup ("Two, \"quick\"");
  g_ptr_array_add (runs, run_of (class, 700.5, 4, 1.25));
  PrPracticeRun *run = runs->pdata[0];
  run->started = (g_free (run->started), g_strdup ("2026-11-30T14:05:09"));
  run->note = (g_free (run->note), g_strdup ("one\ntwo"));
  g_autofree char *csv = pr_season_csv (runs);
  assert_string_equal (
      csv, "started,class,seconds,time_s,heats,heats_allowed,off_mm,score,leftover_mm,state,judge,note\r\n"
           "\"2026-11-30T14:05:09\",\"Two, \"\"quick\"\"\",700.5,720,4,,1.25,,,done,\"\",\"one\ntwo\"\r\n");
  (void) state;
}

/* Times and heats: a trade journal. */
static void
the_shipped_classes_are_sound (void **state)
{
  g_autoptr (GPtrArray) classes = pr_practice_shipped ();
  static const struct {
    int seconds, shoes, heats;
  } wanted[] = { { 720, 1, 0 }, { 3600, 2, 0 }, { 4200, 2, 0 }, { 0, 1, 4 } };

  assert_int_equal (classes->len, G_N_ELEMENTS (wanted));
  for (guint i = 0; i < classes->len; i++) {
    const PrPracticeClass *class = classes->pdata[i];
    int weights = 0;

    assert_int_equal (class->seconds, wanted[i].seconds);
    assert_int_equal (class->shoes, wanted[i].shoes);
    assert_int_equal (class->heats, wanted[i].heats);
    assert_string_equal (class->source, "a trade journal");
    assert_true (*class->name && *class->make && *class->code);
    assert_int_equal (class->criteria->len, 11);
    for (guint c = 0; c < class->criteria->len; c++)
      weights += g_array_index (class->criteria, PrPracticeCriterion, c).weight;
    assert_true (weights > 0);
  }
  (void) state;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_line_is_its_own_trend),
    cmocka_unit_test (wild_runs_do_not_turn_it),
    cmocka_unit_test (what_is_broken_off_counts_for_nothing),
    cmocka_unit_test (what_came_to_no_shoe_counts_for_nothing),
    cmocka_unit_test (a_score_is_a_weighted_mean),
    cmocka_unit_test (what_is_measured_fills_in),
    cmocka_unit_test (a_real_comparison_is_read),
    cmocka_unit_test (a_run_reads_as_it_was_written),
    cmocka_unit_test (strange_records_are_bounded),
    cmocka_unit_test (the_table_is_read_back),
    cmocka_unit_test (the_shipped_classes_are_sound),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
