/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The book: one SQLite file. horse -> visit -> foot -> photo, trace, plan, attempts. One program
 * writes in it (pr-hold.h), others can read what it has written; user_version migrations, application_id 0x50726974
 * ("Prit"). Every setter is a transaction of its own: when it returns TRUE the change is on the
 * disk; when the file is lost meanwhile it is in memory, and pr_book_loss (pr-book-loss.h) says so. A book belongs to
 * the thread that opened it, but for what pr-book-merge.h says. What is read out of one is within the
 * bounds of pr-bounds.h whoever wrote it: text of another kind is as absent, a name is cleaned and cut. */
#pragma once
#include "pr-book-data.h"

/* Makes the file (mode 0600) and its folder (0700) when missing; one that is there keeps the mode its owner gave it. A
 * file that is not ours, newer than this program,
 * held by another process, damaged or not to be written is PR_ERROR_BOOK and is left untouched. */
PrBook *pr_book_open (const char *file, GError **error);
void pr_book_close (PrBook *book);
/* To read only, for as long as another program writes in it, or where it cannot be written. What is asked of it is as the
 * writer has last left it; every change is refused with PR_ERROR_BOOK, which says who writes. NULL with error. */
PrBook *pr_book_open_to_read (const char *file, GError **error);
/* The one or, where that is why not, the other. ERROR says why it cannot be written, also when it can be read. */
PrBook *pr_book_open_or_read (const char *file, GError **error);
bool pr_book_is_read_only (PrBook *book);
/* Who writes in a book that is read only (pr_hold_who); NULL: nobody. Transfer full. */
char *pr_book_writer (PrBook *book);
/* To be asked now and then of a book that is read only. When its writer has ended, this program is it from then on: BOOK is
 * as pr_book_open gives it. */
typedef enum { PR_BOOK_NO_NEWS, PR_BOOK_CHANGED, PR_BOOK_IS_OURS } PrBookNews;
PrBookNews pr_book_attend (PrBook *book);
char *pr_book_default_file (void); /* $XDG_DATA_HOME/pritchel/book.pritchel; transfer full */

/* Listings; element-type as said, transfer full, NULL with error. Each word of FILTER (may be
 * NULL) is looked for in name, yard, owner and note (pr-seek.h). For more than one look there is pr-roster.h. */
GPtrArray *pr_book_horses (PrBook *book, const char *filter, GError **error); /* by name */
GPtrArray *pr_book_visits (PrBook *book, PrBookId horse, GError **error);     /* newest first */
GPtrArray *pr_book_feet (PrBook *book, PrBookId visit, GError **error);
GPtrArray *pr_book_attempts (PrBook *book, PrBookId foot, GError **error); /* oldest first */

/* Those of all feet that are there, of one material and group of styles, in the order they were made. */
GPtrArray *pr_book_attempts_alike (PrBook *book, const char *material, const char *group, GError **error);

/* The forged shoe of an attempt; NULL without error when there is none. Transfer full. */
GBytes *pr_book_attempt_photo (PrBook *book, PrBookId attempt, GError **error);

/* The comparison of an attempt, JSON text; NULL without error when there is none. Transfer full. */
char *pr_book_attempt_compared (PrBook *book, PrBookId attempt, GError **error);
/* JSON NULL takes it away. */
bool pr_book_set_compared (PrBook *book, PrBookId attempt, const char *json, GError **error);

/* Names and yards are cleaned (pr-bounds.h); one that is too long is PR_ERROR_INPUT, as is a date outside its years.
 * Adders return the new id, 0 on error. */
PrBookId pr_book_add_horse (PrBook *book, const char *name, const char *yard, GError **error);
PrBookId pr_book_add_visit (PrBook *book, PrBookId horse, const char *date, GError **error);
PrBookId pr_book_add_foot (PrBook *book, PrBookId visit, PrFoot foot, GError **error);
/* ATTEMPT's id and has_compared are not read, and a figure that cannot be (pr-bounds.h) is not kept; PHOTO of the forged shoe
 * may be NULL. */
PrBookId pr_book_add_attempt (PrBook *book, const PrBookAttempt *attempt, GBytes *photo, GError **error);
/* For ever, with everything that hangs on it; a person's deleting is pr-book-trash.h. */
bool pr_book_remove_horse (PrBook *book, PrBookId horse, GError **error);
bool pr_book_remove_visit (PrBook *book, PrBookId visit, GError **error);
bool pr_book_remove_foot (PrBook *book, PrBookId foot, GError **error);

/* The parts of a foot. PHOTO: the file's bytes as taken and its name. TRACE, PLAN: JSON text. NULL takes
 * a part away. Getters give NULL (no error) for what is not there. */
bool pr_book_set_photo (PrBook *book, PrBookId foot, GBytes *photo, const char *name, GError **error);
bool pr_book_set_trace (PrBook *book, PrBookId foot, const char *json, GError **error);
bool pr_book_set_plan (PrBook *book, PrBookId foot, const char *json, GError **error);
bool pr_book_set_side (PrBook *book, PrBookId foot, PrFoot side, GError **error);
/* With all that hangs on it, to another visit. */
bool pr_book_move_foot (PrBook *book, PrBookId foot, PrBookId visit, GError **error);
GBytes *pr_book_get_photo (PrBook *book, PrBookId foot, char **name, GError **error);
char *pr_book_get_trace (PrBook *book, PrBookId foot, GError **error);
char *pr_book_get_plan (PrBook *book, PrBookId foot, GError **error);
/* Clear what they fill with the functions below. */
bool pr_book_get_horse (PrBook *book, PrBookId horse, PrBookHorse *out, GError **error);
bool pr_book_get_visit (PrBook *book, PrBookId visit, PrBookVisit *out, GError **error);
/* OUT, VISIT and HORSE may be NULL; clear them with the functions below. They are cleared on error. */
bool pr_book_get_foot (PrBook *book, PrBookId foot, PrBookFoot *out, PrBookVisit *visit, PrBookHorse *horse,
                       GError **error);

/* What is done between the two is one change: all of it is in the file when pr_book_end returns TRUE, or none.
 * They nest. OK FALSE: take back what was done since (the error is then set already); FALSE is returned. */
bool pr_book_begin (PrBook *book, GError **error);
bool pr_book_end (PrBook *book, bool ok, GError **error);

/* Small things to remember between starts ("last-foot"). VALUE NULL forgets. */
bool pr_book_set_setting (PrBook *book, const char *key, const char *value, GError **error);
char *pr_book_get_setting (PrBook *book, const char *key, GError **error);

/* One foot with its horse and visit as a small book of its own: FILE is either whole or untouched. */
bool pr_book_send_foot (PrBook *book, PrBookId foot, const char *file, GError **error);
/* Does FILE begin as a book does, whatever it is called? TRUE for a book that is open here. */
bool pr_book_is_book (const char *file);
/* _clear leaves an empty struct, _free frees it too (the free functions of the listings' elements). */
void pr_book_horse_clear (PrBookHorse *h);
void pr_book_visit_clear (PrBookVisit *v);
void pr_book_foot_clear (PrBookFoot *f);
void pr_book_attempt_clear (PrBookAttempt *a);
void pr_book_sent_free (PrBookSent *s);
void pr_book_horse_free (PrBookHorse *h);
void pr_book_visit_free (PrBookVisit *v);
void pr_book_foot_free (PrBookFoot *f);
void pr_book_attempt_free (PrBookAttempt *a);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrBook, pr_book_close)
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrBookHorse, pr_book_horse_clear)
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrBookVisit, pr_book_visit_clear)
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrBookFoot, pr_book_foot_clear)
