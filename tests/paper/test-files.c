/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files: their scale as the file itself says it, the report's keys and words, and that a file is
 * whole or not there. */
#include "paper-kit.h"

#include "pr-atomic-file.h"
#include "pr-stage-sheet.h"
#include "pr-template.h"

#include <errno.h>
#include <fcntl.h>
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>
#include <locale.h>
#include <png.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* --- a disk that fails ------------------------------------------------------------------- */

/* These stand before the C library's: the room's calls pass here, and the one counted down to 0
 * fails as on a full or vanishing disk. */
static int rename_in = -1, fsync_in = -1;

int
rename (const char *from, const char *to)
{
  if (rename_in >= 0 && rename_in-- == 0) {
    errno = EACCES;
    return -1;
  }
  return renameat (AT_FDCWD, from, AT_FDCWD, to);
}

int
fsync (int fd)
{
  (void) fd;
  if (fsync_in >= 0 && fsync_in-- == 0) {
    errno = ENOSPC;
    return -1;
  }
  return 0;
}

/* --- true scale -------------------------------------------------------------------------- */

/* pHYs of FILE, and its picture through libpng. Fills RGB of the picture. */
static KitPicture
read_png (const char *file, png_uint_32 *x, png_uint_32 *y, int *unit)
{
  FILE *in = fopen (file, "rb");
  png_structp png = png_create_read_struct (PNG_LIBPNG_VER_STRING, NULL, NULL, NULL);
  png_infop info = png_create_info_struct (png);

  assert_non_null (in);
  png_init_io (png, in);
  png_read_png (png, info, PNG_TRANSFORM_IDENTITY, NULL);
  KitPicture picture
      = { (int) png_get_image_width (png, info), (int) png_get_image_height (png, info), NULL };
  assert_int_equal (png_get_color_type (png, info), PNG_COLOR_TYPE_RGB);
  assert_true (png_get_pHYs (png, info, x, y, unit) & PNG_INFO_pHYs);
  picture.rgb = g_malloc ((size_t) picture.width * (size_t) picture.height * 3);
  for (int row = 0; row < picture.height; row++)
    memcpy (picture.rgb + 3 * (size_t) row * (size_t) picture.width, png_get_rows (png, info)[row],
            3 * (size_t) picture.width);
  png_destroy_read_struct (&png, &info, NULL);
  fclose (in);
  return picture;
}

/* 300 dpi is 11811 per metre (ISO/IEC 15948), and the bars in the picture agree with it. */
static void
test_png_scale (void **state)
{
  char *folder = kit_folder ();
  g_autofree char *file = g_build_filename (folder, "t.png", NULL);
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 0);
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  static const double asked[] = { 300 / 25.4, 7.3333 };
  static const png_uint_32 wanted[] = { 11811, 7333 };

  (void) state;
  for (int i = 0; i < 2; i++) {
    png_uint_32 x = 0, y = 0;
    int unit = -1;

    assert_true (pr_write_template_png (job, PR_FACE_FOOT, &options, asked[i], file, NULL));
    KitPicture picture = read_png (file, &x, &y, &unit);
    assert_int_equal (unit, PNG_RESOLUTION_METER);
    assert_true (x == wanted[i] && y == wanted[i]);
    for (int way = 0; way < 2; way++) {
      assert_true (kit_has_run (&picture, way, 0.1 * x, 0.0001 * x));
      assert_true (kit_has_run (&picture, way, 0.1016 * x, 0.0001 * x));
    }
    kit_picture_clear (&picture);
  }
  kit_folder_gone (folder);
}

/* Horse and day are in the title of a picture too: letters there are drawn, so that the picture is another, at the top. */
static void
test_picture_tells_the_horse (void **state)
{
  char *folder = kit_folder ();
  g_autofree char *file = g_build_filename (folder, "t.png", NULL),
                  *svg = g_build_filename (folder, "t.svg", NULL);
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 0);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  png_uint_32 x = 0, y = 0;
  KitPicture picture[2];
  char *text[2];
  int unit, top = 0, below = 0;

  (void) state;
  for (int i = 0; i < 2; i++) {
    options.horse = i ? "Bramble" : NULL;
    options.date = i ? "2026-11-28" : NULL;
    assert_true (pr_write_template_png (job, PR_FACE_FOOT, &options, 6, file, NULL));
    picture[i] = read_png (file, &x, &y, &unit);
    assert_true (pr_write_template_svg (job, PR_FACE_FOOT, &options, svg, NULL));
    assert_true (g_file_get_contents (svg, &text[i], NULL, NULL));
  }
  assert_true (picture[0].width == picture[1].width && picture[0].height == picture[1].height);
  for (int row = 0; row < picture[0].height; row++)
    for (int column = 0; column < picture[0].width; column++)
      *(row < 6 * 16 ? &top : &below)
          += kit_grey (&picture[0], column, row) != kit_grey (&picture[1], column, row);
  assert_true (top > 100 && below == 0);
  assert_true (strlen (text[1]) > strlen (text[0]));
  for (int i = 0; i < 2; i++) {
    kit_picture_clear (&picture[i]);
    g_free (text[i]);
  }
  kit_folder_gone (folder);
}

static double
number_behind (const char *text, const char *key, char **end)
{
  const char *at = strstr (text, key);

  assert_non_null (at);
  return g_ascii_strtod (at + strlen (key), end);
}

/* Width and height in mm, and the drawing's unit is the mm: a second program draws the bars. */
static void
test_svg_scale (void **state)
{
  char *folder = kit_folder (), *end;
  g_autofree char *file = g_build_filename (folder, "t.svg", NULL), *text = NULL;
  g_autoptr (PrJob) job = paper_job (PR_FOOT_RF, "plain-front", 1, 0);
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  const double per = 10;

  (void) state;
  assert_true (pr_write_template_svg (job, PR_FACE_GROUND, &options, file, NULL));
  assert_true (g_file_get_contents (file, &text, NULL, NULL));
  double width = number_behind (text, "width=\"", &end);
  assert_memory_equal (end, "mm\"", 3);
  double height = number_behind (text, "height=\"", &end);
  assert_memory_equal (end, "mm\"", 3);
  assert_true (number_behind (text, "viewBox=\"", &end) == 0 && g_ascii_strtod (end, &end) == 0);
  assert_float_equal (g_ascii_strtod (end, &end), width, 1e-6);
  assert_float_equal (g_ascii_strtod (end, &end), height, 1e-6);
  g_autoptr (GError) error = NULL;
  g_autoptr (GdkPixbuf) pixbuf
      = gdk_pixbuf_new_from_file_at_scale (file, (int) (width * per), (int) (height * per), FALSE, &error);
  kit_folder_gone (folder);
  if (pixbuf == NULL) {
    print_message ("no reader for SVG here: %s\n", error->message);
    return;
  }
  KitPicture picture = { gdk_pixbuf_get_width (pixbuf), gdk_pixbuf_get_height (pixbuf), NULL };
  picture.rgb = g_malloc ((size_t) picture.width * (size_t) picture.height * 3);
  for (int y = 0; y < picture.height; y++)
    for (int x = 0; x < picture.width; x++) {
      const guint8 *p = gdk_pixbuf_read_pixels (pixbuf) + y * gdk_pixbuf_get_rowstride (pixbuf)
                        + x * gdk_pixbuf_get_n_channels (pixbuf);
      int alpha = gdk_pixbuf_get_has_alpha (pixbuf) ? p[3] : 255;

      for (int k = 0; k < 3; k++)
        picture.rgb[3 * (y * picture.width + x) + k] = (guint8) (255 - alpha + p[k] * alpha / 255);
    }
  for (int way = 0; way < 2; way++) {
    assert_true (kit_has_run (&picture, way, 100 * per, 1));
    assert_true (kit_has_run (&picture, way, 101.6 * per, 1));
  }
  kit_picture_clear (&picture);
}

/* --- report ------------------------------------------------------------------------------ */

static JsonObject *
object_in (JsonObject *object, const char *name)
{
  assert_true (json_object_has_member (object, name));
  return json_object_get_object_member (object, name);
}

static void
has_all (JsonObject *object, const char *const *names)
{
  for (; *names != NULL; names++)
    if (!json_object_has_member (object, *names))
      fail_msg ("the report lacks %s", *names);
}

static void
test_json_keys (void **state)
{
  static const char *const parts[] = { "hoof", "plan", "shoe", "iron", "checks", NULL };
  static const char *const shoe[]
      = { "outer_mm",         "inner_mm",          "figure_mm", "area_mm2", "width_mm", "length_mm",
          "thickness_toe_mm", "thickness_heel_mm", "nails",     "clips",    "crease",   NULL };
  static const char *const iron[]
      = { "volume_mm3", "mass_kg",        "pieces",       "needed_mm",       "given_mm",
          "spare_mm",   "middle_line_mm", "hand_rule_mm", "mean_abs_strain", NULL };
  static const char *const piece[] = { "name", "length_mm", "marks", NULL };
  static const char *const mark[] = { "name", "from_end_mm", "from_centre_mm", NULL };
  static const char *const check[]
      = { "id", "group", "state", "value", "limit", "unit", "at_mm", "text", "source", NULL };
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 330);
  g_autoptr (JsonNode) node = pr_report_json (job);
  JsonObject *root = json_node_get_object (node);

  (void) state;
  has_all (root, parts);
  has_all (object_in (root, "shoe"), shoe);
  has_all (object_in (root, "iron"), iron);
  JsonArray *pieces = json_object_get_array_member (object_in (root, "iron"), "pieces");
  assert_int_equal (json_array_get_length (pieces), job->iron.n_pieces);
  has_all (json_array_get_object_element (pieces, 0), piece);
  JsonArray *marks = json_object_get_array_member (json_array_get_object_element (pieces, 0), "marks");
  assert_true (json_array_get_length (marks) > 0);
  has_all (json_array_get_object_element (marks, 0), mark);
  JsonArray *checks = json_object_get_array_member (root, "checks");
  assert_true (json_array_get_length (checks) > 0);
  has_all (json_array_get_object_element (checks, 0), check);
  assert_false (json_object_has_member (root, "scale")); /* no photo, no scale */
  assert_int_equal (json_array_get_length (json_object_get_array_member (object_in (root, "shoe"), "nails")),
                    job->shoe->n_nails);
}

/* The figure's rings in the report hold the area the report tells (shoelace formula). */
static void
test_json_figure (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_RF, "plain-front", 1, 0);
  g_autoptr (JsonNode) node = pr_report_json (job);
  JsonObject *shoe = object_in (json_node_get_object (node), "shoe");
  JsonArray *rings = json_object_get_array_member (shoe, "figure_mm");
  double area = 0, low = INFINITY, high = -INFINITY;

  (void) state;
  for (guint i = 0; i < json_array_get_length (rings); i++) {
    JsonArray *ring = json_array_get_array_element (rings, i);
    guint n = json_array_get_length (ring);

    for (guint k = 0; k < n; k++) {
      JsonArray *p = json_array_get_array_element (ring, k);
      JsonArray *q = json_array_get_array_element (ring, (k + 1) % n);
      double x = json_array_get_double_element (p, 0);

      area += (x * json_array_get_double_element (q, 1)
               - json_array_get_double_element (q, 0) * json_array_get_double_element (p, 1))
              / 2;
      low = fmin (low, x);
      high = fmax (high, x);
    }
  }
  assert_float_equal (area, json_object_get_double_member (shoe, "area_mm2"), 0.01);
  assert_float_equal (high - low, json_object_get_double_member (shoe, "width_mm"), 1e-9);
}

/* Inches are read to sixteenths, and no decimal inch stands anywhere. */
static void
test_text_units (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 330);
  g_autofree char *inch = pr_report_text (job, PR_UNIT_INCH), *mm = pr_report_text (job, PR_UNIT_MM);
  g_autofree char *needed = pr_length_text (job->iron.needed, PR_UNIT_INCH);

  (void) state;
  assert_non_null (strstr (inch, needed));
  assert_true (g_regex_match_simple ("[0-9]+/(2|4|8|16)\\b", inch, 0, 0));
  assert_false (g_regex_match_simple ("[0-9]\\.[0-9]+ in\\b", inch, 0, 0));
  assert_true (g_regex_match_simple ("Needed +[0-9.]+ mm", mm, 0, 0));
  assert_true (g_utf8_validate (mm, -1, NULL));
}

/* What is told in words: foot, every mark of every piece, every finding with its source. */
static void
test_text_tells_all (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_RH, "plain-hind", 1, 0);
  g_autofree char *text = pr_report_text (job, PR_UNIT_MM);
  g_autofree char *flat = NULL;
  g_autoptr (GRegex) blanks = g_regex_new ("\\s+", 0, 0, NULL);

  (void) state;
  flat = g_regex_replace (blanks, text, -1, 0, " ", 0, NULL);
  assert_non_null (strstr (text, pr_foot_name (PR_FOOT_RH)));
  for (size_t i = 0; i < job->iron.n_pieces; i++)
    for (size_t k = 0; k < job->iron.piece[i].n_marks; k++)
      assert_non_null (strstr (text, job->iron.piece[i].mark[k].name));
  for (guint i = 0; i < job->findings->len; i++) {
    const PrFinding *finding = g_ptr_array_index (job->findings, i);

    assert_non_null (strstr (flat, finding->text));
    if (finding->source != NULL)
      assert_non_null (strstr (flat, finding->source));
  }
}

/* How the scale was found is told in both reports. */
static void
test_scale_told (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "plain-front", 1, 0);

  (void) state;
  job->sources.tracing->width_px = 3000;
  job->sources.tracing->scale = (PrScale){ .method = PR_SCALE_SHEET,
                                           .paper = PR_PAPER_A4,
                                           .px_per_mm = 9.5,
                                           .residual_mm = 0.07,
                                           .tilt = G_PI / 6,
                                           .verdict = PR_VERDICT_GOOD,
                                           .why = g_strdup ("All is well.") };
  g_autofree char *text = pr_report_text (job, PR_UNIT_MM);
  g_autoptr (JsonNode) node = pr_report_json (job);
  JsonObject *scale = object_in (json_node_get_object (node), "scale");

  assert_string_equal (json_object_get_string_member (scale, "method"), "sheet");
  assert_string_equal (json_object_get_string_member (scale, "verdict"), "good");
  assert_float_equal (json_object_get_double_member (scale, "tilt_deg"), 30, 1e-9);
  assert_non_null (strstr (text, "A4"));
  assert_non_null (strstr (text, "residual 0.07 mm"));
  assert_non_null (strstr (text, "All is well."));
}

/* A job with nothing in it yet can be drawn, paged and told. */
static void
test_empty_job (void **state)
{
  g_autoptr (PrJob) job = pr_job_new ();
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  g_autofree char *text = pr_report_text (job, PR_UNIT_INCH);
  g_autoptr (JsonNode) node = pr_report_json (job);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 300, 400);

  (void) state;
  assert_true (strlen (text) > 100 && json_object_has_member (json_node_get_object (node), "iron"));
  for (PrDoc doc = PR_DOC_TEMPLATE; doc <= PR_DOC_CHECK; doc++) {
    g_autoptr (PrPages) pages = pr_pages_new (doc, job, &options);
    cairo_t *cr = cairo_create (surface);

    assert_true (pr_pages_count (pages) >= 1);
    pr_pages_draw (pages, 0, cr);
    assert_int_equal (cairo_status (cr), CAIRO_STATUS_SUCCESS);
    cairo_destroy (cr);
  }
  cairo_surface_destroy (surface);
}

/* The SVG without cairo's running numbers of surfaces, which differ between drawings. */
static char *
svg_text (const GByteArray *svg)
{
  g_autoptr (GRegex) number = g_regex_new ("surface[0-9]+", 0, 0, NULL);

  return g_regex_replace_literal (number, (const char *) svg->data, svg->len, 0, "surface", 0, NULL);
}

/* Numbers in files do not follow the user's locale. */
static void
test_comma_locale (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 330);
  g_autoptr (JsonNode) plain = pr_report_json (job);
  g_autofree char *json = json_to_string (plain, TRUE), *text = pr_report_text (job, PR_UNIT_MM);
  GByteArray *svg = g_byte_array_new (), *again = g_byte_array_new ();
  const PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  assert_true (pr_make_template_svg (job, PR_FACE_FOOT, &options, svg, NULL));
  char *folder = kit_folder ();
  if (!kit_comma_locale (folder)) {
    kit_folder_gone (folder);
    g_byte_array_unref (svg);
    g_byte_array_unref (again);
    skip ();
  }
  g_autoptr (JsonNode) comma = pr_report_json (job);
  g_autofree char *json2 = json_to_string (comma, TRUE), *text2 = pr_report_text (job, PR_UNIT_MM);
  bool made = pr_make_template_svg (job, PR_FACE_FOOT, &options, again, NULL);
  setlocale (LC_ALL, "C");
  g_unsetenv ("LOCPATH");
  kit_folder_gone (folder);
  assert_true (made);
  assert_string_equal (json, json2);
  assert_string_equal (text, text2);
  g_autofree char *drawn = svg_text (svg), *drawn2 = svg_text (again);
  assert_string_equal (drawn, drawn2);
  g_byte_array_unref (svg);
  g_byte_array_unref (again);
}

/* --- whole or not there ------------------------------------------------------------------ */

/* The sentence names the file, and the folder holds what it held. */
static void
refused (const char *file, const char *folder, int entries)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = g_path_get_basename (file);

  assert_false (pr_atomic_file_write (file, "new", 3, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_FILE));
  assert_non_null (strstr (error->message, name));
  assert_true (g_str_has_suffix (error->message, "."));
  assert_int_equal (kit_entries (folder), entries);
}

static void
test_whole (void **state)
{
  char *folder = kit_folder ();
  g_autofree char *file = g_build_filename (folder, "a.txt", NULL), *text = NULL, *kept = NULL;
  g_autofree char *below = g_build_filename (file, "b.txt", NULL);
  g_autofree char *nowhere = g_build_filename (folder, "gone", "b.txt", NULL);
  g_autofree char *link = g_build_filename (folder, "link", NULL);

  (void) state;
  assert_true (pr_atomic_file_write (file, "one", 3, NULL));
  assert_true (pr_atomic_file_write (file, "second", 6, NULL));
  assert_true (g_file_get_contents (file, &text, NULL, NULL));
  assert_string_equal (text, "second");
  assert_int_equal (kit_entries (folder), 1);
  refused (below, folder, 1);
  refused (nowhere, folder, 1);
  /* a link is neither followed nor replaced */
  assert_int_equal (symlink (file, link), 0);
  refused (link, folder, 2);
  assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_chmod (file, 0444);
  refused (file, folder, 2);
  assert_true (g_file_get_contents (file, &kept, NULL, NULL));
  assert_string_equal (kept, "second");
  kit_folder_gone (folder);
}

static void
test_whole_refuses_folders_and_devices (void **state)
{
  char *folder = kit_folder ();
  g_autofree char *inside = g_build_filename (folder, "made", NULL);

  (void) state;
  assert_int_equal (g_mkdir (inside, 0700), 0);
  refused (inside, folder, 1);
  g_autoptr (GError) error = NULL;
  assert_false (pr_atomic_file_write ("/dev/null", "x", 1, &error));
  assert_non_null (error);
  if (geteuid () != 0) {
    g_autofree char *file = g_build_filename (inside, "a.txt", NULL);
    g_chmod (inside, 0500);
    refused (file, inside, 0);
    g_chmod (inside, 0700);
  }
  kit_folder_gone (folder);
}

static const char *const eight[] = { "template.pdf", "template.svg", "template.png", "bar.pdf",
                                     "stages.svg",   "card.pdf",     "report.txt",   "report.json" };

static void
test_all_eight (void **state)
{
  char *folder = kit_folder ();
  g_autofree char *dir = g_build_filename (folder, "deep", "er", NULL);
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 330);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  for (int round = 0; round < 2; round++) {
    assert_true (pr_write_all (job, &options, dir, NULL));
    assert_int_equal (kit_entries (dir), 8);
  }
  for (size_t i = 0; i < G_N_ELEMENTS (eight); i++) {
    g_autofree char *file = g_build_filename (dir, eight[i], NULL);
    GStatBuf st;

    assert_int_equal (g_stat (file, &st), 0);
    assert_true (st.st_size > 500);
  }
  kit_folder_gone (folder);
}

/* All pictures side by side, in mm, half as large as the iron. */
static void
test_stages (void **state)
{
  char *folder = kit_folder ();
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "toe-extension-clipped", 1, 330);
  g_auto (PrStageSheet) sheet = { 0 };
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  g_autofree char *file = g_build_filename (folder, "stages.svg", NULL), *text = NULL;
  double w, h, width;

  (void) state;
  pr_stage_sheet_make (&sheet, job);
  assert_true (pr_stage_sheet_n (&sheet) >= 4);
  pr_stage_sheet_size (&sheet, 0.5, 6, &w, &h);
  assert_true (pr_write_all (job, &options, folder, NULL));
  assert_true (g_file_get_contents (file, &text, NULL, NULL));
  width = g_ascii_strtod (strstr (text, "width=\"") + strlen ("width=\""), NULL);
  NEAR (width, 4 * w + 16, 0.1);
  assert_non_null (strstr (text, "mm\""));
  /* the bar is as long as it is cut, but for what the fire takes */
  const PrPiece *piece = &job->iron.piece[0];
  double bar = (piece->length - piece->allowance) * (1 - job->sources.plan.loss);
  assert_true (w >= bar / 2 && w < bar / 2 + 30);
  kit_folder_gone (folder);
}

/* Under a name of its own a set stands beside another one, and that one stays as it is. */
static void
test_under_a_name (void **state)
{
  char *folder = kit_folder ();
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "plain-front", 1, 330);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  const char *const *names = pr_write_all_names ();
  g_autofree char *other = g_build_filename (folder, "report.txt", NULL), *text = NULL;

  (void) state;
  options.dxf = true;
  options.doc[0] = PR_DOC_CARD;
  options.n_docs = 1;
  options.stem = "m\303\266hre-lf";
  assert_true (g_file_set_contents (other, "mine", -1, NULL));
  assert_true (pr_write_all (job, &options, folder, NULL));
  assert_int_equal (kit_entries (folder), 11);
  assert_int_equal (g_strv_length ((char **) names), 10);
  for (size_t i = 0; names[i]; i++) {
    g_autofree char *name = g_strdup_printf ("%s-%s", options.stem, names[i]);
    g_autofree char *file = g_build_filename (folder, name, NULL);

    assert_true (g_file_test (file, G_FILE_TEST_IS_REGULAR));
  }
  assert_true (g_file_get_contents (other, &text, NULL, NULL));
  assert_string_equal (text, "mine");
  kit_folder_gone (folder);
}

/* Whichever of the eight cannot be placed, none of the new ones is left and the old ones stay. */
static void
test_all_or_none (void **state)
{
  char *folder = kit_folder ();
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "plain-front", 1, 330);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  for (size_t bad = 0; bad < G_N_ELEMENTS (eight); bad++) {
    g_autofree char *dir = g_build_filename (folder, eight[bad], "x", NULL);
    g_autofree char *wall = g_build_filename (dir, eight[bad], NULL);
    g_autofree char *old = g_build_filename (dir, eight[(bad + 1) % 8], NULL), *text = NULL;
    g_autoptr (GError) error = NULL;

    assert_int_equal (g_mkdir_with_parents (wall, 0700), 0);
    assert_true (g_file_set_contents (old, "old", 3, NULL));
    assert_false (pr_write_all (job, &options, dir, &error));
    assert_non_null (strstr (error->message, eight[bad]));
    assert_int_equal (kit_entries (dir), 2);
    assert_true (g_file_get_contents (old, &text, NULL, NULL));
    assert_string_equal (text, "old");
  }
  g_autofree char *blocked = g_build_filename (folder, "template.pdf", "file", NULL);
  g_autofree char *under = g_build_filename (blocked, "dir", NULL);
  g_autoptr (GError) error = NULL;
  assert_true (g_file_set_contents (blocked, "", 0, NULL));
  assert_false (pr_write_all (job, &options, under, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_FILE));
  kit_folder_gone (folder);
}

/* The disk fails at one file or another, first while they are written, then while they take their
 * places: what stood there stands there again, and nothing else. */
static void
test_failing_disk (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "plain-front", 1, 330);
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;
  char *folder = kit_folder ();
  g_autofree char *fresh = g_build_filename (folder, "fresh", NULL);
  g_autofree char *full = g_build_filename (folder, "full", NULL);

  (void) state;
  assert_int_equal (g_mkdir (full, 0700), 0);
  for (size_t i = 0; i < G_N_ELEMENTS (eight); i++) {
    g_autofree char *file = g_build_filename (full, eight[i], NULL);
    assert_true (g_file_set_contents (file, eight[i], -1, NULL));
  }
  static const int moments[] = { 0, 3, 7, 8, 15 };
  /* a folder that was not there takes its place in one go */
  for (size_t k = 0; k < G_N_ELEMENTS (moments); k++) {
    int at = moments[k];

    for (int to = at > 0 && at < 8 ? 1 : 0; to < 2; to++) {
      g_autoptr (GError) error = NULL;

      rename_in = at < 8 ? at : -1;
      fsync_in = at < 8 ? -1 : at - 8;
      assert_false (pr_write_all (job, &options, to ? full : fresh, &error));
      rename_in = fsync_in = -1;
      assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_FILE));
    }
    assert_false (g_file_test (fresh, G_FILE_TEST_EXISTS));
    assert_int_equal (kit_entries (full), 8);
    for (size_t i = 0; i < G_N_ELEMENTS (eight); i++) {
      g_autofree char *file = g_build_filename (full, eight[i], NULL), *text = NULL;

      assert_true (g_file_get_contents (file, &text, NULL, NULL));
      assert_string_equal (text, eight[i]);
    }
  }
  kit_folder_gone (folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_png_scale),      cmocka_unit_test (test_picture_tells_the_horse),
    cmocka_unit_test (test_svg_scale),      cmocka_unit_test (test_json_keys),
    cmocka_unit_test (test_json_figure),    cmocka_unit_test (test_text_units),
    cmocka_unit_test (test_text_tells_all), cmocka_unit_test (test_scale_told),
    cmocka_unit_test (test_empty_job),      cmocka_unit_test (test_comma_locale),
    cmocka_unit_test (test_whole),          cmocka_unit_test (test_whole_refuses_folders_and_devices),
    cmocka_unit_test (test_all_eight),      cmocka_unit_test (test_stages),
    cmocka_unit_test (test_under_a_name),   cmocka_unit_test (test_all_or_none),
    cmocka_unit_test (test_failing_disk),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
