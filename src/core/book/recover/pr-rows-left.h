/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of this room only: the rows of a table of a damaged data base, as far as they can be read. */
#pragma once
#include <glib.h>
#include <sqlite3.h>
#include <stdbool.h>

typedef struct {
  sqlite3 *db;
  const char *table;
  char **columns; /* that are asked for, NULL-terminated */
  gint64 at;      /* the row that is read, by its id */
  gint64
      missed; /* ids in gaps that could not be read, and behind which there was a row: at most so many rows are lost */
  /* inside */
  sqlite3_stmt *next, *whole;
  bool began;
} PrRowsLeft;

/* COLUMNS and what else is given must live as long. FALSE: TABLE cannot be looked into at all. */
bool pr_rows_left_begin (PrRowsLeft *rows, sqlite3 *db, const char *table, char **columns);
void pr_rows_left_end (PrRowsLeft *rows);
/* On to the next row with a higher id; FALSE: that was the last. */
bool pr_rows_left_next (PrRowsLeft *rows);
/* What its columns hold, to be freed with sqlite3_value_free; NULL for one that cannot be read. */
void pr_rows_left_read (PrRowsLeft *rows, sqlite3_value **values);
