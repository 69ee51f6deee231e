/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the document's own files share. */
#pragma once
#include "pr-book-loss.h"
#include "pr-book-merge.h"
#include "pr-book-trash.h"
#include "pr-document.h"
#include "pr-errand.h"
#include "pr-history.h"
#include "pr-intake.h"
#include "pr-marking.h"
#include "pr-together.h"

/* What was last written over of a horse or a visit, as it was, or by another room; both ids 0 and no BACK: nothing since anything
 * else was changed. */
typedef struct {
  PrBookHorse horse;
  PrBookVisit visit;
  PrBringBack back; /* what another room did: how it comes back, and as what */
  gpointer was;
  GDestroyNotify free_was;
} PrDescribed;

/* The last thing that was deleted, and what was open and chosen then. */
typedef struct {
  PrBookKind kind;
  PrBookId id, foot, visit, horse; /* ID 0: nothing, or something else was done since */
} PrDeleted;

/* What was done on a foot and is not in the book yet: the disk is full, another program writes. */
typedef struct {
  PrParts parts;      /* 0: nothing */
  PrSources *sources; /* of a foot that is no longer open; NULL: those of the job */
  char *
      base; /* what the book held of the foot when it was read (digest); NULL: nobody else can have changed it */
} PrUnkept;

#define PR_BOOK_FILE_KEY \
  "book-file" /* the setting that says where the book is, where it is not in its usual place */

void pr_unkept_free (PrUnkept *unkept);

/* The book that was taken in last, and what was open and chosen then. */
typedef struct {
  PrMerged *merged; /* NULL: none, or something else was done since */
  PrBookId foot, visit, horse;
} PrTakenIn;

typedef struct _PrForged PrForged;
typedef struct _PrUsualSearch PrUsualSearch;

struct _PrDocument {
  GObject parent_instance;
  PrBook *book;
  PrBookId foot, visit, horse;
  PrJob *job; /* of the foot that is open, with or without an outline; NULL: none is */
  PrUnit unit;
  PrFace face;
  gint book_held; /* threads at work in the book; atomic */
  GPtrArray *styles;
  GPtrArray *nails;      /* PrOwnNail; NULL: not read yet */
  GHashTable *histories; /* PrBookId of a foot to its PrHistory; kept until the program ends */
  PrHistory *history;    /* of the foot that is open; one of those */
  PrSources *start;      /* what stood before the live edit under way */
  PrIntake *intake;
  PrMarking *marking;
  PrForged *forged;     /* of the open foot; NULL: none */
  PrTake *pending;      /* waits for the answer to "ask-place" */
  PrTogether *together; /* several photos on their way; NULL: none */
  GQueue untold;        /* of PrBookId *: feet that came together, to be asked about one after the other */
  char *bare_why;       /* why there is no line yet */
  PrPlan usual;         /* the style on this hoof, untouched; while HAS_USUAL */
  bool has_usual, no_usual;    /* NO_USUAL: the style cannot lie on this hoof. Neither: not known yet */
  PrUsualSearch *usual_search; /* a thread that finds it; NULL: none */
  guint telling_usual;         /* source: that it is known */
  PrBookId opening;            /* noted in the book as being opened; 0: none */
  PrBookId halted;             /* was being opened when the program ended */
  PrDeleted deleted;
  PrDescribed described;
  PrUnkept unkept;   /* of the open foot */
  GHashTable *aside; /* PrBookId of another foot to its PrUnkept */
  char *why_unkept;  /* the last sentence */
  guint tending;     /* source: while the book is only read, or something is unkept */
  char *damaged;     /* the file that cannot be opened as the book, while there is none */
  bool stale;        /* the book was changed by another program since the open foot was read */
  PrTakenIn taken_in;
  PrErrand *daily,
      *errand; /* today's backup, and what else is being done with the whole book (pr-document-backup.c); NULL: nothing */
  guint events, telling; /* sources: of the book's file, and of its loss */
};

/* --- pr-document.c: below all the others --- */

void pr_document_changed (PrDocument *doc, PrChanged what);
/* Emits "done": what was just done is one undo step. */
void pr_document_done (PrDocument *doc, const char *sentence);
void pr_document_ask_foot (PrDocument *doc);
/* Emits "ask-place"; TAKE (transfer full) waits for the answer. */
void pr_document_ask_place (PrDocument *doc, PrTake *take);
/* Ends a whole edit that was begun: OK keeps it as one step, otherwise all is as it was. Returns OK. */
bool pr_document_finish (PrDocument *doc, bool ok, PrChanged what, const char *tag);
/* Puts JOB (transfer full, may be NULL) in place of what was open, as the book's FOOT (0: kept nowhere). */
void pr_document_put_job (PrDocument *doc, PrJob *job, PrBookId foot);
/* Has the open foot an outline? */
bool pr_document_has_line (PrDocument *doc);
/* PARTS of the job into the book. What cannot be kept is told, stays as it is and is tried again (pr-document-file.c). */
void pr_document_keep (PrDocument *doc, PrParts parts);
/* Lays the photo under the shoe again, where that is not there. */
void pr_document_rectify_again (PrDocument *doc);
/* The photo of the open foot from the book becomes part of its sources. FALSE: there is none. */
bool pr_document_load_photo (PrDocument *doc);
/* The open foot's photo, to be worked on once more; NULL when there is none. Transfer full. */
PrTake *pr_document_take_kept (PrDocument *doc, PrTakeKind kind);

/* --- pr-document-book.c: places --- */

/* Files a new foot with the chosen visit, or a new one, and makes horse and visit where needed. ID receives it,
 * or 0 without a book. FALSE with an error when it cannot be kept. */
bool pr_document_file_foot (PrDocument *doc, PrFoot foot, const char *horse_name, PrBookId *id,
                            GError **error);
/* The chosen visit's FOOT that has a photo or a plan; 0 when there is none. */
PrBookId pr_document_visit_foot (PrDocument *doc, PrFoot foot);

/* --- pr-document-edits.c --- */

/* The visit has a FOOT already: what to do, as an error. */
void pr_document_tell_taken (PrFoot foot, GError **error);

/* --- pr-document-delete.c --- */

/* The last thing that was deleted comes back, with what was open then. */
void pr_document_undo_delete (PrDocument *doc);
/* What was taken in goes again, with what was open before. */
void pr_document_undo_merge (PrDocument *doc);
/* TAKE (transfer full) is worked on, as pr_intake_start does it; lengths in what is told of it are in the document's unit. */
void pr_document_start_take (PrDocument *doc, PrTake *take, const char *what);
/* For ever: what was deleted long ago. */
void pr_document_clear_trash (PrDocument *doc);

/* --- pr-document-backup.c --- */

/* What was being made is given up. Before the book is closed. */
void pr_document_stop_backup (PrDocument *doc);
/* For work on the whole book, of which there is one at a time; WHAT is a translated word. DATA is taken over, also where it
 * fails. NULL with error. Transfer none. */
PrErrand *pr_document_begin_errand (PrDocument *doc, const char *what, gpointer data,
                                    GDestroyNotify free_data, GError **error);
/* ERROR (may be NULL) is told as trouble, unless it was stopped. The errand's data is gone then. TRUE: there was none. */
bool pr_document_end_errand (PrDocument *doc, const GError *error);

/* --- pr-document-diary.c --- */

/* Is there anything that was written over last? */
bool pr_document_has_described (PrDocument *doc);
/* It comes back. */
void pr_document_undo_described (PrDocument *doc);
/* Neither that nor what was taken in is the next step back any more. */
void pr_document_forget_described (PrDocument *doc);

/* --- pr-document-usual.c --- */

/* What it goes by has changed. */
void pr_document_forget_usual (PrDocument *doc);
/* No thread looks for it any more. */
void pr_document_stop_usual (PrDocument *doc);

/* --- pr-document-forged.c --- */

void pr_forged_free (PrForged *forged);
/* The plan it lies on is another. */
void pr_document_forged_is_stale (PrDocument *doc);
/* Was an edge drawn anew, and nothing else done since? */
bool pr_document_forged_was_redrawn (PrDocument *doc);
/* The edge comes back that was there before. */
void pr_document_undo_redrawn (PrDocument *doc);
/* It does not come back by undo any more. */
void pr_document_forget_redrawn (PrDocument *doc);
/* A shoe that was found in a photo. */
bool pr_document_put_shoe (PrDocument *doc, PrTake *take, GError **error);

/* --- pr-document-specimen.c --- */

/* A shoe that is to be forged again, and its sheet: filed as a job of its own, and opened. */
bool pr_document_put_specimen (PrDocument *doc, PrTake *take, GError **error);

/* --- pr-document-open.c --- */

/* Notes in the book that FOOT is being opened, in place of what was open last. */
void pr_document_opening (PrDocument *doc, PrBookId foot);
/* What is open now is what was open last. */
void pr_document_stands (PrDocument *doc);

/* --- pr-document-file.c --- */

/* The book's file is looked at from now on, and no longer. */
void pr_document_watch_book (PrDocument *doc);
void pr_document_leave_book (PrDocument *doc);
/* FALSE with error while a thread works in the book. */
bool pr_document_may_leave_book (PrDocument *doc, GError **error);
/* The same, with all that is open and chosen in it and all undo steps. */
void pr_document_leave_all (PrDocument *doc);

/* What FOOT is told by when it is kept: to be asked for before it is read, as another program may change it meanwhile. NULL: none
 * can. Transfer full. */
char *pr_document_base (PrDocument *doc, PrBookId foot);
/* The open foot goes off the board: what is unkept of it waits. And the other way round, with the BASE of before it was read. */
void pr_document_put_aside (PrDocument *doc);
void pr_document_take_aside (PrDocument *doc, const char *base);
/* FALSE, and told as trouble, while it is. */
bool pr_document_may_write (PrDocument *doc);

/* --- pr-document-photo.c --- */

/* What the person's shoes usually lose, and are given for welds. */
void pr_document_own_losses (PrPlan *plan);
/* The style that a shoe of FOOT starts from; NULL: there are none. */
const PrStyle *pr_document_plain_style (PrDocument *doc, PrFoot foot);
/* A plan for the hoof of JOB: the one last made for this foot of HORSE (0: none), else the plain style's. */
bool pr_document_first_plan (PrDocument *doc, PrJob *job, PrBookId horse, GError **error);
/* A traced photo for the foot that is open. */
bool pr_document_put_again (PrDocument *doc, PrTake *take, GError **error);
/* What the intake has ready. */
void pr_document_taken (PrTake *take, const GError *error, gpointer doc);

/* --- pr-document-marking.c, pr-document-lines.c --- */

/* The plan fitted to a new line; a foot without one gets its first. */
bool pr_document_fit_or_first (PrDocument *doc, GError **error);
/* TO is the photo of FROM traced again: of several feet the one that FROM was. */
void pr_document_keep_line (const PrTracing *from, PrTracing *to);
