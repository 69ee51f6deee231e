/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The DXF template, read back line by line. With a folder as argument the same drawings are written there,
 * each with its report, for against-ezdxf.py to hold against a second program. */
#include "paper-kit.h"

#include <glib/gstdio.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Nine decimals are written. */
#define NEAR_MM 1e-9

/* One group of the file. */
typedef struct {
  int code;
  char *value;
} Group;

static void
group_clear (gpointer data)
{
  g_free (((Group *) data)->value);
}

/* Every group is a line with a number and a line with a value: anything else fails the test. */
static GArray *
read_groups (const char *file)
{
  GArray *groups = g_array_new (FALSE, FALSE, sizeof (Group));
  g_autofree char *text = NULL;

  g_array_set_clear_func (groups, group_clear);
  assert_true (g_file_get_contents (file, &text, NULL, NULL));
  g_auto (GStrv) line = g_strsplit (text, "\n", -1);
  guint n = g_strv_length (line);
  assert_int_equal (n % 2, 1);
  assert_string_equal (line[n - 1], "");
  for (guint i = 0; i + 2 < n + 1; i += 2) {
    char *end;
    Group group = { (int) strtol (line[i], &end, 10), g_strdup (line[i + 1]) };

    assert_true (end != line[i] && *end == '\0');
    g_array_append_val (groups, group);
  }
  return groups;
}

static const Group *
at (const GArray *groups, guint i)
{
  return &g_array_index (groups, Group, i);
}

/* Entities of KIND on LAYER. */
static int
count (const GArray *groups, const char *kind, const char *layer)
{
  int n = 0;

  for (guint i = 0; i + 1 < groups->len; i++)
    n += at (groups, i)->code == 0 && strcmp (at (groups, i)->value, kind) == 0
         && at (groups, i + 1)->code == 8 && strcmp (at (groups, i + 1)->value, layer) == 0;
  return n;
}

/* First group CODE behind the first group 9 that is NAME. */
static double
header (const GArray *groups, const char *name, int code)
{
  bool found = false;

  for (guint i = 0; i < groups->len; i++) {
    found = found || (at (groups, i)->code == 9 && strcmp (at (groups, i)->value, name) == 0);
    if (found && at (groups, i)->code == code)
      return g_ascii_strtod (at (groups, i)->value, NULL);
  }
  fail_msg ("there is no %s", name);
  return NAN;
}

/* Where the text VALUE stands. */
static double
text_x (const GArray *groups, const char *value)
{
  for (guint i = 5; i < groups->len; i++)
    if (at (groups, i)->code == 1 && strcmp (at (groups, i)->value, value) == 0) {
      while (at (groups, i)->code != 11)
        i++;
      return g_ascii_strtod (at (groups, i)->value, NULL);
    }
  fail_msg ("there is no text %s", value);
  return NAN;
}

static GArray *
written (const PrJob *job, PrFace face)
{
  char *dir = kit_folder ();
  g_autofree char *file = g_build_filename (dir, "template.dxf", NULL);

  assert_true (pr_write_template_dxf (job, face, file, NULL));
  assert_int_equal (kit_entries (dir), 1);
  GArray *groups = read_groups (file);
  kit_folder_gone (dir);
  return groups;
}

static void
has_every_part (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "quarter-clipped", 1, 0);
  g_autoptr (GArray) groups = written (job, PR_FACE_FOOT);
  const PrShoe *shoe = job->shoe;
  size_t points = 0;

  (void) state;
  assert_string_equal (at (groups, groups->len - 1)->value, "EOF");
  assert_int_equal (count (groups, "POLYLINE", "shoe"), shoe->figure.n);
  for (size_t i = 0; i < shoe->figure.n; i++)
    points += shoe->figure.ring[i].n;
  assert_int_equal (count (groups, "VERTEX", "shoe"), points);
  assert_int_equal (count (groups, "POLYLINE", "hoof"), 1);
  assert_int_equal (count (groups, "VERTEX", "hoof"), job->hoof.outline.n);
  assert_int_equal (count (groups, "POLYLINE", "crease"), shoe->n_creases);
  assert_int_equal (count (groups, "POLYLINE", "clips"), shoe->n_clips);
  assert_int_equal (shoe->n_clips, 2);
  assert_int_equal (count (groups, "VERTEX", "nails"), 4 * shoe->n_nails);
  assert_int_equal (count (groups, "LINE", "centre"), 2);
  assert_int_equal (count (groups, "TEXT", "text"), 3);
}

/* Lateral on the left on the foot surface of a left foot, on the right on its ground surface; the other
 * foot the other way round. */
static void
lateral_is_where_the_face_shows_it (void **state)
{
  static const PrFoot feet[] = { PR_FOOT_LF, PR_FOOT_RF, PR_FOOT_LH, PR_FOOT_RH };

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (feet); i++)
    for (PrFace face = PR_FACE_FOOT; face <= PR_FACE_GROUND; face++) {
      g_autoptr (PrJob) job = paper_job (feet[i], "plain-front", 1, 0);
      g_autoptr (GArray) groups = written (job, face);
      bool right = pr_foot_is_left (feet[i]) == (face == PR_FACE_GROUND);
      g_autofree char *name = g_strdup_printf ("%s, %s", pr_foot_name (feet[i]), pr_face_name (face));

      assert_true (right ? text_x (groups, "L") > 50 : text_x (groups, "L") < -50);
      assert_true (right ? text_x (groups, "M") < -50 : text_x (groups, "M") > 50);
      assert_true (isfinite (text_x (groups, name)));
    }
}

/* Nobody knows which side is which. */
static void
a_foot_without_a_name_has_no_letters (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_ANY, "plain-front", 1, 0);
  g_autoptr (GArray) groups = written (job, PR_FACE_FOOT);

  (void) state;
  assert_int_equal (count (groups, "TEXT", "text"), 1); /* its name and face alone */
}

static void
says_its_size (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_RH, "egg-bar", 1, 0);
  g_autoptr (GArray) groups = written (job, PR_FACE_FOOT);
  PrPt low, high;

  (void) state;
  pr_draw_extent (job, &low, &high);
  /* the centre lines stand 5 mm out all round */
  assert_true (fabs (header (groups, "$EXTMIN", 10) - (low.x - 5)) < NEAR_MM);
  assert_true (fabs (header (groups, "$EXTMIN", 20) - (low.y - 5)) < NEAR_MM);
  assert_true (fabs (header (groups, "$EXTMAX", 10) - (high.x + 5)) < NEAR_MM);
  assert_true (fabs (header (groups, "$EXTMAX", 20) - (high.y + 5)) < NEAR_MM);
  assert_true (header (groups, "$MEASUREMENT", 70) == 1);
  assert_true (header (groups, "$INSUNITS", 70) == 4);
  assert_string_equal (at (groups, 4)->value, "AC1009");
}

static char *
as_bytes (const PrJob *job, const char *dir)
{
  g_autofree char *file = g_build_filename (dir, "a.dxf", NULL);
  char *text = NULL;

  assert_true (pr_write_template_dxf (job, PR_FACE_FOOT, file, NULL));
  assert_true (g_file_get_contents (file, &text, NULL, NULL));
  return text;
}

static void
numbers_know_no_locale (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "plain-front", 1, 0);
  char *dir = kit_folder ();
  g_autofree char *plain = as_bytes (job, dir);

  (void) state;
  for (const char *p = plain; *p != '\0'; p++)
    assert_true (*p == '\n' || (*p >= 0x20 && *p < 0x7f));
  if (kit_comma_locale (dir)) {
    g_autofree char *german = as_bytes (job, dir);
    assert_string_equal (plain, german);
  }
  kit_folder_gone (dir);
}

static void
whole_or_none (void **state)
{
  g_autoptr (PrJob) job = paper_job (PR_FOOT_LF, "plain-front", 1, 0);
  char *dir = kit_folder ();
  g_autofree char *file = g_build_filename (dir, "none", "a.dxf", NULL);
  g_autofree char *folder = g_build_filename (dir, "template.dxf", NULL);
  g_autofree char *first = g_build_filename (dir, "template.pdf", NULL);
  g_autoptr (GError) error = NULL;
  PrPageOptions options = PR_PAGE_OPTIONS_DEFAULT;

  (void) state;
  assert_false (pr_write_template_dxf (job, PR_FACE_FOOT, file, &error));
  assert_int_equal (error->domain, PR_ERROR);
  assert_int_equal (kit_entries (dir), 0);
  /* the ninth file cannot be placed: the eight others are not there either */
  options.dxf = true;
  assert_int_equal (g_mkdir (folder, 0700), 0);
  assert_false (pr_write_all (job, &options, dir, NULL));
  assert_int_equal (kit_entries (dir), 1);
  assert_int_equal (g_rmdir (folder), 0);
  assert_true (pr_write_all (job, &options, dir, NULL));
  assert_int_equal (kit_entries (dir), 9);
  assert_true (g_file_test (first, G_FILE_TEST_IS_REGULAR));
  kit_folder_gone (dir);
}

/* Drawings for the second program. */
static void
write_samples (const char *dir)
{
  static const char *const styles[] = { "quarter-clipped", "egg-bar", "toe-extension", "plain-hind" };
  static const PrFoot feet[] = { PR_FOOT_LF, PR_FOOT_RF, PR_FOOT_LF, PR_FOOT_RH };

  for (size_t i = 0; i < G_N_ELEMENTS (styles); i++)
    for (PrFace face = PR_FACE_FOOT; face <= PR_FACE_GROUND; face++) {
      g_autoptr (PrJob) job = paper_job (feet[i], styles[i], 0.9 + 0.1 * (double) i, 0);
      g_autoptr (JsonNode) node = pr_report_json (job);
      g_autofree char *json = json_to_string (node, FALSE);
      g_autofree char *stem = g_strdup_printf ("%s/%s.%s.%d", dir, styles[i], pr_foot_code (feet[i]), face);
      g_autofree char *dxf = g_strconcat (stem, ".dxf", NULL), *report = g_strconcat (stem, ".json", NULL);

      if (!pr_write_template_dxf (job, face, dxf, NULL) || !g_file_set_contents (report, json, -1, NULL))
        exit (1);
    }
}

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (has_every_part),
    cmocka_unit_test (lateral_is_where_the_face_shows_it),
    cmocka_unit_test (a_foot_without_a_name_has_no_letters),
    cmocka_unit_test (says_its_size),
    cmocka_unit_test (numbers_know_no_locale),
    cmocka_unit_test (whole_or_none),
  };

  if (argc > 1) {
    write_samples (argv[1]);
    return 0;
  }
  return cmocka_run_group_tests_name ("dxf", tests, NULL, NULL);
}
