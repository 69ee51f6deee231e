/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the book's listings are made of, as plain data; pr-book.h has the functions that clear and free them. */
#pragma once
#include <gio/gio.h>
#include "pr-foot.h"

typedef struct _PrBook PrBook;
typedef gint64 PrBookId;

typedef struct {
  PrBookId id;
  char *name, *yard, *note;
} PrBookHorse;
typedef struct {
  PrBookId id, horse;
  char *date, *note;
} PrBookVisit; /* date ISO 8601 */
typedef struct {
  PrBookId id, visit;
  PrFoot foot;
  char *changed;
  bool has_photo, has_plan;
} PrBookFoot;
/* One go at forging a plan; minutes, heats and off_mm are 0 when not told. */
typedef struct {
  PrBookId id, foot;
  char *date, *note;
  int minutes, heats;
  double off_mm;
} PrBookAttempt;
/* How long work is stopped and followed, by whoever asked for it; told and stop may be NULL. TOLD is called in the
 * thread of the work, DONE 0..1. */
typedef struct {
  GCancellable *stop;
  void (*told) (double done, gpointer data);
  gpointer data;
} PrBookWork;
/* A foot that lies in a book somebody sent. */
typedef struct {
  char *horse, *date;
  PrFoot foot;
  bool has_photo, has_plan;
} PrBookSent;
/* What has become of the file of a book that is open (pr-book-loss.h). */
typedef enum {
  PR_BOOK_KEPT,        /* what is changed is in the file */
  PR_BOOK_GONE,        /* the file was deleted, or moved away */
  PR_BOOK_FOLDER_GONE, /* so was the folder, or it cannot be reached */
  PR_BOOK_REPLACED,    /* another file lies in its place */
  PR_BOOK_OVERWRITTEN, /* another program wrote into it */
  PR_BOOK_TAKEN,       /* our lock was dropped and another program holds the file now */
} PrBookLoss;
typedef void (*PrBookLost) (gpointer data);
