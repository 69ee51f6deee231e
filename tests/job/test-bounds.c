/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A stored tracing with one value that cannot be: refused in a sentence, the job as it was; what is only of
 * another kind is as absent. And what a scale of any size would do to the flat picture. */
#include <string.h>

#include "kit.h"
#include "pr-bounds.h"
#include "pr-error.h"
#include "pr-json.h"
#include "pr-rectify.h"

static const KitFoot regular = KIT_FOOT;

/* A tracing with photo and scale, as JSON text. */
static char *
good (void)
{
  g_autoptr (PrJob) job = kit_job (&regular, PR_FOOT_LF);
  PrTracing *t = job->sources.tracing;

  t->file = g_strdup ("a.jpg");
  t->width_px = 3000;
  t->height_px = 4000;
  t->raster = 8;
  t->pen_mm = 0.75;
  t->camera = (PrCamera){
    .h = { 14, 0, 0, 0, 14, 0, 0, 0, 1 }, .k1 = 0.5, .centre = { 1500, 2000 }, .radius = 2500
  };
  t->scale = (PrScale){ .method = PR_SCALE_SHEET,
                        .paper = PR_PAPER_A4,
                        .width_mm = 210,
                        .height_mm = 297,
                        .px_per_mm = 14,
                        .residual_mm = 0.25,
                        .why = g_strdup ("Good.") };
  t->doubt = g_new0 (PrDoubt, 1);
  t->n_doubt = 1;
  t->doubt[0] = (PrDoubt){ 20, 30, g_strdup ("A gap.") };
  g_autoptr (JsonNode) node = pr_job_trace_json (job);
  return pr_json_text (node, false);
}

/* GOOD with NOW in place of each WAS. Transfer full. */
static JsonNode *
with (const char *was, const char *now)
{
  g_autofree char *text = good ();
  g_autoptr (GString) changed = g_string_new (text);

  if (g_string_replace (changed, was, now, 0) == 0)
    fail_msg ("%s is not in %s", was, text);
  return pr_json_parse (changed->str, changed->len, NULL);
}

static void
refuses_what_cannot_be (void **state)
{
  static const char *const rows[][2] = {
    { "\"px_per_mm\":14.0", "\"px_per_mm\":1e12" },
    { "\"px_per_mm\":14.0", "\"px_per_mm\":1e999" },
    { "\"px_per_mm\":14.0", "\"px_per_mm\":0" },
    { "\"px_per_mm\":14.0", "\"px_per_mm\":-14" },
    { "\"lens_k1\":0.5", "\"lens_k1\":0.5,\"k1\":3" }, /* only the camera's is read: see below */
    { "\"k1\":0.5", "\"k1\":1e300" },
    { "\"residual_mm\":0.25", "\"residual_mm\":1e9" },
    { "\"width_px\":3000", "\"width_px\":3000000000" },
    { "\"height_px\":4000", "\"height_px\":0" },
    { "\"width_mm\":210.0,\"h", "\"width_mm\":2e5,\"h" },
    { "\"radius\":2500.0", "\"radius\":1e-300" },
    { "\"centre_x\":1500.0", "\"centre_x\":-1e30" },
    { "\"raster_px_per_mm\":8.0", "\"raster_px_per_mm\":1e5" },
    { "[14.0,0.0,0.0,0.0,14.0", "[1e200,0,0,0,14" },
    { "\"pen_mm\":0.75", "\"pen_mm\":-1" },
    { "\"from_mm\":20.0", "\"from_mm\":1e40" },
    { "\"outline_mm\":[[", "\"outline_mm\":[[1e9,5],[" },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (JsonNode) node = with (rows[i][0], rows[i][1]);
    g_autoptr (PrJob) job = pr_job_new ();
    g_autoptr (GError) error = NULL;

    assert_non_null (node);
    if (strstr (rows[i][1], "lens_k1") != NULL) {
      assert_true (pr_job_take_trace_json (job, node, NULL));
      continue;
    }
    if (pr_job_take_trace_json (job, node, &error))
      fail_msg ("taken: %s", rows[i][1]);
    assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_INPUT));
    assert_non_null (strstr (error->message, "can be"));
    assert_true (g_str_has_suffix (error->message, "wrote."));
    assert_null (job->sources.tracing);
  }
}

static void
refuses_too_many (void **state)
{
  g_autoptr (GString) doubts = g_string_new ("\"doubt\":[");
  g_autoptr (GString) points = g_string_new ("\"outline_mm\":[");

  (void) state;
  for (int i = 0; i < 1000; i++)
    g_string_append (doubts, "{\"from_mm\":1,\"to_mm\":2},");
  for (int i = 0; i < 20001; i++)
    g_string_append_printf (points, "[%d,%d],", i % 100, i / 100);
  for (int i = 0; i < 2; i++) {
    g_autoptr (JsonNode) node
        = i ? with ("\"outline_mm\":[", points->str) : with ("\"doubt\":[", doubts->str);
    g_autoptr (PrJob) job = pr_job_new ();
    g_autoptr (GError) error = NULL;

    assert_false (pr_job_take_trace_json (job, node, &error));
    assert_non_null (strstr (error->message, i ? "20000" : "1001, where 0 to 1000"));
  }
}

/* Text where a number belongs, a list where text does: as if it were not there. */
static void
another_kind_is_absent (void **state)
{
  static const char *const rows[][2] = {
    { "\"residual_mm\":0.25", "\"residual_mm\":\"much\"" },
    { "\"why\":\"Good.\"", "\"why\":[1]" },
    { "\"file\":\"a.jpg\"", "\"file\":{}" },
    { "\"from_mm\":20.0", "\"from_mm\":null" },
    { "\"px_per_mm\":14.0", "\"px_per_mm\":\"14\"" },
    { "\"closed\":false", "\"closed\":[]" },
  };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++) {
    g_autoptr (JsonNode) node = with (rows[i][0], rows[i][1]);
    g_autoptr (PrJob) job = pr_job_new ();

    assert_true (pr_job_take_trace_json (job, node, NULL));
    assert_true (pr_tracing_has_scale (job->sources.tracing) == (strstr (rows[i][0], "px_per") == NULL));
  }
}

static void
text_is_cleaned (void **state)
{
  g_autofree char *much = g_strnfill (3000, 'x');
  g_autofree char *why = g_strdup_printf ("\"why\":\"Go\\u001b[2Jod\\u202e.\\n%s\"", much);
  g_autoptr (JsonNode) node = with ("\"why\":\"Good.\"", why);
  g_autoptr (PrJob) job = pr_job_new ();

  (void) state;
  assert_true (pr_job_take_trace_json (job, node, NULL));
  const char *told = job->sources.tracing->scale.why;
  assert_true (g_str_has_prefix (told, "Go[2Jod. xxx"));
  assert_true (g_str_has_suffix (told, "…"));
  assert_int_equal (g_utf8_strlen (told, -1), 500);
}

/* No scale makes the flat picture divide by nothing, or take for ever: a sheet once came whose scale ended the
 * program. */
static void
any_scale_lies_flat (void **state)
{
  static const double scales[] = { 0, 0.5, 200, 1e12 };
  g_autofree uint8_t *rgb = g_malloc0 (3 * 60 * 80);
  PrPhoto photo = { .width = 60, .height = 80, .stride = 180, .rgb = rgb };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (scales); i++) {
    g_autoptr (PrTracing) t = pr_tracing_new ();

    t->camera = (PrCamera){ .h = { 1, 0, 0, 0, 1, 0, 0, 0, 1 }, .centre = { 30, 40 }, .radius = 50 };
    t->scale.width_mm = 20;
    t->scale.height_mm = 30;
    t->scale.px_per_mm = scales[i];
    pr_tracing_rectify (t, &photo);
    assert_true (t->raster_width > 0 && t->raster_rgb[0] < 255);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (refuses_what_cannot_be), cmocka_unit_test (refuses_too_many),
    cmocka_unit_test (another_kind_is_absent), cmocka_unit_test (text_is_cleaned),
    cmocka_unit_test (any_scale_lies_flat),
  };

  return cmocka_run_group_tests_name ("bounds", tests, NULL, NULL);
}
