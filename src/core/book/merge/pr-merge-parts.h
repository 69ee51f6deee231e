/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside of this room only: how rows of two books are told to be the same, and what is written down of a merge. */
#pragma once
#include "pr-book-copy.h"
#include "pr-book-merge.h"

typedef enum { PR_MEETS_NOTHING, PR_MEETS_SAME, PR_MEETS_OTHER } PrMeets;

/* A foot of theirs and what it meets; of a list in the order of theirs. */
typedef struct {
  const PrBookFoot *theirs; /* in FEET */
  PrMeets meets;
  PrBookId mine;  /* 0: nothing */
  char *digest;   /* of theirs */
  bool has_parts; /* of theirs: any at all */
} PrMeet;

typedef struct {
  GPtrArray *feet; /* PrBookFoot of theirs */
  GArray *meet;    /* PrMeet */
  char *day;       /* theirs, as it is kept here */
  PrBookId mine;   /* the visit of ours; 0: none */
} PrMeeting;

void pr_meeting_clear (PrMeeting *meeting);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrMeeting, pr_meeting_clear)
/* VISIT of FROM beside what BOOK has of HORSE (0: nothing). MEETING must be empty. FALSE with error. */
bool pr_meeting_make (PrMeeting *meeting, PrBook *book, PrBookId horse, PrBook *from,
                      const PrBookVisit *visit, const PrBookWork *work, GError **error);
/* The horse of BOOK that is HORSE: 0 there is none, -1 with error. */
PrBookId pr_merge_find_horse (PrBook *book, const PrBookHorse *horse, GError **error);
/* The first column of the first row of STMT, which is taken over; 0 where there is none, -1 with error. */
PrBookId pr_merge_first_row (PrBook *book, sqlite3_stmt *stmt, GError **error);
bool pr_merge_same_horse (const PrBookHorse *a, const PrBookHorse *b);

/* A visit as it was. */
typedef struct {
  PrBookId id;
  char *note, *vet; /* VET: NULL where there was none */
  gint64 colour;
} PrVisitWas;

struct _PrMerged {
  GArray *horses, *visits, *feet; /* PrBookId: that came, each only where what it hangs on was there */
  GArray *replaced, *attempts, *classes, *runs;
  GPtrArray *horses_were, *visits_were; /* PrBookHorse, PrVisitWas */
  PrBookId last;
  guint n_feet, n_met; /* that came; that were here already */
};

PrMerged *pr_merged_new (void);
/* Is TEXT JSON that a parser may be given? What is not stays where it is. */
bool pr_merge_is_json (const char *text);
/* Practice of FROM; FEET: PrBookId there to PrBookId here. */
bool pr_merge_practice (PrBook *book, PrBook *from, GHashTable *feet, PrMerged *merged, GError **error);
