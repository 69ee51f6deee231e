/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Another book, looked into and taken into ours, foot by foot.
 *
 * A horse of the same name and yard, and its visit of the same date, are the same. Of two feet of one side in such a visit those
 * with the same photo, trace and plan are the same, and what attempts either lacks it gets. Others meet: a foot of theirs lies
 * beside one of mine, in the order they were made, and a person may choose. Where nobody chose both stay, so that nothing is
 * lost. */
#pragma once
#include "pr-book.h"

typedef enum { PR_MERGE_BOTH, PR_MERGE_MINE, PR_MERGE_THEIRS, PR_N_MERGE_CHOICES } PrMergeChoice;

#define PR_MERGE_PICTURED 1000

/* One of two feet that meet. */
typedef struct {
  char *trace,
      *plan; /* JSON text; NULL: there is none. Only the first PR_MERGE_PICTURED have their trace: the rest would fill memory */
  char *changed;
  bool photo, other_photo; /* it has one; it is another than the one on the other side */
  guint attempts;
} PrMergeSide;

/* Feet that meet: [0] is mine, [1] theirs. */
typedef struct {
  PrBookId mine;
  char *digest; /* of theirs: together they tell which */
  char *horse, *date;
  PrFoot foot;
  PrMergeSide side[2];
  PrMergeChoice choice; /* to be set */
} PrMergeFoot;

/* A horse of which the books say different things. Of BOTH what mine leaves open is theirs, and what differs is put down in the
 * note. */
typedef struct {
  PrBookId mine, theirs;
  PrBookHorse says[2];
  PrMergeChoice choice; /* to be set */
} PrMergeHorse;

typedef struct {
  GPtrArray *sent;          /* PrBookSent: all feet, by horse, oldest visit first */
  guint n_new, n_same;      /* of those; the rest meets */
  guint n_deleted;          /* of the new ones: what was deleted here, and still lies there */
  GPtrArray *feet, *horses; /* PrMergeFoot, PrMergeHorse */
} PrMerge;

/* What was done, so that it can be undone. */
typedef struct _PrMerged PrMerged;

/* What a merge of FILE would bring. FILE is only read, and can do nothing (pr-book-aside.h); it holds at most the feet and bytes
 * of pr-bounds.h. May run in any thread, while the one that opened BOOK works in it. WORK may be NULL. Transfer full; NULL with
 * error, which is G_IO_ERROR_CANCELLED when it was stopped. */
PrMerge *pr_merge_look (PrBook *book, const char *file, const PrBookWork *work, GError **error);
void pr_merge_free (PrMerge *merge);
/* Takes in everything the book FILE holds, as one change; all or nothing, also when it is stopped. Where MERGE (may be NULL), or
 * what it was made of, says nothing of two feet, both stay; a foot of mine that theirs replaces is deleted (pr-book-trash.h). It
 * may run in a thread of its own, while the one that opened BOOK reads from it; who writes waits. Transfer full; NULL with
 * error. */
PrMerged *pr_merge_take (PrBook *book, const char *file, const PrMerge *merge, const PrBookWork *work,
                         GError **error);
/* As one change: what came goes to what is deleted, what was replaced or written over comes back. Practice and attempts that came
 * go for good. */
bool pr_merge_undo (PrBook *book, const PrMerged *merged, GError **error);
void pr_merged_free (PrMerged *merged);
/* The last foot that came, or the only one of theirs where it was here already; 0 where none came of several. How many feet came, and how many were replaced. */
PrBookId pr_merged_last (const PrMerged *merged);
guint pr_merged_feet (const PrMerged *merged);
guint pr_merged_replaced (const PrMerged *merged);
/* Did it change nothing at all? */
bool pr_merged_is_nothing (const PrMerged *merged);
/* Was FOOT replaced? */
bool pr_merged_has_replaced (const PrMerged *merged, PrBookId foot);

/* The feet of FILE alone: element type PrBookSent. As pr_merge_look, but nothing of BOOK is read. */
GPtrArray *pr_book_look_into (const PrBook *book, const char *file, const PrBookWork *work, GError **error);
/* pr_merge_take where nobody chose and nobody undoes. FOOT (may be NULL) receives the last foot. */
bool pr_book_merge (PrBook *book, const char *file, const PrBookWork *work, PrBookId *foot, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrMerge, pr_merge_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrMerged, pr_merged_free)
