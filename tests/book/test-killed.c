/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Programs killed, and disks that fail, in the middle of a mix of all that is done in a book. Afterwards the book is sound, the last
 * change that was accepted is there, and of the one that was under way all or nothing. By hand: test-killed ROUNDS [SEED]. */
#include <glib/gstdio.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>
#include <sqlite3.h>

#include "disk.h"
#include "pr-book-backup.h"
#include "pr-book-diary.h"
#include "pr-book-merge.h"
#include "pr-book-trash.h"
#include "pr-error.h"
#include "shelf.h"

#define ANEW 100        /* a book is begun anew after so many rounds: a look through it takes a while */
#define LATEST_US 25000 /* some ten changes */
#define N_TRASHED 3     /* kinds of rows that are deleted here: PR_BOOK_HORSE and what follows it */
#define CALLS 45        /* to the system, in any change */

static int rounds = 1000;
static guint32 seed = 17;

/* --- what is done --- */

typedef enum {
  HORSE,
  VISIT,
  FOOT,
  PHOTO,
  PLAN,
  TRACE,
  ATTEMPT,
  DELETE,
  BACK,
  EMPTY,
  SETTING,
  NOTE,
  MERGE,
  BACKUP,
  N_KINDS
} Kind;

/* The Nth change since the beginning; what it is done to is one of those that were added last. */
typedef struct {
  int n;
  Kind kind;
  PrBookId id;
} Change;

/* Shared with the process that is killed. */
typedef struct {
  volatile int accepted; /* N of the last change that was returned for */
  Change done[2];        /* by N's last bit: the last two that were begun */
  PrBookId top[3];       /* of horses, visits and feet */
} Log;

typedef struct {
  KitShelf *shelf;
  char *backup, *sent;
  Log *log;
} Ward;

static char *
mark (int n)
{
  return g_strdup_printf ("{\"n\":%d}", n);
}

static GBytes *
photo_of (int n)
{
  gsize size = 500 + (gsize) (n * 7919 % 40000);

  return g_bytes_new_take (g_strnfill (size, (char) ('a' + n % 26)), size);
}

static bool
add (Ward *ward, PrBook *book, const Change *c)
{
  g_autofree char *text = mark (c->n);
  PrBookId id = 0;

  if (c->kind == HORSE) {
    id = ward->log->top[0] = pr_book_add_horse (book, text, "Yard", NULL);
  } else if (c->kind == VISIT) {
    PrBookVisit visit = { .date = (char *) "2026-05-01", .note = text };
    visit.id = id = ward->log->top[1] = pr_book_add_visit (book, c->id, "2026-05-01", NULL);
    return id != 0 && pr_book_describe_visit (book, &visit, NULL);
  } else if (c->kind == FOOT) {
    id = ward->log->top[2] = pr_book_add_foot (book, c->id, PR_FOOT_LF, NULL);
    return id != 0 && pr_book_set_plan (book, id, text, NULL);
  } else {
    PrBookAttempt attempt = { .foot = c->id, .date = (char *) "2026-05-02", .note = text, .minutes = 40 };
    attempt.forged.cut = 300;
    id = pr_book_add_attempt (book, &attempt, NULL, NULL);
  }
  return id != 0;
}

static bool
note_horse (PrBook *book, const Change *c)
{
  g_autofree char *text = mark (c->n);
  PrBookHorse horse = { .id = c->id, .name = (char *) "Noted", .yard = (char *) "", .note = text };

  return pr_book_describe_horse (book, &horse, NULL);
}

static bool
set_part (PrBook *book, const Change *c)
{
  g_autofree char *text = mark (c->n);
  g_autoptr (GBytes) photo = photo_of (c->n);

  if (c->kind == PHOTO)
    return pr_book_set_photo (book, c->id, photo, text, NULL);
  return c->kind == PLAN ? pr_book_set_plan (book, c->id, text, NULL)
                         : pr_book_set_trace (book, c->id, text, NULL);
}

static bool
act (Ward *ward, PrBook *book, const Change *c)
{
  switch (c->kind) {
  case HORSE:
  case VISIT:
  case FOOT:
  case ATTEMPT:
    return add (ward, book, c);
  case PHOTO:
  case PLAN:
  case TRACE:
    return set_part (book, c);
  case DELETE:
    return pr_book_delete (book, (PrBookKind) (c->n % N_TRASHED), c->id, NULL);
  case BACK:
    return pr_book_bring_back (book, (PrBookKind) (c->n % N_TRASHED), c->id, NULL);
  case EMPTY:
    return pr_book_empty_trash (book, "9999", NULL);
  case NOTE:
    return note_horse (book, c);
  case MERGE:
    return pr_book_merge (book, ward->sent, NULL, NULL, NULL);
  default:
    return true; /* the setting that each of them leaves */
  }
}

/* With its number, as one change. A backup is none: it is made before. */
static bool
change (Ward *ward, PrBook *book, const Change *c)
{
  g_autofree char *n = g_strdup_printf ("%d", c->n);

  if (c->kind == BACKUP && !pr_book_backup (book, ward->backup, NULL))
    return false;
  if (!pr_book_begin (book, NULL))
    return false;
  return pr_book_end (book, act (ward, book, c) && pr_book_set_setting (book, "n", n, NULL), NULL);
}

static PrBookId
one_of (GRand *rand, PrBookId top)
{
  return MAX (1, top - g_rand_int_range (rand, 0, 12));
}

static Change
next_change (const Ward *ward, GRand *rand, int n)
{
  static const int on[N_KINDS]
      = { [VISIT] = 0, [FOOT] = 1, [PHOTO] = 2, [PLAN] = 2, [TRACE] = 2, [ATTEMPT] = 2, [NOTE] = 0 };
  Change c = { .n = n, .kind = (Kind) g_rand_int_range (rand, 0, N_KINDS) };
  bool trash = c.kind == DELETE || c.kind == BACK;

  if ((c.kind == EMPTY || c.kind == BACKUP || c.kind == MERGE) && g_rand_int_range (rand, 0, 3) > 0)
    c.kind = PLAN; /* they take long, or away */
  c.id = one_of (rand, ward->log->top[trash ? n % N_TRASHED : on[c.kind]]);
  return c;
}

/* One change after the other until somebody ends it; those that cannot be (it is deleted already) are none. */
static void
go_on (Ward *ward, GRand *rand)
{
  PrBook *book = pr_book_open (ward->shelf->file, NULL);

  if (book == NULL)
    _exit (3);
  for (;;) {
    Change c = next_change (ward, rand, ward->log->accepted + 1);
    ward->log->done[c.n % 2] = c;
    if (change (ward, book, &c))
      ward->log->accepted = c.n;
  }
}

/* --- what must be there --- */

static sqlite3 *
plain (const char *file)
{
  sqlite3 *db = NULL;

  assert_int_equal (sqlite3_open_v2 (file, &db, SQLITE_OPEN_READWRITE, NULL), SQLITE_OK);
  return db;
}

static char *
text_of (sqlite3 *db, const char *sql)
{
  sqlite3_stmt *stmt = NULL;
  char *text = NULL;

  if (sqlite3_prepare_v2 (db, sql, -1, &stmt, NULL) != SQLITE_OK)
    fail_msg ("%s: %s", sql, sqlite3_errmsg (db));
  if (sqlite3_step (stmt) == SQLITE_ROW)
    text = g_strdup ((const char *) sqlite3_column_text (stmt, 0));
  sqlite3_finalize (stmt);
  return text;
}

static void
is_sound (const char *file)
{
  sqlite3 *db = plain (file);
  g_autofree char *said = text_of (db, "PRAGMA integrity_check"),
                  *keys = text_of (db, "PRAGMA foreign_key_check");

  assert_string_equal (said, "ok");
  assert_null (keys);
  sqlite3_close (db);
}

/* Does SQL, with %d for the change's number or its row, give 1? */
static void
gives_1 (const char *file, const Change *c, const char *sql, int value)
{
  sqlite3 *db = plain (file);
  g_autofree char *whole = g_strdup_printf (sql, value), *got = text_of (db, whole);

  if (g_strcmp0 (got, "1") != 0)
    fail_msg ("change %d of kind %d on %d is not there", c->n, (int) c->kind, (int) c->id);
  sqlite3_close (db);
}

static void
is_photo (const char *file, const Change *c)
{
  g_autoptr (GBytes) photo = photo_of (c->n);
  g_autofree char *sql
      = g_strdup_printf ("SELECT count(*) FROM photo WHERE foot = %d AND length (bytes) = %d"
                         " AND bytes = CAST (replace (hex (zeroblob (%d)), '00', char (%d)) AS BLOB)",
                         (int) c->id, (int) g_bytes_get_size (photo), (int) g_bytes_get_size (photo),
                         'a' + c->n % 26);
  sqlite3 *db = plain (file);
  g_autofree char *got = text_of (db, sql);

  assert_string_equal (got, "1");
  sqlite3_close (db);
}

/* What the change left, whole. */
static void
is_there (const Ward *ward, const Change *c)
{
  static const char *const sql[N_KINDS] = {
    [HORSE] = "SELECT count(*) FROM horse WHERE name = '{\"n\":%d}'",
    [VISIT] = "SELECT count(*) FROM visit WHERE note = '{\"n\":%d}'",
    [FOOT] = "SELECT count(*) FROM plan WHERE json = '{\"n\":%d}'",
    [PLAN] = "SELECT count(*) FROM plan WHERE json = '{\"n\":%d}'",
    [TRACE] = "SELECT count(*) FROM trace WHERE json = '{\"n\":%d}'",
    [ATTEMPT] = "SELECT count(*) FROM attempt WHERE note = '{\"n\":%d}' AND cut_mm = 300",
    [NOTE] = "SELECT count(*) FROM horse WHERE note = '{\"n\":%d}' AND name = 'Noted'",
    [EMPTY]
    = "SELECT 1 WHERE NOT EXISTS (SELECT 1 FROM horse WHERE deleted IS NOT NULL UNION ALL SELECT 1 FROM visit"
      " WHERE deleted IS NOT NULL UNION ALL SELECT 1 FROM foot WHERE deleted IS NOT NULL) AND %d",
    [MERGE] = "SELECT %d AND EXISTS (SELECT 1 FROM horse WHERE name = 'Sent')",
  };
  static const char *const of[N_TRASHED] = { "horse", "visit", "foot" };

  if (c->kind == DELETE || c->kind == BACK) {
    g_autofree char *whole = g_strdup_printf ("SELECT deleted IS %s NULL FROM %s WHERE id = %%d",
                                              c->kind == DELETE ? "NOT" : "", of[c->n % N_TRASHED]);
    gives_1 (ward->shelf->file, c, whole, (int) c->id);
  } else if (c->kind == PHOTO) {
    is_photo (ward->shelf->file, c);
  } else if (sql[c->kind] != NULL) {
    gives_1 (ward->shelf->file, c, sql[c->kind], c->n);
  }
  if (g_file_test (ward->backup, G_FILE_TEST_EXISTS))
    is_sound (ward->backup);
}

static int
number_in (const char *file)
{
  sqlite3 *db = plain (file);
  g_autofree char *n = text_of (db, "SELECT value FROM setting WHERE key = 'n'");

  sqlite3_close (db);
  return n != NULL ? atoi (n) : 0;
}

/* The book is as after the last change that was accepted, or as after the one that was under way. */
static void
look (const Ward *ward)
{
  g_autoptr (PrBook) book = pr_book_open (ward->shelf->file, NULL); /* takes back what was half written */

  assert_non_null (book);
  g_clear_pointer (&book, pr_book_close);
  is_sound (ward->shelf->file);
  int n = number_in (ward->shelf->file);
  assert_true (n == ward->log->accepted || n == ward->log->accepted + 1);
  if (n > 0)
    is_there (ward, &ward->log->done[n % 2]);
  ward->log->accepted = n;
}

/* --- a ward --- */

static void
make_sent (Ward *ward)
{
  PrBook *sent = pr_book_open (ward->sent, NULL);
  PrBookId horse = pr_book_add_horse (sent, "Sent", "", NULL);
  PrBookId visit = pr_book_add_visit (sent, horse, "2026-04-01", NULL);
  PrBookId foot = pr_book_add_foot (sent, visit, PR_FOOT_RH, NULL);

  assert_true (pr_book_set_plan (sent, foot, "{\"sent\":1}", NULL));
  pr_book_close (sent);
}

static void
begin_anew (Ward *ward)
{
  g_unlink (ward->shelf->file);
  g_unlink (ward->backup);
  memset (ward->log, 0, sizeof *ward->log);
  for (int i = 0; i < 3; i++)
    ward->log->top[i] = 1;
}

static int
set_up (void **state)
{
  Ward *ward = g_new0 (Ward, 1);

  kit_shelf_set_up ((void **) &ward->shelf);
  g_clear_pointer (&ward->shelf->book, pr_book_close);
  ward->backup = g_build_filename (ward->shelf->folder, "backup.pritchel", NULL);
  ward->sent = g_build_filename (ward->shelf->folder, "sent.pritchel", NULL);
  ward->log = mmap (NULL, sizeof *ward->log, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
  make_sent (ward);
  begin_anew (ward);
  *state = ward;
  return 0;
}

static int
tear_down (void **state)
{
  Ward *ward = *state;
  void *shelf = ward->shelf;

  kit_shelf_tear_down (&shelf);
  munmap (ward->log, sizeof *ward->log);
  g_free (ward->backup);
  g_free (ward->sent);
  g_free (ward);
  return 0;
}

/* --- killed --- */

static void
killed_at_any_moment (void **state)
{
  Ward *ward = *state;
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  int changes = 0;

  for (int round = 0; round < rounds; round++) {
    if (round % ANEW == 0)
      begin_anew (ward);
    int before = ward->log->accepted, status;
    guint32 of_it = g_rand_int (rand);
    pid_t child = fork ();
    if (child == 0) {
      prctl (PR_SET_PDEATHSIG, SIGKILL);
      go_on (ward, g_rand_new_with_seed (of_it));
    }
    while (ward->log->accepted == before && waitpid (child, &status, WNOHANG) == 0)
      g_usleep (100);
    g_usleep ((gulong) g_rand_int_range (rand, 0, LATEST_US));
    kill (child, SIGKILL);
    assert_int_equal (waitpid (child, &status, 0), child);
    assert_true (WIFSIGNALED (status) && WTERMSIG (status) == SIGKILL);
    changes += ward->log->accepted - before;
    look (ward);
  }
  print_message ("killed %d times within %d changes\n", rounds, changes);
  assert_true (changes > rounds);
}

/* A child makes one change of KIND and dies before its Nth call to the system. FALSE: it had come to its end before. */
static bool
dies_at (Ward *ward, Kind kind, int n)
{
  int status;
  pid_t child = fork ();

  if (child == 0) {
    prctl (PR_SET_PDEATHSIG, SIGKILL);
    PrBook *book = pr_book_open (ward->shelf->file, NULL);
    Change c = { .n = ward->log->accepted + 1, .kind = kind, .id = 1 };
    ward->log->done[c.n % 2] = c;
    kit_disk_is (KIT_DISK_KILLED, n);
    if (change (ward, book, &c))
      ward->log->accepted = c.n;
    kit_disk_is (KIT_DISK_SOUND, 0);
    _exit (0);
  }
  assert_int_equal (waitpid (child, &status, 0), child);
  return WIFSIGNALED (status);
}

static void
some_rows (Ward *ward)
{
  g_autoptr (PrBook) book = pr_book_open (ward->shelf->file, NULL);

  for (int i = 0; i < 3; i++) {
    PrBookId horse = pr_book_add_horse (book, "Juniper", "", NULL);
    PrBookId visit = pr_book_add_visit (book, horse, "2026-05-01", NULL);
    assert_true (pr_book_add_foot (book, visit, PR_FOOT_LF, NULL) != 0);
  }
}

static void
killed_at_every_call (void **state)
{
  Ward *ward = *state;

  for (Kind kind = 0; kind < DELETE; kind++) {
    int n = 0;
    begin_anew (ward);
    some_rows (ward);
    while (dies_at (ward, kind, n)) {
      look (ward);
      n++;
    }
    look (ward);
    assert_true (n > 5 && n < 200);
  }
}

/* --- a migration --- */

static void
fixture (Ward *ward, int version)
{
  g_autofree char *name = g_strdup_printf ("v%d.pritchel", version);
  g_autofree char *from = g_build_filename (g_getenv ("PR_TEST_DATA"), name, NULL), *bytes = NULL;
  gsize n = 0;

  assert_true (g_file_get_contents (from, &bytes, &n, NULL));
  assert_true (g_file_set_contents (ward->shelf->file, bytes, (gssize) n, NULL));
}

/* The old book or the new one, and all that was in it, seen without the room under test. Which version it is. */
static int
is_whole (const Ward *ward)
{
  sqlite3 *db = plain (ward->shelf->file);
  g_autofree char *version = text_of (db, "PRAGMA user_version");
  g_autofree char *plan = text_of (db, "SELECT json FROM plan WHERE foot = 1");
  g_autofree char *name = text_of (db, "SELECT name FROM horse WHERE id = 1");
  g_autofree char *minutes = text_of (db, "SELECT minutes FROM attempt WHERE foot = 1");
  g_autofree char *columns = text_of (db, "SELECT count(*) FROM pragma_table_info ('visit')");

  assert_string_equal (plan, "{\"web.toe\":24}");
  assert_string_equal (name, "Juniper");
  assert_string_equal (minutes, "50");
  assert_int_equal (atoi (columns), atoi (version) < 3 ? 4 : atoi (version) < 6 ? 5 : 7);
  sqlite3_close (db);
  is_sound (ward->shelf->file);
  return atoi (version);
}

static bool
opening_dies_at (Ward *ward, int n)
{
  int status;
  pid_t child = fork ();

  if (child == 0) {
    prctl (PR_SET_PDEATHSIG, SIGKILL);
    kit_disk_is (KIT_DISK_KILLED, n);
    PrBook *book = pr_book_open (ward->shelf->file, NULL);
    kit_disk_is (KIT_DISK_SOUND, 0);
    _exit (book == NULL);
  }
  assert_int_equal (waitpid (child, &status, 0), child);
  assert_true (WIFSIGNALED (status) || WEXITSTATUS (status) == 0);
  return WIFSIGNALED (status);
}

static void
a_migration_killed_at_every_call (void **state)
{
  Ward *ward = *state;

  for (int version = 1; version <= 5; version++) {
    bool dies = true;
    int old = 0, n;
    for (n = 0; dies; n++) {
      fixture (ward, version);
      dies = opening_dies_at (ward, n);
      int now = is_whole (ward);
      assert_true (now == version || now == 6);
      assert_true (dies || now == 6);
      old += now == version;
      g_autoptr (PrBook) book = pr_book_open (ward->shelf->file, NULL); /* and the next start brings it up */
      assert_non_null (book);
    }
    assert_true (old > 3 && n < 300);
  }
}

static void
a_migration_on_a_failing_disk (void **state)
{
  Ward *ward = *state;

  for (int i = 0; i < 2 * CALLS; i++) {
    int version = 1 + i % 5;
    g_autoptr (GError) error = NULL;
    fixture (ward, version);
    kit_disk_is (i % 2 ? KIT_DISK_FULL : KIT_DISK_GONE, i / 2);
    PrBook *book = pr_book_open (ward->shelf->file, &error);
    kit_disk_is (KIT_DISK_SOUND, 0);
    assert_true (book != NULL || g_error_matches (error, PR_ERROR, PR_ERROR_BOOK));
    assert_true (book != NULL || strchr (error->message, '\n') == NULL);
    pr_book_close (book);
    is_whole (ward);
  }
}

/* --- a disk that fails --- */

/* Refused with one sentence, or done; the book is sound, and takes the change once the disk is. */
static void
fails_at (Ward *ward, PrBook *book, Kind kind, KitDisk how, int n)
{
  Change c = { .n = ward->log->accepted + 1, .kind = kind, .id = 1 };
  g_autofree char *value = g_strdup_printf ("%d", c.n), *before = pr_book_get_setting (book, "n", NULL);
  g_autoptr (GError) error = NULL;

  kit_disk_is (how, n);
  bool ok
      = pr_book_begin (book, &error)
        && pr_book_end (book, act (ward, book, &c) && pr_book_set_setting (book, "n", value, &error), &error);
  kit_disk_is (KIT_DISK_SOUND, 0);
  assert_true (ok || error == NULL || strchr (error->message, '\n') == NULL);
  g_autofree char *after = pr_book_get_setting (book, "n", NULL);
  assert_true (g_strcmp0 (after, ok ? value : before) == 0 || g_strcmp0 (after, value) == 0);
  assert_true (change (ward, book, &c));
  ward->log->accepted = c.n;
  ward->log->done[c.n % 2] = c;
}

static void
a_disk_that_fails_at_any_call (void **state)
{
  static const Kind kinds[] = { HORSE, VISIT, FOOT, PHOTO, PLAN, TRACE, ATTEMPT, SETTING, NOTE };
  Ward *ward = *state;
  PrBook *book;

  begin_anew (ward);
  some_rows (ward);
  book = pr_book_open (ward->shelf->file, NULL);
  for (int n = 0; n < CALLS; n++)
    for (size_t k = 0; k < G_N_ELEMENTS (kinds); k++)
      fails_at (ward, book, kinds[k], (n + (int) k) % 2 ? KIT_DISK_FULL : KIT_DISK_GONE, n);
  pr_book_close (book);
  look (ward);
}

#define IN_WARD(test_) cmocka_unit_test_setup_teardown (test_, set_up, tear_down)

int
main (int argc, char **argv)
{
  const struct CMUnitTest tests[] = {
    IN_WARD (killed_at_any_moment),
    IN_WARD (killed_at_every_call),
    IN_WARD (a_migration_killed_at_every_call),
    IN_WARD (a_migration_on_a_failing_disk),
    IN_WARD (a_disk_that_fails_at_any_call),
  };

  rounds = argc > 1 ? atoi (argv[1]) : rounds;
  seed = argc > 2 ? (guint32) atoi (argv[2]) : seed;
  return cmocka_run_group_tests (tests, NULL, NULL);
}
