/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The template's figures, as another program reads them on the page: all there, none over another, none over the drawing. */
#include <cairo-pdf.h>
#include <stdio.h>
#include <string.h>

#include "paper-kit.h"
#include "pr-card-title.h"

#define PT_PER_MM (72 / 25.4)
#define PER_MM 8.0 /* pixels, of the drawing a figure must not cover */

/* A word on a page, mm. */
typedef struct {
  double x0, y0, x1, y1;
  char *text;
} Word;

static void
word_clear (gpointer data)
{
  g_free (((Word *) data)->text);
}

/* The words of a one-page FILE, as poppler finds them. */
static GArray *
words_of (const char *file)
{
  const char *argv[] = { "pdftotext", "-bbox", file, "-", NULL };
  g_autofree char *out = NULL;
  GArray *words = g_array_new (FALSE, TRUE, sizeof (Word));

  g_array_set_clear_func (words, word_clear);
  assert_true (kit_run (argv, &out));
  for (char *at = strstr (out, "<word "); at != NULL; at = strstr (at + 1, "<word ")) {
    Word word;
    double box[4];
    char *end = strstr (at, "</word>");

    paper_word_box (at, box);
    at = strchr (at, '>') + 1;
    word.text = g_strndup (at, (gsize) (end - at));
    word.x0 = box[0] / PT_PER_MM;
    word.y0 = box[1] / PT_PER_MM;
    word.x1 = box[2] / PT_PER_MM;
    word.y1 = box[3] / PT_PER_MM;
    g_array_append_val (words, word);
  }
  return words;
}

/* On CR, whose unit is 1 mm: page PAGE, or only the shoe that is drawn on it. */
static void
draw (const PrPages *pages, int page, bool only_shoe, PrDrawOptions show, cairo_t *cr)
{
  const PrTiled *tiled = pr_pages_tiled (pages);
  const PrTile *tile = &g_array_index (tiled->tile, PrTile, page);

  if (!only_shoe) {
    pr_pages_draw (pages, page, cr);
    return;
  }
  cairo_rectangle (cr, tiled->field.x, tiled->field.y, tiled->field.w, tiled->field.h);
  cairo_clip (cr);
  cairo_translate (cr, tiled->field.x - tile->box.x, tiled->field.y - tile->box.y);
  pr_draw_enter_foot (cr, tiled->job->sources.foot, tiled->face, tiled->origin.x, tiled->origin.y);
  pr_draw_job (cr, tiled->job, &show);
}

static GArray *
page_words (const PrPages *pages, int page, bool only_shoe, const char *file)
{
  const PrDrawOptions show = PR_DRAW_TEMPLATE (pr_pages_tiled (pages)->face);
  double w, h;

  pr_pages_size (pages, &w, &h);
  cairo_surface_t *surface = cairo_pdf_surface_create (file, w * PT_PER_MM, h * PT_PER_MM);
  cairo_t *cr = cairo_create (surface);
  cairo_scale (cr, PT_PER_MM, PT_PER_MM);
  cairo_set_font_size (cr, 2);
  cairo_move_to (cr, 1, 3);
  cairo_show_text (cr, "-"); /* poppler complains of a page without words */
  draw (pages, page, only_shoe, show, cr);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return words_of (file);
}

/* The drawing of PAGE without its lettering, iron filled: white where words may stand. */
static KitPicture
drawing_of (const PrPages *pages, int page)
{
  PrDrawOptions show = PR_DRAW_TEMPLATE (pr_pages_tiled (pages)->face);
  double w, h;

  pr_pages_size (pages, &w, &h);
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) (w * PER_MM), (int) (h * PER_MM));
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, PER_MM, PER_MM);
  show.fill = true;
  show.labels = false;
  draw (pages, page, true, show, cr);
  cairo_destroy (cr);
  KitPicture picture = kit_surface (surface);
  cairo_surface_destroy (surface);
  return picture;
}

static void
none_over_another (const GArray *words, const char *what)
{
  const double slack = 0.05;

  for (guint i = 0; i < words->len; i++)
    for (guint k = 0; k < i; k++) {
      const Word *a = &g_array_index (words, Word, i), *b = &g_array_index (words, Word, k);

      if (a->x0 < b->x1 - slack && b->x0 < a->x1 - slack && a->y0 < b->y1 - slack && b->y0 < a->y1 - slack)
        fail_msg ("%s: “%s” and “%s” lie over each other", what, a->text, b->text);
    }
}

static bool
is_drawn_with (const GArray *words, const Word *word)
{
  for (guint i = 0; i < words->len; i++) {
    const Word *other = &g_array_index (words, Word, i);

    if (g_str_equal (other->text, word->text)
        && fabs (other->x0 - word->x0) + fabs (other->y0 - word->y0) < 0.2)
      return true;
  }
  return false;
}

/* Words that belong to the drawing itself (M, L, the nails' numbers) are not figures. Returns how many figures there are. */
static int
none_over_drawing (const GArray *words, const GArray *drawn, const KitPicture *picture, const char *what)
{
  int figures = 0;

  for (guint i = 0; i < words->len; i++) {
    const Word *word = &g_array_index (words, Word, i);

    if (is_drawn_with (drawn, word))
      continue;
    figures++;
    for (int y = (int) (word->y0 * PER_MM); y < (int) (word->y1 * PER_MM); y++)
      for (int x = (int) (word->x0 * PER_MM); x < (int) (word->x1 * PER_MM); x++)
        if (x >= 0 && y >= 0 && x < picture->width && y < picture->height && kit_grey (picture, x, y) < 160)
          fail_msg ("%s: “%s” lies over the drawing", what, word->text);
  }
  return figures;
}

/* Figures and their lines alone, where PAGE shows them. */
static KitPicture
figures_of (const PrPages *pages, int page)
{
  const PrTiled *tiled = pr_pages_tiled (pages);
  const PrTile *tile = &g_array_index (tiled->tile, PrTile, page);
  double w, h;

  pr_pages_size (pages, &w, &h);
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) (w * PER_MM), (int) (h * PER_MM));
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, PER_MM, PER_MM);
  cairo_translate (cr, tiled->field.x - tile->box.x, tiled->field.y - tile->box.y);
  pr_dimensions_draw (tiled->dims, cr);
  cairo_destroy (cr);
  KitPicture picture = kit_surface (surface);
  cairo_surface_destroy (surface);
  return picture;
}

/* No leader is struck through the name of a tile beside its join. */
static void
joins_stand_clear (const PrPages *pages, int page, const GArray *words, const char *what)
{
  KitPicture picture = figures_of (pages, page);

  for (guint i = 0; i < words->len; i++) {
    const Word *word = &g_array_index (words, Word, i);

    if (!g_str_equal (word->text, "joins"))
      continue;
    for (int y = (int) (word->y0 * PER_MM); y < (int) (word->y1 * PER_MM); y++)
      for (int x = (int) (word->x0 * PER_MM); x < (int) (word->x1 * PER_MM); x++)
        if (kit_grey (&picture, x, y) < 160)
          fail_msg ("%s, page %d: a line goes through “joins”", what, page + 1);
  }
  kit_picture_clear (&picture);
}

/* All pages of one face of JOB on paper. */
static void
check_face (const PrJob *job, PrDoc doc, const PrPageOptions *options, const char *file, const char *what)
{
  g_autoptr (PrPages) pages = pr_pages_new (doc, job, options);
  int left_out = 0, n = pr_dimensions_count (pr_pages_tiled (pages)->dims, &left_out);

  assert_true (n >= 5 + 3 + 2); /* webs; width, length, heels; diagonals */
  assert_int_equal (left_out, 0);
  for (int page = 0; page < pr_pages_count (pages); page++) {
    g_autoptr (GArray) words = page_words (pages, page, false, file);

    none_over_another (words, what);
    joins_stand_clear (pages, page, words, what);
    if (options->unit != PR_UNIT_MM)
      continue;
    g_autoptr (GArray) drawn = page_words (pages, page, true, file);
    KitPicture picture = drawing_of (pages, page);
    assert_true (none_over_drawing (words, drawn, &picture, what) > 20);
    kit_picture_clear (&picture);
  }
}

/* A pony's, a riding horse's and a draught horse's foot in every style, in both units. */
static void
test_figures_stand_clear (void **state)
{
  static const double widths[] = { 90, 130, 182 };
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  g_autofree char *folder = kit_folder (), *file = g_build_filename (folder, "page.pdf", NULL);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  for (guint i = 0; i < styles->len; i++)
    for (size_t k = 0; k < G_N_ELEMENTS (widths); k++) {
      const PrStyle *style = styles->pdata[i];
      PrFoot foot = style->feet == PR_FEET_HIND ? PR_FOOT_RH : PR_FOOT_LF;
      g_autoptr (PrJob) job = paper_job (foot, style->id, widths[k] / 127, 0);

      for (PrUnit unit = PR_UNIT_MM; unit <= PR_UNIT_INCH; unit++) {
        g_autofree char *what = g_strdup_printf ("%s, %g, unit %d", style->id, widths[k], unit);

        options.unit = unit;
        check_face (job, PR_DOC_TEMPLATE, &options, file, what);
        check_face (job, PR_DOC_GROUND, &options, file, what);
      }
    }
  kit_folder_gone (g_steal_pointer (&folder));
}

static bool
has_word (const GArray *words, const char *text)
{
  for (guint i = 0; i < words->len; i++)
    if (g_str_equal (g_array_index (words, Word, i).text, text))
      return true;
  return false;
}

/* What the page says is what the shoe is. */
static void
test_figures_are_true (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 0);
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  g_autoptr (PrPages) pages = pr_pages_new (PR_DOC_TEMPLATE, job, &options);
  g_autofree char *folder = kit_folder (), *file = g_build_filename (folder, "page.pdf", NULL);
  g_autoptr (GArray) words = page_words (pages, 0, false, file);
  const PrShoe *shoe = job->shoe;
  double quarter = pr_shoe_edge_to_s (shoe, PR_MEDIAL, 0.5 * shoe->edge_buttress[PR_MEDIAL]);
  double width, length, before = pr_rows_web_at (&job->iron.rows, shoe, quarter);
  PrPt toe = pr_shoe_edge_at (shoe, PR_MEDIAL, 0, NULL, NULL);

  (void) state;
  pr_card_shoe_size (shoe, &width, &length);
  assert_true (job->sources.plan.web_quarter[PR_MEDIAL] - before > 0.5);
  const double mm[]
      = { width,
          length,
          job->sources.plan.web_toe,
          job->sources.plan.web_quarter[PR_MEDIAL],
          pr_pt_dist (toe, shoe->heel_outer[PR_MEDIAL]),
          pr_pt_dist (toe, pr_shoe_edge_at (shoe, PR_MEDIAL, shoe->crease[0].edge_from, NULL, NULL)),
          pr_pt_dist (shoe->heel_outer[0], shoe->heel_outer[1]) };
  for (size_t i = 0; i < G_N_ELEMENTS (mm); i++) {
    g_autofree char *figure = pr_length_brief_number (mm[i], PR_UNIT_MM);

    if (!has_word (words, figure))
      fail_msg ("%s mm is not on the page", figure);
  }
  g_autofree char *left = pr_length_brief_number (before, PR_UNIT_MM), *open = g_strconcat ("(", left, NULL);
  assert_true (has_word (words, open));
  kit_folder_gone (g_steal_pointer (&folder));
}

/* Without a crease no web is another before it. */
static void
test_no_crease (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 0);
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  g_autofree char *folder = kit_folder (), *file = g_build_filename (folder, "page.pdf", NULL);

  (void) state;
  job->sources.plan.crease[0] = job->sources.plan.crease[1] = false;
  assert_true (pr_job_refresh (job, NULL));
  g_autoptr (PrPages) pages = pr_pages_new (PR_DOC_GROUND, job, &options);
  g_autoptr (GArray) words = page_words (pages, 0, false, file);
  assert_false (has_word (words, "before"));
  assert_false (has_word (words, "crease"));
  kit_folder_gone (g_steal_pointer (&folder));
}

/* Lap and welds are named where there are two pieces, and only there. */
static void
test_pieces (void **state)
{
  static const char *const styles[] = { "toe-extension", "straight-bar", "egg-bar", "heart-bar" };
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  g_autofree char *folder = kit_folder (), *file = g_build_filename (folder, "page.pdf", NULL);

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (styles); i++)
    for (int pieces = 0; pieces < 2; pieces++) {
      g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, styles[i], 1, 0);

      job->sources.plan.ext_piece = job->sources.plan.bar_piece = pieces;
      job->sources.plan.ext_lap = 12;
      assert_true (pr_job_refresh (job, NULL));
      g_autoptr (PrPages) pages = pr_pages_new (PR_DOC_TEMPLATE, job, &options);
      g_autoptr (GArray) words = page_words (pages, 0, false, file);
      assert_true (has_word (words, i == 0 ? "lap" : "weld") == (pieces == 1));
    }
  kit_folder_gone (g_steal_pointer (&folder));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_figures_stand_clear),
    cmocka_unit_test (test_figures_are_true),
    cmocka_unit_test (test_no_crease),
    cmocka_unit_test (test_pieces),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
