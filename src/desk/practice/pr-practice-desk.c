/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-practice-desk.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-atomic-file.h"
#include "pr-book-trash.h"
#include "pr-document-diary.h"
#include "pr-error.h"
#include "pr-limits.h"
#include "pr-practice-measured.h"
#include "pr-practice-season.h"
#include "pr-practice-words.h"

struct _PrPracticeDesk {
  GObject parent_instance;
  PrDocument *doc;
  PrBook *book; /* the document's, as it was seen last; only compared */
  PrPracticeRead read;
  gpointer read_data;
  GPtrArray *classes, *season;
  PrPracticeRun *run; /* that is going; NULL: none */
  PrBookId known;     /* the run that was begun here, or said to go on */
  PrBookId stopped;   /* the run that was going last */
  guint chosen;
};

G_DEFINE_FINAL_TYPE (PrPracticeDesk, pr_practice_desk, G_TYPE_OBJECT)

enum { CHANGED, N_SIGNALS };
static guint signals[N_SIGNALS];

static PrBook *
book_of (PrPracticeDesk *desk)
{
  return pr_document_book (desk->doc);
}

static void
told (PrPracticeDesk *desk)
{
  g_signal_emit (desk, signals[CHANGED], 0);
}

static void
trouble (PrPracticeDesk *desk, GError *error)
{
  if (error)
    pr_document_trouble (desk->doc, error->message);
}

/* --- reading --- */

static void
read_season (PrPracticeDesk *desk)
{
  const PrPracticeClass *class = pr_practice_desk_class (desk);
  g_autoptr (GError) error = NULL;

  g_clear_pointer (&desk->season, g_ptr_array_unref);
  if (class && class->id != 0)
    desk->season = pr_practice_runs (book_of (desk), class->id, &error);
  if (!desk->season)
    desk->season = g_ptr_array_new ();
  trouble (desk, error);
}

/* The list anew, with CLASS chosen where it is in it. */
static void
read_all (PrPracticeDesk *desk, PrBookId class)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *classes = book_of (desk) ? pr_practice_classes (book_of (desk), &error) : NULL;

  trouble (desk, error);
  if (!classes)
    return;
  g_clear_pointer (&desk->classes, g_ptr_array_unref);
  desk->classes = classes;
  for (guint i = 0; i < classes->len; i++)
    if (class != 0 && ((PrPracticeClass *) classes->pdata[i])->id == class)
      desk->chosen = i;
  desk->chosen = MIN (desk->chosen, classes->len - 1);
  read_season (desk);
}

static PrBookId
chosen_id (PrPracticeDesk *desk)
{
  const PrPracticeClass *class = pr_practice_desk_class (desk);

  return class ? class->id : 0;
}

static void
reread (PrPracticeDesk *desk)
{
  read_all (desk, chosen_id (desk));
  told (desk);
}

/* Another book has runs of its own; without one there are none. */
static void
take_book (PrPracticeDesk *desk)
{
  g_autoptr (GError) error = NULL;

  desk->book = book_of (desk);
  desk->stopped = desk->known = 0;
  g_clear_pointer (&desk->run, pr_practice_run_free);
  g_ptr_array_set_size (desk->classes, 0);
  g_clear_pointer (&desk->season, g_ptr_array_unref);
  desk->season = g_ptr_array_new ();
  if (!desk->book)
    return;
  desk->run = pr_practice_going (desk->book, &error);
  trouble (desk, error);
  read_all (desk, desk->run ? desk->run->class : 0);
}

/* Is it the book that was looked at last? A restored one may stand where that stood, even in memory. */
static bool
is_same_book (PrPracticeDesk *desk)
{
  if (book_of (desk) != desk->book || !desk->book || !desk->run)
    return book_of (desk) == desk->book;
  g_autoptr (PrPracticeRun) now = pr_practice_going (desk->book, NULL);
  return now && now->id == desk->run->id && g_str_equal (now->started, desk->run->started);
}

static void
document_changed (PrPracticeDesk *desk, guint what)
{
  if (!is_same_book (desk)) {
    take_book (desk);
    told (desk);
  } else if (what & (PR_CHANGED_BOOK | PR_CHANGED_FORGED) && desk->book) {
    reread (desk);
  }
}

/* --- what there is --- */

PrDocument *
pr_practice_desk_document (PrPracticeDesk *desk)
{
  return desk->doc;
}

const GPtrArray *
pr_practice_desk_classes (PrPracticeDesk *desk)
{
  return desk->classes;
}

const PrPracticeClass *
pr_practice_desk_class (PrPracticeDesk *desk)
{
  return desk->chosen < desk->classes->len ? desk->classes->pdata[desk->chosen] : NULL;
}

guint
pr_practice_desk_chosen (PrPracticeDesk *desk)
{
  return desk->chosen;
}

void
pr_practice_desk_choose (PrPracticeDesk *desk, guint nr)
{
  if (nr == desk->chosen || nr >= desk->classes->len)
    return;
  desk->chosen = nr;
  read_season (desk);
  told (desk);
}

const GPtrArray *
pr_practice_desk_season (PrPracticeDesk *desk)
{
  return desk->season;
}

const PrPracticeRun *
pr_practice_desk_run (PrPracticeDesk *desk)
{
  return desk->run;
}

PrBookId
pr_practice_desk_stopped (PrPracticeDesk *desk)
{
  return desk->stopped;
}

bool
pr_practice_desk_left (PrDocument *doc)
{
  PrBook *book = pr_document_book (doc);
  g_autoptr (PrPracticeRun) run = book ? pr_practice_going (book, NULL) : NULL;

  return run != NULL;
}

void
pr_practice_desk_set_clock (PrPracticeDesk *desk, PrPracticeRead read, gpointer data)
{
  desk->read = read;
  desk->read_data = data;
}

void
pr_practice_desk_now (PrPracticeDesk *desk, PrPracticeMoment *now)
{
  if (desk->read)
    desk->read (now, desk->read_data);
  else
    pr_practice_now (now);
}

static void
know (PrPracticeDesk *desk)
{
  desk->known = desk->run->id;
}

bool
pr_practice_desk_asks (PrPracticeDesk *desk)
{
  return desk->run && desk->known != desk->run->id;
}

void
pr_practice_desk_answer (PrPracticeDesk *desk)
{
  if (desk->run)
    know (desk);
  told (desk);
}

/* --- a run --- */

/* The order of work of the open foot, and the foot. */
static void
take_foot (PrPracticeDesk *desk, PrPracticeRun *run)
{
  const PrJob *job = pr_document_job (desk->doc);
  g_autoptr (GPtrArray) order = job && job->shoe ? pr_job_order (job) : NULL;

  run->foot = job ? pr_document_foot_id (desk->doc) : 0;
  for (guint i = 0; order && i < MIN (order->len, PR_PRACTICE_MOST_STEPS); i++)
    g_ptr_array_add (run->steps, g_strdup (order->pdata[i]));
}

static char *
local_time (const PrPracticeMoment *now)
{
  g_autoptr (GDateTime) time = g_date_time_new_from_unix_local (now->wall / G_USEC_PER_SEC);

  return g_date_time_format (time, "%Y-%m-%dT%H:%M:%S");
}

bool
pr_practice_desk_start (PrPracticeDesk *desk, GError **error)
{
  const PrPracticeClass *class = pr_practice_desk_class (desk);
  PrPracticeMoment now;

  pr_practice_desk_now (desk, &now); /* what follows takes its time */
  if (desk->run) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("A run is going; stop it before you start another."));
    return false;
  }
  g_return_val_if_fail (class, false);
  g_autoptr (PrPracticeRun) run = pr_practice_run_new (class);
  g_free (run->started);
  run->started = local_time (&now);
  take_foot (desk, run);
  pr_practice_press (run, PR_PRESSED_START, &now);
  if (!pr_practice_begin (book_of (desk), run, error))
    return false;
  desk->stopped = 0;
  desk->run = g_steal_pointer (&run);
  know (desk);
  read_all (desk, desk->run->class);
  told (desk);
  return true;
}

static void
write_run (PrPracticeDesk *desk)
{
  g_autoptr (GError) error = NULL;

  pr_practice_keep (book_of (desk), desk->run, &error);
  trouble (desk, error);
}

/* It is over: the season has it. */
static void
leave_run (PrPracticeDesk *desk)
{
  PrBookId class = desk->run->class;

  desk->stopped = desk->run->id;
  g_clear_pointer (&desk->run, pr_practice_run_free);
  read_all (desk, class);
}

void
pr_practice_desk_measure (PrPracticeRun *run)
{
  pr_practice_fill_scores (run, pr_limit ("compare.off")->mend);
}

bool
pr_practice_desk_press (PrPracticeDesk *desk, PrPressedKind kind)
{
  PrPracticeMoment now;

  pr_practice_desk_now (desk, &now);
  if (!desk->run || !desk->book || !pr_practice_press (desk->run, kind, &now))
    return false;
  know (desk); /* who presses goes on */
  if (kind == PR_PRESSED_STOP)
    pr_practice_desk_measure (desk->run);
  write_run (desk);
  if (kind == PR_PRESSED_STOP)
    leave_run (desk);
  told (desk);
  return true;
}

/* The run that was stopped last is the one that is going again. */
static bool
pick_up (PrPracticeDesk *desk)
{
  desk->run = desk->stopped != 0 ? pr_practice_run (book_of (desk), desk->stopped, NULL) : NULL;
  desk->stopped = 0;
  return desk->run != NULL;
}

bool
pr_practice_desk_take_back (PrPracticeDesk *desk)
{
  if (!desk->run && !pick_up (desk))
    return false;
  if (!pr_practice_take_back (desk->run))
    return false;
  know (desk);
  write_run (desk);
  read_season (desk);
  told (desk);
  return true;
}

void
pr_practice_desk_break_off (PrPracticeDesk *desk)
{
  if (!desk->run)
    return;
  desk->run->broken = true;
  write_run (desk);
  leave_run (desk);
  desk->stopped = 0;
  told (desk);
}

/* --- what is written of it --- */

PrPracticeRun *
pr_practice_desk_look (PrPracticeDesk *desk, PrBookId id, GError **error)
{
  g_autoptr (PrPracticeRun) run = pr_practice_run (book_of (desk), id, error);

  if (!run || !pr_practice_measure (book_of (desk), run, error))
    return NULL;
  pr_practice_desk_measure (run);
  return g_steal_pointer (&run);
}

/* --- changed, deleted, and had back --- */

/* One of these, as it was. */
typedef struct {
  PrPracticeRun *run;
  GBytes *photo; /* of RUN */
  PrPracticeClass *class;
  PrBookKind kind; /* deleted, where ID is not 0 */
  PrBookId id;
} Was;

static void
was_free (gpointer data)
{
  Was *was = data;

  pr_practice_run_free (was->run);
  pr_practice_class_free (was->class);
  g_clear_pointer (&was->photo, g_bytes_unref);
  g_free (was);
}

/* Record and photo are one change. PHOTO NULL with SET takes it away. */
static bool
put_run (PrBook *book, const PrPracticeRun *run, bool set, GBytes *photo, GError **error)
{
  if (!pr_book_begin (book, error))
    return false;
  bool ok
      = pr_practice_keep (book, run, error) && (!set || pr_practice_set_photo (book, run->id, photo, error));
  return pr_book_end (book, ok, error);
}

static bool
bring_back (PrDocument *doc, gconstpointer data, GError **error)
{
  PrBook *book = pr_document_book (doc);
  const Was *was = data;

  if (was->run)
    return put_run (book, was->run, true, was->photo, error);
  if (was->class)
    return pr_practice_keep_class (book, was->class, error) != 0;
  return pr_book_bring_back (book, was->kind, was->id, error);
}

/* What is said of it: takes SENTENCE over. The book is told of, and so read anew. */
static void
done (PrPracticeDesk *desk, Was was, char *sentence)
{
  g_autofree char *owned = sentence;

  pr_document_done_elsewhere (desk->doc, bring_back, g_memdup2 (&was, sizeof was), was_free, owned);
}

bool
pr_practice_desk_keep (PrPracticeDesk *desk, const PrPracticeRun *run, GBytes *photo, GError **error)
{
  g_autoptr (PrPracticeRun) was = pr_practice_run (book_of (desk), run->id, error);
  g_autofree char *when = pr_practice_when (run);
  g_autoptr (GBytes) had = was && was->has_photo ? pr_practice_photo (book_of (desk), run->id, NULL) : NULL;

  if (!was || !put_run (book_of (desk), run, photo != NULL, photo, error))
    return false;
  done (desk, (Was){ .run = g_steal_pointer (&was), .photo = g_steal_pointer (&had) },
        g_strdup_printf (_ ("Changed: the run of %s."), when));
  return true;
}

/* As the book has it; NULL: not yet. Transfer full. */
static PrPracticeClass *
class_of (PrPracticeDesk *desk, PrBookId id)
{
  for (guint i = 0; id != 0 && i < desk->classes->len; i++)
    if (((PrPracticeClass *) desk->classes->pdata[i])->id == id)
      return pr_practice_class_copy (desk->classes->pdata[i]);
  return NULL;
}

bool
pr_practice_desk_keep_class (PrPracticeDesk *desk, const PrPracticeClass *class, GError **error)
{
  g_autoptr (PrPracticeClass) was = class_of (desk, class->id);
  PrBookId id = pr_practice_keep_class (book_of (desk), class, error);

  if (id == 0)
    return false;
  read_all (desk, id);
  if (was)
    done (desk, (Was){ .class = g_steal_pointer (&was) }, g_strdup_printf (_ ("Changed: %s."), class->name));
  else
    told (desk);
  return true;
}

/* What is said once it is deleted. Transfer full. */
static char *
sentence_of (PrPracticeDesk *desk, PrBookKind kind, PrBookId id)
{
  g_autoptr (PrPracticeClass) class = kind == PR_BOOK_CLASS ? class_of (desk, id) : NULL;
  g_autoptr (PrPracticeRun) run = kind == PR_BOOK_RUN ? pr_practice_run (book_of (desk), id, NULL) : NULL;
  g_autofree char *when = run ? pr_practice_when (run) : NULL;

  if (run)
    return g_strdup_printf (_ ("Deleted: the run of %s."), when);
  return class ? g_strdup_printf (_ ("Deleted: %s, with its runs."), pr_practice_text (class, class->name))
               : g_strdup ("");
}

static bool
is_going (PrPracticeDesk *desk, PrBookKind kind, PrBookId id)
{
  return desk->run && id == (kind == PR_BOOK_RUN ? desk->run->id : desk->run->class);
}

bool
pr_practice_desk_delete (PrPracticeDesk *desk, PrBookKind kind, PrBookId id, GError **error)
{
  g_autofree char *sentence = sentence_of (desk, kind, id);

  if (is_going (desk, kind, id)) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("A run is going; stop it before you delete it."));
    return false;
  }
  if (!pr_book_delete (book_of (desk), kind, id, error))
    return false;
  if (kind == PR_BOOK_CLASS || desk->stopped == id)
    desk->stopped = 0;
  done (desk, (Was){ .kind = kind, .id = id }, g_steal_pointer (&sentence));
  return true;
}

bool
pr_practice_desk_write_csv (PrPracticeDesk *desk, const char *file, GError **error)
{
  g_autofree char *csv = pr_season_csv (desk->season);

  return pr_atomic_file_write (file, csv, strlen (csv), error);
}

/* --- the object --- */

PrPracticeDesk *
pr_practice_desk_new (PrDocument *doc)
{
  g_return_val_if_fail (pr_document_book (doc), NULL);
  PrPracticeDesk *desk = g_object_new (PR_TYPE_PRACTICE_DESK, NULL);

  desk->doc = g_object_ref (doc);
  g_signal_connect_object (doc, "changed", G_CALLBACK (document_changed), desk, G_CONNECT_SWAPPED);
  take_book (desk);
  return desk;
}

static void
pr_practice_desk_finalize (GObject *object)
{
  PrPracticeDesk *desk = PR_PRACTICE_DESK (object);

  g_clear_object (&desk->doc);
  g_clear_pointer (&desk->classes, g_ptr_array_unref);
  g_clear_pointer (&desk->season, g_ptr_array_unref);
  g_clear_pointer (&desk->run, pr_practice_run_free);
  G_OBJECT_CLASS (pr_practice_desk_parent_class)->finalize (object);
}

static void
pr_practice_desk_init (PrPracticeDesk *desk)
{
  desk->classes = g_ptr_array_new ();
  desk->season = g_ptr_array_new ();
}

static void
pr_practice_desk_class_init (PrPracticeDeskClass *class)
{
  G_OBJECT_CLASS (class)->finalize = pr_practice_desk_finalize;
  signals[CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (class), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}
