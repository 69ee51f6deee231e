/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The silhouette: black where iron is, white where crease and holes are, cut out along a line around it, in large type. */
#include <cairo-pdf.h>
#include <stdio.h>
#include <string.h>

#include "paper-kit.h"

#define PT_PER_MM (72 / 25.4)
#define PER_MM 10.0

typedef struct {
  PrJob *job;
  PrPages *pages;
  KitPicture picture; /* of its only page */
} Black;

static Black
black_of (PrFoot foot, const char *style)
{
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  Black black = { .job = paper_job (foot, style, 0.9, 0) };
  double w, h;

  black.pages = pr_pages_new (PR_DOC_SILHOUETTE, black.job, &options);
  assert_int_equal (pr_pages_count (black.pages), 1);
  pr_pages_size (black.pages, &w, &h);
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) (w * PER_MM), (int) (h * PER_MM));
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, PER_MM, PER_MM);
  pr_pages_draw (black.pages, 0, cr);
  cairo_destroy (cr);
  black.picture = kit_surface (surface);
  cairo_surface_destroy (surface);
  return black;
}

static void
black_clear (Black *black)
{
  kit_picture_clear (&black->picture);
  pr_pages_free (black->pages);
  pr_job_free (black->job);
}

/* Grey at P of the foot frame. */
static int
grey_at (const Black *black, PrPt p)
{
  const PrTiled *tiled = pr_pages_tiled (black->pages);
  const PrTile *tile = &g_array_index (tiled->tile, PrTile, 0);
  double x = tiled->field.x - tile->box.x + tiled->origin.x
             + pr_lateral_sign (black->job->sources.foot, PR_FACE_GROUND) * p.x;
  double y = tiled->field.y - tile->box.y + tiled->origin.y - p.y;

  return kit_grey (&black->picture, (int) (x * PER_MM), (int) (y * PER_MM));
}

/* Just inside the edge it is black all along, just outside white; 4 mm outside runs a dashed line. */
static void
check_edges (const Black *black)
{
  const PrShoe *shoe = black->job->shoe;
  int dashed = 0, n = 0;

  for (size_t i = shoe->n_st / 10; i < shoe->n_st * 9 / 10; i++) {
    const PrStation *st = &shoe->st[i];
    PrPt out = pr_pt_scale (st->cut, -1);
    bool line = false;

    if (fabs (st->place - 0.35) < 0.25 || st->place < 0.1) /* clips stand there */
      continue;
    assert_true (grey_at (black, pr_pt_along (st->outer, out, -0.8)) < 40);
    assert_true (grey_at (black, pr_pt_along (st->inner, out, 0.8)) < 40);
    assert_true (grey_at (black, pr_pt_along (st->outer, out, 1.5)) > 220);
    assert_true (grey_at (black, pr_pt_along (st->inner, out, -1.5)) > 220);
    for (double off = 3.6; off < 4.4; off += 0.05)
      line |= grey_at (black, pr_pt_along (st->outer, out, off)) < 128;
    dashed += line;
    n++;
  }
  assert_true (n > 20);
  assert_true (dashed > n / 3 && dashed < n * 5 / 6);
}

static void
test_black_and_white (void **state)
{
  static const char *const styles[] = { "quarter-clipped", "toe-extension", "egg-bar" };

  (void) state;
  for (size_t k = 0; k < 2 * G_N_ELEMENTS (styles); k++) {
    Black black = black_of (k % 2 ? PR_FOOT_LF : PR_FOOT_RF, styles[k / 2]);
    const PrShoe *shoe = black.job->shoe;

    check_edges (&black);
    for (size_t i = 0; i < shoe->n_nails; i++) {
      const PrNail *nail = &shoe->nail[i];

      assert_true (grey_at (&black, nail->at) > 220);
      /* its hole is told from the crease */
      assert_true (grey_at (&black, pr_pt_along (nail->at, nail->along, nail->head_length / 2)) < 128);
    }
    for (size_t i = 0; i < shoe->n_creases; i++)
      assert_true (grey_at (&black, shoe->crease[i].middle.p[0]) > 220);
    for (size_t i = 0; i < shoe->n_clips; i++) {
      const PrPath *ring = &shoe->clip[i].ring;

      assert_true (grey_at (&black, pr_pt_along (ring->p[ring->n / 2], shoe->clip[i].out, -0.5)) < 40);
    }
    if (shoe->ext.present)
      assert_true (grey_at (&black, pr_pt_lerp (shoe->ext.corner[0], shoe->ext.corner[2], 0.5)) < 40);
    if (black.job->sources.plan.bar != PR_BAR_NONE)
      assert_true (grey_at (&black, pr_pt_along (shoe->bar_at, pr_pt (0, 1), 2)) < 40);
    black_clear (&black);
  }
}

/* Height of the word that begins at AT in what pdftotext says, in points of type: ascent and descent together are 1.164 of it. */
static double
size_of (const char *at)
{
  double box[4];

  paper_word_box (at, box);
  return (box[3] - box[1]) / 1.164;
}

/* How often WORD stands on the page in type of at least SIZE points. */
static int
count_words (const char *out, const char *word, double size)
{
  g_autofree char *wanted = g_strdup_printf (">%s</word>", word);
  int n = 0;

  for (const char *at = strstr (out, "<word "); at != NULL; at = strstr (at + 1, "<word ")) {
    const char *text = strchr (at, '>');

    n += g_str_has_prefix (text, wanted) && size_of (at) >= size - 0.01;
  }
  return n;
}

/* Both letters and the face in type that is read from where one stands, the line's name once; on every paper. */
static void
test_is_read (void **state)
{
  static const double sizes[] = { 0.7, 1, 1.45 };
  g_autofree char *folder = kit_folder (), *file = g_build_filename (folder, "b.pdf", NULL);
  const char *argv[] = { "pdftotext", "-bbox", file, "-", NULL };
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  for (size_t i = 0; i < 2 * G_N_ELEMENTS (sizes); i++) {
    g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, i % 2 ? "heart-bar" : "quarter-clipped", sizes[i / 2], 0);
    g_autoptr (PrPages) pages = pr_pages_new (PR_DOC_SILHOUETTE, job, &options);
    g_autofree char *out = NULL;
    double w, h;

    pr_pages_size (pages, &w, &h);
    cairo_surface_t *surface = cairo_pdf_surface_create (file, w * PT_PER_MM, h * PT_PER_MM);
    cairo_t *cr = cairo_create (surface);
    cairo_scale (cr, PT_PER_MM, PT_PER_MM);
    for (int page = 0; page < pr_pages_count (pages); page++) {
      pr_pages_draw (pages, page, cr);
      cairo_show_page (cr);
    }
    cairo_destroy (cr);
    cairo_surface_destroy (surface);
    assert_true (kit_run (argv, &out));
    assert_int_equal (count_words (out, "M", 22), 1);
    assert_int_equal (count_words (out, "L", 22), 1);
    assert_int_equal (count_words (out, "ground", 22), 1);
    assert_int_equal (count_words (out, "surface", 22), 1);
    assert_int_equal (count_words (out, "here", 9), 1);
  }
  kit_folder_gone (g_steal_pointer (&folder));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_black_and_white),
    cmocka_unit_test (test_is_read),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
