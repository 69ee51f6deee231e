/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The document without a display: what is undone, on which foot, and what the book holds afterwards. */
#include <string.h>

#include "desk-kit.h"
#include "pr-error.h"

static void
set (Desk *desk, const char *param, const char *value)
{
  g_autoptr (GError) error = NULL;

  if (!pr_document_set_text (desk->doc, param, value, &error))
    fail_msg ("%s", error->message);
}

/* Each foot has its own steps, and they are there when it is opened again. */
static void
steps_stay_with_their_foot (void **state)
{
  g_autoptr (Desk) desk = desk_new ();

  (void) state;
  desk_open (desk, desk->near);
  set (desk, "web.toe", "24");
  set (desk, "web.toe", "22");
  desk_open (desk, desk->off);
  assert_false (pr_document_can_undo (desk->doc));
  set (desk, "web.toe", "26");
  desk_open (desk, desk->near_before);
  desk_open (desk, desk->near);
  pr_document_undo (desk->doc);
  NEAR (desk_shown (desk, "web.toe"), 24, 0);
  assert_true (desk_is_kept (desk));
  desk_open (desk, desk->off);
  pr_document_undo (desk->doc);
  NEAR (desk_kept (desk, desk->off, "web.toe"), 25, 0);
  assert_false (pr_document_can_undo (desk->doc));
  desk_open (desk, desk->near);
  pr_document_redo (desk->doc); /* what was taken back can be done again after the way round, too */
  NEAR (desk_kept (desk, desk->near, "web.toe"), 22, 0);
  pr_document_undo (desk->doc);
  pr_document_undo (desk->doc);
  NEAR (desk_kept (desk, desk->near, "web.toe"), 23, 0);
  assert_false (pr_document_can_undo (desk->doc));
}

/* A set-back toe goes where it is told as soon as it is told, as far as the fit would have it go, and back again. */
static void
a_set_back_toe_moves_at_once (void **state)
{
  g_autoptr (Desk) desk = desk_new ();

  (void) state;
  desk_open (desk, desk->near);
  const PrJob *job = pr_document_job (desk->doc);
  double y = job->shoe->st[job->shoe->toe_st].outer.y;
  set (desk, "toe.amount", "4");
  NEAR (job->shoe->st[job->shoe->toe_st].outer.y, y, 1e-9);
  set (desk, "toe", "set-back");
  NEAR (job->shoe->st[job->shoe->toe_st].outer.y, y - 4, 1e-9);
  set (desk, "toe.amount", "6");
  NEAR (job->shoe->st[job->shoe->toe_st].outer.y, y - 6, 1e-9);
  assert_true (pr_document_fit (desk->doc, NULL));
  NEAR (job->shoe->st[job->shoe->toe_st].outer.y, y - 6, 1);
  set (desk, "toe", "plain");
  NEAR (job->shoe->st[job->shoe->toe_st].outer.y, y, 1);
}

/* Another horse closes the foot; its steps wait. */
static void
steps_outlive_another_horse (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  PrBookId other;

  (void) state;
  desk_open (desk, desk->near);
  set (desk, "heel.past.medial", "9");
  other = pr_document_add_horse (desk->doc, "Tarn", NULL);
  assert_int_not_equal (other, 0);
  assert_null (pr_document_job (desk->doc));
  assert_false (pr_document_can_undo (desk->doc));
  desk_open (desk, desk->near);
  assert_true (pr_document_can_undo (desk->doc));
  pr_document_undo (desk->doc);
  assert_true (desk_is_kept (desk));
  assert_false (desk_shown (desk, "heel.past.medial") == 9);
}

/* A random walk over edits, undo and redo equals a list with a mark in it. */
static void
undo_is_the_way_back (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GRand) rand = g_rand_new_with_seed (31);
  double web[200] = { 23 };
  int at = 0, last = 0;

  (void) state;
  desk_open (desk, desk->near);
  for (int i = 0; i < 150; i++) {
    int way = g_rand_int_range (rand, 0, 3);

    if (way == 0 && at > 0) {
      pr_document_undo (desk->doc);
      at--;
    } else if (way == 1 && at < last) {
      pr_document_redo (desk->doc);
      at++;
    } else {
      g_autofree char *text = g_strdup_printf ("%d.%d mm", 20 + i % 7, i % 10);

      web[++at] = 20 + i % 7 + 0.1 * (i % 10);
      set (desk, "web.toe", text);
      at -= web[at] == web[at - 1]; /* what changes nothing is no step */
      last = at == last ? last : at;
    }
    NEAR (desk_shown (desk, "web.toe"), web[at], 1e-12);
    assert_int_equal (pr_document_can_undo (desk->doc), at > 0);
    assert_int_equal (pr_document_can_redo (desk->doc), at < last);
    assert_true (desk_is_kept (desk));
  }
}

static void
drag_is_one_step_or_none (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  PrPlan plan;

  (void) state;
  desk_open (desk, desk->near);
  plan = pr_document_job (desk->doc)->sources.plan;
  pr_document_begin (desk->doc);
  for (int i = 1; i <= 5; i++) {
    plan.web_toe = 23 + i * 0.5;
    assert_true (pr_document_preview (desk->doc, &plan));
  }
  NEAR (desk_kept (desk, desk->near, "web.toe"), 23, 0); /* nothing is kept before it is let go */
  pr_document_cancel (desk->doc);
  NEAR (desk_shown (desk, "web.toe"), 23, 0);
  assert_false (pr_document_can_undo (desk->doc));
  pr_document_begin (desk->doc);
  assert_true (pr_document_preview (desk->doc, &plan));
  pr_document_commit (desk->doc, NULL);
  NEAR (desk_kept (desk, desk->near, "web.toe"), 25.5, 0);
  pr_document_begin (desk->doc); /* away and back */
  pr_document_commit (desk->doc, NULL);
  pr_document_undo (desk->doc);
  NEAR (desk_kept (desk, desk->near, "web.toe"), 23, 0);
  assert_false (pr_document_can_undo (desk->doc));
}

/* A value that cannot be leaves everything as it was, and no step. */
static void
refused_is_untouched (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (PrSources) before = NULL;

  (void) state;
  desk_open (desk, desk->near);
  before = pr_sources_dup (&pr_document_job (desk->doc)->sources);
  assert_false (pr_document_set_text (desk->doc, "web.toe", "a yard", &error));
  assert_non_null (error);
  assert_int_equal (pr_sources_differ (before, &pr_document_job (desk->doc)->sources), 0);
  assert_false (pr_document_can_undo (desk->doc));
  assert_false (pr_document_editing (desk->doc));
}

/* Onto the foot that is open, from the other: the other keeps its shoe, and the way back is one step. */
static void
same_shoe_comes_from_the_other_foot (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (PrSources) before = NULL;

  (void) state;
  desk_open (desk, desk->near);
  before = pr_sources_dup (&pr_document_job (desk->doc)->sources);
  assert_true (pr_document_take_other (desk->doc, NULL));
  NEAR (desk_kept (desk, desk->near, "web.toe"), 25, 0);
  NEAR (desk_kept (desk, desk->off, "web.toe"), 25, 0);
  assert_int_equal (pr_document_foot_id (desk->doc), desk->near);
  assert_int_equal (desk->n_done, 1);
  assert_non_null (strstr (desk->done, "off fore"));
  pr_document_undo (desk->doc);
  assert_int_equal (pr_sources_differ (before, &pr_document_job (desk->doc)->sources), 0);
  assert_false (pr_document_can_undo (desk->doc));
}

/* What is printed beside the open foot: the others of its own visit that have a plan, in the unit of the screen. */
static void
other_feet_of_the_visit (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GPtrArray) none = pr_document_other_feet (desk->doc), alone = NULL;
  PrBookId bare = pr_book_add_foot (desk->book, desk->today, PR_FOOT_RH, NULL);

  (void) state;
  assert_true (bare != 0);
  assert_int_equal (none->len, 0);
  desk_open (desk, desk->near);
  pr_document_set_unit (desk->doc, PR_UNIT_INCH);
  g_autoptr (GPtrArray) feet = pr_document_other_feet (desk->doc);
  assert_int_equal (feet->len, 1); /* the hind foot has no plan */
  const PrJob *off = feet->pdata[0];
  assert_int_equal (off->sources.foot, PR_FOOT_RF);
  assert_int_equal (off->unit, PR_UNIT_INCH);
  NEAR (off->sources.plan.web_toe, 25, 0);
  assert_non_null (off->shoe);
  desk_open (desk, desk->near_before);
  alone = pr_document_other_feet (desk->doc);
  assert_int_equal (alone->len, 0);
}

static void
last_visit_is_one_step (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GError) error = NULL;

  (void) state;
  desk_open (desk, desk->near);
  assert_true (pr_document_take_last_visit (desk->doc, NULL));
  NEAR (desk_kept (desk, desk->near, "web.toe"), 27, 0);
  assert_int_equal (desk->n_done, 1);
  pr_document_undo (desk->doc);
  NEAR (desk_kept (desk, desk->near, "web.toe"), 23, 0);
  desk_open (desk, desk->near_before);
  assert_false (pr_document_take_last_visit (desk->doc, &error)); /* there is none before it */
  assert_non_null (error);
}

/* One visit has one near fore: the off fore is not made a second one, and it is said what to do. */
static void
a_visit_has_each_foot_once (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GError) error = NULL;

  (void) state;
  desk_open (desk, desk->off);
  assert_false (pr_document_set_foot (desk->doc, PR_FOOT_LF, &error));
  assert_true (g_error_matches (error, PR_ERROR, PR_ERROR_INPUT));
  assert_int_equal (pr_document_job (desk->doc)->sources.foot, PR_FOOT_RF);
  assert_false (pr_document_can_undo (desk->doc));
  assert_true (pr_document_set_foot (desk->doc, PR_FOOT_RH, NULL));
}

/* Every whole edit is one step, and back is exactly back, in the book as on the board. */
static void
whole_edits_are_one_step (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  const GPtrArray *styles = pr_document_styles (desk->doc);

  (void) state;
  desk_open (desk, desk->near);
  for (int act = 0; act < 7; act++) {
    g_autoptr (PrSources) before = pr_sources_dup (&pr_document_job (desk->doc)->sources);
    bool ok = true;

    if (act == 0)
      ok = pr_document_set_style (desk->doc, g_ptr_array_index (styles, 4), NULL);
    else if (act == 1)
      ok = pr_document_set_foot (desk->doc, PR_FOOT_LH, NULL);
    else if (act == 2)
      ok = pr_document_set_wall (desk->doc, 1, 9.5, NULL);
    else if (act == 3)
      ok = pr_document_take_bar (desk->doc, 20, 8, NULL);
    else if (act == 4)
      pr_document_set_locks (desk->doc, 1 << PR_LOCK_TOE, true);
    else if (act == 5)
      pr_document_set_order (desk->doc, "Cut the bar.\nTurn the toe.");
    else {
      PrLandmarks marks = pr_document_job (desk->doc)->sources.marks;

      marks.has_toe = true;
      marks.toe = pr_foot_frame_out (&pr_document_job (desk->doc)->hoof.frame, pr_pt (3, 60));
      pr_document_begin (desk->doc);
      assert_true (pr_document_preview_marks (desk->doc, &marks));
      pr_document_commit (desk->doc, NULL);
    }
    assert_true (ok);
    if (pr_sources_differ (before, &pr_document_job (desk->doc)->sources) == 0)
      fail_msg ("act %d changes nothing", act);
    if (!desk_is_kept (desk))
      fail_msg ("act %d is not in the book", act);
    pr_document_undo (desk->doc);
    if (pr_sources_differ (before, &pr_document_job (desk->doc)->sources) != 0)
      fail_msg ("act %d is not taken back", act);
    assert_true (desk_is_kept (desk));
    pr_document_redo (desk->doc);
    assert_true (desk_is_kept (desk));
  }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (a_set_back_toe_moves_at_once),
    cmocka_unit_test (steps_stay_with_their_foot),
    cmocka_unit_test (steps_outlive_another_horse),
    cmocka_unit_test (undo_is_the_way_back),
    cmocka_unit_test (drag_is_one_step_or_none),
    cmocka_unit_test (refused_is_untouched),
    cmocka_unit_test (same_shoe_comes_from_the_other_foot),
    cmocka_unit_test (other_feet_of_the_visit),
    cmocka_unit_test (last_visit_is_one_step),
    cmocka_unit_test (a_visit_has_each_foot_once),
    cmocka_unit_test (whole_edits_are_one_step),
  };

  return cmocka_run_group_tests_name ("document", tests, NULL, NULL);
}
