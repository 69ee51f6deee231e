/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of the book room only: statements, transactions and the wording of SQLite's errors. */
#pragma once
#include <sqlite3.h>
#include "pr-book-data.h"
#include "pr-book-file.h"
#include "pr-bounds.h"

struct _PrBook {
  sqlite3 *db;
  char *file;
  GRecMutex lock; /* held from the outermost pr_sql_begin to its end */
  gpointer watch; /* of a book that was sent (pr-book-aside.c) */
  int depth;      /* of nested transactions: only the outermost reaches the file */
  PrBookFile on_disk;
  bool ready; /* opened: what happens to the file from now on is ours */
  PrBookLoss loss;
  bool watched;    /* what its file would take with it is kept beside it */
  bool kept_short; /* but for the outlines and plans of its oldest feet: they are too many */
  PrBookLost lost;
  gpointer lost_data;
  GThread *owner;        /* who looks; NULL: anybody */
  bool held;             /* this program is its writer (pr-hold.h) */
  bool shared;           /* others may read in it between our changes */
  sqlite3_stmt *footing; /* holds SQLite's lock for readers while nothing is changed; NULL: none */
  bool reading;          /* another program is its writer, or nobody can be */
  gint64 seen;           /* data_version, as last told */
};

G_DEFINE_AUTOPTR_CLEANUP_FUNC (sqlite3_stmt, sqlite3_finalize)

/* Sets ERROR from an SQLite result code; always FALSE. */
bool pr_sql_fail (PrBook *book, int code, GError **error);
/* TYPES has a letter for each ? of SQL: i gint64, d double, s text (NULL is NULL), b GBytes (ditto). Text and
 * bytes must live as long as the statement. NULL with error. Transfer full. */
sqlite3_stmt *pr_sql_prepare (PrBook *book, GError **error, const char *sql, const char *types, ...);
/* One step: 1 a row, 0 no more, -1 with error. */
int pr_sql_step (PrBook *book, sqlite3_stmt *stmt, GError **error);
/* Prepares and runs to the end. CHANGED (may be NULL) receives the number of rows changed. */
bool pr_sql_run (PrBook *book, int *changed, GError **error, const char *sql, const char *types, ...);
/* The same for a row that is added: its id, 0 with error. */
PrBookId pr_sql_insert (PrBook *book, GError **error, const char *sql, const char *types, ...);
bool pr_sql_exec (PrBook *book, const char *sql, GError **error);
/* First column of the first row. FALSE with error; a missing row leaves VALUE as it was. */
bool pr_sql_number (PrBook *book, const char *sql, gint64 *value, GError **error);
/* Transfer full, UTF-8; "" for what is no text. */
char *pr_sql_text (sqlite3_stmt *stmt, int column);
/* What is no bytes, or more than a photo can be: NULL. Transfer full. */
GBytes *pr_sql_bytes (sqlite3_stmt *stmt, int column);
/* 0 for what is no number, or is out of BOUND. */
double pr_sql_bounded (sqlite3_stmt *stmt, int column, PrBound bound);

/* Transactions nest. pr_sql_end commits when OK, rolls everything back when not (the error is then already
 * set), and returns whether the change stands. */
bool pr_sql_begin (PrBook *book, GError **error);
bool pr_sql_end (PrBook *book, bool ok, GError **error);

/* All of SCHEMA of FROM in place of what TO holds. */
bool pr_sql_copy (sqlite3 *to, sqlite3 *from, const char *schema);

/* How long to wait for somebody else's last write, or for the end of his reading, ms: a backup program's glance should not
 * turn us away. */
#define PR_BOOK_BUSY_MS 1000

/* --- pr-book.c --- */
gint64 pr_book_version (void); /* of books that this program writes */
/* Which books are open in this process. */
void pr_book_remember_open (PrBook *book);
void pr_book_forget_open (PrBook *book);
/* A book that is not open yet, to be freed with pr_book_close. */
PrBook *pr_book_new (const char *file);
bool pr_book_is_file (const PrBook *book, const char *file);
/* Is it one that is open in this process? Then it must not be opened by other means: closing it drops SQLite's lock. */
bool pr_book_is_open_here (const char *file);
/* Looks at FILE of SIZE bytes without SQLite, so that what is not ours is not touched at all. */
bool pr_book_look_first (const char *file, gint64 size, GError **error);
/* Nothing in the schema is run. */
void pr_book_harden (sqlite3 *db);
/* The schema of VERSION in an empty data base. */
bool pr_book_make_schema (PrBook *empty, gint64 version, GError **error);
/* Our locks, limits and schema for a connection that has just been opened. */
bool pr_book_set_up (PrBook *book, GError **error);

/* --- pr-book-rows.c --- */
/* Names come from a keyboard, dates from our own code or from a person: both are looked at. NAME as it is kept, transfer full;
 * NULL with error. */
char *pr_book_clean_name (const char *name, GError **error);
bool pr_book_date_is_good (const char *date, GError **error);
/* A horse out of a row that has these columns, the first of them COLUMN. Transfer full. */
#define PR_HORSE_COLUMNS "h.id, h.name, h.yard, h.note, h.owner, h.due_days"
PrBookHorse *pr_book_read_horse (sqlite3_stmt *stmt, int column);
/* By what a horse is sorted: its name, then its yard, as the locale sorts them, then its id. */
typedef struct {
  char *name, *yard; /* of g_utf8_collate_key */
  PrBookId id;
} PrHorseKey;
PrHorseKey pr_horse_key (const PrBookHorse *horse);
void pr_horse_key_clear (PrHorseKey *key);
int pr_horse_key_compare (const PrHorseKey *one, const PrHorseKey *other);
/* For a change that must have met exactly one row: OK and CHANGED are what came of it. */
bool pr_book_met_one (bool ok, int changed, GError **error);

/* --- pr-book-reader.c --- */
/* A reading that never ends: under it SQLite keeps the journal open and believes what it knows of the file, as no other
 * program can write, while others can read. An error within a change ends with it only: it is left and taken anew then. */
bool pr_book_footing_take (PrBook *book, GError **error);
void pr_book_footing_leave (PrBook *book);
/* From now on others can read in BOOK, which has been set up and which nobody could look into so far. */
bool pr_book_share (PrBook *book, GError **error);
/* Before it is closed: nothing is left beside it. */
void pr_book_unshare (PrBook *book);
/* Sets ERROR: FILE has a writer. Always TRUE. */
bool pr_book_is_held (const char *file, GError **error);
/* Sets ERROR: BOOK is only read. Always FALSE. */
bool pr_book_refuse (PrBook *book, GError **error);

/* --- pr-book-loss.c --- */
/* BOOK is from now on what FRESH is, and FRESH is closed. */
void pr_book_exchange (PrBook *book, PrBook *fresh);
/* Before what will write: finds out whether the file still is ours. */
void pr_book_will_write (PrBook *book);
/* BESIDE, brought to the disk, in the place of FILE. FALSE with errno. */
bool pr_book_put_in_place (const char *beside, const char *file);
/* After what may have written: the file is as we left it. Finds out whether it still is ours. */
void pr_book_written (PrBook *book);
