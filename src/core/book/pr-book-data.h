/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the book's listings are made of, as plain data; pr-book.h has the functions that clear and free them. */
#pragma once
#include <gio/gio.h>
#include "pr-foot.h"

typedef struct _PrBook PrBook;
typedef gint64 PrBookId;

typedef struct {
  PrBookId id;
  char *name, *yard, *owner, *note;
  int due_days; /* from visit to visit; 0: as usual, PR_BOOK_NEVER_DUE (pr-book-diary.h) */
} PrBookHorse;
typedef struct {
  PrBookId id, horse;
  char *date, *note;
  int colour;  /* of the day's card (pr-card-colour.h); 0: none */
  char *vet;   /* what was asked and allowed for a sheet to the vet, JSON (pr-vet-note.h); NULL: nothing */
} PrBookVisit; /* date ISO 8601 */
typedef struct {
  PrBookId id, visit;
  PrFoot foot;
  char *changed;
  bool has_photo, has_plan;
} PrBookFoot;
/* What was put in and what came out of it, from which the smith's own figures are learned (pr-learn.h); mm, kg, mm2, shares.
 * 0 and NULL or "": not told. */
typedef struct {
  char *material, *group;      /* codes; what behaves alike */
  double bar_width, bar_thick; /* of the bar it came out of */
  double cut, leftover;        /* lengths of it */
  double predicted, loss; /* what the model asks for the shape that was found, and the loss it reckons with */
  double bar_kg, shoe_kg, slugs_kg, leftover_kg; /* on one scale */
  double crease_before, crease_after;            /* creased length before and after fullering */
  double crease_area, whole_area, lambda;        /* sections of crease and web there, and the model's share */
  double length, width;                          /* of the shoe as found */
  double web_toe, web_quarter[2], web_heel[2];
} PrBookForged;
/* One go at forging a plan; minutes, heats and off_mm are 0 when not told. */
typedef struct {
  PrBookId id, foot;
  char *date, *note;
  int minutes, heats;
  double off_mm;
  PrBookForged forged;
  bool has_compared; /* its comparison is there, to be read with pr_book_attempt_compared */
} PrBookAttempt;
/* How long work is stopped and followed, by whoever asked for it; told and stop may be NULL. TOLD is called in the
 * thread of the work, DONE 0..1. */
typedef struct {
  GCancellable *stop;
  void (*told) (double done, gpointer data);
  gpointer data;
  bool whole; /* a person's own other book is meant, which may be larger than what anybody sends */
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
