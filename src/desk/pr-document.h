/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrDocument: the foot on the bench. Owns the job, its undo steps and its place in the book,
 * and keeps every change in the book as it is made. A change is told by the signal
 * "changed" (guint flags, PrChanged); what went wrong by "trouble" (const char *sentence);
 * a foot the sheet does not tell by "ask-foot"; a foot the visit has already by "ask-place"
 * (int foot); what replaced a person's work, and can be undone, by "done" (const char *sentence); what else was done, as a file
 * written, by "said" (const char *sentence).
 *
 * An undo step is a copy of the foot's sources (pr-history.h). Each foot has its own steps for as long as
 * the program runs: opening another foot and coming back loses none. All functions are for the
 * main thread; photos are read and traced in a thread of their own. */
#pragma once
#include <gio/gio.h>
#include "pr-book.h"
#include "pr-job.h"

typedef enum {
  PR_CHANGED_PLAN = 1 << 0,    /* plan, shoe, iron, findings */
  PR_CHANGED_HOOF = 1 << 1,    /* outline, landmarks, foot */
  PR_CHANGED_PHOTO = 1 << 2,   /* the rectified picture */
  PR_CHANGED_PLACE = 1 << 3,   /* another foot, or none */
  PR_CHANGED_HISTORY = 1 << 4, /* what can be undone */
  PR_CHANGED_BOOK = 1 << 5,    /* what the book lists */
  PR_CHANGED_UNIT = 1 << 6,
  PR_CHANGED_BUSY = 1 << 7,    /* work in the background */
  PR_CHANGED_STYLES = 1 << 8,  /* which styles there are */
  PR_CHANGED_FACE = 1 << 10,   /* which face is shown */
  PR_CHANGED_STAGE = 1 << 9,   /* a scale is to be marked, or no longer */
  PR_CHANGED_FORGED = 1 << 11, /* the forged shoe on the plan, its attempts */
  PR_CHANGED_USUAL = 1 << 12,  /* what was usual is known now (pr_document_known_usual) */
} PrChanged;
#define PR_CHANGED_ALL 0x1fff

#define PR_TYPE_DOCUMENT (pr_document_get_type ())
G_DECLARE_FINAL_TYPE (PrDocument, pr_document, PR, DOCUMENT, GObject)

/* BOOK may be NULL: then nothing is kept. Takes BOOK over (transfer full). */
PrDocument *pr_document_new (PrBook *book, PrUnit unit);
/* For a document made without one: from now on what is done is kept in BOOK (transfer full). Told as
 * PR_CHANGED_BOOK. */
void pr_document_set_book (PrDocument *doc, PrBook *book);

/* NULL while no foot is open. Transfer none; its sources change through this room only. */
const PrJob *pr_document_job (PrDocument *doc);
PrBook *pr_document_book (PrDocument *doc);
PrUnit pr_document_unit (PrDocument *doc);
void pr_document_set_unit (PrDocument *doc, PrUnit unit);
/* What the feet are called from now on. */
void pr_document_call_sides (PrDocument *doc, PrSides sides);
/* The face that is shown: by it lists tell first what lies on the left. */
PrFace pr_document_face (PrDocument *doc);
void pr_document_set_face (PrDocument *doc, PrFace face);
const GPtrArray *pr_document_styles (PrDocument *doc);
/* 0 where nothing is open or chosen. */
PrBookId pr_document_foot_id (PrDocument *doc);
PrBookId pr_document_visit_id (PrDocument *doc);
PrBookId pr_document_horse_id (PrDocument *doc);

/* Keeps a small thing about the book's own horses with it; a failure is told as trouble. What a person
 * prefers is in pr-settings.h. */
void pr_document_keep_setting (PrDocument *doc, const char *key, const char *value);
/* Transfer full; NULL where nothing was kept. */
char *pr_document_setting (PrDocument *doc, const char *key);
/* Emits "trouble", "said". */
void pr_document_trouble (PrDocument *doc, const char *sentence);
void pr_document_say (PrDocument *doc, const char *sentence);
/* "Pipwick" and the like, for titles and file names; NULL while no foot is open. Transfer full.
 * DATE (may be NULL) receives the visit's, ISO 8601. */
char *pr_document_horse_name (PrDocument *doc, char **date);

/* The other feet of the visit whose foot is open, as far as they have a plan, in the order of PrFoot. One that cannot be read
 * is told as trouble and left out. Element type PrJob, transfer full. */
GPtrArray *pr_document_other_feet (PrDocument *doc);

/* A live edit: begin remembers, preview shows, then commit (one undo step, kept in the book)
 * or cancel (all as it was). Commits with the same TAG (may be NULL) shortly after each other
 * are one step. preview returns FALSE and keeps the last good shape when PLAN cannot be built. */
void pr_document_begin (PrDocument *doc);
bool pr_document_preview (PrDocument *doc, const PrPlan *plan);
bool pr_document_preview_marks (PrDocument *doc, const PrLandmarks *marks);
void pr_document_commit (PrDocument *doc, const char *tag);
void pr_document_cancel (PrDocument *doc);
bool pr_document_editing (PrDocument *doc);
/* What stood when the live edit began. */
const PrPlan *pr_document_start_plan (PrDocument *doc);

/* Whole edits, each one undo step. VALUE as a person types it; NAME is one of the table pr_params, which an error
 * calls by its label. */
bool pr_document_set_text (PrDocument *doc, const char *name, const char *value, GError **error);
/* The bar in hand by its section, "3/8 x 1". */
bool pr_document_set_section (PrDocument *doc, const char *value, GError **error);
bool pr_document_set_style (PrDocument *doc, const PrStyle *style, GError **error);
/* The open foot's job with STYLE laid on it as that would do, and nothing changed; NULL where it cannot lie there. Transfer
 * full. */
PrJob *pr_document_try_style (PrDocument *doc, const PrStyle *style);
bool pr_document_set_foot (PrDocument *doc, PrFoot foot, GError **error);
/* Has the visit of the open foot another one that is FOOT? Then the open one cannot be. */
bool pr_document_is_taken (PrDocument *doc, PrFoot foot);
/* The open foot becomes FOOT in a new visit of today of its horse, with all that hangs on it. Says "done"; one undo. */
bool pr_document_move_to_new_visit (PrDocument *doc, PrFoot foot, GError **error);
/* Keeps the shoe's parameters as a style of one's own, called NAME. */
bool pr_document_keep_style (PrDocument *doc, const char *name, GError **error);
/* The nails in the farrier's own box: elements PrOwnNail, transfer none, good until PR_CHANGED_STYLES. */
const GPtrArray *pr_document_nails (PrDocument *doc);
/* The shoe is nailed with those called NAME, or NULL: with those that the size of the foot asks for; the crease follows. One step. */
bool pr_document_use_nails (PrDocument *doc, const char *name, GError **error);
/* Keeps the nails of the plan under NAME, and the plan says so. Forgetting them leaves the figures of every plan as they are. */
bool pr_document_keep_nails (PrDocument *doc, const char *name, GError **error);
bool pr_document_forget_nails (PrDocument *doc, const char *name, GError **error);
/* What the plan's style gives on this hoof, nothing locked or changed by hand; NULL while no foot is open.
 * Transfer none, good until the next change. */
const PrPlan *pr_document_usual (PrDocument *doc);
/* The same for who can wait, as laying a shoe takes longer than a frame: NULL also while it is not known. A thread then finds it,
 * which is told as PR_CHANGED_USUAL. */
const PrPlan *pr_document_known_usual (PrDocument *doc);
/* Puts N parameters back to that. */
bool pr_document_reset (PrDocument *doc, const PrParam *const *params, size_t n, GError **error);
/* A limit was changed (pr_limit_keep): what is held against it is looked at anew. */
void pr_document_limits_changed (PrDocument *doc);
bool pr_document_fit (PrDocument *doc, GError **error);
bool pr_document_find_marks (PrDocument *doc, GError **error); /* landmarks found anew */
/* What the finding ID of the job offers. */
bool pr_document_take_offer (PrDocument *doc, const char *id, GError **error);
/* The bar in hand, section in mm. */
bool pr_document_take_bar (PrDocument *doc, double width, double thickness, GError **error);
/* Wall thickness WHICH (0 toe, 1 quarter, 2 heel), mm; 0 goes back to the usual one. The shoe is
 * fitted anew, but for what is locked. */
bool pr_document_set_wall (PrDocument *doc, int which, double mm, GError **error);
/* LOCKS: bits of PR_LOCK_*. They keep their part at a fit and at another style. */
void pr_document_set_locks (PrDocument *doc, guint64 locks, bool on);
/* The order of work as worded by a person, a step a line; NULL: as the plan gives it. What is typed
 * on without a pause is one step. */
void pr_document_set_order (PrDocument *doc, const char *order);
/* The steps in another order and parted otherwise (pr-heats.h); "": as the plan gives it. One step. */
void pr_document_set_heats (PrDocument *doc, const char *heats);
/* The shoe of the opposite foot of the same visit onto this one, fitted to its line. The other foot stays
 * as it is. One step; says "done". */
bool pr_document_take_other (PrDocument *doc, GError **error);
/* The plan of the same foot from the newest earlier visit that has one, fitted to this hoof; the same. */
bool pr_document_take_last_visit (PrDocument *doc, GError **error);

/* Makes the book as WAS tells it was before another room changed it (pr_document_done_elsewhere). */
typedef bool (*PrBringBack) (PrDocument *doc, gconstpointer was, GError **error);
bool pr_document_can_undo (PrDocument *doc);
bool pr_document_can_redo (PrDocument *doc);
void pr_document_undo (PrDocument *doc);
void pr_document_redo (PrDocument *doc);

/* Reads and traces in the background. The foot goes to the chosen visit; with no horse chosen to
 * HORSE_NAME (NULL: "No name yet"). FOOT PR_FOOT_ANY: what the sheet tells. */
void pr_document_take_photo (PrDocument *doc, GFile *file, PrFoot foot, const char *horse_name);
/* A picture that is no file, from the clipboard. */
void pr_document_take_bytes (PrDocument *doc, GBytes *bytes, const char *name);
/* Of GFile: several photos are taken one after the other, each for the foot its sheet tells. */
void pr_document_take_files (PrDocument *doc, GListModel *files);
/* The same of photos that came from a phone. Element type PrReceived. */
typedef struct {
  GBytes *bytes; /* as they were sent */
  char *name;
} PrReceived;
void pr_document_take_received (PrDocument *doc, const GPtrArray *photos);
/* "ask-foot" was answered: of photos that came together the next one that nobody has told is opened and asked about. */
void pr_document_ask_next (PrDocument *doc);
/* The answer to "ask-place": where the photo goes whose foot the chosen visit has already. */
typedef enum { PR_PLACE_NEW_VISIT, PR_PLACE_INSTEAD, PR_PLACE_NOWHERE } PrPlace;
void pr_document_place (PrDocument *doc, PrPlace place);
/* Stops the work under way, and what was to follow it. */
void pr_document_stop (PrDocument *doc);
/* FALSE when nothing is under way; DONE 0..1, WHAT a translated word (transfer none). */
bool pr_document_busy (PrDocument *doc, double *done, const char **what);

/* Opens a foot of the book; its photo is rectified in the background. */
bool pr_document_open_foot (PrDocument *doc, PrBookId foot, GError **error);
/* The foot that was open last. FALSE: there is none, it cannot be opened (told as trouble), or the program ended while
 * it was being opened (pr_document_halted, told as PR_CHANGED_BOOK). */
bool pr_document_open_last (PrDocument *doc);
/* A foot counts as open last when it has been read, and drawn: whoever shows it says so, as often as it likes, when
 * that is done. Not before work in the background is. */
bool pr_document_is_opening (PrDocument *doc);
void pr_document_drawn (PrDocument *doc);
/* The foot that was being opened when the program ended, and WHY it is closed now (transfer full); 0: none. It is
 * until any foot is opened, or it is left. */
PrBookId pr_document_halted (PrDocument *doc, char **why);
void pr_document_leave_halted (PrDocument *doc);
/* Another visit: the foot that was open is closed. */
void pr_document_choose_visit (PrDocument *doc, PrBookId horse, PrBookId visit);
PrBookId pr_document_add_horse (PrDocument *doc, const char *name, GError **error);
PrBookId pr_document_add_visit (PrDocument *doc, PrBookId horse, GError **error);
bool pr_document_rename_horse (PrDocument *doc, PrBookId horse, const char *name, GError **error);
