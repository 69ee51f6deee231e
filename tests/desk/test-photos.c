/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Photos on their way to a foot, without a display: filed, asked about, put in another's place, marked, drawn
 * on by hand; and the way back from each. */
#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "desk-kit.h"
#include "pr-limits.h"
#include "pr-settings.h"

#define DPI "150"

static const char *demo; /* a near fore on a printed sheet */

/* White paper, 170 by 220 mm at 150 dots an inch; without DENSITY nothing tells its scale. Transfer full. */
static GBytes *
blank (bool density)
{
  g_autoptr (GdkPixbuf) paper = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 1004, 1299);
  char *bytes = NULL;
  gsize length = 0;
  bool ok;

  gdk_pixbuf_fill (paper, 0xf4f4f4ff);
  ok = density
           ? gdk_pixbuf_save_to_buffer (paper, &bytes, &length, "png", NULL, "x-dpi", DPI, "y-dpi", DPI, NULL)
           : gdk_pixbuf_save_to_buffer (paper, &bytes, &length, "png", NULL, NULL);
  assert_true (ok);
  return g_bytes_new_take (bytes, length);
}

/* The demo photo with LETTERS behind its end, where no decoder looks: the same picture in another file. */
static GBytes *
demo_bytes (const char *letters)
{
  g_autofree char *bytes = NULL;
  g_autoptr (GByteArray) all = g_byte_array_new ();
  gsize length;

  assert_true (g_file_get_contents (demo, &bytes, &length, NULL));
  g_byte_array_append (all, (guint8 *) bytes, (guint) length);
  g_byte_array_append (all, (const guint8 *) letters, (guint) strlen (letters));
  return g_byte_array_free_to_bytes (g_steal_pointer (&all));
}

static void
take (Desk *desk, GBytes *photo)
{
  pr_document_take_bytes (desk->doc, photo, "photo");
  desk_settle (desk);
}

static bool
photo_is (Desk *desk, GBytes *photo)
{
  g_autoptr (GBytes) kept = pr_book_get_photo (desk->book, pr_document_foot_id (desk->doc), NULL, NULL);

  return kept && g_bytes_equal (kept, photo);
}

static void
photo_becomes_a_foot (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GFile) file = g_file_new_for_path (demo);

  (void) state;
  pr_document_take_photo (desk->doc, file, PR_FOOT_ANY, "Tarn");
  desk_settle (desk);
  assert_null (desk->trouble);
  assert_non_null (pr_document_job (desk->doc));
  assert_int_equal (pr_document_job (desk->doc)->sources.foot, PR_FOOT_LF);
  assert_non_null (pr_document_job (desk->doc)->sources.tracing->raster_rgb);
  assert_true (desk_is_kept (desk));
  assert_int_not_equal (pr_document_horse_id (desk->doc), desk->horse);
  assert_false (pr_document_can_undo (desk->doc)); /* a new foot replaced nothing */
  assert_int_equal (desk->n_done, 0);
}

/* A new shoe is reckoned with what the person's shoes usually lose, which is also what a reset goes back to; another limit
 * changes the findings of the foot that is open, and nothing that can be undone. */
static void
usual_losses_and_limits_hold (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GFile) file = g_file_new_for_path (demo);
  const PrParam *loss[] = { pr_param_find ("loss") };

  (void) state;
  assert_true (pr_settings_keep ("usual-loss", g_variant_new_double (0.055)));
  assert_true (pr_settings_keep ("usual-weld", g_variant_new_double (7)));
  pr_document_take_photo (desk->doc, file, PR_FOOT_ANY, "Tarn");
  desk_settle (desk);
  NEAR (desk_shown (desk, "loss"), 0.055, 1e-12);
  NEAR (desk_shown (desk, "weld_allowance"), 7, 1e-12);
  assert_true (pr_document_set_text (desk->doc, "loss", "9 %", NULL));
  NEAR (desk_shown (desk, "loss"), 0.09, 1e-12);
  assert_true (pr_document_reset (desk->doc, loss, 1, NULL));
  NEAR (desk_shown (desk, "loss"), 0.055, 1e-12);
  double wall = pr_document_job (desk->doc)->hoof.wall[0];
  assert_true (pr_limit_keep ("wall.guess.toe", 0.07, 0.07, NULL));
  desk->changed = 0;
  pr_document_limits_changed (desk->doc);
  assert_true (desk->changed & PR_CHANGED_HOOF);
  assert_false (desk->changed & PR_CHANGED_HISTORY);
  NEAR (pr_document_job (desk->doc)->hoof.wall[0], wall * 0.07 / 0.085, 1e-9);
  assert_true (pr_hoof_wall_is_guess (&pr_document_job (desk->doc)->hoof));
  assert_true (pr_limit_give_back ("wall.guess.toe", NULL));
  pr_document_limits_changed (desk->doc);
  NEAR (pr_document_job (desk->doc)->hoof.wall[0], wall, 0);
  assert_true (pr_settings_keep ("usual-loss", g_variant_new_double (0.03)));
  assert_true (pr_settings_keep ("usual-weld", g_variant_new_double (10)));
}

/* The sheet is printed for the near fore: as any other foot it is taken when it is asked for, and that is said. */
static void
another_foot_than_the_sheets_is_told (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GFile) file = g_file_new_for_path (demo);

  (void) state;
  pr_document_take_photo (desk->doc, file, PR_FOOT_RF, "Tarn");
  desk_settle (desk);
  assert_int_equal (pr_document_job (desk->doc)->sources.foot, PR_FOOT_RF);
  assert_non_null (desk->trouble);
  assert_non_null (strstr (desk->trouble, pr_foot_name (PR_FOOT_LF)));
  assert_non_null (strstr (desk->trouble, pr_foot_name (PR_FOOT_RF)));
}

/* What is answered about the scale traces the photo again: one step, kept in the book, and back with one undo. */
static void
an_answer_is_one_step (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GFile) file = g_file_new_for_path (demo);
  PrPaper paper[PR_N_PAPERS];
  double foot[PR_N_PAPERS], a4 = 0, a3 = 0;
  int pads = 0; /* papers that the sentence about the shape names */

  (void) state;
  pr_document_take_photo (desk->doc, file, PR_FOOT_ANY, "Tarn");
  desk_settle (desk);
  assert_int_equal (pr_document_asked (desk->doc)->trust, PR_TRUST_ASK);
  pr_document_trust (desk->doc, PR_TRUST_PAPER);
  desk_settle (desk);
  assert_null (desk->trouble);
  assert_int_equal (pr_document_asked (desk->doc)->trust, PR_TRUST_PAPER);
  assert_true (desk_is_kept (desk));
  size_t n = pr_document_papers (desk->doc, paper, foot);
  for (size_t i = 0; i < n; i++) {
    a4 = paper[i] == PR_PAPER_A4 ? foot[i] : a4;
    a3 = paper[i] == PR_PAPER_A3 ? foot[i] : a3;
    pads += paper[i] == PR_PAPER_A5 || paper[i] == PR_PAPER_B5 || paper[i] == PR_PAPER_C5;
  }
  NEAR (a4, pr_document_job (desk->doc)->hoof.width, 1e-9);
  assert_int_equal (pads, 3);
  NEAR (a3 / a4, sqrt (297.0 * 420 / 210 / 297), 1e-9);
  pr_document_undo (desk->doc);
  desk_settle (desk);
  assert_int_equal (pr_document_asked (desk->doc)->trust, PR_TRUST_ASK);
}

/* The visit has that foot: it is asked, and what was there can be had back, photo and all. */
static void
photo_in_anothers_place_is_one_step (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GBytes) first = demo_bytes ("1"), second = demo_bytes ("2");
  g_autoptr (PrSources) before = NULL;

  (void) state;
  pr_document_choose_visit (desk->doc, desk->horse, desk->today);
  take (desk, first);
  assert_int_equal (desk->n_asked, 1);
  assert_null (pr_document_job (desk->doc)); /* nothing before the answer */
  pr_document_place (desk->doc, PR_PLACE_INSTEAD);
  desk_settle (desk);
  assert_int_equal (pr_document_foot_id (desk->doc), desk->near);
  assert_true (photo_is (desk, first));
  assert_int_equal (desk->n_done, 0); /* it had no photo before */
  before = pr_sources_dup (&pr_document_job (desk->doc)->sources);
  take (desk, second);
  pr_document_place (desk->doc, PR_PLACE_INSTEAD);
  desk_settle (desk);
  assert_true (photo_is (desk, second));
  assert_int_equal (desk->n_done, 1);
  pr_document_undo (desk->doc);
  assert_true (photo_is (desk, first));
  assert_int_equal (pr_sources_differ (before, &pr_document_job (desk->doc)->sources), 0);
  assert_true (desk_is_kept (desk));
  pr_document_undo (desk->doc); /* the outline there was before any photo */
  desk_settle (desk);
  NEAR (desk_kept (desk, desk->near, "web.toe"), 23, 0);
  assert_null (pr_sources_scale (&pr_document_job (desk->doc)->sources));
  assert_null (pr_book_get_photo (desk->book, desk->near, NULL, NULL));
  pr_document_redo (desk->doc);
  pr_document_redo (desk->doc);
  desk_settle (desk);
  assert_true (photo_is (desk, second));
}

static void
answer_nowhere_changes_nothing (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GBytes) photo = demo_bytes ("");

  (void) state;
  desk_open (desk, desk->near);
  take (desk, photo);
  pr_document_place (desk->doc, PR_PLACE_NOWHERE);
  desk_settle (desk);
  NEAR (desk_kept (desk, desk->near, "web.toe"), 23, 0);
  assert_null (pr_book_get_photo (desk->book, desk->near, NULL, NULL));
}

/* A finished foot whose new photo shows no line: its shoe comes back with one undo. */
static void
photo_without_a_line_loses_no_shoe (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GBytes) good = demo_bytes (""), white = blank (true);
  g_autoptr (PrSources) before = NULL;

  (void) state;
  pr_document_choose_visit (desk->doc, desk->horse, desk->today);
  take (desk, good);
  pr_document_place (desk->doc, PR_PLACE_INSTEAD);
  desk_settle (desk);
  before = pr_sources_dup (&pr_document_job (desk->doc)->sources);
  pr_document_take_bytes (desk->doc, white, "white.png");
  desk_settle (desk);
  /* its sheet tells no foot, so it is a new one of the visit; now the same onto the finished foot */
  assert_null (pr_document_job (desk->doc));
  assert_non_null (pr_document_bare (desk->doc, NULL));
  desk_open (desk, desk->near);
  assert_int_equal (pr_sources_differ (before, &pr_document_job (desk->doc)->sources), 0);
}

/* A scale but no line: drawn by hand it is a foot; back is the photo alone, forth the foot again. */
static void
line_is_drawn_by_hand (void **state)
{
  static const KitFoot regular = KIT_FOOT;
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GBytes) white = blank (true);
  g_auto (PrPath) outline = { 0 };
  g_autofree PrSheetPt *points = NULL;
  g_autoptr (GError) error = NULL;
  const char *why = NULL;

  (void) state;
  take (desk, white);
  assert_non_null (pr_document_bare (desk->doc, &why));
  assert_non_null (why);
  assert_null (pr_document_job (desk->doc));
  kit_outline (&regular, &outline, 200);
  points = kit_on_sheet (&outline, PR_FOOT_LF, 0, 85, 110);
  if (!pr_document_draw_line (desk->doc, points, outline.n, false, &error))
    fail_msg ("%s", error->message);
  NEAR (pr_document_job (desk->doc)->hoof.width, 128, 0.5);
  assert_true (desk_is_kept (desk));
  pr_document_undo (desk->doc);
  assert_null (pr_document_job (desk->doc));
  assert_non_null (pr_document_bare (desk->doc, NULL));
  pr_document_redo (desk->doc);
  NEAR (pr_document_job (desk->doc)->hoof.width, 128, 0.5);
  assert_true (desk_is_kept (desk));
}

/* Nothing tells the scale: it is marked, wrongly first; then the sheet lies flat. */
static void
scale_is_marked (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GBytes) white = blank (false);
  PrTraceOptions options = PR_TRACE_OPTIONS_DEFAULT;
  const PrPhoto *shown;

  (void) state;
  take (desk, white);
  assert_non_null (pr_document_marking (desk->doc));
  assert_non_null (pr_document_marking (desk->doc)->why);
  shown = pr_document_marking (desk->doc)->photo;
  options.method = PR_SCALE_RULER;
  options.n_points = 2;
  options.point[0] = (PrPx){ 100, 100 };
  options.point[1] = (PrPx){ 101, 100 };
  options.side_mm[0] = 300;
  pr_document_use_marks (desk->doc, &options);
  desk_settle (desk);
  assert_non_null (pr_document_marking (desk->doc)); /* 300 mm in one pixel: it goes on with the reason */
  assert_ptr_equal (pr_document_marking (desk->doc)->photo, shown);
  options.point[1] = (PrPx){ 100 + 150 / 25.4 * 150, 100 }; /* 150 mm at 150 dots an inch */
  options.side_mm[0] = 150;
  pr_document_use_marks (desk->doc, &options);
  desk_settle (desk);
  assert_null (pr_document_marking (desk->doc));
  assert_non_null (pr_document_bare (desk->doc, NULL));
  NEAR (pr_document_bare (desk->doc, NULL)->scale.px_per_mm, 150 / 25.4, 0.02);
  assert_int_equal (pr_document_asked (desk->doc)->method, PR_SCALE_RULER);
}

/* Several at once: what can be used is filed, the other is named, in one sentence. */
static void
several_are_sorted (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GListStore) files = g_list_store_new (G_TYPE_FILE);
  g_autofree char *rubbish = g_build_filename (desk->folder, "rubbish.jpg", NULL);
  g_autoptr (GFile) one = g_file_new_for_path (demo), two = g_file_new_for_path (rubbish);

  (void) state;
  assert_true (g_file_set_contents (rubbish, "no picture", -1, NULL));
  g_list_store_append (files, one);
  g_list_store_append (files, two);
  pr_document_take_files (desk->doc, G_LIST_MODEL (files));
  desk_settle (desk);
  assert_non_null (pr_document_job (desk->doc));
  assert_int_equal (pr_document_job (desk->doc)->sources.foot, PR_FOOT_LF);
  assert_non_null (desk->trouble);
  assert_non_null (strstr (desk->trouble, "rubbish.jpg"));
  g_remove (rubbish);
}

/* So are those from a phone, which are in no file; what is kept is what was sent. */
static void
received_are_sorted (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GPtrArray) photos = g_ptr_array_new ();
  g_autoptr (GBytes) good = demo_bytes ("as sent"), bad = g_bytes_new_static ("no picture", 10);
  char first[] = "photo-1.jpg", second[] = "photo-2.jpg";
  PrReceived one = { good, first }, two = { bad, second };

  (void) state;
  g_ptr_array_add (photos, &one);
  g_ptr_array_add (photos, &two);
  pr_document_take_received (desk->doc, photos);
  desk_settle (desk);
  assert_int_equal (pr_document_job (desk->doc)->sources.foot, PR_FOOT_LF);
  assert_true (photo_is (desk, good));
  assert_non_null (desk->trouble);
  assert_non_null (strstr (desk->trouble, "photo-2.jpg"));
  assert_null (strstr (desk->trouble, "photo-1.jpg"));
}

/* Stopped work ends without a word and without a foot. */
static void
stopped_is_forgotten (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GBytes) photo = demo_bytes ("");

  (void) state;
  pr_document_take_bytes (desk->doc, photo, "photo");
  pr_document_stop (desk->doc);
  desk_settle (desk);
  assert_null (pr_document_job (desk->doc));
  assert_null (desk->trouble);
  assert_int_equal (desk->n_asked, 0);
}

/* --- more feet on a sheet --- */

/* A near fore of DESK's visit before, of a horse that has no off fore there, whose sheet shows another foot 150 mm beside. */
static void
open_pair (Desk *desk, double *x)
{
  g_autoptr (PrJob) job = pr_job_copy (pr_document_job (desk->doc));
  PrTracing *t = job->sources.tracing;
  PrFootLine *other = &t->other[0];

  t->width_px = 1200;
  t->height_px = 1600;
  t->scale.method = PR_SCALE_PLAIN;
  t->scale.paper = PR_PAPER_A3;
  t->scale.width_mm = 297;
  t->scale.height_mm = 420;
  t->scale.px_per_mm = t->raster = 5;
  t->camera = (PrCamera){ .h = { 5, 0, 10, 0, 5, 20, 0, 0, 1 }, .centre = { 600, 800 }, .radius = 1000 };
  pr_scale_lower_about (&t->scale, PR_VERDICT_USABLE, PR_ABOUT_FEET, "two feet", &t->outline[0]);
  t->n_other = 1;
  other->n_outline = t->n_outline;
  other->outline = g_memdup2 (t->outline, t->n_outline * sizeof *t->outline);
  for (size_t i = 0; i < other->n_outline; i++)
    other->outline[i].x += 150;
  *x = t->outline[0].x;
  assert_true (pr_record_keep (desk->book, desk->near_before, job, PR_PART_TRACE | PR_PART_PLAN, NULL));
  desk_open (desk, desk->near_before);
}

static const PrTracing *
shown (Desk *desk)
{
  return pr_document_job (desk->doc)->sources.tracing;
}

static void
another_line_is_taken_in_one_step (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  double x;

  (void) state;
  desk_open (desk, desk->near_before);
  open_pair (desk, &x);
  assert_int_equal (shown (desk)->n_other, 1);
  assert_true (pr_document_take_line (desk->doc, 0, NULL));
  assert_int_equal (desk->n_done, 1);
  NEAR (shown (desk)->outline[0].x, x + 150, 1e-6);
  NEAR (shown (desk)->other[0].outline[0].x, x, 1e-6);
  assert_int_equal (shown (desk)->scale.verdict, PR_VERDICT_GOOD); /* the question is answered */
  assert_true (desk_is_kept (desk));
  pr_document_undo (desk->doc);
  NEAR (shown (desk)->outline[0].x, x, 1e-6);
  NEAR (shown (desk)->other[0].outline[0].x, x + 150, 1e-6);
  assert_int_equal (shown (desk)->scale.verdict, PR_VERDICT_USABLE);
  pr_document_leave_lines (desk->doc);
  assert_int_equal (shown (desk)->n_other, 0);
  pr_document_undo (desk->doc);
  assert_int_equal (shown (desk)->n_other, 1);
}

/* It is the off fore then, in the same visit, and the near fore has it no longer; that is undone there. */
static void
another_line_becomes_a_foot (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  double x;

  (void) state;
  desk_open (desk, desk->near_before);
  open_pair (desk, &x);
  assert_true (pr_document_file_line (desk->doc, 0, NULL));
  desk_settle (desk);
  assert_int_equal (pr_document_job (desk->doc)->sources.foot, PR_FOOT_RF);
  assert_int_equal (pr_document_visit_id (desk->doc), desk->before);
  assert_int_not_equal (pr_document_foot_id (desk->doc), desk->near_before);
  NEAR (shown (desk)->outline[0].x, x + 150, 1e-6);
  assert_int_equal (shown (desk)->n_other, 0);
  assert_true (desk_is_kept (desk));
  desk_open (desk, desk->near_before);
  NEAR (shown (desk)->outline[0].x, x, 1e-6);
  assert_int_equal (shown (desk)->n_other, 0);
  pr_document_undo (desk->doc);
  assert_int_equal (shown (desk)->n_other, 1);
}

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (another_line_is_taken_in_one_step),
    cmocka_unit_test (another_line_becomes_a_foot),
    cmocka_unit_test (photo_becomes_a_foot),
    cmocka_unit_test (usual_losses_and_limits_hold),
    cmocka_unit_test (another_foot_than_the_sheets_is_told),
    cmocka_unit_test (an_answer_is_one_step),
    cmocka_unit_test (photo_in_anothers_place_is_one_step),
    cmocka_unit_test (answer_nowhere_changes_nothing),
    cmocka_unit_test (photo_without_a_line_loses_no_shoe),
    cmocka_unit_test (line_is_drawn_by_hand),
    cmocka_unit_test (scale_is_marked),
    cmocka_unit_test (several_are_sorted),
    cmocka_unit_test (received_are_sorted),
    cmocka_unit_test (stopped_is_forgotten),
  };

  g_assert (argc == 2);
  demo = argv[1];
  return cmocka_run_group_tests_name ("photos", tests, NULL, NULL);
}
