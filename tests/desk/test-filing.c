/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where photos go in the book, without a display: own ones never to the demo horse, those that came together into one visit, and
 * a foot that the visit has already into a new one; each with one way back. */
#include <math.h>
#include <string.h>

#include "desk-kit.h"
#include "pr-document-delete.h"
#include "pr-document-diary.h"
#include "pr-places.h"
#include "pr-tracing.h"

static const char *demo; /* a near fore on a printed sheet */

/* The demo photo as it would be sent; NAME is not owned. */
static PrReceived
photo (char *name)
{
  char *bytes;
  gsize length;

  assert_true (g_file_get_contents (demo, &bytes, &length, NULL));
  return (PrReceived){ g_bytes_new_take (bytes, length), name };
}

/* N of them at once. */
static void
send (Desk *desk, guint n)
{
  g_autoptr (GPtrArray) photos = g_ptr_array_new ();
  char name[] = "photo.jpg";
  PrReceived sent[5];

  for (guint i = 0; i < n; i++) {
    sent[i] = photo (name);
    g_ptr_array_add (photos, &sent[i]);
  }
  pr_document_take_received (desk->doc, photos);
  desk_settle (desk);
  for (guint i = 0; i < n; i++)
    g_bytes_unref (sent[i].bytes);
}

static guint
n_feet (Desk *desk, PrBookId visit)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (desk->book, visit, NULL);

  return feet->len;
}

static guint
n_visits (Desk *desk, PrBookId horse)
{
  g_autoptr (GPtrArray) visits = pr_book_visits (desk->book, horse, NULL);

  return visits->len;
}

static guint
n_horses (Desk *desk)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (desk->book, NULL, NULL);

  return horses->len;
}

static void
own_photos_leave_the_demo_horse (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GFile) file = g_file_new_for_path (demo);
  PrBookId demo_horse, demo_visit;

  (void) state;
  pr_document_take_photo (desk->doc, file, PR_FOOT_ANY, pr_places_demo_name ());
  desk_settle (desk);
  demo_horse = pr_document_horse_id (desk->doc);
  demo_visit = pr_document_visit_id (desk->doc);
  assert_true (pr_places_is_demo (desk->book, demo_horse));
  g_auto (PrBookHorse) row = { 0 };
  assert_true (pr_book_get_horse (desk->book, demo_horse, &row, NULL));
  assert_int_equal (row.due_days, PR_BOOK_NEVER_DUE);
  pr_document_take_photo (desk->doc, file, PR_FOOT_ANY, NULL);
  desk_settle (desk);
  assert_int_equal (desk->n_asked, 0); /* the demo's near fore is not in its way */
  assert_int_not_equal (pr_document_horse_id (desk->doc), demo_horse);
  assert_int_not_equal (pr_document_horse_id (desk->doc), desk->horse);
  assert_int_equal (n_feet (desk, demo_visit), 1);
  assert_true (pr_document_open_foot (desk->doc, desk->near, NULL));
  desk_settle (desk);
  pr_document_choose_visit (desk->doc, demo_horse, demo_visit);
  send (desk, 2); /* nor do several go there */
  assert_int_equal (n_feet (desk, demo_visit), 1);
}

/* Both say near fore: the second is asked about, and lies beside the first. */
static void
together_in_the_open_visit (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  PrBookId visit = pr_book_add_visit (desk->book, desk->horse, "2026-11-25", NULL);

  (void) state;
  pr_document_choose_visit (desk->doc, desk->horse, visit);
  send (desk, 2);
  assert_int_equal (pr_document_visit_id (desk->doc), visit);
  assert_int_equal (n_feet (desk, visit), 2);
  assert_int_equal (n_visits (desk, desk->horse), 3);
  assert_int_equal (desk->n_done, 1);
  assert_non_null (strstr (desk->done, "2 photos"));
  assert_non_null (strstr (desk->done, "Pipwick"));
  assert_non_null (strstr (desk->done, "25 November 2026"));
  assert_int_equal (desk->n_which, 1);
  assert_int_equal (pr_document_job (desk->doc)->sources.foot, PR_FOOT_ANY);
  pr_document_undo (desk->doc);
  assert_int_equal (n_feet (desk, visit), 0);
  assert_null (pr_document_job (desk->doc));
  assert_int_equal (n_visits (desk, desk->horse), 3); /* it was there before */
}

/* The open visit has a near fore: none of them stays there. */
static void
together_in_a_new_visit (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  PrBookId made;

  (void) state;
  desk_open (desk, desk->near);
  send (desk, 2);
  made = pr_document_visit_id (desk->doc);
  assert_int_not_equal (made, desk->today);
  assert_int_equal (pr_document_horse_id (desk->doc), desk->horse);
  assert_int_equal (n_feet (desk, desk->today), 2);
  assert_int_equal (n_feet (desk, made), 2);
  assert_int_equal (n_visits (desk, desk->horse), 3);
  pr_document_undo (desk->doc);
  desk_settle (desk);
  assert_int_equal (n_visits (desk, desk->horse), 2);
  assert_int_equal (n_feet (desk, desk->today), 2);
  assert_int_equal (pr_document_foot_id (desk->doc), desk->near); /* as it was */
  NEAR (desk_shown (desk, "web.toe"), 23, 0);
}

/* The visit has room for one more foot, and two come: neither stays there. */
static void
together_with_too_little_room (void **state)
{
  static const PrFoot there[] = { PR_FOOT_RF, PR_FOOT_LH, PR_FOOT_RH };
  g_autoptr (Desk) desk = desk_new ();
  PrBookId visit = pr_book_add_visit (desk->book, desk->horse, "2026-11-25", NULL);

  (void) state;
  for (size_t i = 0; i < G_N_ELEMENTS (there); i++) {
    PrBookId foot = pr_book_add_foot (desk->book, visit, there[i], NULL);
    assert_true (foot != 0 && pr_book_set_plan (desk->book, foot, "{}", NULL));
  }
  pr_document_choose_visit (desk->doc, desk->horse, visit);
  send (desk, 2);
  assert_int_equal (n_feet (desk, visit), 3);
  assert_int_equal (n_feet (desk, pr_document_visit_id (desk->doc)), 2);
  assert_int_not_equal (pr_document_visit_id (desk->doc), visit);
}

/* With no horse chosen they make one, which goes with them. */
static void
together_without_a_horse (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  guint before = n_horses (desk);

  (void) state;
  send (desk, 3);
  assert_int_equal (n_horses (desk), before + 1);
  assert_int_equal (n_visits (desk, pr_document_horse_id (desk->doc)), 1);
  assert_int_equal (n_feet (desk, pr_document_visit_id (desk->doc)), 3);
  assert_int_equal (desk->n_which, 1);
  PrBookId first = pr_document_foot_id (desk->doc);
  assert_true (pr_document_set_foot (desk->doc, PR_FOOT_RF, NULL));
  pr_document_ask_next (desk->doc); /* the other one that nobody has told */
  desk_settle (desk);
  assert_int_equal (desk->n_which, 2);
  assert_int_not_equal (pr_document_foot_id (desk->doc), first);
  assert_int_equal (pr_document_job (desk->doc)->sources.foot, PR_FOOT_ANY);
  pr_document_ask_next (desk->doc);
  assert_int_equal (desk->n_which, 2);
}

static void
together_without_a_horse_is_one_undo (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  guint before = n_horses (desk);

  (void) state;
  send (desk, 2);
  pr_document_undo (desk->doc);
  assert_int_equal (n_horses (desk), before);
}

/* The visit has a near fore: the open foot becomes that in a new visit, and comes back with one undo. */
static void
taken_foot_moves_to_a_new_visit (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (GError) error = NULL;
  PrBookId made;

  (void) state;
  desk_open (desk, desk->off);
  assert_false (pr_document_set_foot (desk->doc, PR_FOOT_LF, &error));
  assert_true (pr_document_is_taken (desk->doc, PR_FOOT_LF));
  assert_true (pr_document_move_to_new_visit (desk->doc, PR_FOOT_LF, NULL));
  made = pr_document_visit_id (desk->doc);
  assert_int_not_equal (made, desk->today);
  assert_int_equal (pr_document_foot_id (desk->doc), desk->off);
  assert_int_equal (pr_document_job (desk->doc)->sources.foot, PR_FOOT_LF);
  assert_int_equal (n_feet (desk, made), 1);
  assert_int_equal (n_feet (desk, desk->today), 1);
  assert_true (desk_is_kept (desk));
  assert_int_equal (desk->n_done, 1);
  pr_document_undo (desk->doc);
  assert_int_equal (pr_document_visit_id (desk->doc), desk->today);
  assert_int_equal (pr_document_job (desk->doc)->sources.foot, PR_FOOT_RF);
  assert_int_equal (n_feet (desk, desk->today), 2);
  assert_int_equal (n_visits (desk, desk->horse), 2);
  assert_true (desk_is_kept (desk));
  pr_document_redo (desk->doc); /* would be a second near fore */
  assert_int_equal (pr_document_job (desk->doc)->sources.foot, PR_FOOT_RF);
  assert_non_null (desk->trouble);
}

/* What is open and what is chosen are of one visit. */
static void
another_visit_closes_the_foot (void **state)
{
  g_autoptr (Desk) desk = desk_new ();

  (void) state;
  desk_open (desk, desk->near);
  pr_document_choose_visit (desk->doc, desk->horse, desk->today);
  assert_int_equal (pr_document_foot_id (desk->doc), desk->near);
  assert_true (pr_document_add_visit (desk->doc, desk->horse, NULL));
  assert_null (pr_document_job (desk->doc));
  assert_int_equal (pr_document_foot_id (desk->doc), 0);
}

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (own_photos_leave_the_demo_horse),
    cmocka_unit_test (together_in_the_open_visit),
    cmocka_unit_test (together_in_a_new_visit),
    cmocka_unit_test (together_with_too_little_room),
    cmocka_unit_test (together_without_a_horse),
    cmocka_unit_test (together_without_a_horse_is_one_undo),
    cmocka_unit_test (taken_foot_moves_to_a_new_visit),
    cmocka_unit_test (another_visit_closes_the_foot),
  };

  assert_int_equal (argc, 2);
  demo = argv[1];
  return cmocka_run_group_tests (tests, NULL, NULL);
}
