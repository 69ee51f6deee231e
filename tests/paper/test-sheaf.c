/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What one print gives: the documents that are chosen, counted through. */
#include <cairo-pdf.h>
#include <string.h>

#include "paper-kit.h"
#include "pr-sheaf.h"

#define PT_PER_MM (72 / 25.4)

/* The words of page PAGE, in one line. Transfer full. */
static char *
page_words (const PrSheaf *sheaf, int page)
{
  g_autofree char *folder = kit_folder (), *file = g_build_filename (folder, "page.pdf", NULL);
  const char *argv[] = { "pdftotext", file, "-", NULL };
  char *text = NULL;
  double w, h;

  pr_sheaf_page_size (sheaf, page, &w, &h);
  cairo_surface_t *surface = cairo_pdf_surface_create (file, w * PT_PER_MM, h * PT_PER_MM);
  cairo_t *cr = cairo_create (surface);
  cairo_scale (cr, PT_PER_MM, PT_PER_MM);
  pr_sheaf_draw (sheaf, page, cr);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  assert_true (kit_run (argv, &text));
  kit_folder_gone (g_steal_pointer (&folder));
  return g_strdelimit (text, "\n", ' ');
}

/* Each choice of documents gives just these, in their order, each page says which of all it is. */
static void
test_chosen (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 0);
  g_autoptr (PrSheaf) sheaf = pr_sheaf_new_job (job);
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  int count[PR_N_SHOE_DOCS];

  (void) state;
  assert_int_equal (pr_sheaf_chosen (sheaf), PR_ALL_SHOE_DOCS);
  assert_int_equal (pr_sheaf_count (sheaf), 0);
  for (guint docs = 1; docs <= PR_ALL_SHOE_DOCS; docs++) {
    int page = 0, n;

    pr_sheaf_choose (sheaf, docs);
    assert_true (pr_sheaf_lay (sheaf, &options, NULL));
    n = pr_sheaf_count (sheaf);
    for (int doc = 0; doc < PR_N_SHOE_DOCS; doc++) {
      if (docs == 1u << doc)
        count[doc] = n;
      for (int i = 0; docs & 1u << doc && i < count[doc]; i++, page++)
        assert_string_equal (pr_sheaf_page_name (sheaf, page), pr_sheaf_doc_name ((PrDoc) doc));
    }
    assert_int_equal (page, n);
  }
  for (int page = 0; page < pr_sheaf_count (sheaf); page++) {
    g_autofree char *words = page_words (sheaf, page);
    g_autofree char *told = g_strdup_printf ("Page %d of %d ", page + 1, pr_sheaf_count (sheaf));

    assert_non_null (strstr (words, told));
    assert_non_null (strstr (words, pr_sheaf_page_name (sheaf, page)));
  }
}

/* Nothing chosen is refused with a sentence; what was laid out stays. What is no document of a shoe cannot be chosen. */
static void
test_none_chosen (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 0);
  g_autoptr (PrSheaf) sheaf = pr_sheaf_new_job (job);
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  g_autoptr (GError) error = NULL;

  (void) state;
  assert_true (pr_sheaf_lay (sheaf, &options, NULL));
  int n = pr_sheaf_count (sheaf);
  pr_sheaf_choose (sheaf, 1u << PR_DOC_CHECK);
  assert_int_equal (pr_sheaf_chosen (sheaf), 0);
  assert_false (pr_sheaf_lay (sheaf, &options, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_INPUT));
  assert_non_null (strstr (error->message, "tick"));
  assert_int_equal (pr_sheaf_count (sheaf), n);
}

/* All feet of a visit: each with the documents that are chosen, near fore first, counted through, each under its own name. */
static void
test_all_feet (void **state)
{
  static const PrFoot order[] = { PR_FOOT_LF, PR_FOOT_RF, PR_FOOT_RH };
  g_autoptr (PrJob) job = paper_job (PR_FOOT_RF, "quarter-clipped", 1, 0);
  g_autoptr (PrJob) hind = paper_job (PR_FOOT_RH, "plain-hind", 0.9, 0);
  g_autoptr (PrJob) fore = paper_job (PR_FOOT_LF, "plain-front", 1.1, 0);
  g_autoptr (PrSheaf) sheaf = pr_sheaf_new_job (job);
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  pr_sheaf_set_all_feet (sheaf, true);
  assert_false (pr_sheaf_all_feet (sheaf)); /* there is but one */
  pr_sheaf_add_foot (sheaf, hind);
  pr_sheaf_add_foot (sheaf, fore);
  assert_int_equal (pr_sheaf_feet (sheaf), 3);
  pr_sheaf_choose (sheaf, 1u << PR_DOC_SILHOUETTE | 1u << PR_DOC_GROUND);
  assert_true (pr_sheaf_lay (sheaf, &options, NULL));
  assert_int_equal (pr_sheaf_count (sheaf), 2);
  assert_string_equal (pr_sheaf_page_name (sheaf, 1), "silhouette");
  pr_sheaf_set_all_feet (sheaf, true);
  assert_true (pr_sheaf_lay (sheaf, &options, NULL));
  assert_int_equal (pr_sheaf_count (sheaf), 6);
  for (int page = 0; page < 6; page++) {
    g_autofree char *words = page_words (sheaf, page), *told = g_strdup_printf ("Page %d of 6 ", page + 1);
    const char *foot = pr_foot_name (order[page / 2]);
    g_autofree char *name = g_strdup_printf ("%s, %s", foot, page % 2 ? "silhouette" : "ground surface");

    assert_string_equal (pr_sheaf_page_name (sheaf, page), name);
    assert_non_null (strstr (words, foot));
    assert_non_null (strstr (words, told));
  }
}

/* What holds no shoe has nothing to choose. */
static void
test_others (void **state)
{
  const PrFoot feet[] = { PR_FOOT_LF, PR_FOOT_RH };
  g_autoptr (PrSheaf) sheets = pr_sheaf_new_sheets (feet, 2), check = pr_sheaf_new_check ();
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  pr_sheaf_choose (sheets, 0);
  pr_sheaf_choose (check, 0);
  assert_true (pr_sheaf_lay (sheets, &options, NULL) && pr_sheaf_lay (check, &options, NULL));
  assert_int_equal (pr_sheaf_count (sheets), 3); /* and one on how to use them */
  assert_string_equal (pr_sheaf_page_name (sheets, 1), pr_foot_name (PR_FOOT_RH));
  assert_int_equal (pr_sheaf_count (check), 1);
  assert_true (!pr_sheaf_is_shoe (sheets) && !pr_sheaf_is_shoe (check));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_chosen),
    cmocka_unit_test (test_none_chosen),
    cmocka_unit_test (test_all_feet),
    cmocka_unit_test (test_others),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
