/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Layout of pages, sides and faces: nothing here is written to a file. */
#include "paper-kit.h"

#include "pr-card-pages.h"
#include "pr-section-look.h"

#include <cairo-pdf.h>

#include <string.h>

/* Every point of the extent lies on a tile; neighbours share exactly the overlap. */
static void
test_tiles_cover (void **state)
{
  GRand *chance = g_rand_new_with_seed (20240417);

  (void) state;
  for (int round = 0; round < 500; round++) {
    double w = g_rand_double_range (chance, 20, 900), h = g_rand_double_range (chance, 20, 900);
    double fw = g_rand_double_range (chance, 60, 280), fh = g_rand_double_range (chance, 60, 400);
    double overlap = g_rand_double_range (chance, 0, 25);
    g_autoptr (GArray) tiles = pr_tiles (w, h, fw, fh, overlap);
    const PrTile *first = &g_array_index (tiles, PrTile, 0);
    const PrTile *last = &g_array_index (tiles, PrTile, tiles->len - 1);

    assert_int_equal (tiles->len, (last->column + 1) * (last->row + 1));
    assert_true (first->box.x <= 1e-5 && first->box.y <= 1e-5);
    assert_true (last->box.x + fw >= w - 1e-5 && last->box.y + fh >= h - 1e-5);
    /* no column or row too many */
    assert_true (last->column == 0 || last->column * (fw - overlap) + overlap < w);
    assert_true (last->row == 0 || last->row * (fh - overlap) + overlap < h);
    for (guint i = 1; i < tiles->len; i++) {
      const PrTile *a = &g_array_index (tiles, PrTile, i - 1), *b = a + 1;

      assert_true (a->box.w == fw && a->box.h == fh);
      if (a->row == b->row)
        assert_true (fabs (a->box.x + fw - b->box.x - overlap) < 1e-6);
    }
  }
  g_rand_free (chance);
}

static void
test_tiles_names (void **state)
{
  g_autoptr (GArray) one = pr_tiles (100, 100, 100, 100, 10);
  g_autoptr (GArray) six = pr_tiles (190, 250, 100, 100, 10);

  (void) state;
  assert_int_equal (one->len, 1);
  assert_string_equal (g_array_index (one, PrTile, 0).name, "A1");
  assert_int_equal (six->len, 6);
  assert_string_equal (g_array_index (six, PrTile, 5).name, "C2");
}

/* Seen from above a left foot has its lateral side on the left; the ground surface is the mirror;
 * the toe is always up. */
static void
test_sides (void **state)
{
  static const struct {
    PrFoot foot;
    PrFace face;
    int lateral;
  } truth[] = {
    { PR_FOOT_LF, PR_FACE_FOOT, -1 },   { PR_FOOT_LF, PR_FACE_GROUND, 1 },  { PR_FOOT_RF, PR_FACE_FOOT, 1 },
    { PR_FOOT_RF, PR_FACE_GROUND, -1 }, { PR_FOOT_LH, PR_FACE_FOOT, -1 },   { PR_FOOT_LH, PR_FACE_GROUND, 1 },
    { PR_FOOT_RH, PR_FACE_FOOT, 1 },    { PR_FOOT_RH, PR_FACE_GROUND, -1 },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (truth); i++) {
    cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 10, 10);
    cairo_t *cr = cairo_create (surface);
    double x = 20, y = 30;

    pr_draw_enter_foot (cr, truth[i].foot, truth[i].face, 100, 200);
    cairo_user_to_device (cr, &x, &y);
    assert_float_equal (x, 100 + 20 * truth[i].lateral, 1e-9);
    assert_float_equal (y, 170, 1e-9);
    cairo_destroy (cr);
    cairo_surface_destroy (surface);
  }
}

static KitPicture
label_picture (PrFoot foot, PrFace face, const char *text)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 80, 80);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  pr_draw_enter_foot (cr, foot, face, 40, 40);
  pr_draw_label (cr, foot, face, pr_pt (0, 0), 50, text);
  cairo_destroy (cr);
  KitPicture picture = kit_surface (surface);
  cairo_surface_destroy (surface);
  return picture;
}

/* Lettering is never mirrored: an L looks alike on both faces, and unlike its mirror. */
static void
test_labels_upright (void **state)
{
  KitPicture a = label_picture (PR_FOOT_LF, PR_FACE_FOOT, "L");
  KitPicture b = label_picture (PR_FOOT_LF, PR_FACE_GROUND, "L");
  int left = 0, right = 0;

  (void) state;
  assert_memory_equal (a.rgb, b.rgb, (size_t) a.width * (size_t) a.height * 3);
  for (int y = 0; y < a.height; y++)
    for (int x = 0; x < a.width; x++)
      *(x < 40 ? &left : &right) += kit_grey (&a, x, y);
  assert_true (left > right);
  kit_picture_clear (&a);
  kit_picture_clear (&b);
}

/* The letters on a page: only the hoof's centre lines are drawn, then the side on which an L stands
 * is told from its shape: a foot of its stem to the right, open above. */
static bool
lateral_letter_right (PrFoot foot, PrFace face)
{
  g_autoptr (PrJob) job = paper_job (foot, "plain-front", 1, 0);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 900, 200);
  cairo_t *cr = cairo_create (surface);
  const PrDrawOptions show = { .face = face, .centre_lines = true, .line_mm = 1 };
  double ink[2] = { 0, 0 };

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, 4, 4);
  pr_draw_enter_foot (cr, foot, face, 112.5, 25);
  pr_draw_job (cr, job, &show);
  cairo_destroy (cr);
  KitPicture picture = kit_surface (surface);
  cairo_surface_destroy (surface);
  for (int y = 0; y < 200; y++)
    for (int x = 0; x < 900; x++)
      if (x < 150 || x >= 750)
        ink[x >= 750] += kit_grey (&picture, x, y) < 60;
  kit_picture_clear (&picture);
  assert_true (ink[0] > 50 && ink[1] > 50);
  return ink[1] < ink[0]; /* an L takes less ink than an M */
}

static void
test_letters (void **state)
{
  (void) state;
  for (PrFoot foot = PR_FOOT_LF; foot <= PR_FOOT_RH; foot++)
    for (PrFace face = PR_FACE_FOOT; face <= PR_FACE_GROUND; face++)
      assert_int_equal (lateral_letter_right (foot, face), pr_lateral_sign (foot, face) > 0);
}

/* A page as a picture, PER pixels a mm, the plan's point (X, Y) in its top left corner. */
static KitPicture
page_part (const PrPages *pages, int page, double per, double x, double y, double w, double h)
{
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) ceil (w * per), (int) ceil (h * per));
  cairo_t *cr = cairo_create (surface);
  const PrTile *tile = &g_array_index (pr_pages_tiled (pages)->tile, PrTile, page);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, per, per);
  cairo_translate (cr, -(pr_pages_tiled (pages)->field.x - tile->box.x + x),
                   -(pr_pages_tiled (pages)->field.y - tile->box.y + y));
  pr_pages_draw (pages, page, cr);
  cairo_destroy (cr);
  KitPicture picture = kit_surface (surface);
  cairo_surface_destroy (surface);
  return picture;
}

/* What two neighbours show of their overlap is the same, pixel by pixel, corner marks aside. */
static void
test_overlap_agrees (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1.6, 0);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  g_autoptr (PrPages) pages = pr_pages_new (PR_DOC_GROUND, job, &options);
  int compared = 0, inked = 0;

  (void) state;
  assert_true (pr_pages_count (pages) > 1);
  for (int i = 0; i + 1 < pr_pages_count (pages); i++) {
    const PrTile *a = &g_array_index (pr_pages_tiled (pages)->tile, PrTile, i), *b = a + 1;

    if (a->row != b->row)
      continue;
    double x = b->box.x + 0.5, w = options.overlap_mm - 1, y = a->box.y + 5, h = a->box.h - 10;
    KitPicture p = page_part (pages, i, 8, x, y, w, h), q = page_part (pages, i + 1, 8, x, y, w, h);
    for (int k = 0; k < p.width * p.height * 3; k++) {
      assert_true (abs (p.rgb[k] - q.rgb[k]) <= 2);
      inked += p.rgb[k] < 128;
    }
    kit_picture_clear (&p);
    kit_picture_clear (&q);
    compared++;
  }
  assert_true (compared > 0 && inked > 0);
}

/* A shoe far larger than the paper keeps its size over the tiles: nothing is ever shrunk. */
static void
test_huge_is_tiled (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_RF, "plain-front", 1.9, 0);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  const double per = 10, stroke = 0.35;
  double low = INFINITY, high = -INFINITY, truth_low = INFINITY, truth_high = -INFINITY;

  (void) state;
  options.paper = PR_PAPER_A5;
  /* clear of the wall's line, which would be drawn over the edge */
  for (int b = 0; b < 2; b++)
    job->sources.plan.fit_front[b] = job->sources.plan.fit_heel[b] = 3;
  assert_true (pr_job_fit (job, NULL));
  g_autoptr (PrPages) pages = pr_pages_new (PR_DOC_TEMPLATE, job, &options);
  assert_true (pr_pages_count (pages) >= 6);
  for (int i = 0; i < pr_pages_count (pages); i++) {
    const PrBox *box = &g_array_index (pr_pages_tiled (pages)->tile, PrTile, i).box;
    KitPicture p = page_part (pages, i, per, box->x, box->y, box->w, box->h);
    double first, last;

    if (kit_shoe_columns (&p, 0, p.width, &first, &last)) {
      low = fmin (low, box->x + first / per);
      high = fmax (high, box->x + last / per);
    }
    kit_picture_clear (&p);
  }
  for (size_t i = 0; i < job->shoe->figure.n; i++)
    for (size_t k = 0; k < job->shoe->figure.ring[i].n; k++) {
      truth_low = fmin (truth_low, job->shoe->figure.ring[i].p[k].x);
      truth_high = fmax (truth_high, job->shoe->figure.ring[i].p[k].x);
    }
  assert_float_equal (high - low - stroke, truth_high - truth_low, 0.1);
}

/* The drawing fits between the check bars: no tile without need, and field and bars apart. */
static void
test_one_page_when_it_fits (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_RF, "quarter-clipped", 1, 0);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  for (PrPaper paper = PR_PAPER_A4; paper <= PR_PAPER_LEGAL; paper++) {
    options.paper = paper;
    g_autoptr (PrPages) pages = pr_pages_new (PR_DOC_TEMPLATE, job, &options);
    double w, h, width, height;

    assert_int_equal (pr_pages_count (pages), 1);
    pr_pages_size (pages, &w, &h);
    pr_paper_size (paper, &width, &height);
    assert_true (w == width && h == height);
    assert_true (pr_pages_tiled (pages)->field.x >= 8
                 && pr_pages_tiled (pages)->field.x + pr_pages_tiled (pages)->field.w <= width - 8 - 16);
  }
}

/* The strips cover each piece from end to end, with the overlap shared, and stay on their page. */
static void
test_strips_cover (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1.2, 2000);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  for (PrPaper paper = PR_PAPER_A4; paper < PR_N_PAPERS; paper++) {
    options.paper = paper;
    g_autoptr (PrPages) pages = pr_pages_new (PR_DOC_BAR, job, &options);
    double end = 0;

    for (guint i = 0; i < pr_pages_strips (pages)->strip->len; i++) {
      const PrStrip *strip = &g_array_index (pr_pages_strips (pages)->strip, PrStrip, i);

      if (strip->index > 0)
        assert_float_equal (strip->from, end - options.overlap_mm, 1e-6);
      else
        assert_true (strip->from == 0);
      end = strip->to;
      assert_true (strip->page < pr_pages_count (pages));
      if (strip->index == strip->count - 1)
        assert_true (strip->to >= job->iron.piece[strip->piece].length - 1e-6);
    }
  }
}

/* The box a section and its words take on its page. */
static void
cell_box (const PrStrips *strips, const PrCutCell *cell, double *x0, double *y0, double *x1, double *y1)
{
  g_auto (PrSection) section = { 0 };

  pr_section_at (&strips->job->sources.plan, strips->job->shoe, cell->s, &section);
  PrSectionRoom room = pr_section_room (&section);
  *x0 = cell->x - room.left;
  *x1 = cell->x + room.right;
  *y0 = cell->y - room.up;
  *y1 = cell->y + room.down + 8;
}

/* Toe, second nail and heels of any shoe stand on a page of the bar, below its strips, in the field, none over another. */
static void
test_sections_have_room (void **state)
{
  static const char *const styles[]
      = { "plain-front", "toe-extension-clipped", "seated", "egg-bar", "contest-toe-extension" };
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  for (size_t k = 0; k < 3 * G_N_ELEMENTS (styles); k++) {
    static const double sizes[] = { 0.7, 1, 1.4 };
    g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, styles[k / 3], sizes[k % 3], 0);

    for (PrPaper paper = PR_PAPER_A4; paper < PR_N_PAPERS; paper++) {
      options.paper = paper;
      g_autoptr (PrPages) pages = pr_pages_new (PR_DOC_BAR, job, &options);
      const PrStrips *strips = pr_pages_strips (pages);
      double last = 0;

      assert_true (strips->cuts.cell->len >= 3);
      assert_string_equal (g_array_index (strips->cuts.cell, PrCutCell, 0).name, "toe");
      for (guint i = 0; i < strips->strip->len; i++) {
        const PrStrip *strip = &g_array_index (strips->strip, PrStrip, i);

        last = MAX (last, 1000 * strip->page + strip->y);
      }
      for (guint i = 0; i < strips->cuts.cell->len; i++) {
        const PrCutCell *cell = &g_array_index (strips->cuts.cell, PrCutCell, i);
        double x0, y0, x1, y1;

        cell_box (strips, cell, &x0, &y0, &x1, &y1);
        assert_true (cell->page < pr_pages_count (pages));
        assert_true (1000 * cell->page + cell->top > last);
        assert_true (x0 > -1e-6 && x1 < strips->field.w && y0 > 0 && y1 < strips->field.h);
        for (guint j = 0; j < i; j++) {
          const PrCutCell *other = &g_array_index (strips->cuts.cell, PrCutCell, j);
          double a0, b0, a1, b1;

          cell_box (strips, other, &a0, &b0, &a1, &b1);
          assert_true (other->page != cell->page || x0 > a1 || a0 > x1 || y0 > b1 || b0 > y1);
        }
      }
    }
  }
}

/* Page PAGE at 300 dpi, on paper of A4. */
static KitPicture
page_picture (const PrPages *pages, int page)
{
  const double per = 300 / 25.4;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 2480, 3508);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, per, per);
  pr_pages_draw (pages, page, cr);
  cairo_destroy (cr);
  KitPicture picture = kit_surface (surface);
  cairo_surface_destroy (surface);
  return picture;
}

/* The words of a page as a PDF of it tells them. Transfer full. */
static char *
page_words (const PrPages *pages, int page)
{
  g_autofree char *folder = kit_folder (), *file = g_build_filename (folder, "page.pdf", NULL);
  cairo_surface_t *surface = cairo_pdf_surface_create (file, 595.28, 841.89);
  cairo_t *cr = cairo_create (surface);
  const char *argv[] = { "pdftotext", file, "-", NULL };
  char *text = NULL;

  cairo_scale (cr, 72 / 25.4, 72 / 25.4);
  pr_pages_draw (pages, page, cr);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  assert_true (kit_run (argv, &text));
  kit_folder_gone (g_steal_pointer (&folder));
  return text;
}

/* The bar's page says which marks are for the punch and which do not survive drawing. */
static void
test_bar_says_what_marks_are_for (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_RF, "plain-front", 1, 0);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  for (PrPaper paper = PR_PAPER_A4; paper < PR_N_PAPERS; paper++) {
    options.paper = paper;
    g_autoptr (PrPages) pages = pr_pages_new (PR_DOC_BAR, job, &options);
    g_autofree char *words = g_strdelimit (page_words (pages, 0), "\n", ' ');

    assert_non_null (strstr (words, "for the punch"));
    assert_non_null (strstr (words, "do not survive drawing"));
  }
}

/* The printer's correction multiplies all that is drawn, and the page says so: on every page of
 * every document. */
static void
test_correction (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_RF, "plain-front", 1, 0);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  const double per = 300 / 25.4;

  (void) state;
  options.correct_x = 1.02;
  options.correct_y = 0.98;
  for (PrDoc doc = PR_DOC_TEMPLATE; doc <= PR_DOC_CHECK; doc++) {
    g_autoptr (PrPages) pages = pr_pages_new (doc, job, &options);

    for (int i = 0; i < pr_pages_count (pages); i++) {
      KitPicture picture = page_picture (pages, i);
      g_autofree char *words = page_words (pages, i);

      assert_true (kit_has_run (&picture, false, 102 * per, 1.5));
      assert_true (kit_has_run (&picture, true, 98 * per, 1.5));
      assert_false (kit_has_run (&picture, false, 100 * per, 1.5));
      assert_non_null (strstr (words, "1.0200"));
      assert_non_null (strstr (words, "0.9800"));
      kit_picture_clear (&picture);
    }
  }
}

/* The card's second page is for looking: the sections at 1 : 1, and below them a picture of every heat; nothing of it over the
 * field's end. What is read comes behind. */
static void
test_card_to_look_at (void **state)
{
  static const char *const styles[] = { "plain-front", "contest-toe-extension", "heart-bar" };

  (void) state;
  for (size_t k = 0; k < G_N_ELEMENTS (styles); k++) {
    g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, styles[k], 1, 330);
    g_auto (PrHeats) heats = { NULL };
    PrCardPages pages;

    pr_card_pages_lay (&pages, job, PR_UNIT_MM, (PrBox){ 8, 30, 180, 220 });
    pr_heats_make (&heats, &job->sources.plan, job->shoe, &job->iron, PR_UNIT_MM);
    assert_true (pages.cuts.cell->len >= 3);
    for (guint i = 0; i < pages.cuts.cell->len; i++) {
      const PrCutCell *cell = &g_array_index (pages.cuts.cell, PrCutCell, i);

      assert_int_equal (cell->page, 1);
      assert_true (cell->top > 0 && cell->y > cell->top && cell->y < 220);
    }
    assert_int_equal (pages.picture->len, heats.heats->len + 1); /* and the heading */
    assert_true (pages.n_pages >= 3);
    pr_card_pages_clear (&pages);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_card_to_look_at),
    cmocka_unit_test (test_tiles_cover),
    cmocka_unit_test (test_tiles_names),
    cmocka_unit_test (test_sides),
    cmocka_unit_test (test_labels_upright),
    cmocka_unit_test (test_letters),
    cmocka_unit_test (test_overlap_agrees),
    cmocka_unit_test (test_huge_is_tiled),
    cmocka_unit_test (test_one_page_when_it_fits),
    cmocka_unit_test (test_strips_cover),
    cmocka_unit_test (test_correction),
    cmocka_unit_test (test_bar_says_what_marks_are_for),
    cmocka_unit_test (test_sections_have_room),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
