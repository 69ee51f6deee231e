/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The straight bar: its words, its shades, and that it is one drawing on a page and on a strip. */
#include "paper-kit.h"

#include "pr-bar-part.h"
#include "pr-bar.h"
#include "pr-flags.h"
#include "pr-strain.h"

#include <math.h>

#define STRIP_PX 1240.0

static PrBarLook
strip_look (const PrJob *job, const PrInk *ink)
{
  return (PrBarLook){
    .ink = ink, .text = 12, .scale = STRIP_PX / pr_bar_shown (job), .thick = 30, .beyond = 16, .rows = 2
  };
}

/* --- words --- */

/* Marks anywhere, also many in one place: no word lies over another or over a leader, leaders stay
 * apart and keep their order, however few the rows. */
static void
test_words_never_overlap (void **state)
{
  GRand *chance = g_rand_new_with_seed (77);

  (void) state;
  for (int round = 0; round < 400; round++) {
    g_autoptr (GArray) flags = pr_flags_new ();
    int n = g_rand_int_range (chance, 1, 30);

    for (int i = 0; i < n; i++) {
      double at = g_rand_double_range (chance, 0, 200);
      PrFlag flag
          = { .foot = i % 3 == 0 ? floor (at / 25) * 25 : at, .width = g_rand_double_range (chance, 4, 30) };
      g_array_append_val (flags, flag);
    }
    int most = round % 4, rows = pr_flags_lay (flags, -9, 209, most);
    const PrFlag *all = (const PrFlag *) (const void *) flags->data;
    double last = -INFINITY;
    for (int i = 0; i < n; i++) {
      if (all[i].row < 0) {
        assert_true (most > 0);
        continue;
      }
      assert_true (all[i].row < rows && (most == 0 || rows <= most));
      assert_true (all[i].head >= all[i].left - 1e-9 && all[i].head <= all[i].left + all[i].width + 1e-9);
      assert_true (all[i].head - last >= PR_FLAG_APART - 1e-9);
      last = all[i].head;
      for (int k = 0; k < n; k++) {
        double from = all[k].left, to = all[k].left + all[k].width;

        if (k == i || all[k].row < 0)
          continue;
        /* leader i passes all rows below its own */
        if (all[i].row > all[k].row)
          assert_false (all[i].head > from && all[i].head < to);
        if (all[i].row == all[k].row)
          assert_false (all[i].left < to && all[i].left + all[i].width > from);
      }
    }
  }
  g_rand_free (chance);
}

static PrFlag
flag_at (double foot, double width, bool bold)
{
  return (PrFlag){ .foot = foot, .width = width, .bold = bold };
}

/* In one row: the wide word makes room for the narrow ones, and nothing for the bold one. */
static void
test_words_left_out (void **state)
{
  g_autoptr (GArray) flags = pr_flags_new ();
  const PrFlag given[] = { flag_at (10, 4, false), flag_at (13, 30, false), flag_at (20, 4, false),
                           flag_at (50, 20, true), flag_at (53, 4, false) };

  (void) state;
  g_array_append_vals (flags, given, G_N_ELEMENTS (given));
  assert_int_equal (pr_flags_lay (flags, 0, 100, 1), 1);
  const PrFlag *all = (const PrFlag *) (const void *) flags->data;
  assert_int_equal (all[0].row, 0);
  assert_int_equal (all[1].row, -1);
  assert_int_equal (all[2].row, 0);
  assert_int_equal (all[3].row, 0);
}

/* --- shades --- */

/* Relative luminance, WCAG 2.1. */
static double
luminance (PrColour c)
{
  const double part[3] = { c.r, c.g, c.b }, weight[3] = { 0.2126, 0.7152, 0.0722 };
  double sum = 0;

  for (int i = 0; i < 3; i++)
    sum += weight[i] * (part[i] <= 0.03928 ? part[i] / 12.92 : pow ((part[i] + 0.055) / 1.055, 2.4));
  return sum;
}

static double
contrast (PrColour a, PrColour b)
{
  double p = luminance (a), q = luminance (b);

  return (fmax (p, q) + 0.05) / (fmin (p, q) + 0.05);
}

static void
test_words_are_read_on_every_shade (void **state)
{
  const PrInk *inks[2] = { &pr_ink_light, &pr_ink_dark };

  (void) state;
  for (int i = 0; i < 2; i++)
    for (int level = -PR_STRAIN_LEVELS; level <= PR_STRAIN_LEVELS; level++)
      assert_true (contrast (inks[i]->text, pr_strain_colour (inks[i], level)) >= 4.5);
}

/* Steps never go back, the ends are the full colours, and within rolling the bar is steel. */
static void
test_shades_are_steps (void **state)
{
  int last = -PR_STRAIN_LEVELS;

  (void) state;
  for (double e = -1; e <= 1; e += 0.001) {
    int level = pr_strain_level (e);

    assert_true (level >= last && level <= PR_STRAIN_LEVELS);
    assert_int_equal (pr_strain_sign (e), (level > 0) - (level < 0));
    last = level;
  }
  assert_int_equal (pr_strain_level (PR_STRAIN_NEUTRAL), 0);
  assert_int_equal (pr_strain_level (PR_STRAIN_FULL), PR_STRAIN_LEVELS);
  assert_int_equal (pr_strain_level (-PR_STRAIN_FULL), -PR_STRAIN_LEVELS);
}

/* The bar's middle as drawn: WIDTH pixels, one for each place along it. */
static KitPicture
middle_row (const PrJob *job, const PrBarLook *look, double x, double middle, int width)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, 1);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_translate (cr, -x, -middle);
  pr_draw_bar_ink (cr, job, look, NULL);
  cairo_destroy (cr);
  KitPicture picture = kit_surface (surface);
  cairo_surface_destroy (surface);
  return picture;
}

/* Page and strip, pixel for pixel: at one place of the bar both show the shade of its strain. Words
 * and marks lie over it here and there, so nearly all must agree, and one wrong step shows. */
static void
test_one_shade_on_page_and_strip (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 0);
  PrBarLook strip = strip_look (job, &pr_ink_light), page = PR_BAR_LOOK_PAPER;
  PrBarPart whole = pr_bar_part_whole (job, 0);
  double height, end = job->iron.piece[0].length;
  int agree = 0, n = (int) (end * strip.scale);

  (void) state;
  page.text *= strip.scale; /* the page enlarged until a mm of it is one of the strip */
  page.scale = strip.scale;
  page.beyond *= strip.scale;
  height = pr_bar_part (NULL, job, job->unit, &page, &whole);
  KitPicture a = middle_row (job, &strip, 0, pr_bar_top (&strip) + 4, n);
  pr_draw_bar_ink (NULL, job, &page, &height);
  for (double y = 0; y < height && agree * 10 < n * 8; y += 3) {
    KitPicture b = middle_row (job, &page, 0, y, n);

    agree = 0;
    for (int i = 0; i < n; i++)
      agree += memcmp (a.rgb + 3 * i, b.rgb + 3 * i, 3) == 0;
    kit_picture_clear (&b);
  }
  assert_true (agree * 10 >= n * 8);
  kit_picture_clear (&a);
}

/* Only a mark for the punch is drawn on the bar; the others leave it as it is. On light ground and on dark. */
static void
test_punch_marks_are_told_apart (void **state)
{
  const PrInk *inks[2] = { &pr_ink_light, &pr_ink_dark };

  (void) state;
  for (int k = 0; k < 2; k++) {
    g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "toe-extension-clipped", 1, 0);
    PrBarLook look = strip_look (job, inks[k]);
    const PrPiece *piece = &job->iron.piece[0];
    int n = (int) (piece->length * look.scale), punched = 0;
    /* off the middle, where the shades have their words */
    KitPicture row = middle_row (job, &look, 0, pr_bar_top (&look) + look.thick * 0.8, n);

    for (size_t i = 0; i < piece->n_marks; i++) {
      const PrMark *mark = &piece->mark[i];
      int x = (int) (mark->from_end * look.scale);
      double ink = contrast (inks[k]->text, pr_strain_colour (inks[k], 0)), seen = 0;

      if (x < 4 || x > n - 5 || (!mark->punch && g_str_has_prefix (mark->id, "crease.from")))
        continue; /* the ends are lines of the bar; these creases begin at the extension's mark */
      for (int d = -2; d <= 2; d++)
        seen = fmax (seen, abs (kit_grey (&row, x + d, 0) - kit_grey (&row, x + 4, 0)));
      assert_true (ink > 4 && (mark->punch ? seen > 80 : seen < 40));
      punched += mark->punch;
    }
    assert_int_equal (punched, 3);
    kit_picture_clear (&row);
  }
}

/* --- room --- */

/* The same height is found with and without a context, on paper and on a strip. */
static void
test_height (void **state)
{
  static const char *const styles[] = { "quarter-clipped", "toe-extension", "straight-bar", "heart-bar" };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 800, 200);
  cairo_t *cr = cairo_create (surface);

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (styles); i++) {
    g_autoptr (PrJob) job = paper_job (PR_FOOT_RF, styles[i], 1, 330);
    const PrBarLook look[2] = { PR_BAR_LOOK_PAPER, strip_look (job, &pr_ink_dark) };

    for (int k = 0; k < 2; k++) {
      double drawn, found;

      pr_draw_bar_ink (cr, job, &look[k], &drawn);
      pr_draw_bar_ink (NULL, job, &look[k], &found);
      assert_true (drawn == found);
      assert_true (drawn > (k == 0 ? job->sources.plan.stock_width : look[k].thick));
    }
  }
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

/* Under the pointer a strip must not jump: its height is the same whatever its words are. */
static void
test_strip_keeps_its_height (void **state)
{
  g_autoptr (PrJob) few = paper_job (PR_FOOT_RF, "plain-front", 1, 0);
  g_autoptr (PrJob) many = paper_job (PR_FOOT_RF, "quarter-clipped", 1, 400);
  PrBarLook a = strip_look (few, &pr_ink_light), b = strip_look (many, &pr_ink_light);
  double high[2];

  (void) state;
  pr_draw_bar_ink (NULL, few, &a, &high[0]);
  pr_draw_bar_ink (NULL, many, &b, &high[1]);
  assert_true (high[0] == high[1]);
  assert_true (pr_bar_top (&a) == pr_bar_top (&b));
  assert_true (2 * pr_bar_top (&a) + a.thick <= high[0] + a.text);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_words_never_overlap),           cmocka_unit_test (test_words_left_out),
    cmocka_unit_test (test_words_are_read_on_every_shade), cmocka_unit_test (test_shades_are_steps),
    cmocka_unit_test (test_one_shade_on_page_and_strip),   cmocka_unit_test (test_height),
    cmocka_unit_test (test_punch_marks_are_told_apart),    cmocka_unit_test (test_strip_keeps_its_height),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
