/* SPDX-License-Identifier: GPL-3.0-or-later */
/* True size, as another program sees it: PDF drawn by poppler and measured in pixels. */
#include "paper-kit.h"

#include "pr-pdf.h"

#include <stdlib.h>

#include <glib/gstdio.h>
#include <string.h>

#define DPI 300
static const double per = DPI / 25.4; /* pixels a mm */
#define SLACK_MM 0.1

/* Page count and page size as poppler reads them. */
static int
pdf_pages (const char *pdf)
{
  const char *argv[] = { "pdfinfo", pdf, NULL };
  g_autofree char *text = NULL;

  assert_true (kit_run (argv, &text));
  const char *at = strstr (text, "Pages:");
  assert_non_null (at);
  return atoi (at + 6);
}

static char *
read_all (const char *file, gsize *len)
{
  char *data = NULL;

  assert_true (g_file_get_contents (file, &data, len, NULL));
  return data;
}

static bool
bytes_hold (const char *data, gsize len, const char *text)
{
  return memmem (data, len, text, strlen (text)) != NULL;
}

/* Both check bars lie on every page, both ways, a tenth of a millimetre or better. */
static void
check_bars (const char *pdf)
{
  int n = pdf_pages (pdf);

  for (int i = 1; i <= n; i++) {
    KitPicture page = kit_pdf_page (pdf, i, DPI);

    for (int along_y = 0; along_y < 2; along_y++) {
      assert_true (kit_has_run (&page, along_y, 100 * per, SLACK_MM * per));
      assert_true (kit_has_run (&page, along_y, 101.6 * per, SLACK_MM * per));
    }
    kit_picture_clear (&page);
  }
}

/* Every page's MediaBox is the paper's size to a thousandth of a point. */
static void
check_media (const char *pdf, PrPaper paper)
{
  gsize len = 0;
  g_autofree char *data = read_all (pdf, &len);
  double width, height, box[4];
  int found = 0;

  pr_paper_size (paper, &width, &height);
  for (const char *at = data; (at = memmem (at, len - (gsize) (at - data), "/MediaBox [", 11)) != NULL;) {
    at += 11;
    for (int i = 0; i < 4; i++) {
      char *end;
      box[i] = g_ascii_strtod (at, &end);
      at = end;
    }
    assert_true (box[0] == 0 && box[1] == 0);
    assert_float_equal (box[2], width * 72 / 25.4, 1e-3);
    assert_float_equal (box[3], height * 72 / 25.4, 1e-3);
    found++;
  }
  assert_int_equal (found, pdf_pages (pdf));
  assert_true (bytes_hold (data, len, "/ViewerPreferences << /PrintScaling /None >>"));
}

static double
json_number (JsonNode *root, const char *part, const char *name)
{
  JsonObject *object = json_object_get_object_member (json_node_get_object (root), part);

  return json_object_get_double_member (object, name);
}

/* All papers: bars, media, and the count that was laid out. */
static void
test_template_on_papers (void **state)
{
  char *folder = kit_folder ();
  g_autofree char *pdf = g_build_filename (folder, "t.pdf", NULL);
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 330);
  static const PrPaper papers[] = { PR_PAPER_A4, PR_PAPER_LETTER, PR_PAPER_A5 };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (papers); i++) {
    PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
    options.paper = papers[i];
    g_autoptr (PrPages) foot = pr_pages_new (PR_DOC_TEMPLATE, job, &options);
    g_autoptr (PrPages) ground = pr_pages_new (PR_DOC_GROUND, job, &options);
    g_autoptr (PrPages) black = pr_pages_new (PR_DOC_SILHOUETTE, job, &options);

    assert_true (pr_write_template_pdf (job, &options, pdf, NULL));
    assert_int_equal (pdf_pages (pdf),
                      pr_pages_count (foot) + pr_pages_count (ground) + pr_pages_count (black));
    check_media (pdf, papers[i]);
    check_bars (pdf);
  }
  kit_folder_gone (folder);
}

static void
test_bar_pdf (void **state)
{
  char *folder = kit_folder ();
  g_autofree char *pdf = g_build_filename (folder, "b.pdf", NULL);
  g_autoptr (PrJob) job = paper_job (PR_FOOT_RH, "plain-hind", 1.1, 330);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  assert_true (pr_write_bar_pdf (job, &options, pdf, NULL));
  check_media (pdf, PR_PAPER_A4);
  check_bars (pdf);
  kit_folder_gone (folder);
}

/* The shoe on paper is as wide as the report says, on both faces. */
static void
test_shoe_width (void **state)
{
  const int dpi = 600;
  const double stroke = 0.35;
  char *folder = kit_folder ();
  g_autofree char *pdf = g_build_filename (folder, "t.pdf", NULL);
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "plain-front", 1, 0);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  g_autoptr (JsonNode) report = pr_report_json (job);
  double width = json_number (report, "shoe", "width_mm");

  (void) state;
  assert_true (pr_write_template_pdf (job, &options, pdf, NULL));
  for (int page = 1; page <= 2; page++) {
    KitPicture picture = kit_pdf_page (pdf, page, dpi);
    double first, last;

    assert_true (kit_shoe_columns (&picture, 0, picture.width, &first, &last));
    assert_float_equal ((last - first) * 25.4 / dpi - stroke, width, 0.1);
    kit_picture_clear (&picture);
  }
  kit_folder_gone (folder);
}

/* An update of a PDF that is none is refused, and the sentence says what to do. */
static void
test_pdf_finish_refuses (void **state)
{
  static const char *const bad[] = { "", "startxref", "trailer << /Root 1 0 R >>\nstartxref\n0\n",
                                     "trailer << /Root 9 0 R /Size 3 >>\nstartxref\n12\n%%EOF",
                                     "\n1 0 obj\n<< /Type /Pages >>\nendobj\ntrailer << /Root 1 0 R "
                                     "/Size 3 >>\nstartxref\n12\n%%EOF" };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++) {
    GByteArray *pdf = g_byte_array_new ();
    g_autoptr (GError) error = NULL;

    g_byte_array_append (pdf, (const guint8 *) bad[i], (guint) strlen (bad[i]));
    assert_false (pr_pdf_finish (pdf, &error));
    assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_FILE));
    g_byte_array_unref (pdf);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_template_on_papers),
    cmocka_unit_test (test_bar_pdf),
    cmocka_unit_test (test_shoe_width),
    cmocka_unit_test (test_pdf_finish_refuses),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
