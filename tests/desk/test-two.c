/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two programs on one book: here the document that reads, there one that writes. And a book that cannot take what is done for a
 * while: nothing of it is lost. */
#include <fcntl.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include "desk-kit.h"
#include "disk.h"
#include "pr-book-trash.h"
#include "pr-document-file.h"

/* --- the other program --- */

typedef struct {
  pid_t id;
  int orders, answers;
} Other;

static bool
write_plan (PrBook *book, PrBookId foot, double web)
{
  g_autoptr (PrJob) job = pr_job_new ();

  if (!pr_record_read (book, foot, job, NULL, NULL))
    return false;
  job->sources.plan.web_toe = web;
  return pr_record_keep (book, foot, job, PR_PART_PLAN, NULL);
}

/* 'p': the near foot's web becomes 31 mm; 'd': it is deleted; 'h': a horse; 'v': its horse goes for ever; '.': the end. */
static bool
obey (PrBook *book, char what, PrBookId foot, PrBookId horse)
{
  switch (what) {
  case 'p':
    return write_plan (book, foot, 31);
  case 'd':
    return pr_book_delete (book, PR_BOOK_FOOT, foot, NULL);
  case 'h':
    return pr_book_add_horse (book, "Sorrel", "", NULL) != 0;
  case 'v':
    return pr_book_remove_horse (book, horse, NULL);
  default:
    return false;
  }
}

static void
serve (const char *file, PrBookId foot, PrBookId horse, int orders, int answers)
{
  PrBook *book = pr_book_open (file, NULL);
  char what = book ? 'o' : '!';

  while (write (answers, &what, 1) == 1 && read (orders, &what, 1) == 1 && what != '.')
    what = obey (book, what, foot, horse) ? what : '!';
  pr_book_close (book);
}

static char
answer (const Other *other)
{
  char c = 0;

  assert_int_equal (read (other->answers, &c, 1), 1);
  return c;
}

/* The other one has the book from now on, and DESK's document reads it. */
static Other
hand_over (Desk *desk)
{
  g_autofree char *file = g_build_filename (desk->folder, "book.pritchel", NULL);
  int down[2], up[2];
  Other other;

  g_clear_object (&desk->doc);
  assert_true (pipe (down) == 0 && pipe (up) == 0);
  other.id = fork ();
  if (other.id == 0) {
    prctl (PR_SET_PDEATHSIG, SIGKILL);
    close (down[1]);
    close (up[0]);
    serve (file, desk->near, desk->horse, down[0], up[1]);
    _exit (0);
  }
  close (down[0]);
  close (up[1]);
  other.orders = down[1];
  other.answers = up[0];
  assert_int_equal (answer (&other), 'o');
  desk->book = pr_book_open_or_read (file, NULL);
  assert_non_null (desk->book);
  desk->doc = pr_document_new (desk->book, PR_UNIT_MM);
  desk_listen (desk);
  return other;
}

static void
order (const Other *other, char what)
{
  assert_int_equal (write (other->orders, &what, 1), 1);
  assert_int_equal (answer (other), what);
}

static void
end (Other *other)
{
  kill (other->id, SIGKILL);
  assert_int_equal (waitpid (other->id, NULL, 0), other->id);
  close (other->orders);
  close (other->answers);
}

static void
set (Desk *desk, double web)
{
  g_autofree char *text = g_strdup_printf ("%.2f", web);

  assert_true (pr_document_set_text (desk->doc, "web.toe", text, NULL));
}

static void
waits (Desk *desk, const char *says)
{
  g_autofree char *text = pr_document_waits (desk->doc);

  assert_non_null (text);
  if (!strstr (text, says))
    fail_msg ("“%s” does not say “%s”", text, says);
}

/* By itself: nobody looks. */
static void
until_ours (Desk *desk)
{
  while (!pr_document_is_kept (desk->doc) || pr_document_has_unkept (desk->doc))
    g_main_context_iteration (NULL, TRUE);
  assert_null (pr_document_waits (desk->doc));
}

static guint
feet_of (Desk *desk, PrBookId visit)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (desk->book, visit, NULL);

  return feet->len;
}

/* --- reading --- */

static void
follows_the_one_that_writes (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  Other other = hand_over (desk);

  (void) state;
  assert_true (pr_document_is_reading (desk->doc));
  assert_false (pr_document_is_kept (desk->doc));
  waits (desk, "is being written by");
  desk_open (desk, desk->near);
  assert_null (desk->trouble); /* that it was opened is noted nowhere, and nobody is told of it */
  NEAR (desk_shown (desk, "web.toe"), 23, 1e-9);
  order (&other, 'p');
  while (desk_shown (desk, "web.toe") < 30)
    g_main_context_iteration (NULL, TRUE);
  NEAR (desk_shown (desk, "web.toe"), 31, 1e-9);
  desk->changed = 0;
  order (&other, 'h');
  while (!(desk->changed & PR_CHANGED_BOOK))
    g_main_context_iteration (NULL, TRUE);
  order (&other, 'd');
  while (pr_document_job (desk->doc))
    g_main_context_iteration (NULL, TRUE);
  end (&other);
  until_ours (desk);
}

static void
what_is_not_on_the_board_is_refused (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  Other other = hand_over (desk);
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) photo = g_file_new_for_path ("/nowhere/photo.jpg");

  (void) state;
  assert_int_equal (pr_document_add_horse (desk->doc, "Bay", &error), 0);
  assert_non_null (strstr (error->message, "is being written by"));
  pr_document_take_photo (desk->doc, photo, PR_FOOT_ANY, NULL);
  assert_non_null (strstr (desk->trouble, "is being written by"));
  end (&other);
  until_ours (desk);
  assert_true (pr_document_add_horse (desk->doc, "Bay", NULL) != 0);
}

/* --- kept on the board --- */

static void
changes_wait_and_are_kept (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  Other other = hand_over (desk);

  (void) state;
  desk_open (desk, desk->near);
  assert_true (pr_document_set_wall (desk->doc, 0, 9, NULL));
  set (desk, 24.5); /* of the plan alone: what was changed before waits as well */
  waits (desk, "What you change on the board stays here");
  assert_null (desk->trouble);
  desk_open (desk, desk->off); /* and away, and back */
  set (desk, 26);
  desk_open (desk, desk->near);
  NEAR (desk_shown (desk, "web.toe"), 24.5, 1e-9);
  assert_true (pr_document_can_undo (desk->doc));
  end (&other);
  until_ours (desk);
  NEAR (desk_kept (desk, desk->near, "web.toe"), 24.5, 1e-9);
  NEAR (desk_kept (desk, desk->off, "web.toe"), 26, 1e-9);
  assert_true (desk_is_kept (desk));
  assert_int_equal (feet_of (desk, desk->today), 2);
  pr_document_undo (desk->doc);
  NEAR (desk_kept (desk, desk->near, "web.toe"), desk_shown (desk, "web.toe"), 1e-9);
}

static void
both_changed_it_both_are_kept (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  Other other = hand_over (desk);

  (void) state;
  desk_open (desk, desk->near);
  set (desk, 24);
  order (&other, 'p');
  end (&other);
  until_ours (desk);
  assert_int_equal (feet_of (desk, desk->today), 3);
  assert_true (pr_document_foot_id (desk->doc) != desk->near);
  NEAR (desk_kept (desk, desk->near, "web.toe"), 31, 1e-9);
  NEAR (desk_kept (desk, pr_document_foot_id (desk->doc), "web.toe"), 24, 1e-9);
  NEAR (desk_shown (desk, "web.toe"), 24, 1e-9);
  assert_true (pr_document_can_undo (desk->doc));
  set (desk, 22);
  NEAR (desk_kept (desk, pr_document_foot_id (desk->doc), "web.toe"), 22, 1e-9);
  NEAR (desk_kept (desk, desk->near, "web.toe"), 31, 1e-9);
}

/* What was changed here is kept also where all of it was taken away there. */
static void
what_was_deleted_there_is_kept_anew (void **state)
{
  (void) state;
  for (int i = 0; i < 2; i++) {
    g_autoptr (Desk) desk = desk_new ();
    Other other = hand_over (desk);

    desk_open (desk, desk->near);
    set (desk, 24);
    desk_open (desk, desk->off);
    order (&other, "dv"[i]);
    end (&other);
    until_ours (desk);
    PrBookId kept = 0;
    g_autoptr (GPtrArray) horses = pr_book_horses (desk->book, NULL, NULL);
    for (guint h = 0; h < horses->len; h++) {
      g_autoptr (GPtrArray) visits
          = pr_book_visits (desk->book, ((PrBookHorse *) horses->pdata[h])->id, NULL);
      for (guint v = 0; v < visits->len && !kept; v++)
        kept = pr_record_find (desk->book, ((PrBookVisit *) visits->pdata[v])->id, PR_FOOT_LF, PR_PART_PLAN);
    }
    assert_true (kept != 0 && (i == 1 || (kept != desk->near && kept != desk->near_before)));
  }
}

/* --- a reading that does not end, as a program that has stopped leaves one --- */

/* The lock of one (SQLite file format, "lock-byte page"). */
static void
read_for_ever (const char *file, int told)
{
  struct flock lock = { .l_type = F_RDLCK, .l_whence = SEEK_SET, .l_start = 0x40000002, .l_len = 510 };
  int fd = open (file, O_RDONLY);

  if (fcntl (fd, F_SETLK, &lock) != 0 || write (told, "r", 1) != 1)
    _exit (1);
  for (;;)
    pause ();
}

static void
a_reading_that_does_not_end_loses_nothing (void **state)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autofree char *file = g_build_filename (desk->folder, "book.pritchel", NULL);
  int ends[2];
  char c;

  (void) state;
  desk_open (desk, desk->near);
  assert_int_equal (pipe (ends), 0);
  pid_t child = fork ();
  if (child == 0) {
    prctl (PR_SET_PDEATHSIG, SIGKILL);
    read_for_ever (file, ends[1]);
  }
  assert_int_equal (read (ends[0], &c, 1), 1);
  set (desk, 24);
  assert_true (pr_document_has_unkept (desk->doc));
  NEAR (desk_shown (desk, "web.toe"), 24, 1e-9);
  NEAR (desk_kept (desk, desk->near, "web.toe"), 23, 1e-9);
  kill (child, SIGKILL);
  waitpid (child, NULL, 0);
  until_ours (desk);
  NEAR (desk_kept (desk, desk->near, "web.toe"), 24, 1e-9);
  close (ends[0]);
  close (ends[1]);
}

/* --- no room --- */

/* The plan, by so many letters. */
static void
grow (Desk *desk, int letters)
{
  g_autofree char *order = g_strnfill ((gsize) letters, 'x');

  pr_document_set_order (desk->doc, letters > 0 ? order : NULL);
}

/* The disk is full after so many calls, or gone; what cannot be kept is on the board, on other feet too, and in the book once there
 * is room again. */
static void
loses_nothing (KitDisk how, int calls)
{
  g_autoptr (Desk) desk = desk_new ();
  int refused = 0;

  desk_open (desk, desk->near);
  pr_document_drawn (desk->doc);
  for (int n = 0; n < calls; n++) {
    double web = 20 + 0.1 * n;
    kit_disk_is (how, n);
    grow (desk, how == KIT_DISK_FULL ? 400 * n : 0);
    set (desk, web);
    if (pr_document_has_unkept (desk->doc)) {
      refused++;
      assert_non_null (desk->trouble);
      assert_null (strchr (desk->trouble, '\n'));
      waits (desk, "What you change on the board stays here");
    }
    NEAR (desk_shown (desk, "web.toe"), web, 1e-9);
    if (how == KIT_DISK_FULL) {
      desk_open (desk, desk->off);
      desk_open (desk, desk->near);
      NEAR (desk_shown (desk, "web.toe"), web, 1e-9);
    }
    kit_disk_is (KIT_DISK_SOUND, 0);
    pr_document_tend (desk->doc); /* which comes by itself, too */
    assert_false (pr_document_has_unkept (desk->doc));
    NEAR (desk_kept (desk, desk->near, "web.toe"), web, 1e-9);
    assert_true (pr_document_is_kept (desk->doc));
  }
  print_message ("%d of %d changes could not be kept at once\n", refused, calls);
  assert_true (refused > 3);
}

static void
a_full_disk_loses_nothing (void **state)
{
  (void) state;
  loses_nothing (KIT_DISK_FULL, 30);
}

static void
a_share_that_is_gone_loses_nothing (void **state)
{
  (void) state;
  loses_nothing (KIT_DISK_GONE, 30);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (follows_the_one_that_writes),
    cmocka_unit_test (what_is_not_on_the_board_is_refused),
    cmocka_unit_test (changes_wait_and_are_kept),
    cmocka_unit_test (both_changed_it_both_are_kept),
    cmocka_unit_test (what_was_deleted_there_is_kept_anew),
    cmocka_unit_test (a_reading_that_does_not_end_loses_nothing),
    cmocka_unit_test (a_full_disk_loses_nothing),
    cmocka_unit_test (a_share_that_is_gone_loses_nothing),
  };

  return cmocka_run_group_tests_name ("two", tests, NULL, NULL);
}
