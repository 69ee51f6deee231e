/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words of a person's own, as long as they like, stay on the page: a style's name in the head, an order of work on the
 * card, in four scripts, with blanks and without. */
#include "paper-kit.h"

#include <glib/gstdio.h>
#include <string.h>
#include "pr-ink.h"
#include "pr-style.h"

static const char *const scripts[] = { "Upper Meadow ", "Donaudampfschifffahrt", "\u0646\u062c\u0645\u0629",
                                       "青山绿水马蹄铁", "🐴🧲🔥" };

static char *
letters (const char *some, int n)
{
  GString *text = g_string_new (NULL);
  const char *at = some;

  for (int i = 0; i < n; i++) {
    g_string_append_unichar (text, g_utf8_get_char (at));
    at = g_utf8_next_char (at);
    if (!*at)
      at = some;
  }
  return g_string_free (text, FALSE);
}

/* All that PAGE draws lies WITHIN its margins. */
static void
stays_on_page (const PrPages *pages, int page, double margin)
{
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (surface);
  double x, y, w, h, width, height;

  pr_pages_draw (pages, page, cr);
  assert_int_equal (cairo_status (cr), CAIRO_STATUS_SUCCESS);
  cairo_recording_surface_ink_extents (surface, &x, &y, &w, &h);
  pr_pages_size (pages, &width, &height);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  if (x < margin - 1 || y < margin - 1 || x + w > width - margin + 1 || y + h > height - margin + 1)
    fail_msg ("page %d: ink from %.1f, %.1f to %.1f, %.1f on %.0f x %.0f", page + 1, x, y, x + w, y + h,
              width, height);
}

static void
test_pages (void **state)
{
  char *folder = kit_folder ();
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  (void) state;

  for (size_t i = 0; i < G_N_ELEMENTS (scripts); i++) {
    g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 330);
    g_autofree char *name = letters (scripts[i], 119), *step = letters (scripts[i], 400);
    g_autofree char *id = g_strconcat ("x", name, NULL);

    assert_true (
        pr_style_save_own (id, &job->hoof, &job->sources.plan, NULL)); /* a letter before the emoji */
    g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
    for (guint k = 0; k < styles->len; k++)
      if (g_str_equal (((PrStyle *) styles->pdata[k])->name, id))
        pr_style_apply (styles->pdata[k], &job->hoof, &job->sources.plan);
    job->sources.order = g_strdup_printf ("%s\n%s", step, step);
    assert_true (pr_job_refresh (job, NULL));
    for (PrDoc doc = PR_DOC_TEMPLATE; doc <= PR_DOC_CARD; doc++) {
      g_autoptr (PrPages) pages = pr_pages_new (doc, job, &options);

      for (int page = 0; page < pr_pages_count (pages); page++)
        stays_on_page (pages, page, options.margin_mm);
    }
    if (g_getenv ("PR_PAGES")) {
      g_autofree char *dir = g_strdup_printf ("%s/%zu", g_getenv ("PR_PAGES"), i);
      assert_true (pr_write_all (job, &options, dir, NULL));
    }
  }
  kit_folder_gone (folder);
}

static void
test_cut (void **state)
{
  cairo_t *cr = pr_text_scratch ();
  (void) state;

  pr_text_face (cr, 4, false);
  for (size_t i = 0; i < G_N_ELEMENTS (scripts); i++)
    for (int n = 0; n <= 120; n += 5) {
      g_autofree char *text = letters (scripts[i], n), *cut = pr_text_cut (cr, text, 60);
      double wide = pr_text_width (cr, text);

      assert_true (g_utf8_validate (cut, -1, NULL));
      assert_true (pr_text_width (cr, cut) <= 60);
      assert_true (wide <= 60 ? g_str_equal (cut, text) : g_str_has_suffix (cut, "…"));
      /* in lines, each letter once: as many lines as the width asks for, and one more for the ends */
      double lines = pr_text_block (cr, 0, 0, 60, 1, false, text);
      assert_true (lines <= wide / 60 * 1.4 + 2);
      assert_true (lines >= floor (wide / 60));
    }
  cairo_destroy (cr);
}

/* Where the ink of TEXT lies, written from (0, 0). */
static void
inked (const char *text, double size, double *left, double *width)
{
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (surface);
  double y, h;

  pr_text_face (cr, size, true);
  pr_text (cr, 0, 0, PR_LEFT, text);
  cairo_destroy (cr);
  cairo_recording_surface_ink_extents (surface, left, &y, width, &h);
  cairo_surface_destroy (surface);
}

/* How many columns wide the letter at the left end of TEXT is, and the one at its right end, as they stand apart. */
static void
outer_letters (const char *text, int *first, int *last)
{
  enum { WIDE = 200, HIGH = 100 };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, WIDE, HIGH);
  cairo_t *cr = cairo_create (surface);
  int run = 0;

  pr_text_face (cr, 50, false);
  pr_text (cr, 20, 70, PR_LEFT, text);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  const guint8 *pixel = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface);
  *first = *last = 0;
  for (int x = 0; x < WIDE; x++) {
    bool ink = false;

    for (int y = 0; y < HIGH; y++)
      ink |= pixel[y * stride + x] > 40;
    if (!ink && run > 0 && *first == 0)
      *first = run;
    run = ink ? run + 1 : 0;
    if (ink)
      *last = run;
  }
  cairo_surface_destroy (surface);
}

static double
wide (const char *text, double size)
{
  cairo_t *cr = pr_text_scratch ();

  pr_text_face (cr, size, true);
  double width = pr_text_width (cr, text);
  cairo_destroy (cr);
  return width;
}

/* Arabic letters join: a beh between two others is narrower than one by itself. Hebrew runs from the right: what is written first
 * ends up there. All of it is as large as it is asked for, at sizes in mm too, and lies where its width says. */
static void
test_shaped (void **state)
{
  const char *beh = "\u0628", *three = "\u0628\u0628\u0628", *word = "\u062d\u0635\u0627\u0646";
  double left, width;

  (void) state;
  assert_true (wide (three, 4) < 0.75 * 3 * wide (beh, 4));
  assert_true (fabs (wide (word, 8) / wide (word, 4) - 2) < 0.02);
  inked (word, 4, &left, &width);
  assert_true (left > -1 && left + width < wide (word, 4) + 1);
  /* vav, narrow, is written before shin, wide: it stands to the right of it */
  int first, last;
  outer_letters ("\u05d5\u05e9", &first, &last);
  assert_true (first > 2 * last);
  outer_letters ("\u05e9\u05d5", &first, &last);
  assert_true (last > 2 * first);
  /* Latin, Greek and Cyrillic are measured as ever */
  cairo_t *cr = pr_text_scratch ();
  cairo_text_extents_t size;
  pr_text_face (cr, 5, false);
  cairo_text_extents (cr, "Größe Ζεύς Конь 3 × 4", &size);
  assert_true (pr_text_width (cr, "Größe Ζεύς Конь 3 × 4") == size.x_advance);
  cairo_destroy (cr);
}

int
main (void)
{
  const struct CMUnitTest tests[]
      = { cmocka_unit_test (test_shaped), cmocka_unit_test (test_pages), cmocka_unit_test (test_cut) };
  char *home = kit_folder ();

  g_setenv ("XDG_DATA_HOME", home, TRUE); /* the styles are kept there */
  int failed = cmocka_run_group_tests (tests, NULL, NULL);
  kit_folder_gone (home);
  return failed;
}
