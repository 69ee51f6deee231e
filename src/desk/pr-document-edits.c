/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole edits of the shoe, each one undo step: styles and locks, offers, bars, walls, the order of work,
 * and shoes taken from another foot or visit. */
#include "pr-document-private.h"

#include <glib/gi18n-lib.h>
#include "pr-document-diary.h"
#include "pr-error.h"
#include "pr-places.h"
#include "pr-record.h"
#include "pr-shoe-edge.h"
#include "pr-words.h"

/* --- single figures --- */

/* TEXT into PARAM of PLAN; an error calls the parameter by its label. */
static bool
typed (PrPlan *plan, const PrParam *param, const char *text, PrUnit unit, GError **error)
{
  g_autofree char *label = pr_param_label (param);

  return pr_param_set_text (plan, param, label, text, unit, error);
}

bool
pr_document_set_text (PrDocument *doc, const char *name, const char *value, GError **error)
{
  const PrParam *param = pr_param_find (name);
  PrPlan before;
  bool done;

  g_return_val_if_fail (doc->job && param, false);
  before = doc->job->sources.plan;
  pr_document_begin (doc);
  done = typed (&doc->job->sources.plan, param, value, doc->unit, error);
  if (done)
    pr_plan_follow_toe (&doc->job->sources.plan, &before);
  return pr_document_finish (doc, done && pr_job_refresh (doc->job, error), PR_CHANGED_PLAN, NULL);
}

bool
pr_document_set_section (PrDocument *doc, const char *value, GError **error)
{
  const PrParam *const param[2] = { pr_param_find ("stock.width"), pr_param_find ("stock.thickness") };
  PrPlan plan;
  double mm[2];

  g_return_val_if_fail (doc->job, false);
  if (!pr_section_parse (value, doc->unit, &mm[0], &mm[1], error))
    return false;
  plan = doc->job->sources.plan;
  for (int i = 0; i < 2; i++) {
    char digits[G_ASCII_DTOSTR_BUF_SIZE];
    g_autofree char *text = g_strconcat (g_ascii_dtostr (digits, sizeof digits, mm[i]), "mm", NULL);

    if (!typed (&plan, param[i], text, PR_UNIT_MM, error))
      return false;
  }
  return pr_document_take_bar (doc, plan.stock_width, plan.stock_thick, error);
}

bool
pr_document_fit (PrDocument *doc, GError **error)
{
  g_return_val_if_fail (doc->job, false);
  pr_document_begin (doc);
  return pr_document_finish (doc, pr_job_fit (doc->job, error), PR_CHANGED_PLAN, NULL);
}

void
pr_document_tell_taken (PrFoot foot, GError **error)
{
  g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
               _ ("This visit has a %s already; choose another foot, or put this photo into a new visit."),
               pr_foot_name (foot));
}

bool
pr_document_is_taken (PrDocument *doc, PrFoot foot)
{
  PrBookId there = doc->book && doc->foot && foot != PR_FOOT_ANY ? pr_document_visit_foot (doc, foot) : 0;

  return there != 0 && there != doc->foot;
}

/* A foot turned round has its branches on the other sides: the shoe is fitted anew. */
static bool
become (PrDocument *doc, PrFoot foot, GError **error)
{
  pr_document_begin (doc);
  doc->job->sources.foot = foot;
  return pr_document_finish (doc, pr_job_refresh_hoof (doc->job, error) && pr_job_fit (doc->job, error),
                             PR_CHANGED_HOOF | PR_CHANGED_PLAN, NULL);
}

bool
pr_document_set_foot (PrDocument *doc, PrFoot foot, GError **error)
{
  g_return_val_if_fail (doc->job, false);
  if (doc->job->sources.foot == foot)
    return true;
  if (pr_document_is_taken (doc, foot)) {
    pr_document_tell_taken (foot, error);
    return false;
  }
  return become (doc, foot, error);
}

/* From where to where a foot went. */
typedef struct {
  PrBookId foot, from, to;
  bool made;
} Moved;

static bool
move_back (PrDocument *doc, gconstpointer was, GError **error)
{
  const Moved *moved = was;

  if (!pr_book_move_foot (doc->book, moved->foot, moved->from, error))
    return false;
  doc->visit = moved->from;
  pr_document_undo (doc); /* that it became another foot is the last step of its own */
  return !moved->made || !pr_places_is_empty (doc->book, moved->to)
         || pr_book_remove_visit (doc->book, moved->to, error);
}

/* The open foot is in another visit from now on. */
static bool
move_open_foot (PrDocument *doc, Moved *moved, GError **error)
{
  if (!pr_book_begin (doc->book, error))
    return false;
  moved->to = pr_places_empty_visit (doc->book, doc->horse, &moved->made, error);
  if (!pr_book_end (doc->book, moved->to && pr_book_move_foot (doc->book, moved->foot, moved->to, error),
                    error))
    return false;
  doc->visit = moved->to;
  return true;
}

bool
pr_document_move_to_new_visit (PrDocument *doc, PrFoot foot, GError **error)
{
  Moved moved = { .foot = doc->foot, .from = doc->visit };
  g_autofree char *day = NULL, *horse = NULL, *sentence = NULL;

  g_return_val_if_fail (doc->job && doc->book && doc->foot && doc->job->sources.foot != foot, false);
  if (!pr_document_may_write (doc) || !move_open_foot (doc, &moved, error))
    return false;
  if (!become (doc, foot, error)) {
    doc->visit = moved.from;
    pr_book_move_foot (doc->book, moved.foot, moved.from, NULL);
    return false;
  }
  pr_places_words (doc->book, moved.to, &day, &horse);
  /* translators: the foot; the date of the visit; the horse */
  sentence = g_strdup_printf (_ ("The %s is in a new visit now: %s, %s."), pr_foot_name (foot), day, horse);
  pr_document_done_elsewhere (doc, move_back, g_memdup2 (&moved, sizeof moved), g_free, sentence);
  return true;
}

bool
pr_document_find_marks (PrDocument *doc, GError **error)
{
  g_return_val_if_fail (doc->job, false);
  pr_document_begin (doc);
  doc->job->sources.marks = (PrLandmarks){ 0 };
  return pr_document_finish (doc, pr_job_refresh_hoof (doc->job, error), PR_CHANGED_HOOF | PR_CHANGED_PLAN,
                             NULL);
}

/* --- styles and locks --- */

bool
pr_document_set_style (PrDocument *doc, const PrStyle *style, GError **error)
{
  g_return_val_if_fail (doc->job, false);
  pr_document_begin (doc);
  pr_job_apply_style (doc->job, style, &doc->job->sources.plan);
  return pr_document_finish (doc, pr_job_fit (doc->job, error), PR_CHANGED_PLAN, NULL);
}

PrJob *
pr_document_try_style (PrDocument *doc, const PrStyle *style)
{
  g_return_val_if_fail (pr_document_has_line (doc), NULL);
  g_autoptr (PrJob) job = pr_job_copy (doc->job);

  pr_job_apply_style (job, style, &job->sources.plan);
  return pr_job_fit (job, NULL) ? g_steal_pointer (&job) : NULL;
}

void
pr_document_set_locks (PrDocument *doc, guint64 locks, bool on)
{
  g_return_if_fail (doc->job);
  pr_document_begin (doc);
  if (on)
    doc->job->sources.plan.locks |= locks;
  else
    doc->job->sources.plan.locks &= ~locks;
  pr_document_finish (doc, true, PR_CHANGED_PLAN, NULL);
}

/* --- offers and bars --- */

bool
pr_document_take_offer (PrDocument *doc, const char *id, GError **error)
{
  PrJob *job = doc->job;
  PrPlan next;

  g_return_val_if_fail (job, false);
  if (!pr_offer_apply (id, &job->hoof, &job->sources.plan, job->shoe, &job->iron, &next)) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("This cannot be fixed automatically here; change the shoe by hand."));
    return false;
  }
  pr_document_begin (doc);
  job->sources.plan = next;
  return pr_document_finish (doc, pr_job_refresh (job, error), PR_CHANGED_PLAN, NULL);
}

bool
pr_document_take_bar (PrDocument *doc, double width, double thickness, GError **error)
{
  g_return_val_if_fail (doc->job, false);
  pr_document_begin (doc);
  pr_document_forget_usual (doc);
  return pr_document_finish (doc, pr_job_take_bar (doc->job, width, thickness, error), PR_CHANGED_PLAN, NULL);
}

/* --- the hoof's wall --- */

bool
pr_document_set_wall (PrDocument *doc, int which, double mm, GError **error)
{
  PrJob *job = doc->job;
  double least_mm, most_mm;

  g_return_val_if_fail (job && which >= 0 && which < 3, false);
  if (mm != 0 && !pr_hoof_takes_wall (&job->hoof, mm, &least_mm, &most_mm)) {
    g_autofree char *least = pr_words_length (least_mm, doc->unit);
    g_autofree char *most = pr_words_length (most_mm, doc->unit);

    g_set_error (error, PR_ERROR, PR_ERROR_INPUT, _ ("A wall is between %s and %s thick; measure it again."),
                 least, most);
    return false;
  }
  if (job->sources.wall[which] == mm)
    return true; /* typed again: no step */
  pr_document_begin (doc);
  job->sources.wall[which] = mm;
  return pr_document_finish (doc, pr_job_refresh_hoof (job, error) && pr_job_fit (job, error),
                             PR_CHANGED_HOOF | PR_CHANGED_PLAN, NULL);
}

/* --- order of work --- */

void
pr_document_set_heats (PrDocument *doc, const char *heats)
{
  g_return_if_fail (doc->job);
  if (g_str_equal (doc->job->sources.plan.heats, heats))
    return;
  pr_document_begin (doc);
  pr_plan_set_heats (&doc->job->sources.plan, heats);
  pr_document_finish (doc, true, PR_CHANGED_PLAN, NULL);
}

void
pr_document_set_order (PrDocument *doc, const char *order)
{
  g_return_if_fail (doc->job);
  if (g_strcmp0 (doc->job->sources.order, order) == 0)
    return;
  pr_document_begin (doc);
  g_free (doc->job->sources.order);
  doc->job->sources.order = g_strdup (order);
  pr_document_finish (doc, true, PR_CHANGED_PLAN, order ? "order" : NULL);
}

/* --- another foot, another visit --- */

/* The visit of the foot that is open, which need not be the one chosen in the book; 0 without a book. */
static PrBookId
own_visit (PrDocument *doc)
{
  g_auto (PrBookFoot) row = { 0 };
  bool there = doc->book && doc->foot && pr_book_get_foot (doc->book, doc->foot, &row, NULL, NULL, NULL);

  return there ? row.visit : 0;
}

/* The plan of the book's foot FROM in place of what stands, fitted to the hoof that is open. Numbers alone:
 * the foot frame has no left and right. The bar in hand goes with them. */
static bool
take_plan (PrDocument *doc, PrBookId from, GError **error)
{
  PrPlan plan;

  if (!pr_record_plan (doc->book, from, &plan)) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_BOOK,
                         _ ("That shoe cannot be read from the book; choose a style instead."));
    return false;
  }
  pr_document_begin (doc);
  doc->job->sources.plan = plan;
  return pr_document_finish (doc, pr_job_fit (doc->job, error), PR_CHANGED_PLAN, NULL);
}

bool
pr_document_take_other (PrDocument *doc, GError **error)
{
  g_autofree char *sentence = NULL;
  PrFoot own, other;
  PrBookId from;

  g_return_val_if_fail (pr_document_has_line (doc), false);
  own = doc->job->sources.foot;
  other = pr_foot_opposite (own);
  if (other == PR_FOOT_ANY) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("Say first which foot this is, in the part “Tracing”."));
    return false;
  }
  from = doc->book ? pr_record_find (doc->book, own_visit (doc), other, PR_PART_PLAN) : 0;
  if (!from) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("The %s has no shoe in this visit yet; plan it first, or choose a style here."),
                 pr_foot_name (other));
    return false;
  }
  if (!take_plan (doc, from, error))
    return false;
  /* translators: "The near fore's shoe is now on the off fore ..." */
  sentence = g_strdup_printf (_ ("The shoe of the %s now lies on the %s, fitted to its outline."),
                              pr_foot_name (other), pr_foot_name (own));
  pr_document_done (doc, sentence);
  return true;
}

bool
pr_document_take_last_visit (PrDocument *doc, GError **error)
{
  PrBookId own, from;

  g_return_val_if_fail (pr_document_has_line (doc), false);
  own = own_visit (doc);
  from = own ? pr_record_earlier (doc->book, doc->horse, own, doc->job->sources.foot) : 0;
  if (!from) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("No earlier visit has a shoe for the %s; choose a style instead."),
                 pr_foot_name (doc->job->sources.foot));
    return false;
  }
  if (!take_plan (doc, from, error))
    return false;
  pr_document_done (doc, _ ("The shoe of the last visit now lies on this foot, fitted to its outline."));
  return true;
}
