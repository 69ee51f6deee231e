/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPracticeDesk: practice in the document's book. It holds the classes, the season of the one that is chosen, and the run that is
 * going, and writes every press into the book as it is made. A change is told by "changed". What the book refuses is told as the
 * document's trouble; a press that could not be written stays, and is written with the next. */
#pragma once
#include "pr-book-trash.h"
#include "pr-document.h"
#include "pr-practice-book.h"

#define PR_TYPE_PRACTICE_DESK (pr_practice_desk_get_type ())
G_DECLARE_FINAL_TYPE (PrPracticeDesk, pr_practice_desk, PR, PRACTICE_DESK, GObject)

/* DOC has a book; it may get another, or lose it: then there are no classes. */
PrPracticeDesk *pr_practice_desk_new (PrDocument *doc);
PrDocument *pr_practice_desk_document (PrPracticeDesk *desk);
/* In place of the machine's clocks. */
typedef void (*PrPracticeRead) (PrPracticeMoment *now, gpointer data);
void pr_practice_desk_set_clock (PrPracticeDesk *desk, PrPracticeRead read, gpointer data);
void pr_practice_desk_now (PrPracticeDesk *desk, PrPracticeMoment *now);
/* Was a run going when DOC's book was last left? */
bool pr_practice_desk_left (PrDocument *doc);

/* Elements PrPracticeClass; transfer none, good until the next change. */
const GPtrArray *pr_practice_desk_classes (PrPracticeDesk *desk);
/* The one that is chosen; NULL: none. */
const PrPracticeClass *pr_practice_desk_class (PrPracticeDesk *desk);
void pr_practice_desk_choose (PrPracticeDesk *desk, guint nr);
guint pr_practice_desk_chosen (PrPracticeDesk *desk);
/* Its runs, the oldest first: PrPracticeRun. Empty where it has none. */
const GPtrArray *pr_practice_desk_season (PrPracticeDesk *desk);

/* The run that is going; NULL: none. */
const PrPracticeRun *pr_practice_desk_run (PrPracticeDesk *desk);
/* Of the chosen class, on the foot that is open with its order of work, where one is. FALSE with error: one is going. */
bool pr_practice_desk_start (PrPracticeDesk *desk, GError **error);
/* FALSE: none is going, or it cannot be. After PR_PRESSED_STOP it is over. */
bool pr_practice_desk_press (PrPracticeDesk *desk, PrPressedKind kind);
/* The last press never was; of a run that was just stopped: it goes on. */
bool pr_practice_desk_take_back (PrPracticeDesk *desk);
/* Was the run found going, and nobody has said yet whether it goes on? Asked once for each desk. */
bool pr_practice_desk_asks (PrPracticeDesk *desk);
/* It goes on. */
void pr_practice_desk_answer (PrPracticeDesk *desk);
/* A run that was found going ends with what was pressed last, and counts for no season. */
void pr_practice_desk_break_off (PrPracticeDesk *desk);
/* The run that was stopped last, for what is to be written of it; 0: none. */
PrBookId pr_practice_desk_stopped (PrPracticeDesk *desk);

/* RUN as it is in the book, what can be measured filled in. Transfer full, NULL with error. */
PrPracticeRun *pr_practice_desk_look (PrPracticeDesk *desk, PrBookId run, GError **error);
/* What is measured of RUN, after a person said that it was finished or not; what he scored stays. */
void pr_practice_desk_measure (PrPracticeRun *run);
/* What a person wrote of it, and PHOTO, NULL: as it was. This, and what follows, is one pr_document_undo, and says "done". */
bool pr_practice_desk_keep (PrPracticeDesk *desk, const PrPracticeRun *run, GBytes *photo, GError **error);
/* A class made or changed; it is chosen. */
bool pr_practice_desk_keep_class (PrPracticeDesk *desk, const PrPracticeClass *class, GError **error);
/* KIND: PR_BOOK_CLASS, PR_BOOK_RUN. A run that is going cannot be deleted, nor its class. */
bool pr_practice_desk_delete (PrPracticeDesk *desk, PrBookKind kind, PrBookId id, GError **error);
/* The season of the chosen class as a table. */
bool pr_practice_desk_write_csv (PrPracticeDesk *desk, const char *file, GError **error);
