/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The printed tracing sheet, rendered by poppler at 300 dpi and measured in the bitmap: what
 * the printer puts on paper is held against what the photo room expects to find there. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <apriltag/apriltag.h>
#include <apriltag/tag36h11.h>
#include <glib/gstdio.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "folder.h"
#include "pr-language.h"
#include "pr-error.h"
#include "pr-paper.h"

#define PX_PER_MM (300 / 25.4)
#define NEAR_MM 0.1   /* asked of fiducials and bars */
#define PAGE_PT 0.002 /* pdfinfo prints three decimals */

typedef struct {
  char *dir, *pdf;
  guint8 *grey;
  int width, height;
} Sheet;

static void
run (char **argv, char **out)
{
  g_autoptr (GError) error = NULL;
  int status = 0;

  assert_true (g_spawn_sync (NULL, argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, out, NULL, &status, &error));
  assert_int_equal (status, 0);
}

static void
read_pgm (Sheet *sheet, const char *file)
{
  g_autofree char *data = NULL;
  gsize len;
  int width, height, most, at = 0;

  assert_true (g_file_get_contents (file, &data, &len, NULL));
  assert_int_equal (sscanf (data, "P5 %d %d %d%n", &width, &height, &most, &at), 3);
  assert_int_equal (most, 255);
  at++;
  assert_int_equal (len, at + width * height);
  sheet->width = width;
  sheet->height = height;
  sheet->grey = g_memdup2 (data + at, (gsize) (width * height));
}

static void
sheet_make (Sheet *sheet, PrPaper paper, PrFoot foot)
{
  g_autoptr (GError) error = NULL;

  *sheet = (Sheet){ .dir = kit_folder () };
  sheet->pdf = g_build_filename (sheet->dir, "sheet.pdf", NULL);
  assert_true (pr_write_tracing_sheet (paper, foot, sheet->pdf, &error));
  assert_null (error);
}

static void
sheet_render (Sheet *sheet)
{
  g_autofree char *stem = g_build_filename (sheet->dir, "page", NULL);
  g_autofree char *pgm = g_strconcat (stem, ".pgm", NULL);
  char *argv[] = { "pdftoppm", "-r", "300", "-gray", "-singlefile", sheet->pdf, stem, NULL };

  run (argv, NULL);
  read_pgm (sheet, pgm);
  g_unlink (pgm);
}

static void
sheet_clear (Sheet *sheet)
{
  g_unlink (sheet->pdf);
  assert_int_equal (g_rmdir (sheet->dir), 0); /* nothing else was left behind */
  g_free (sheet->pdf);
  g_free (sheet->dir);
  g_free (sheet->grey);
}

/* --- fiducials --------------------------------------------------------------------------- */

static void
check_fiducial (const apriltag_detection_t *det, PrPaper paper, PrFoot foot, int *seen)
{
  /* apriltag gives bottom left, bottom right, top right, top left of an upright fiducial */
  static const int place[4] = { 3, 2, 1, 0 };
  PrPaper got_paper;
  PrFoot got_foot;
  PrSheetPt want[4];
  int corner;

  assert_true (pr_tag_parse (det->id, &got_paper, &got_foot, &corner));
  assert_int_equal (got_paper, paper);
  assert_int_equal (got_foot, foot);
  assert_int_equal (det->id, pr_tag_id (paper, foot, corner));
  pr_tag_corners (paper, corner, want);
  for (int i = 0; i < 4; i++) {
    assert_float_equal (det->p[i][0] / PX_PER_MM, want[place[i]].x, NEAR_MM);
    assert_float_equal (det->p[i][1] / PX_PER_MM, want[place[i]].y, NEAR_MM);
  }
  *seen |= 1 << corner;
}

static void
check_fiducials (const Sheet *sheet, PrPaper paper, PrFoot foot)
{
  apriltag_family_t *family = tag36h11_create ();
  apriltag_detector_t *detector = apriltag_detector_create ();
  image_u8_t image
      = { .width = sheet->width, .height = sheet->height, .stride = sheet->width, .buf = sheet->grey };
  int seen = 0;

  apriltag_detector_add_family (detector, family);
  detector->quad_decimate = 1;
  zarray_t *found = apriltag_detector_detect (detector, &image);
  assert_int_equal (zarray_size (found), 4);
  for (int i = 0; i < 4; i++) {
    apriltag_detection_t *det;
    zarray_get (found, i, &det);
    check_fiducial (det, paper, foot, &seen);
  }
  assert_int_equal (seen, 15);
  apriltag_detections_destroy (found);
  apriltag_detector_destroy (detector);
  tag36h11_destroy (family);
}

/* --- bars -------------------------------------------------------------------------------- */

static double
grey_at (const Sheet *sheet, double x, double y)
{
  int px = (int) (x * PX_PER_MM), py = (int) (y * PX_PER_MM);
  assert_true (px >= 0 && py >= 0 && px < sheet->width && py < sheet->height);
  return sheet->grey[py * sheet->width + px];
}

/* From A walking along (DX, DY), unit vector: where the grey falls below half, mm from A. */
static double
edge_from (const Sheet *sheet, PrSheetPt a, double dx, double dy)
{
  const double step = 0.01;

  for (double s = 0; s < 3; s += step)
    if (grey_at (sheet, a.x + s * dx, a.y + s * dy) < 128)
      return s;
  return INFINITY;
}

static void
check_bar (const Sheet *sheet, PrPaper paper, int bar)
{
  const double outside = 1.2; /* start this far beyond the end; the words begin further out */
  PrSheetPt from, to;

  pr_sheet_bar (paper, bar, &from, &to);
  double length = hypot (to.x - from.x, to.y - from.y);
  double dx = (to.x - from.x) / length, dy = (to.y - from.y) / length;
  double first = edge_from (sheet, (PrSheetPt){ from.x - outside * dx, from.y - outside * dy }, dx, dy);
  double last = edge_from (sheet, (PrSheetPt){ to.x + outside * dx, to.y + outside * dy }, -dx, -dy);

  assert_true (fabs (length - (bar % 2 ? 4 * 25.4 : 100)) < 1e-9);
  assert_float_equal (first, outside, NEAR_MM);
  assert_float_equal (last, outside, NEAR_MM);
  /* true length on paper: the two ends' errors together */
  assert_true (fabs (2 * outside - first - last) < NEAR_MM);
}

static void
check_field_is_empty (const Sheet *sheet, PrPaper paper)
{
  PrSheetPt low, high;

  pr_sheet_field (paper, &low, &high);
  for (double y = low.y; y < high.y; y += 0.07)
    for (double x = low.x; x < high.x; x += 0.07)
      assert_int_equal ((int) grey_at (sheet, x, y), 255);
}

static void
check_page_size (const Sheet *sheet, PrPaper paper)
{
  PR_PLAIN_NUMBERS; /* as the tool writes them */
  char *argv[] = { "pdfinfo", sheet->pdf, NULL };
  g_autofree char *out = NULL;
  double width, height, w, h;

  run (argv, &out);
  const char *line = strstr (out, "Page size:");
  assert_non_null (line);
  assert_int_equal (sscanf (line, "Page size: %lf x %lf pts", &w, &h), 2);
  pr_paper_size (paper, &width, &height);
  assert_float_equal (w, width * 72 / 25.4, PAGE_PT);
  assert_float_equal (h, height * 72 / 25.4, PAGE_PT);
}

static void
test_measures (void **state)
{
  static const struct {
    PrPaper paper;
    PrFoot foot;
  } sheets[] = {
    { PR_PAPER_A4, PR_FOOT_LF },      { PR_PAPER_LETTER, PR_FOOT_RH }, { PR_PAPER_A3, PR_FOOT_ANY },
    { PR_PAPER_TABLOID, PR_FOOT_RF }, { PR_PAPER_A4, PR_FOOT_LH },
  };
  (void) state;

  for (gsize i = 0; i < G_N_ELEMENTS (sheets); i++) {
    Sheet sheet;
    sheet_make (&sheet, sheets[i].paper, sheets[i].foot);
    sheet_render (&sheet);
    check_page_size (&sheet, sheets[i].paper);
    check_fiducials (&sheet, sheets[i].paper, sheets[i].foot);
    for (int bar = 0; bar < PR_SHEET_BARS; bar++)
      check_bar (&sheet, sheets[i].paper, bar);
    check_field_is_empty (&sheet, sheets[i].paper);
    sheet_clear (&sheet);
  }
}

/* --- a printer's correction -------------------------------------------------------------- */

/* The paper as it comes from a printer that draws X and Y times what it should, about the paper's
 * middle, and was given the correction for it. */
static void
print_on (Sheet *sheet, PrPaper paper, PrFoot foot, double x, double y)
{
  double width, height;

  pr_paper_size (paper, &width, &height);
  *sheet = (Sheet){ .width = (int) (width * PX_PER_MM), .height = (int) (height * PX_PER_MM) };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, sheet->width, sheet->height);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, PX_PER_MM, PX_PER_MM);
  cairo_translate (cr, width / 2 * (1 - x), height / 2 * (1 - y));
  cairo_scale (cr, x, y);
  pr_draw_tracing_sheet_corrected (cr, paper, foot, 1 / x, 1 / y);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  const guint8 *data = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface);
  sheet->grey = g_malloc ((gsize) sheet->width * (gsize) sheet->height);
  for (int row = 0; row < sheet->height; row++)
    for (int col = 0; col < sheet->width; col++)
      sheet->grey[row * sheet->width + col] = data[row * stride + 4 * col];
  cairo_surface_destroy (surface);
}

/* Whatever the printer does: with its correction the fiducials, which carry the scale, and the bars
 * come out where the photo room looks for them. */
static void
test_corrected (void **state)
{
  static const struct {
    PrPaper paper;
    double x, y;
  } printers[] = {
    { PR_PAPER_A4, 0.97, 0.985 },
    { PR_PAPER_A4, 1.02, 1.01 },
    { PR_PAPER_LETTER, 0.95, 0.96 },
    { PR_PAPER_TABLOID, 0.97, 0.97 },
  };
  (void) state;

  for (gsize i = 0; i < G_N_ELEMENTS (printers); i++) {
    Sheet sheet;

    assert_true (pr_tracing_sheet_fits (printers[i].paper, 1 / printers[i].x, 1 / printers[i].y));
    print_on (&sheet, printers[i].paper, PR_FOOT_LH, printers[i].x, printers[i].y);
    check_fiducials (&sheet, printers[i].paper, PR_FOOT_LH);
    for (int bar = 0; bar < PR_SHEET_BARS; bar++)
      check_bar (&sheet, printers[i].paper, bar);
    check_field_is_empty (&sheet, printers[i].paper);
    g_free (sheet.grey);
  }
}

/* What would push the fiducials' white border over the edge is refused: the border begins 7 mm from
 * it, which is 98 mm from the middle of A4, 141.5 mm down. */
static void
test_correction_fits (void **state)
{
  (void) state;
  assert_true (pr_tracing_sheet_fits (PR_PAPER_A4, 105 / 98.0 - 1e-6, 148.5 / 141.5 - 1e-6));
  assert_false (pr_tracing_sheet_fits (PR_PAPER_A4, 105 / 98.0 + 1e-6, 1));
  assert_false (pr_tracing_sheet_fits (PR_PAPER_A4, 1, 148.5 / 141.5 + 1e-6));
  assert_true (pr_tracing_sheet_fits (PR_PAPER_TABLOID, 0.91, 0.91));
}

/* --- words ------------------------------------------------------------------------------- */

/* Left edge of WORD on the page in points, from pdftotext -bbox. */
static double
word_left (const char *boxes, const char *word)
{
  PR_PLAIN_NUMBERS;
  g_autofree char *end = g_strdup_printf (">%s</word>", word);
  const char *at = strstr (boxes, end);
  double x = -1;

  assert_non_null (at);
  while (strncmp (at, "xMin=\"", 6) != 0)
    at--;
  assert_int_equal (sscanf (at, "xMin=\"%lf", &x), 1);
  return x;
}

static void
check_words (PrFoot foot, const char *const *words, bool lateral_left)
{
  Sheet sheet;
  g_autofree char *boxes = NULL, *text = NULL;

  sheet_make (&sheet, PR_PAPER_A4, foot);
  char *bbox[] = { "pdftotext", "-bbox", sheet.pdf, "-", NULL };
  char *plain[] = { "pdftotext", "-layout", sheet.pdf, "-", NULL };
  run (bbox, &boxes);
  run (plain, &text);
  for (int i = 0; words[i]; i++)
    if (!strstr (text, words[i]))
      fail_msg ("the sheet does not say \"%s\"", words[i]);
  if (foot == PR_FOOT_ANY)
    assert_null (strstr (boxes, ">L</word>"));
  else
    assert_int_equal (word_left (boxes, "L") < word_left (boxes, "M"), lateral_left);
  sheet_clear (&sheet);
}

static void
test_words (void **state)
{
  static const char *const near_fore[] = { "near fore",
                                           "LF",
                                           "A4",
                                           "foot surface",
                                           "TOE",
                                           "Horse",
                                           "Date",
                                           "Print at 100 %",
                                           "100 mm",
                                           "4 in",
                                           "does not diagnose",
                                           "the toe goes this way",
                                           "Tick both heels: a short stroke across the tracing",
                                           "How to use the tracing sheet",
                                           "Draw round the foot",
                                           "Take the photo",
                                           "Check the printer",
                                           "all four edges",
                                           NULL };
  static const char *const off_hind[] = { "off hind", "RH", "foot surface", NULL };
  static const char *const any[] = { "any foot", "A4", "foot surface", NULL };
  (void) state;

  /* seen from above, a left foot has its lateral side on the left */
  check_words (PR_FOOT_LF, near_fore, true);
  check_words (PR_FOOT_RH, off_hind, false);
  check_words (PR_FOOT_ANY, any, false);
}

typedef struct {
  double x0, y0, x1, y1;
  char text[64];
} Word;

/* The next word of BOXES from *AT on; FALSE at the page's end, *AT then behind it. */
static bool
next_word (const char **at, Word *word)
{
  PR_PLAIN_NUMBERS;
  const char *end = strstr (*at, "</page>"), *open = strstr (*at, "<word ");

  if (open == NULL || open > end) {
    *at = end + 1;
    return false;
  }
  assert_int_equal (sscanf (open, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\">%63[^<]",
                            &word->x0, &word->y0, &word->x1, &word->y1, word->text),
                    5);
  *at = open + 1;
  return true;
}

static void
check_apart (const Word *a, const Word *b)
{
  const double slack = 0.3; /* points: boxes take in the whole font's height */

  if (fmin (a->x1, b->x1) - fmax (a->x0, b->x0) > slack && fmin (a->y1, b->y1) - fmax (a->y0, b->y0) > slack)
    fail_msg ("\"%s\" and \"%s\" overlap", a->text, b->text);
}

/* On no paper do words overlap or leave the page, on either page. */
static void
test_words_apart (void **state)
{
  (void) state;
  for (PrPaper paper = 0; paper < PR_N_SHEET_PAPERS; paper++) {
    Sheet sheet;
    g_autofree char *boxes = NULL;
    double width, height;

    sheet_make (&sheet, paper, PR_FOOT_RH);
    pr_paper_size (paper, &width, &height);
    char *argv[] = { "pdftotext", "-bbox", sheet.pdf, "-", NULL };
    run (argv, &boxes);
    const char *at = boxes;
    for (int page = 0; page < 2; page++) {
      Word word[400];
      int n = 0;
      while (next_word (&at, &word[n])) {
        assert_true (word[n].x0 > 0 && word[n].y0 > 0 && word[n].x1 < width * 72 / 25.4);
        assert_true (word[n].y1 < height * 72 / 25.4);
        for (int i = 0; i < n; i++)
          check_apart (&word[i], &word[n]);
        assert_true (++n < 400);
      }
      assert_true (n > 40);
    }
    assert_null (strstr (at, "<page")); /* and there are no more */
    sheet_clear (&sheet);
  }
}

/* Sheets that are printed already stay good for ever: the numbers of their fiducials, and where these stand. */
static void
test_old_sheets_stay_good (void **state)
{
  static const struct {
    PrPaper paper;
    PrFoot foot;
    int corner, id;
    double x, y;
  } old[] = { { PR_PAPER_A4, PR_FOOT_ANY, 0, 40, 10, 10 },
              { PR_PAPER_A4, PR_FOOT_LF, 1, 45, 176, 10 },
              { PR_PAPER_LETTER, PR_FOOT_RH, 2, 78, 181.9, 245.4 },
              { PR_PAPER_A3, PR_FOOT_RF, 3, 91, 10, 386 },
              { PR_PAPER_TABLOID, PR_FOOT_LH, 2, 114, 245.4, 397.8 } };
  (void) state;

  for (gsize i = 0; i < G_N_ELEMENTS (old); i++) {
    PrSheetPt at[4];
    assert_int_equal (pr_tag_id (old[i].paper, old[i].foot, old[i].corner), old[i].id);
    pr_tag_corners (old[i].paper, old[i].corner, at);
    assert_true (fabs (at[0].x - old[i].x) < 1e-9 && fabs (at[0].y - old[i].y) < 1e-9);
    assert_true (fabs (at[2].x - old[i].x - 24) < 1e-9 && fabs (at[2].y - old[i].y - 24) < 1e-9);
  }
}

static void
test_not_scaled_by_viewers (void **state)
{
  Sheet sheet;
  g_autofree char *data = NULL;
  gsize len;
  (void) state;

  sheet_make (&sheet, PR_PAPER_LETTER, PR_FOOT_LF);
  assert_true (g_file_get_contents (sheet.pdf, &data, &len, NULL));
  bool told = false;
  for (gsize i = 0; i + 13 < len && !told; i++)
    told = memcmp (data + i, "/PrintScaling", 13) == 0;
  assert_true (told);
  sheet_clear (&sheet);
}

static void
test_no_folder (void **state)
{
  g_autofree char *dir = kit_folder ();
  g_autofree char *file = g_build_filename (dir, "gone", "sheet.pdf", NULL);
  g_autoptr (GError) error = NULL;
  (void) state;

  assert_false (pr_write_tracing_sheet (PR_PAPER_A4, PR_FOOT_LF, file, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_FILE));
  assert_int_equal (g_rmdir (dir), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_measures),
    cmocka_unit_test (test_corrected),
    cmocka_unit_test (test_correction_fits),
    cmocka_unit_test (test_words),
    cmocka_unit_test (test_words_apart),
    cmocka_unit_test (test_old_sheets_stay_good),
    cmocka_unit_test (test_not_scaled_by_viewers),
    cmocka_unit_test (test_no_folder),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
