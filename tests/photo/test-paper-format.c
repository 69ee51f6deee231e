/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A plain sheet told from its shape: what can be told is told, what cannot is never called good. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "flat.h"
#include "pr-trace.h"

typedef struct {
  double width, height;
} Sheet;

/* Paper on a dark bench with a broad grain. */
static double
shade (PrSheetPt p, gconstpointer data)
{
  const Sheet *s = data;

  if (p.x >= 0 && p.y >= 0 && p.x <= s->width && p.y <= s->height)
    return 236;
  return 92 + 9 * sin (p.x / 9) * cos (p.y / 23 + p.x / 40);
}

static PrPhoto *
photo_of (double width, double height, double tilt, double dir, double focal)
{
  Sheet sheet = { width, height };
  FlatView view = { .width = 1680,
                    .height = 2240,
                    .tilt = tilt,
                    .dir = dir,
                    .turn = 4,
                    .focal = focal,
                    .fill = 0.72 * 100 / fmax (width, height * 0.75),
                    .middle = { width / 2, height / 2 } };

  return flat_photo (&view, shade, &sheet);
}

/* Asked for as a plain sheet. */
static PrTracing *
scaled (const PrPhoto *photo, PrPaper paper)
{
  PrTraceOptions options = { .method = PR_SCALE_PLAIN, .paper = paper };

  return pr_trace_scale (photo, &options, NULL, NULL, NULL, NULL);
}

static const double views[][3] = {
  /* tilt, direction, focal length */
  { 0, 0, 0.77 }, { 15, 70, 0.7 }, { 28, 140, 0.85 }, { 40, 35, 0.77 }, { 40, 90, 0.72 },
};

static void
test_iso_untold_is_never_good (void **state)
{
  static const PrPaper iso[] = { PR_PAPER_A4, PR_PAPER_A3, PR_PAPER_A5 };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (views); i++) {
    g_autoptr (PrPhoto) photo = photo_of (210, 297, views[i][0], views[i][1], views[i][2]);
    g_autoptr (PrTracing) t = scaled (photo, PR_PAPER_UNKNOWN);
    if (t == NULL)
      continue;
    assert_int_equal (t->scale.paper, PR_PAPER_A4);
    assert_int_equal (t->scale.verdict, PR_VERDICT_USABLE);
    if (i == 0)
      assert_non_null (strstr (t->scale.why, "which A3, A5, B5 and C5 share"));
  }
  for (size_t i = 0; i < G_N_ELEMENTS (iso); i++) {
    double w, h;
    pr_paper_size (iso[i], &w, &h);
    g_autoptr (PrPhoto) photo = photo_of (w, h, 20, 70, 0.77);
    g_autoptr (PrTracing) t = scaled (photo, iso[i]);
    assert_non_null (t);
    assert_int_equal (t->scale.paper, iso[i]);
    assert_true (fabs (t->scale.width_mm - w) < 1e-9);
    assert_int_equal (t->scale.verdict, i == 1 ? PR_VERDICT_USABLE : PR_VERDICT_GOOD);
  }
}

/* Letter has a shape of its own among papers, but not among leaves: it is found and asked for. */
static void
test_letter_untold_is_asked_for (void **state)
{
  int found = 0;

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (views); i++) {
    g_autoptr (PrPhoto) photo = photo_of (215.9, 279.4, views[i][0], views[i][1], 0.77);
    g_autoptr (PrTracing) t = scaled (photo, PR_PAPER_UNKNOWN);
    if (t == NULL)
      continue;
    print_message ("letter %g %g: %s %s %s\n", views[i][0], views[i][1], pr_paper_name (t->scale.paper),
                   pr_verdict_code (t->scale.verdict), t->scale.why);
    assert_int_equal (t->scale.paper, PR_PAPER_LETTER);
    assert_int_equal (t->scale.verdict, PR_VERDICT_USABLE);
    assert_non_null (strstr (t->scale.why, "say which paper it is"));
    found++;
  }
  assert_true (found >= 2);
  g_autoptr (PrPhoto) photo = photo_of (215.9, 279.4, 15, 70, 0.77);
  g_autoptr (PrTracing) told = scaled (photo, PR_PAPER_LETTER);
  assert_non_null (told);
  assert_int_equal (told->scale.verdict, PR_VERDICT_GOOD);
}

/* Given Letter, a leaf whose shape is 3 % off is measured and doubted, one of 8 % refused. */
static void
test_given_but_not_quite (void **state)
{
  (void) state;
  for (int k = 0; k < 2; k++) {
    g_autoptr (PrPhoto) photo = photo_of (210, k ? 297 : 279.4, 0, 0, 0.77);
    g_autoptr (PrTracing) t = scaled (photo, PR_PAPER_LETTER);
    if (k) {
      assert_null (t);
      continue;
    }
    assert_non_null (t);
    assert_int_equal (t->scale.verdict, PR_VERDICT_USABLE);
    assert_non_null (strstr (t->scale.why, "not quite that of the paper you gave"));
  }
}

/* Unasked, when no fiducials are found, it comes to the same. */
static void
test_unasked (void **state)
{
  const PrTraceOptions usual = PR_TRACE_OPTIONS_DEFAULT;

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (views); i += 2) {
    g_autoptr (PrPhoto) photo = photo_of (210, 297, views[i][0], views[i][1], views[i][2]);
    g_autoptr (PrTracing) told = scaled (photo, PR_PAPER_UNKNOWN);
    g_autoptr (PrTracing) unasked = pr_trace_scale (photo, &usual, NULL, NULL, NULL, NULL);
    assert_int_equal (told == NULL, unasked == NULL);
    if (told == NULL)
      continue;
    assert_int_equal (unasked->scale.method, PR_SCALE_PLAIN);
    assert_int_equal (unasked->scale.paper, told->scale.paper);
    assert_int_equal (unasked->scale.verdict, told->scale.verdict);
    assert_string_equal (unasked->scale.why, told->scale.why);
  }
}

/* Square on, a leaf further off than any paper is cut is refused. */
static void
test_no_paper_is_refused_square_on (void **state)
{
  g_autoptr (PrPhoto) photo = photo_of (190, 300, 0, 0, 0.77);
  g_autoptr (PrTracing) t = scaled (photo, PR_PAPER_UNKNOWN);

  (void) state;
  assert_null (t);
}

/* A board, a book, a photograph, a window pane; a leaf as near to Letter as 0.5 %, others near it
 * and near Tabloid. */
static void
test_no_paper_is_never_good (void **state)
{
  static const Sheet other[] = { { 200, 200 }, { 200, 250 }, { 210, 280 }, { 200, 300 },
                                 { 160, 320 }, { 200, 260 }, { 230, 300 }, { 190, 300 } };

  (void) state;
  for (size_t k = 0; k < G_N_ELEMENTS (other); k++)
    for (size_t i = 0; i < G_N_ELEMENTS (views); i++) {
      g_autoptr (PrPhoto) photo
          = photo_of (other[k].width, other[k].height, views[i][0], views[i][1], views[i][2]);
      g_autoptr (PrTracing) t = scaled (photo, PR_PAPER_UNKNOWN);
      print_message ("%g x %g at %g: %s\n", other[k].width, other[k].height, views[i][0],
                     t == NULL ? "refused" : pr_verdict_code (t->scale.verdict));
      if (t != NULL)
        assert_true (t->scale.verdict != PR_VERDICT_GOOD);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_iso_untold_is_never_good),      cmocka_unit_test (test_letter_untold_is_asked_for),
    cmocka_unit_test (test_given_but_not_quite),           cmocka_unit_test (test_unasked),
    cmocka_unit_test (test_no_paper_is_refused_square_on), cmocka_unit_test (test_no_paper_is_never_good),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
