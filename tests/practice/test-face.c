/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The face of the clock: what it says at each moment of a run, that it is told without colour, and that it is read at four metres. */
#include "kit.h"
#include "machine.h"
#include "pr-practice-draw.h"

#include <math.h>
#include <string.h>

#define S ((gint64) G_USEC_PER_SEC)
#define WIDTH 1280
#define SCREEN_HEIGHT 720

static const PrFaceColours plain = { .ground = { 1, 1, 1 } }; /* all else is black */

static PrPracticeRun *
run_of (int seconds, int heats, Machine *m)
{
  g_autoptr (PrPracticeClass) class = pr_practice_class_new ();

  class->seconds = seconds;
  class->heats = heats;
  PrPracticeRun *run = pr_practice_run_new (class);
  machine_on (m);
  pr_practice_press (run, PR_PRESSED_START, &m->now);
  return run;
}

/* --- what it says --- */

static void
check (const PrPracticeRun *run, const Machine *m, const char *word, const char *figures, bool over)
{
  g_auto (PrPracticeFace) face = { 0 };

  pr_practice_face_tell (&face, run, &m->now);
  assert_string_equal (face.word, word);
  assert_string_equal (face.figures, figures);
  assert_int_equal (face.over, over);
}

static void
the_time_is_told_to_the_second (void **state)
{
  Machine m;
  g_autoptr (PrPracticeRun) run = run_of (720, 0, &m);

  check (run, &m, "left", "12:00", false);
  machine_wait (&m, S / 2);
  check (run, &m, "left", "12:00", false);
  machine_wait (&m, S / 2);
  check (run, &m, "left", "11:59", false);
  machine_sleep (&m, 700 * S);
  check (run, &m, "left", "0:19", false);
  machine_wait (&m, 19 * S);
  check (run, &m, "left", "0:00", false);
  machine_wait (&m, S);
  check (run, &m, "over time", "+0:01", true);
  machine_wait (&m, 3 * 3600 * S);
  check (run, &m, "over time", "+180:01", true);
  (void) state;
}

static void
heats_are_told (void **state)
{
  Machine m;
  g_autoptr (PrPracticeRun) run = run_of (0, 2, &m);
  static const char *const told[] = { "no heat yet", "heat 1 of 2", "heat 2 of 2", "heat 3 of 2" };

  machine_wait (&m, 65 * S);
  for (size_t i = 0; i < G_N_ELEMENTS (told); i++) {
    g_auto (PrPracticeFace) face = { 0 };

    pr_practice_face_tell (&face, run, &m.now);
    assert_string_equal (face.heat, told[i]);
    assert_int_equal (face.over, i == 3);
    assert_string_equal (face.figures, "1:05");
    assert_string_equal (face.word, "gone");
    pr_practice_press (run, PR_PRESSED_HEAT, &m.now);
  }
  (void) state;
}

/* Another text once a minute, and when something is pressed. */
static void
it_is_spoken_once_a_minute (void **state)
{
  Machine m;
  g_autoptr (PrPracticeRun) run = run_of (180, 0, &m);
  g_autofree char *was = g_strdup ("");
  int changes = 0;

  for (int s = 0; s <= 300; s++) {
    g_autofree char *now = pr_practice_spoken (run, &m.now);

    changes += strcmp (was, now) != 0;
    g_free (was);
    was = g_steal_pointer (&now);
    machine_wait (&m, S);
  }
  /* 3, 2, 1, 0 left; over by 0, by 1, and by 2 in the last second of it */
  assert_int_equal (changes, 4 + 3);
  (void) state;
}

/* --- how it looks --- */

static cairo_surface_t *
drawn (const PrPracticeFace *face, int width, int height, const PrFaceColours *colours)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (surface);

  pr_practice_face_draw (cr, face, width, height, colours);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static bool
is_inked (cairo_surface_t *surface, int x, int y)
{
  const guint8 *row = cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface);

  return row[4 * x] < 128;
}

/* Rows with ink from FROM to TO, from the first to the last. */
static int
ink_height (cairo_surface_t *surface, double from, double to)
{
  int first = -1, last = -1;

  for (int y = (int) from; y < (int) to; y++)
    for (int x = 0; x < cairo_image_surface_get_width (surface); x++)
      if (is_inked (surface, x, y)) {
        first = first < 0 ? y : first;
        last = y;
      }
  return first < 0 ? 0 : last - first + 1;
}

/* Of a screen of 16 : 9 with so many inches across its corners. */
static double
px_per_mm (double inches)
{
  return WIDTH / (inches * 25.4 * 16 / hypot (16, 9));
}

/* The rule in both its forms; word, figures and heat as they are really drawn. */
static void
it_is_read_at_four_metres (void **state)
{
  double wanted = pr_practice_letter_mm (PR_FACE_METRES, PR_FACE_ARC_MINUTES);
  g_auto (PrPracticeFace) face = { .word = g_strdup ("HIE"),
                                   .figures = g_strdup ("11:26"),
                                   .heat = g_strdup ("HI 3"),
                                   .step = g_strdup (""),
                                   .gone = 0.5 };
  PrFaceLayout lay;

  NEAR (wanted, 25.6, 0.05);           /* 8000 tan 11' */
  assert_true (wanted > 4000.0 / 200); /* the older rule asks for less */
  pr_practice_face_lay (&lay, WIDTH, PR_FACE_LEAST_PX);
  cairo_surface_t *surface = drawn (&face, WIDTH, PR_FACE_LEAST_PX, &plain);
  for (double inches = 13; inches <= 14; inches++) {
    double least = wanted * px_per_mm (inches);
    double middle_1 = (lay.word_y + lay.word + lay.figures_y) / 2;
    double middle_2 = (lay.figures_y + lay.figures + lay.heat_y) / 2;

    assert_true (ink_height (surface, lay.bar_y + lay.bar + 2, middle_1) >= least);
    assert_true (ink_height (surface, middle_1, middle_2) >= 1.8 * least);
    assert_true (ink_height (surface, middle_2, lay.step_y) >= least);
  }
  cairo_surface_destroy (surface);
  (void) state;
}

/* Letters that hang below their line reach neither what stands below it nor the edge; a short step is as large as the line allows. */
static void
nothing_runs_into_another (void **state)
{
  g_auto (PrPracticeFace) face = { .word = g_strdup (""),
                                   .figures = g_strdup (""),
                                   .heat = g_strdup ("gyp"),
                                   .step = g_strdup (""),
                                   .gone = 0.5 };
  PrFaceLayout lay;

  pr_practice_face_lay (&lay, WIDTH, PR_FACE_LEAST_PX);
  cairo_surface_t *surface = drawn (&face, WIDTH, PR_FACE_LEAST_PX, &plain);
  assert_true (ink_height (surface, lay.heat_y, lay.step_y) > lay.heat);
  assert_int_equal (ink_height (surface, lay.step_y, PR_FACE_LEAST_PX), 0);
  cairo_surface_destroy (surface);
  g_free (face.step);
  face.step = g_strdup ("Step 1 of 2: HEAT");
  surface = drawn (&face, WIDTH, PR_FACE_LEAST_PX, &plain);
  assert_true (ink_height (surface, lay.step_y, PR_FACE_LEAST_PX) > 0.6 * lay.step);
  cairo_surface_destroy (surface);
  (void) state;
}

static int
differs (const PrPracticeFace *one, const PrPracticeFace *other)
{
  cairo_surface_t *a = drawn (one, WIDTH, PR_FACE_LEAST_PX, &plain);
  cairo_surface_t *b = drawn (other, WIDTH, PR_FACE_LEAST_PX, &plain);
  int n = 0;

  for (int y = 0; y < PR_FACE_LEAST_PX; y++)
    for (int x = 0; x < WIDTH; x++)
      n += is_inked (a, x, y) != is_inked (b, x, y);
  cairo_surface_destroy (a);
  cairo_surface_destroy (b);
  return n;
}

/* In black on white, with the same words: a frame and stripes tell that it is over. */
static void
over_time_has_a_shape (void **state)
{
  PrPracticeFace left = { (char *) "x", (char *) "0:10", (char *) "y", (char *) "", 0.999, false };
  PrPracticeFace over = { (char *) "x", (char *) "0:10", (char *) "y", (char *) "", 1.001, true };
  PrFaceLayout lay;
  double frame = 2 * 0.012 * PR_FACE_LEAST_PX * 2.0 * (WIDTH + PR_FACE_LEAST_PX);

  pr_practice_face_lay (&lay, WIDTH, PR_FACE_LEAST_PX);
  assert_true (differs (&left, &over) > frame * 0.9);
  over.over = false; /* the stripes alone: half of the bar */
  assert_true (differs (&left, &over) > 0.3 * WIDTH * lay.bar);
  assert_int_equal (differs (&left, &left), 0);
  (void) state;
}

/* Nothing is cut off, however long the words and the time are. */
static void
long_words_stay_inside (void **state)
{
  PrPracticeFace face = {
    (char *) "Zeit ist abgelaufen, und zwar lange",
    (char *) "+5999:59",
    (char *) "Erhitzung 999 von 1000",
    (char *) "A step that is told in a great many words, more than fit on one line of any screen that a "
             "smith has at his forge, and then some, so that it is cut at its end and no letter is lost",
    0.5,
    false
  };
  static const int sizes[][2] = { { WIDTH, SCREEN_HEIGHT }, { 640, 360 }, { 400, 700 }, { 1, 1 } };

  for (size_t i = 0; i < G_N_ELEMENTS (sizes); i++) {
    int width = sizes[i][0], height = sizes[i][1];
    cairo_surface_t *surface = drawn (&face, width, height, &plain);

    for (int y = 0; y < height && width > 1; y++)
      assert_false (is_inked (surface, 0, y) || is_inked (surface, width - 1, y));
    cairo_surface_destroy (surface);
  }
  (void) state;
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_time_is_told_to_the_second), cmocka_unit_test (heats_are_told),
    cmocka_unit_test (it_is_spoken_once_a_minute),     cmocka_unit_test (it_is_read_at_four_metres),
    cmocka_unit_test (over_time_has_a_shape),          cmocka_unit_test (long_words_stay_inside),
    cmocka_unit_test (nothing_runs_into_another),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
