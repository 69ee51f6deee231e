/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-roster.h"

#include <string.h>

#include "pr-book-sql.h"
#include "pr-seek.h"

typedef struct {
  PrBookHorse *horse;
  GBytes *written; /* its row, as it was read */
  PrHorseKey key;
  char *sought; /* folded; NULL until something is looked for */
} Line;

struct _PrRoster {
  GPtrArray *lines;  /* of Line, in order */
  GHashTable *by_id; /* the same, by the horse's id; holds them */
};

static void
line_clear (gpointer data)
{
  Line *line = data;

  pr_book_horse_free (line->horse);
  g_bytes_unref (line->written);
  pr_horse_key_clear (&line->key);
  g_free (line->sought);
}

static void
line_unref (gpointer line)
{
  g_rc_box_release_full (line, line_clear);
}

static GHashTable *
no_lines (void)
{
  return g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, line_unref);
}

PrRoster *
pr_roster_new (void)
{
  PrRoster *roster = g_new (PrRoster, 1);

  roster->lines = g_ptr_array_new ();
  roster->by_id = no_lines ();
  return roster;
}

void
pr_roster_free (PrRoster *roster)
{
  if (roster == NULL)
    return;
  g_ptr_array_unref (roster->lines);
  g_hash_table_unref (roster->by_id);
  g_free (roster);
}

/* --- out of the book --- */

/* The current row as it is in the file, to be told from another. */
static void
gather (sqlite3_stmt *stmt, GByteArray *row)
{
  g_byte_array_set_size (row, 0);
  for (int i = 0; i < sqlite3_column_count (stmt); i++) {
    const void *text = sqlite3_column_blob (stmt, i); /* before its length is asked for */
    int head[2] = { sqlite3_column_type (stmt, i), sqlite3_column_bytes (stmt, i) };

    g_byte_array_append (row, (const guint8 *) head, sizeof head);
    if (head[1] > 0)
      g_byte_array_append (row, text, (guint) head[1]);
  }
}

static bool
is_as_written (const Line *line, const GByteArray *row)
{
  gsize size;
  const void *data = g_bytes_get_data (line->written, &size);

  return size == row->len && memcmp (data, row->data, size) == 0;
}

static Line *
line_new (sqlite3_stmt *stmt, const GByteArray *row)
{
  Line *line = g_rc_box_new0 (Line);

  line->horse = pr_book_read_horse (stmt, 0);
  line->written = g_bytes_new (row->data, row->len);
  line->key = pr_horse_key (line->horse);
  return line;
}

/* The line of the current row into LINES: the one ROSTER has, where that says the same. Returns whether a new one was made. */
static bool
take_row (const PrRoster *roster, sqlite3_stmt *stmt, GByteArray *row, GHashTable *lines)
{
  gint64 id = sqlite3_column_int64 (stmt, 0);
  Line *line = g_hash_table_lookup (roster->by_id, &id);
  bool same = false;

  gather (stmt, row);
  same = line != NULL && is_as_written (line, row);
  line = same ? g_rc_box_acquire (line) : line_new (stmt, row);
  g_hash_table_replace (lines, &line->horse->id, line);
  return !same;
}

/* All of them. MADE: how many are new. NULL with error; transfer full. */
static GHashTable *
read_lines (const PrRoster *roster, PrBook *book, guint *made, GError **error)
{
  g_autoptr (sqlite3_stmt) stmt
      = pr_sql_prepare (book, error, "SELECT " PR_HORSE_COLUMNS " FROM horse AS h WHERE h.deleted IS NULL",
                        "");
  g_autoptr (GByteArray) row = g_byte_array_new ();
  g_autoptr (GHashTable) lines = no_lines ();
  int more = stmt != NULL ? 1 : -1;

  *made = 0;
  while (more > 0 && (more = pr_sql_step (book, stmt, error)) > 0)
    *made += take_row (roster, stmt, row, lines);
  return more == 0 ? g_steal_pointer (&lines) : NULL;
}

static int
in_order (gconstpointer a, gconstpointer b)
{
  const Line *one = *(Line *const *) a, *other = *(Line *const *) b;

  return pr_horse_key_compare (&one->key, &other->key);
}

/* LINES is taken over. */
static void
put_in_order (PrRoster *roster, GHashTable *lines)
{
  GHashTableIter iter;
  gpointer line;

  g_ptr_array_set_size (roster->lines, 0);
  g_hash_table_unref (roster->by_id);
  roster->by_id = lines;
  g_hash_table_iter_init (&iter, lines);
  while (g_hash_table_iter_next (&iter, NULL, &line))
    g_ptr_array_add (roster->lines, line);
  g_ptr_array_sort (roster->lines, in_order);
}

bool
pr_roster_read (PrRoster *roster, PrBook *book, bool *changed, GError **error)
{
  guint made = 0;
  g_autoptr (GHashTable) lines = read_lines (roster, book, &made, error);
  bool other = lines != NULL && (made > 0 || g_hash_table_size (lines) != roster->lines->len);

  if (changed != NULL)
    *changed = other;
  if (other)
    put_in_order (roster, g_steal_pointer (&lines));
  return lines != NULL || other;
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
  const Line *line = g_hash_table_lookup (roster->by_id, &horse);

  return line != NULL ? line->horse : NULL;
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
