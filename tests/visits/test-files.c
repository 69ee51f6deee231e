/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is drawn and written of visits: the gap's colour by its sign, the growth's band only where it belongs, comma separated
 * values that come back as they were, pages that are all there. With PRITCHEL_PICTURES set, files to look at. */
#include <stdlib.h>
#include <string.h>

#include "pr-visit-plot.h"
#include "pr-visit-text.h"
#include "pr-visit-write.h"
#include "visit-kit.h"

#define PX_PER_MM 4.0

static Drawn
drawn_of (const SceneFoot *foot, double toe)
{
  return (Drawn){
    .foot = foot, .as = foot->foot, .growth = { .toe = toe }, .at = { 105, 150 }, .frog = true, .toe = true
  };
}

/* N visits six weeks apart, the toe ahead of the apex as long as it is told; NAN: not told. */
static void
make_table (PrVisitTable *table, const double *toe, guint n)
{
  table->foot = PR_FOOT_RF;
  table->row = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < n; i++) {
    PrVisitFigures *row = g_new0 (PrVisitFigures, 1);
    g_autoptr (GDateTime) first = g_date_time_new_utc (2025, 1, 7, 0, 0, 0);
    g_autoptr (GDateTime) day = g_date_time_add_days (first, 42 * (int) i);

    row->date = g_date_time_format (day, "%Y-%m-%d");
    row->day = pr_visit_day (row->date);
    for (PrVisitMeasure m = 0; m < PR_N_VISIT_MEASURES; m++)
      row->mm[m] = 60 + 7.125 * m + 0.25 * (i % 3);
    row->mm[PR_VISIT_APEX_TO_TOE] = toe[i];
    g_ptr_array_add (table->row, row);
  }
}

static void
table_clear (PrVisitTable *table)
{
  for (guint i = 0; i < table->row->len; i++)
    g_free (((PrVisitFigures *) g_ptr_array_index (table->row, i))->date);
  pr_visit_table_clear (table);
}

static void
keep_picture (const char *name, const GByteArray *bytes)
{
  const char *folder = g_getenv ("PRITCHEL_PICTURES");

  if (folder) {
    g_autofree char *file = g_build_filename (folder, name, NULL);
    assert_true (g_file_set_contents (file, (const char *) bytes->data, bytes->len, NULL));
  }
}

/* --- a picture in memory ------------------------------------------------------------------- */

typedef struct {
  cairo_surface_t *surface;
  cairo_t *cr;
} Sheet;

static Sheet
sheet_new (double width, double height)
{
  Sheet s;

  s.surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) (width * PX_PER_MM),
                                          (int) (height * PX_PER_MM));
  s.cr = cairo_create (s.surface);
  cairo_set_source_rgb (s.cr, 1, 1, 1);
  cairo_paint (s.cr);
  cairo_scale (s.cr, PX_PER_MM, PX_PER_MM);
  return s;
}

static void
sheet_free (Sheet *s)
{
  cairo_destroy (s->cr);
  cairo_surface_destroy (s->surface);
}

static guint32
pixel (const Sheet *s, double x, double y)
{
  cairo_surface_flush (s->surface);
  const guint32 *row = (const void *) (cairo_image_surface_get_data (s->surface)
                                       + (int) (y * PX_PER_MM) * cairo_image_surface_get_stride (s->surface));
  return row[(int) (x * PX_PER_MM)] & 0xffffff;
}

static guint32
shade_of (PrColour c)
{
  return (guint32) lround (c.r * 255) << 16 | (guint32) lround (c.g * 255) << 8
         | (guint32) lround (c.b * 255);
}

/* The same but for how they were rounded. */
static bool
is_alike (guint32 a, guint32 b)
{
  for (int k = 0; k < 24; k += 8)
    if (abs ((int) (a >> k & 255) - (int) (b >> k & 255)) > 1)
      return false;
  return true;
}

/* How many pixels of S have COLOUR. */
static int
count (const Sheet *s, guint32 colour)
{
  int n = 0, w = cairo_image_surface_get_width (s->surface), h = cairo_image_surface_get_height (s->surface);

  for (int y = 0; y < h; y++)
    for (int x = 0; x < w; x++)
      n += is_alike (pixel (s, (x + 0.5) / PX_PER_MM, (y + 0.5) / PX_PER_MM), colour);
  return n;
}

/* --- the gap ------------------------------------------------------------------------------- */

/* The whole of a toe that grew or was taken back by 6 mm: the last step of either colour ahead of the toe. */
static void
colours_the_gap_by_its_sign (void **state)
{
  size_t n;
  const SceneFoot *feet = scene_feet (&n);

  (void) state;
  for (int grown = 0; grown < 2; grown++) {
    g_auto (PrVisitChange) change = { 0 };
    const Drawn long_ = drawn_of (&feet[9], 6), short_ = drawn_of (&feet[9], 0);
    g_autoptr (PrJob) before = visit_job (grown ? &short_ : &long_),
                      now = visit_job (grown ? &long_ : &short_);
    const PrVisitLook look = { PR_FORGED_LOOK_PAPER (PR_UNIT_MM), PR_FACE_FOOT, false, 3.8 };
    Sheet sheet = sheet_new (200, 200);

    assert_true (pr_visit_change (&change, now, before, PR_VISIT_FROG, NULL));
    pr_draw_enter_foot (sheet.cr, now->sources.foot, PR_FACE_FOOT, 100, 100);
    pr_draw_visit (sheet.cr, now, &change, &look);
    int more = count (&sheet, shade_of (pr_ink_light.draw)),
        less = count (&sheet, shade_of (pr_ink_light.upset));
    assert_true (grown ? more > 500 && less == 0 : less > 500 && more == 0);
    sheet_free (&sheet);
  }
}

/* --- the plot ------------------------------------------------------------------------------ */

static int
band_of (const PrVisitTable *table, PrVisitMeasure measure)
{
  const PrVisitPlotLook look = { &pr_ink_light, PR_UNIT_MM, 3.3, 0.25 };
  Sheet sheet = sheet_new (180, 90);
  PrColour band = pr_ink_mix (pr_ink_light.ground, pr_ink_light.upset, 0.35);

  pr_visit_plot_draw (sheet.cr, table, measure, &look, 180, 90);
  int n = count (&sheet, shade_of (band));
  sheet_free (&sheet);
  return n;
}

static void
shows_growth_of_the_toe_alone (void **state)
{
  const double toe[4] = { 48, 49, NAN, 47.5 };
  PrVisitTable table = { 0 };

  (void) state;
  make_table (&table, toe, 4);
  for (PrVisitMeasure m = 0; m < PR_N_VISIT_MEASURES; m++) {
    g_autofree char *words = pr_visit_band_words (m, PR_UNIT_MM);

    assert_int_equal (band_of (&table, m) > 1000, m == PR_VISIT_APEX_TO_TOE);
    assert_int_equal (words != NULL, m == PR_VISIT_APEX_TO_TOE);
    assert_true (!words
                 || (strstr (words, "6 mm") && strstr (words, "9 mm") && strstr (words, "trade pages")));
  }
  table_clear (&table);
}

/* Nothing to draw, one visit, visits of one day, one whose day is none: each is drawn. */
static void
draws_what_little_there_is (void **state)
{
  const double toe[3] = { 48, 49, 50 };

  (void) state;
  for (guint n = 0; n <= 3; n++) {
    PrVisitTable table = { 0 };

    make_table (&table, toe, n);
    for (guint i = 0; i < n; i++)
      ((PrVisitFigures *) g_ptr_array_index (table.row, i))->day = i == 2 ? 0 : 739000;
    assert_int_equal (band_of (&table, PR_VISIT_APEX_TO_TOE) > 0, n > 0);
    band_of (&table, PR_VISIT_WIDTH);
    table_clear (&table);
  }
}

/* --- files --------------------------------------------------------------------------------- */

static void
writes_values_that_come_back (void **state)
{
  const double toe[5] = { 48.26, NAN, 49, 50.5, 47 };
  PrVisitTable table = { 0 };

  (void) state;
  make_table (&table, toe, 5);
  g_autofree char *text = pr_visit_csv (&table);
  g_auto (GStrv) line = g_strsplit (text, "\r\n", -1);
  assert_int_equal (g_strv_length (line), 7); /* the head, five visits, nothing behind the last */
  assert_true (g_str_has_prefix (line[0], "date,foot,length_mm,width_mm,"));
  for (int i = 0; i < 5; i++) {
    const PrVisitFigures *row = g_ptr_array_index (table.row, i);
    g_auto (GStrv) field = g_strsplit (line[1 + i], ",", -1);

    assert_int_equal (g_strv_length (field), 2 + PR_N_VISIT_MEASURES);
    assert_string_equal (field[0], row->date);
    assert_string_equal (field[1], "RF");
    for (PrVisitMeasure m = 0; m < PR_N_VISIT_MEASURES; m++)
      if (isfinite (row->mm[m]))
        NEAR (g_ascii_strtod (field[2 + m], NULL), row->mm[m], 0.0051);
      else
        assert_string_equal (field[2 + m], "");
  }
  table_clear (&table);
}

static void
writes_all_visits (void **state)
{
  double toe[70];
  PrVisitTable table = { 0 };

  (void) state;
  for (int i = 0; i < 70; i++)
    toe[i] = 47 + 3 * sin (i);
  make_table (&table, toe, 70);
  const PrVisitPages pages = { &table, PR_VISIT_APEX_TO_TOE, "Pipwick", PR_UNIT_MM, false };
  g_autoptr (GByteArray) pdf = g_byte_array_new (), png = g_byte_array_new ();
  assert_int_equal (pr_visit_pages_count (&pages), 3);
  assert_true (pr_visit_pages_pdf (&pages, pdf, NULL));
  assert_true (pr_visit_pages_png (&pages, png, NULL));
  assert_memory_equal (pdf->data, "%PDF-", 5);
  assert_memory_equal (png->data, "\x89PNG", 4);
  keep_picture ("visits-over-time.pdf", pdf);
  keep_picture ("visits-over-time.png", png);
  table_clear (&table);
}

static void
writes_one_on_the_other (void **state)
{
  size_t n;
  const SceneFoot *feet = scene_feet (&n);

  (void) state;
  for (size_t i = 0; i < n; i += 6) {
    g_auto (PrVisitChange) change = { 0 };
    Drawn a = drawn_of (&feet[i], 0), b = drawn_of (&feet[i], 4);
    b.growth.even = -1;
    g_autoptr (PrJob) before = visit_job (&a), now = visit_job (&b);
    g_autoptr (GByteArray) pdf = g_byte_array_new (), png = g_byte_array_new ();
    g_autofree char *name = g_strdup_printf ("visit-on-visit-%s.png", feet[i].name);
    g_auto (GStrv) lines = NULL;

    assert_true (pr_visit_change (&change, now, before, PR_VISIT_FROG, NULL));
    const PrVisitPicture picture = { now, &change, "Pipwick · near fore", false, PR_UNIT_MM };
    assert_true (pr_visit_picture_pdf (&picture, pdf, NULL) && pr_visit_picture_png (&picture, png, NULL));
    assert_memory_equal (pdf->data, "%PDF-", 5);
    keep_picture (name, png);
    lines = pr_visit_lines (&change, false, PR_UNIT_MM);
    assert_true (g_str_has_prefix (lines[0], "Toe\t+") || g_str_has_prefix (lines[0], "Toe\t±"));
    assert_int_equal (g_strv_length (lines), PR_N_VISIT_PLACES + PR_N_VISIT_MEASURES);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (colours_the_gap_by_its_sign), cmocka_unit_test (shows_growth_of_the_toe_alone),
    cmocka_unit_test (draws_what_little_there_is),  cmocka_unit_test (writes_values_that_come_back),
    cmocka_unit_test (writes_all_visits),           cmocka_unit_test (writes_one_on_the_other),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
