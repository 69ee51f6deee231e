/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Real photographs of plain sheets, corners labelled by hand, and of drawings, the box of the largest
 * closed line labelled: PRITCHEL_PHOTOS names their folder;
 * without it everything here is skipped. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <json-glib/json-glib.h>
#include <math.h>

#include "pr-closed-figure.h"
#include "pr-error.h"
#include "pr-plain-sheet.h"
#include "pr-trace.h"

#define SHEETS 5
/* Corners within this share of the long side: at least so many of all, and all four of at least so
 * many sheets. The others are no further off than this, or the sheet is refused in words; one corner
 * is folded over and labelled where its edges would meet, to 1.5 %. */
#define CORNER_WITHIN 0.005
#define CORNERS_LEAST 18
#define SHEETS_LEAST 4
#define CORNER_MOST 0.02

static const char *const names[SHEETS]
    = { "breta_page10.jpg", "breta_test1.jpg", "breta_test5.jpg", "hyp1_1.png", "hyp1_14.png" };

/* Boxes within this share of the long side, on at least so many. Two that both run out
 * of the picture at both sides, tied by arrows, are taken for one. */
#define BOX_WITHIN 0.02
#define SHEET_LONG 297.0
#define BOXES_LEAST 5
static const char *const drawings[] = { "ad_pig.png",
                                        "hd_ex05_writer0019.jpg",
                                        "hd_ex06_writer0044.jpg",
                                        "hd_ex07_writer0021.jpg",
                                        "hd_ex08_writer0074.jpg",
                                        "hd_ex08_writer0091.jpg" };

static const char *
folder (void)
{
  const char *dir = g_getenv ("PRITCHEL_PHOTOS");
  char *truth = dir ? g_build_filename (dir, "truth.json", NULL) : NULL;
  bool there = truth != NULL && g_file_test (truth, G_FILE_TEST_EXISTS);

  g_free (truth); /* skip does not come back */
  if (!there)
    skip ();
  return dir;
}

static PrPhoto *
photo_of (const char *dir, const char *name)
{
  g_autofree char *file = g_build_filename (dir, name, NULL);
  PrPhoto *photo = pr_photo_read (file, NULL);

  assert_non_null (photo);
  return photo;
}

/* Corners of the sheet found within WITHIN pixels of where they are; the furthest off in WORST. */
static int
right_corners (JsonObject *truth, const PrPlainSheet *plain, double within, double *worst)
{
  JsonArray *corners = json_object_get_array_member (truth, "corners");
  int right = 0;

  *worst = 0;
  for (guint i = 0; i < 4; i++) {
    JsonArray *c = json_array_get_array_element (corners, i);
    double x = json_array_get_double_element (c, 0), y = json_array_get_double_element (c, 1);
    double best = INFINITY;
    for (int k = 0; k < 4; k++)
      best = fmin (best, hypot (plain->corner[k].x - x, plain->corner[k].y - y));
    right += best < within;
    *worst = fmax (*worst, best);
  }
  return right;
}

/* Returns the corners that are right. */
static int
check_sheet (const char *dir, const char *name, JsonObject *truth)
{
  g_autoptr (PrPhoto) photo = photo_of (dir, name);
  g_autofree uint8_t *grey = pr_photo_grey (photo);
  g_autoptr (GError) error = NULL;
  double worst, side = MAX (photo->width, photo->height);
  PrPlainSheet plain;

  if (!pr_plain_sheet_find (&plain, photo, grey, PR_PAPER_UNKNOWN, &error)) {
    print_message ("%s: %s\n", name, error->message);
    return 0;
  }
  int right = right_corners (truth, &plain, CORNER_WITHIN * side, &worst);
  print_message ("%s: %d corners right, the worst %.2f %% off, %s\n", name, right, 100 * worst / side,
                 pr_paper_name (plain.paper));
  assert_true (worst < CORNER_MOST * side);
  const char *sheet = json_object_get_string_member_with_default (truth, "sheet", NULL);
  if (sheet != NULL)
    assert_string_equal (pr_paper_name (plain.paper), sheet);
  return right;
}

static void
test_corners (void **state)
{
  const char *dir = folder ();
  g_autofree char *file = g_build_filename (dir, "truth.json", NULL);
  g_autoptr (JsonParser) parser = json_parser_new ();
  int corners = 0, sheets = 0;

  (void) state;
  assert_true (json_parser_load_from_file (parser, file, NULL));
  JsonObject *all = json_node_get_object (json_parser_get_root (parser));
  for (int i = 0; i < SHEETS; i++) {
    int right = check_sheet (dir, names[i], json_object_get_object_member (all, names[i]));
    corners += right;
    sheets += right == 4;
  }
  assert_true (corners >= CORNERS_LEAST && sheets >= SHEETS_LEAST);
}

static double
box_error (JsonObject *truth, const PrClosedFigure *c, double side)
{
  JsonArray *box = json_object_get_array_member (json_object_get_object_member (truth, "largest"), "box");
  const double found[4] = { c->low.x, c->low.y, c->high.x, c->high.y };
  double worst = 0;

  for (guint i = 0; i < 4; i++)
    worst = fmax (worst, fabs (found[i] - json_array_get_double_element (box, i)));
  return worst / side;
}

/* Finds the figure of PHOTO; FALSE when none was found. */
typedef bool (*FindBox) (const PrPhoto *photo, PrClosedFigure *box);

/* How many of the drawings' boxes FIND gets right. */
static int
right_boxes (FindBox find)
{
  const char *dir = folder ();
  g_autofree char *file = g_build_filename (dir, "truth.json", NULL);
  g_autoptr (JsonParser) parser = json_parser_new ();
  int right = 0;

  assert_true (json_parser_load_from_file (parser, file, NULL));
  JsonObject *all = json_node_get_object (json_parser_get_root (parser));
  for (size_t i = 0; i < G_N_ELEMENTS (drawings); i++) {
    g_autoptr (PrPhoto) photo = photo_of (dir, drawings[i]);
    g_auto (PrClosedFigure) box = { 0 };
    if (!find (photo, &box))
      continue;
    double off = box_error (json_object_get_object_member (all, drawings[i]), &box,
                            MAX (photo->width, photo->height));
    print_message ("%s: box within %.2f %%\n", drawings[i], 100 * off);
    right += off < BOX_WITHIN;
  }
  return right;
}

static bool
find_closed (const PrPhoto *photo, PrClosedFigure *box)
{
  assert_true (pr_closed_figure_find (box, photo, NULL));
  print_message ("%.2f inked, %d ways; ", box->inked, box->ways);
  return true;
}

static void
test_closed_lines (void **state)
{
  (void) state;
  assert_true (right_boxes (find_closed) >= BOXES_LEAST);
}

/* The drawing traced as a person would: a length marked in the picture, here half its width as half
 * a sheet's. None is a hoof, and none is said to be good. */
static bool
find_traced (const PrPhoto *photo, PrClosedFigure *box)
{
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;

  options.method = PR_SCALE_RULER;
  options.snap = false;
  options.n_points = 2;
  options.point[0] = (PrPx){ photo->width * 0.25, photo->height * 0.5 };
  options.point[1] = (PrPx){ photo->width * 0.75, photo->height * 0.5 };
  options.side_mm[0] = SHEET_LONG / 2;
  g_autoptr (PrTracing) t = pr_trace_photo (photo, &options, NULL, NULL, NULL, NULL);
  if (t == NULL)
    return false;
  assert_true (t->scale.verdict != PR_VERDICT_GOOD);
  print_message ("%s; ", t->figure ? "no hoof" : "as a hoof");
  box->low = (PrPx){ INFINITY, INFINITY };
  box->high = (PrPx){ -INFINITY, -INFINITY };
  for (size_t i = 0; i < t->n_outline; i++) {
    PrPx p = pr_camera_to_photo (&t->camera, t->outline[i]);
    box->low = (PrPx){ fmin (box->low.x, p.x), fmin (box->low.y, p.y) };
    box->high = (PrPx){ fmax (box->high.x, p.x), fmax (box->high.y, p.y) };
  }
  return true;
}

static void
test_drawings_traced (void **state)
{
  (void) state;
  assert_true (right_boxes (find_traced) >= BOXES_LEAST);
}

/* Writing, drawings and empty sheets are no hooves. */
static void
test_no_hoof_there (void **state)
{
  const char *dir = folder ();
  const PrTraceOptions usual = PR_TRACE_OPTIONS_DEFAULT;

  (void) state;
  for (int i = 0; i < SHEETS; i++) {
    g_autoptr (PrPhoto) photo = photo_of (dir, names[i]);
    g_autoptr (GError) error = NULL;
    g_autoptr (PrTracing) t = pr_trace_photo (photo, &usual, NULL, NULL, NULL, &error);
    if (t != NULL)
      fail_msg ("%s: a hoof was found", names[i]);
    assert_true (error->domain == PR_ERROR);
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_corners),
    cmocka_unit_test (test_closed_lines),
    cmocka_unit_test (test_drawings_traced),
    cmocka_unit_test (test_no_hoof_there),
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
