/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book put back from a backup: as it was then, with what it was kept beside it; or nothing done. */
#include "desk-kit.h"
#include "pr-book-loss.h"
#include "pr-document-backup.h"
#include "pr-document-file.h"

#include <glib/gstdio.h>
#include <sqlite3.h>
#include <string.h>

static guint
horses_of (PrDocument *doc)
{
  g_autoptr (GPtrArray) horses = pr_book_horses (pr_document_book (doc), NULL, NULL);

  return horses->len;
}

static char *
backups_of (Desk *desk)
{
  return pr_backup_folder (pr_book_file (pr_document_book (desk->doc)));
}

static void
todays_is_made_in_between (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autofree char *folder = backups_of (desk);

  (void) state;
  pr_document_backup_today (desk->doc);
  g_autoptr (GPtrArray) early = pr_book_backups (folder);
  assert_int_equal (early->len, 0);
  assert_true (pr_document_add_horse (desk->doc, "Tansy", NULL) > 0);
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *name = g_date_time_format (now, "book-%Y-%m-%d.pritchel");
  g_autofree char *file = g_build_filename (folder, name, NULL);
  while (!g_file_test (file, G_FILE_TEST_EXISTS)) { /* looking into the folder is told to who watches it */
    assert_null (desk->trouble);
    g_main_context_iteration (NULL, FALSE);
  }
  desk_settle (desk);
  g_autoptr (GPtrArray) made = pr_book_backups (folder);
  assert_int_equal (made->len, 1);
  assert_int_equal (((PrBookBackup *) made->pdata[0])->horses, 2);
}

/* One that is under way holds nothing back when the book goes on elsewhere, and comes to nothing. */
static void
it_is_given_up_with_the_book (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autofree char *folder = backups_of (desk),
                  *elsewhere = g_build_filename (desk->folder, "new.pritchel", NULL);

  (void) state;
  pr_document_backup_today (desk->doc);
  assert_true (pr_document_save_book (desk->doc, elsewhere, NULL));
  desk_settle (desk);
  g_autoptr (GPtrArray) made = pr_book_backups (folder);
  assert_int_equal (made->len, 0);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  assert_null (g_dir_read_name (dir));
}

static void
the_book_is_put_back (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autofree char *folder = backups_of (desk), *file = g_build_filename (desk->folder, "then.pritchel", NULL),
                  *question = NULL;

  (void) state;
  assert_true (pr_document_backup (desk->doc, file, NULL));
  desk_settle (desk);
  desk_open (desk, desk->near);
  assert_true (pr_document_set_text (desk->doc, "web.toe", "24.5", NULL));
  assert_true (pr_document_add_horse (desk->doc, "Tansy", NULL) > 0);
  question = pr_document_restore_question (desk->doc, file, NULL);
  assert_non_null (strstr (question, "2 horses"));
  assert_non_null (strstr (question, "1 horse,"));
  assert_true (pr_document_restore (desk->doc, file, NULL));
  desk_settle (desk);
  desk->book = pr_document_book (desk->doc);
  assert_int_equal (horses_of (desk->doc), 1);
  assert_null (pr_document_job (desk->doc));
  assert_false (pr_document_can_undo (desk->doc));
  NEAR (desk_kept (desk, desk->near, "web.toe"), 23, 0);
  /* and it is worked in as before */
  desk_open (desk, desk->near);
  assert_true (pr_document_set_text (desk->doc, "web.toe", "25", NULL));
  NEAR (desk_kept (desk, desk->near, "web.toe"), 25, 0);
  assert_int_equal (pr_book_loss (desk->book), PR_BOOK_KEPT);
  /* what it was is there to be had back */
  g_autoptr (GPtrArray) aside = pr_book_backups (folder);
  assert_int_equal (aside->len, 1);
  const PrBookBackup *was = aside->pdata[0];
  assert_int_equal (was->horses, 2);
  assert_true (pr_document_restore (desk->doc, was->file, NULL));
  desk_settle (desk);
  desk->book = pr_document_book (desk->doc);
  assert_int_equal (horses_of (desk->doc), 2);
  NEAR (desk_kept (desk, desk->near, "web.toe"), 24.5, 0);
}

static void
what_is_no_backup_changes_nothing (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autofree char *file = g_build_filename (desk->folder, "bad.pritchel", NULL);
  g_autoptr (GError) error = NULL;

  (void) state;
  g_file_set_contents (file, "no book", -1, NULL);
  desk_open (desk, desk->near);
  assert_null (pr_document_restore_question (desk->doc, file, &error));
  g_clear_error (&error);
  assert_true (pr_document_restore (desk->doc, file, &error));
  desk_settle (desk);
  assert_non_null (strstr (desk->trouble, "not a Pritchel book"));
  desk->book = pr_document_book (desk->doc);
  assert_int_equal (horses_of (desk->doc), 1);
  desk_open (desk, desk->near);
  assert_true (pr_document_set_text (desk->doc, "web.toe", "25", NULL));
  NEAR (desk_kept (desk, desk->near, "web.toe"), 25, 0);
}

/* A sound file that says it is a book and has not its tables: it gets as far as the book's place, and what was there is put
 * back. */
static void
what_cannot_be_opened_is_taken_out_again (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autofree char *file = g_build_filename (desk->folder, "hollow.pritchel", NULL);
  g_autoptr (GError) error = NULL;
  sqlite3 *db;

  (void) state;
  assert_int_equal (sqlite3_open (file, &db), SQLITE_OK);
  assert_int_equal (
      sqlite3_exec (db, "CREATE TABLE t (a); PRAGMA application_id = 0x50726974; PRAGMA user_version = 5",
                    NULL, NULL, NULL),
      SQLITE_OK);
  sqlite3_close (db);
  assert_true (pr_document_restore (desk->doc, file, &error));
  desk_settle (desk);
  assert_non_null (desk->trouble);
  desk->book = pr_document_book (desk->doc);
  assert_int_equal (horses_of (desk->doc), 1);
  desk_open (desk, desk->near);
  assert_true (pr_document_set_text (desk->doc, "web.toe", "25", NULL));
  NEAR (desk_kept (desk, desk->near, "web.toe"), 25, 0);
}

/* A word of PR_CHANGED_BUSY on the way. */
static void
stop_on_the_way (PrDocument *doc, guint what, double *seen)
{
  const char *word;
  double done;

  if (!(what & PR_CHANGED_BUSY) || !pr_document_busy (doc, &done, &word) || done <= 0)
    return;
  *seen = done;
  pr_document_stop_errand (doc);
}

/* Some megabytes that no packing makes small. */
static void
make_it_large (Desk *desk)
{
  g_autoptr (GRand) chance = g_rand_new_with_seed (3);
  gsize n = 8 << 20;
  guint32 *bytes = g_malloc (n);

  for (gsize i = 0; i < n / 4; i++)
    bytes[i] = g_rand_int (chance);
  g_autoptr (GBytes) photo = g_bytes_new_take (bytes, n);
  assert_true (pr_book_set_photo (desk->book, desk->off, photo, "large.jpg", NULL));
}

/* Each of them stopped once it is on its way, and all is as it was. */
static void
what_lasts_can_be_stopped (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autofree char *folder = backups_of (desk), *file = g_build_filename (desk->folder, "then.pritchel", NULL);
  g_autofree char *second = g_build_filename (desk->folder, "second.pritchel", NULL);
  double seen = 0;

  (void) state;
  make_it_large (desk);
  assert_true (pr_document_backup (desk->doc, file, NULL));
  desk_settle (desk);
  assert_true (pr_document_add_horse (desk->doc, "Tansy", NULL) > 0);
  gulong id = g_signal_connect (desk->doc, "changed", G_CALLBACK (stop_on_the_way), &seen);
  assert_true (pr_document_backup (desk->doc, second, NULL));
  assert_false (pr_document_backup (desk->doc, second, NULL)); /* one at a time */
  desk_settle (desk);
  assert_true (seen > 0 && seen < 1);
  assert_false (g_file_test (second, G_FILE_TEST_EXISTS));
  seen = 0;
  assert_true (pr_document_restore (desk->doc, file, NULL));
  desk_settle (desk);
  assert_true (seen > 0 && seen < 1);
  assert_null (desk->trouble);
  assert_int_equal (horses_of (desk->doc), 2);
  g_autoptr (GPtrArray) aside = pr_book_backups (folder);
  assert_int_equal (aside->len, 0);
  g_signal_handler_disconnect (desk->doc, id);
  /* nothing is left of either */
  g_autoptr (GDir) dir = g_dir_open (desk->folder, 0, NULL);
  for (const char *name; (name = g_dir_read_name (dir)) != NULL;)
    assert_null (strstr (name, ".part"));
}

static void
change_while_put_aside (PrDocument *doc, guint what, bool *changed)
{
  const char *word;
  double done;

  if (*changed || !(what & PR_CHANGED_BUSY) || !pr_document_busy (doc, &done, &word) || done < 0.8)
    return;
  *changed = true;
  assert_true (pr_book_add_horse (pr_document_book (doc), "Late", "", NULL) > 0);
}

/* What comes into the book while it is being restored is in what is kept of it. */
static void
nothing_is_lost_meanwhile (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autofree char *folder = backups_of (desk), *file = g_build_filename (desk->folder, "then.pritchel", NULL);
  bool changed = false;

  (void) state;
  make_it_large (desk);
  assert_true (pr_document_backup (desk->doc, file, NULL));
  desk_settle (desk);
  assert_true (pr_document_restore (desk->doc, file, NULL));
  g_signal_connect (desk->doc, "changed", G_CALLBACK (change_while_put_aside), &changed);
  desk_settle (desk);
  assert_true (changed);
  desk->book = pr_document_book (desk->doc);
  assert_int_equal (horses_of (desk->doc), 1);
  g_autoptr (GPtrArray) aside = pr_book_backups (folder);
  assert_int_equal (aside->len, 1);
  assert_int_equal (((PrBookBackup *) aside->pdata[0])->horses, 2);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (todays_is_made_in_between),
    cmocka_unit_test (it_is_given_up_with_the_book),
    cmocka_unit_test (the_book_is_put_back),
    cmocka_unit_test (what_is_no_backup_changes_nothing),
    cmocka_unit_test (what_cannot_be_opened_is_taken_out_again),
    cmocka_unit_test (what_lasts_can_be_stopped),
    cmocka_unit_test (nothing_is_lost_meanwhile),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
