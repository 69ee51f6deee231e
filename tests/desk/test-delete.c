/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Feet, visits and horses deleted: off the board, out of the book's listings, and back in one step as they were. */
#include "desk-kit.h"
#include "pr-document-delete.h"

static void delete (Desk *desk, PrBookKind kind, PrBookId id)
{
  g_autoptr (GError) error = NULL;

  if (!pr_document_delete (desk->doc, kind, id, &error))
    fail_msg ("%s", error->message);
}

static guint
visits_of (Desk *desk)
{
  g_autoptr (GPtrArray) visits = pr_book_visits (desk->book, desk->horse, NULL);

  return visits->len;
}

static guint
in_trash (Desk *desk)
{
  g_autoptr (GPtrArray) trash = pr_book_trash (desk->book, NULL);

  return trash->len;
}

/* The open foot goes from the board, and undo puts it there again with its own steps. */
static void
the_open_foot_and_back (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  double web;

  (void) state;
  desk_open (desk, desk->near);
  assert_true (pr_document_set_text (desk->doc, "web.toe", "24.5", NULL));
  web = desk_shown (desk, "web.toe");
  delete (desk, PR_BOOK_FOOT, desk->near);
  assert_int_equal (desk->n_done, 1);
  assert_null (pr_document_job (desk->doc));
  assert_int_equal (pr_document_foot_id (desk->doc), 0);
  assert_int_equal (pr_document_visit_id (desk->doc), desk->today);
  assert_true (pr_document_can_undo (desk->doc));
  pr_document_undo (desk->doc);
  desk_settle (desk);
  assert_int_equal (pr_document_foot_id (desk->doc), desk->near);
  NEAR (desk_shown (desk, "web.toe"), web, 0);
  assert_int_equal (in_trash (desk), 0);
  pr_document_undo (desk->doc); /* its own step before that */
  NEAR (desk_shown (desk, "web.toe"), 23, 0);
}

/* A foot that is not open leaves the board alone; the next edit is the next step to undo. */
static void
another_foot_leaves_the_board (void **state)
{
  g_autoptr (Desk) desk = desk_new ();

  (void) state;
  desk_open (desk, desk->near);
  delete (desk, PR_BOOK_FOOT, desk->off);
  assert_int_equal (pr_document_foot_id (desk->doc), desk->near);
  assert_true (pr_document_set_text (desk->doc, "web.toe", "24.5", NULL));
  pr_document_undo (desk->doc);
  NEAR (desk_shown (desk, "web.toe"), 23, 0);
  assert_int_equal (in_trash (desk), 1); /* undo was the edit's */
  assert_true (pr_document_bring_back (desk->doc, PR_BOOK_FOOT, desk->off, NULL));
  desk_open (desk, desk->off);
  NEAR (desk_shown (desk, "web.toe"), 25, 0);
}

static void
visit_and_horse (void **state)
{
  g_autoptr (Desk) desk = desk_new ();

  (void) state;
  desk_open (desk, desk->near);
  delete (desk, PR_BOOK_VISIT, desk->before);
  assert_int_equal (pr_document_foot_id (desk->doc), desk->near); /* it is of the other one */
  assert_int_equal (visits_of (desk), 1);
  pr_document_undo (desk->doc);
  assert_int_equal (visits_of (desk), 2);
  delete (desk, PR_BOOK_VISIT, desk->today);
  assert_null (pr_document_job (desk->doc));
  assert_int_equal (pr_document_visit_id (desk->doc), desk->before);
  pr_document_undo (desk->doc);
  desk_settle (desk);
  assert_int_equal (pr_document_foot_id (desk->doc), desk->near);
  delete (desk, PR_BOOK_HORSE, desk->horse);
  assert_null (pr_document_job (desk->doc));
  assert_int_equal (pr_document_horse_id (desk->doc), 0);
  assert_int_equal (pr_document_visit_id (desk->doc), 0);
  pr_document_undo (desk->doc);
  desk_settle (desk);
  assert_int_equal (pr_document_foot_id (desk->doc), desk->near);
  assert_int_equal (pr_document_visit_id (desk->doc), desk->today);
  assert_null (desk->trouble);
}

/* A visit is made once, however often it is asked for, until something is in it. */
static void
one_empty_visit_a_day (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  PrBookId first;

  (void) state;
  first = pr_document_add_visit (desk->doc, desk->horse, NULL);
  assert_int_not_equal (first, 0);
  assert_int_equal (pr_document_add_visit (desk->doc, desk->horse, NULL), first);
  assert_int_equal (pr_document_visit_id (desk->doc), first);
  assert_int_equal (visits_of (desk), 3);
}

static void
what_is_gone_is_told (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GError) error = NULL;

  (void) state;
  desk_open (desk, desk->near);
  delete (desk, PR_BOOK_FOOT, desk->off);
  assert_false (pr_document_delete (desk->doc, PR_BOOK_FOOT, desk->off, &error));
  assert_non_null (error);
  assert_int_equal (desk->n_done, 1);
  assert_int_equal (pr_document_foot_id (desk->doc), desk->near);
}

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (the_open_foot_and_back), cmocka_unit_test (another_foot_leaves_the_board),
    cmocka_unit_test (visit_and_horse),        cmocka_unit_test (one_empty_visit_a_day),
    cmocka_unit_test (what_is_gone_is_told),
  };

  (void) argc;
  (void) argv;
  return cmocka_run_group_tests (tests, NULL, NULL);
}
