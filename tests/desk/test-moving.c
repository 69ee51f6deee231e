/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The document's book on its way out as plain files, and another book taken in and given up again. */
#include "desk-kit.h"
#include "pr-document-backup.h"
#include "pr-document-delete.h"
#include "pr-document-plain.h"

#include <glib/gstdio.h>
#include <string.h>

static guint
entries (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (dir != NULL && g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static void
plain_files_come_from_a_copy (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autofree char *out = g_build_filename (desk->folder, "out", NULL);

  (void) state;
  desk_open (desk, desk->near);
  assert_true (pr_document_write_plain (desk->doc, out, PR_PAPER_A4, NULL));
  /* work goes on meanwhile */
  assert_true (pr_document_set_text (desk->doc, "web.toe", "24.5", NULL));
  desk_settle (desk);
  assert_null (desk->trouble);
  assert_int_equal (entries (out), 1); /* no copy is left */
  NEAR (desk_kept (desk, desk->near, "web.toe"), 24.5, 0);
}

static void
stop_it (PrDocument *doc, guint what, double *seen)
{
  const char *word;
  double done;

  if (!(what & PR_CHANGED_BUSY) || !pr_document_busy (doc, &done, &word) || done < 0.2)
    return;
  *seen = done;
  pr_document_stop_errand (doc);
}

static void
stopped_they_leave_nothing (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autofree char *out = g_build_filename (desk->folder, "out", NULL);
  double seen = 0;

  (void) state;
  g_signal_connect (desk->doc, "changed", G_CALLBACK (stop_it), &seen);
  assert_true (pr_document_write_plain (desk->doc, out, PR_PAPER_A4, NULL));
  desk_settle (desk);
  assert_true (seen >= 0.2);
  assert_null (desk->trouble);
  assert_int_equal (entries (out), 0);
}

/* The near foot as it went on elsewhere, with another web, in a book of its own. Transfer full. */
static char *
sent_by_another (Desk *desk)
{
  g_autofree char *file = g_build_filename (desk->folder, "sent.pritchel", NULL);

  assert_true (pr_document_set_text (desk->doc, "web.toe", "30", NULL));
  assert_true (pr_book_send_foot (desk->book, desk->near, file, NULL));
  pr_document_undo (desk->doc);
  return g_steal_pointer (&file);
}

/* The open foot is replaced; one undo puts it back onto the board. */
static void
one_undo_gives_up_what_was_taken_in (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  (void) state;
  desk_open (desk, desk->near);
  double before = desk_shown (desk, "web.toe");
  g_autofree char *file = sent_by_another (desk);
  g_autoptr (PrMerge) merge = pr_merge_look (desk->book, file, NULL, NULL);

  assert_int_equal (merge->feet->len, 1);
  ((PrMergeFoot *) merge->feet->pdata[0])->choice = PR_MERGE_THEIRS;
  PrMerged *merged = pr_merge_take (desk->book, file, merge, NULL, NULL);
  int done = desk->n_done;
  assert_true (pr_document_merged (desk->doc, merged, NULL));
  desk_settle (desk);
  assert_int_equal (desk->n_done, done + 1);
  assert_non_null (strstr (desk->done, "1 of yours was replaced"));
  assert_int_not_equal (pr_document_foot_id (desk->doc), desk->near);
  NEAR (desk_shown (desk, "web.toe"), 30, 0);
  assert_true (pr_document_can_undo (desk->doc));
  pr_document_undo (desk->doc);
  desk_settle (desk);
  assert_null (desk->trouble);
  assert_int_equal (pr_document_foot_id (desk->doc), desk->near);
  NEAR (desk_shown (desk, "web.toe"), before, 0);
  g_autoptr (PrMerge) again = pr_merge_look (desk->book, file, NULL, NULL);
  assert_int_equal (again->feet->len, 1); /* it is as if it had never come */
}

/* What is done next is what is undone next. */
static void
it_is_undone_only_while_it_is_the_last (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  (void) state;
  desk_open (desk, desk->near);
  g_autofree char *file = sent_by_another (desk);
  assert_true (pr_document_merged (desk->doc, pr_merge_take (desk->book, file, NULL, NULL, NULL), NULL));
  desk_settle (desk);
  assert_true (pr_document_set_text (desk->doc, "web.toe", "29", NULL));
  pr_document_undo (desk->doc);
  NEAR (desk_shown (desk, "web.toe"), 30, 0);
  g_autoptr (PrMerge) again = pr_merge_look (desk->book, file, NULL, NULL);
  assert_int_equal (again->n_same, 1);
  assert_int_equal (again->feet->len, 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (plain_files_come_from_a_copy),
    cmocka_unit_test (stopped_they_leave_nothing),
    cmocka_unit_test (one_undo_gives_up_what_was_taken_in),
    cmocka_unit_test (it_is_undone_only_while_it_is_the_last),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
