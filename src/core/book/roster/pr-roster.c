/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-roster.h"

#include <string.h>

#include "pr-book-sql.h"
#include "pr-seek.h"

#define N_COLUMNS 6 /* of PR_HORSE_COLUMNS */

typedef struct {
  PrBookHorse *horse;
  gsize at, size; /* of its row in what was read */
  PrHorseKey key;
  guint version;
  char *sought; /* folded; NULL until something is looked for */
} Line;

struct _PrRoster {
  GByteArray *read; /* all rows as they are in the file, by id: to be told from others in one go */
  guint versions;   /* given out so far */
  guint prepared;   /* so many lines from the first on are folded */
  GPtrArray *lines; /* of Line, in order */
  GPtrArray *by_id; /* the same, by the horse's id; holds them */
};

static void
line_clear (gpointer data)
{
  Line *line = data;

  pr_book_horse_free (line->horse);
  pr_horse_key_clear (&line->key);
  g_free (line->sought);
}

static void
line_unref (gpointer line)
{
  g_rc_box_release_full (line, line_clear);
}

PrRoster *
pr_roster_new (void)
{
  PrRoster *roster = g_new0 (PrRoster, 1);

  roster->read = g_byte_array_new ();
  roster->lines = g_ptr_array_new ();
  roster->by_id = g_ptr_array_new_with_free_func (line_unref);
  return roster;
}

void
pr_roster_free (PrRoster *roster)
{
  if (roster == NULL)
    return;
  g_ptr_array_unref (roster->lines);
  g_ptr_array_unref (roster->by_id);
  g_byte_array_unref (roster->read);
  g_free (roster);
}

/* --- out of the book --- */

/* A column of a row as it is in the file, to be told from another: a whole number itself, of anything else its bytes. */
typedef struct {
  int kind, length;
  gint64 number;
} Head;

static Head
read_column (sqlite3_stmt *stmt, int column, const void **bytes)
{
  Head head = { sqlite3_column_type (stmt, column), 0, 0 };

  *bytes = NULL;
  if (head.kind == SQLITE_INTEGER) {
    head.number = sqlite3_column_int64 (stmt, column);
  } else {
    *bytes = sqlite3_column_blob (stmt, column); /* before its length is asked for */
    head.length = sqlite3_column_bytes (stmt, column);
  }
  return head;
}

/* Behind what is there. */
static void
append_row (sqlite3_stmt *stmt, GByteArray *rows)
{
  for (int i = 0; i < N_COLUMNS; i++) {
    const void *bytes;
    const Head head = read_column (stmt, i, &bytes);

    g_byte_array_append (rows, (const guint8 *) &head, sizeof head);
    if (head.length > 0)
      g_byte_array_append (rows, bytes, (guint) head.length);
  }
}

/* Of the row that begins at AT. */
static gsize
row_size (const GByteArray *read, gsize at)
{
  gsize end = at;

  for (int i = 0; i < N_COLUMNS; i++) {
    Head head;

    memcpy (&head, read->data + end, sizeof head);
    end += sizeof head + (gsize) head.length;
  }
  return end - at;
}

/* Does READ have ROW from AT on? */
static bool
has_row (const GByteArray *read, gsize at, const guint8 *row, gsize size)
{
  return size <= read->len - at && memcmp (read->data + at, row, size) == 0;
}

static sqlite3_stmt *
all_rows (PrBook *book, GError **error)
{
  return pr_sql_prepare (book, error,
                         "SELECT " PR_HORSE_COLUMNS " FROM horse AS h WHERE h.deleted IS NULL ORDER BY h.id",
                         "");
}

/* Are they as they were? FALSE where they cannot be read, which is told when they are read again. */
static bool
is_as_read (const PrRoster *roster, PrBook *book)
{
  g_autoptr (sqlite3_stmt) stmt = all_rows (book, NULL);
  g_autoptr (GByteArray) row = g_byte_array_new ();
  bool same = stmt != NULL;
  gsize at = 0;
  int more = 1;

  while (same && (more = pr_sql_step (book, stmt, NULL)) > 0) {
    g_byte_array_set_size (row, 0);
    append_row (stmt, row);
    same = has_row (roster->read, at, row->data, row->len);
    at += row->len;
  }
  return same && more == 0 && at == roster->read->len;
}

static Line *
line_new (PrRoster *roster, sqlite3_stmt *stmt)
{
  Line *line = g_rc_box_new0 (Line);

  line->horse = pr_book_read_horse (stmt, 0);
  line->key = pr_horse_key (line->horse);
  line->version = ++roster->versions;
  return line;
}

/* The line ROSTER has of the horse ID, looked for from AT on, as rows come by their ids. NULL: none. */
static Line *
line_from (const PrRoster *roster, guint *at, PrBookId id)
{
  while (*at < roster->by_id->len) {
    Line *line = g_ptr_array_index (roster->by_id, *at);

    if (line->horse->id >= id)
      return line->horse->id == id ? line : NULL;
    ++*at;
  }
  return NULL;
}

/* The line of the current row, which is the SIZE bytes at ROW: the one ROSTER has where that says the same. AT as above. */
static Line *
take_row (PrRoster *roster, sqlite3_stmt *stmt, guint *at, const guint8 *row, gsize size)
{
  Line *line = line_from (roster, at, sqlite3_column_int64 (stmt, 0));
  bool same = line != NULL && line->size == size && has_row (roster->read, line->at, row, size);

  return same ? g_rc_box_acquire (line) : line_new (roster, stmt);
}

/* All of them; READ receives their rows. NULL with error; transfer full. */
static GPtrArray *
read_lines (PrRoster *roster, PrBook *book, GByteArray *read, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt = all_rows (book, error);
  g_autoptr (GPtrArray) lines = g_ptr_array_new_full (roster->by_id->len, line_unref);
  int more = stmt != NULL ? 1 : -1;
  guint at = 0;

  while (more > 0 && (more = pr_sql_step (book, stmt, error)) > 0) {
    gsize from = read->len;

    append_row (stmt, read);
    g_ptr_array_add (lines, take_row (roster, stmt, &at, read->data + from, read->len - from));
  }
  return more == 0 ? g_steal_pointer (&lines) : NULL;
}

static int
in_order (gconstpointer a, gconstpointer b)
{
  const Line *one = *(Line *const *) a, *other = *(Line *const *) b;

  return pr_horse_key_compare (&one->key, &other->key);
}

/* Where the row of each lies in what was read. */
static void
note_places (PrRoster *roster)
{
  gsize at = 0;

  for (guint i = 0; i < roster->by_id->len; i++) {
    Line *line = g_ptr_array_index (roster->by_id, i);

    line->at = at;
    line->size = row_size (roster->read, at);
    at += line->size;
  }
}

/* LINES, by id, and READ are taken over. */
static void
take_over (PrRoster *roster, GPtrArray *lines, GByteArray *read)
{
  g_ptr_array_unref (roster->by_id);
  g_byte_array_unref (roster->read);
  roster->by_id = lines;
  roster->read = read;
  roster->prepared = 0;
  note_places (roster);
  g_ptr_array_set_size (roster->lines, 0);
  for (guint i = 0; i < lines->len; i++)
    g_ptr_array_add (roster->lines, g_ptr_array_index (lines, i));
  g_ptr_array_sort (roster->lines, in_order);
}

bool
pr_roster_read (PrRoster *roster, PrBook *book, bool *changed, GError **error)
{
  bool other = !is_as_read (roster, book);
  g_autoptr (GByteArray) read = g_byte_array_new ();
  g_autoptr (GPtrArray) lines = other ? read_lines (roster, book, read, error) : NULL;

  if (changed != NULL)
    *changed = lines != NULL;
  if (lines != NULL) {
    take_over (roster, g_steal_pointer (&lines), g_steal_pointer (&read));
    return true;
  }
  return !other;
}

/* --- what is asked of it --- */

guint
pr_roster_size (const PrRoster *roster)
{
  return roster->lines->len;
}

const PrBookHorse *
pr_roster_get (const PrRoster *roster, guint place)
{
  return ((const Line *) g_ptr_array_index (roster->lines, place))->horse;
}

const PrBookHorse *
pr_roster_horse (const PrRoster *roster, PrBookId horse)
{
  guint low = 0, high = roster->by_id->len;

  while (low < high) {
    guint middle = (low + high) / 2;
    const Line *line = g_ptr_array_index (roster->by_id, middle);

    if (line->horse->id == horse)
      return line->horse;
    if (line->horse->id < horse)
      low = middle + 1;
    else
      high = middle;
  }
  return NULL;
}

guint
pr_roster_version (const PrRoster *roster, guint place)
{
  return ((const Line *) g_ptr_array_index (roster->lines, place))->version;
}

static const char *
sought_in (Line *line)
{
  if (line->sought == NULL) {
    const PrBookHorse *h = line->horse;
    g_autofree char *all = g_strjoin ("\n", h->name, h->yard, h->owner, h->note, NULL);
    line->sought = pr_seek_fold (all);
  }
  return line->sought;
}

bool
pr_roster_prepare (PrRoster *roster, guint most)
{
  for (; most > 0 && roster->prepared < roster->lines->len; most--)
    sought_in (g_ptr_array_index (roster->lines, roster->prepared++));
  return roster->prepared < roster->lines->len;
}

GArray *
pr_roster_find (PrRoster *roster, const char *typed)
{
  g_auto (GStrv) words = pr_seek_words (typed);
  GArray *found = g_array_sized_new (FALSE, FALSE, sizeof (guint), roster->lines->len);

  for (guint i = 0; i < roster->lines->len; i++)
    if (*words == NULL
        || pr_seek_has (sought_in (g_ptr_array_index (roster->lines, i)), (const char *const *) words))
      g_array_append_val (found, i);
  return found;
}
