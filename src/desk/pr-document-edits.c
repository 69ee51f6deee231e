/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole edits of the shoe, each one undo step: styles and locks, offers, bars, walls, the order of work,
 * and shoes taken from another foot or visit. */
#include "pr-document-private.h"

#include <glib/gi18n-lib.h>
#include "pr-error.h"
#include "pr-words.h"

#define WALL_LEAST_MM 3.0 /* thinner than any wall a nail can hold in */
#define WALL_MOST_MM 25.0 /* half as much again as the thickest published */

/* --- styles and locks --- */

bool
pr_document_set_style (PrDocument *doc, const PrStyle *style, GError **error)
{
  g_return_val_if_fail (doc->job, false);
  pr_document_begin (doc);
  pr_style_apply (style, &doc->job->plan);
  return pr_document_finish (doc, pr_job_fit (doc->job, error), PR_CHANGED_PLAN, NULL);
}

void
pr_document_set_locks (PrDocument *doc, guint64 locks, bool on)
{
  g_return_if_fail (doc->job);
  pr_document_begin (doc);
  if (on)
    doc->job->plan.locks |= locks;
  else
    doc->job->plan.locks &= ~locks;
  pr_document_finish (doc, true, PR_CHANGED_PLAN, NULL);
}

/* --- offers and bars --- */

bool
pr_document_take_offer (PrDocument *doc, const char *id, GError **error)
{
  PrJob *job = doc->job;
  PrPlan next;

  g_return_val_if_fail (job, false);
  if (!pr_offer_apply (id, &job->hoof, &job->plan, job->shoe, &job->iron, &next)) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("This cannot be mended by itself here; change the shoe by hand."));
    return false;
  }
  pr_document_begin (doc);
  job->plan = next;
  return pr_document_finish (doc, pr_job_refresh (job, error), PR_CHANGED_PLAN, NULL);
}

bool
pr_document_take_bar (PrDocument *doc, double width, double thickness, GError **error)
{
  g_return_val_if_fail (doc->job, false);
  pr_document_begin (doc);
  doc->job->plan.stock_width = width;
  doc->job->plan.stock_thick = thickness;
  return pr_document_finish (doc, pr_job_refresh (doc->job, error), PR_CHANGED_PLAN, NULL);
}

/* --- the hoof's wall --- */

bool
pr_document_set_wall (PrDocument *doc, int which, double mm, GError **error)
{
  PrJob *job = doc->job;

  g_return_val_if_fail (job && which >= 0 && which < 3, false);
  if (mm != 0 && !(mm >= WALL_LEAST_MM && mm <= WALL_MOST_MM)) {
    g_autofree char *least = pr_words_length (WALL_LEAST_MM, doc->unit);
    g_autofree char *most = pr_words_length (WALL_MOST_MM, doc->unit);

    g_set_error (error, PR_ERROR, PR_ERROR_INPUT, _ ("A wall is between %s and %s thick; measure it again."),
                 least, most);
    return false;
  }
  pr_document_begin (doc);
  job->wall[which] = mm;
  return pr_document_finish (doc, pr_job_refresh_hoof (job, error) && pr_job_fit (job, error),
                             PR_CHANGED_HOOF | PR_CHANGED_PLAN, NULL);
}

/* --- order of work --- */

void
pr_document_set_order (PrDocument *doc, const char *order)
{
  g_return_if_fail (doc->job);
  if (g_strcmp0 (doc->job->order, order) == 0)
    return;
  pr_document_begin (doc);
  g_free (doc->job->order);
  doc->job->order = g_strdup (order);
  pr_document_finish (doc, true, PR_CHANGED_PLAN, order ? "order" : NULL);
}

/* --- another foot, another visit --- */

static PrFoot
opposite (PrFoot foot)
{
  switch (foot) {
  case PR_FOOT_LF:
    return PR_FOOT_RF;
  case PR_FOOT_RF:
    return PR_FOOT_LF;
  case PR_FOOT_LH:
    return PR_FOOT_RH;
  case PR_FOOT_RH:
    return PR_FOOT_LH;
  default:
    return PR_FOOT_ANY;
  }
}

/* The visit of the foot that is open, which need not be the one chosen in the book; 0 without a book. */
static PrBookId
own_visit (PrDocument *doc)
{
  g_auto (PrBookFoot) row = { 0 };

  return doc->book && doc->foot && pr_book_get_foot (doc->book, doc->foot, &row, NULL, NULL, NULL) ? row.visit
                                                                                                   : 0;
}

/* The foot FOOT of a visit that has a tracing; 0 when there is none. */
static PrBookId
traced_foot (PrBook *book, PrBookId visit, PrFoot foot)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (book, visit, NULL);

  for (guint i = 0; feet && i < feet->len; i++) {
    const PrBookFoot *row = g_ptr_array_index (feet, i);
    g_autofree char *trace = row->foot == foot ? pr_book_get_trace (book, row->id, NULL) : NULL;

    if (trace)
      return row->id;
  }
  return 0;
}

/* PLAN in place of what stands, fitted to the hoof that is open. */
static bool
take_plan (PrDocument *doc, const PrPlan *plan, GError **error)
{
  pr_document_begin (doc);
  doc->job->plan = *plan;
  return pr_document_finish (doc, pr_job_fit (doc->job, error), PR_CHANGED_PLAN, NULL);
}

/* Numbers alone: the foot frame has no left and right. The bar in hand goes with them. */
bool
pr_document_copy_to_other (PrDocument *doc, GError **error)
{
  PrFoot other;
  PrBookId id, visit;
  PrPlan plan;

  g_return_val_if_fail (doc->job, false);
  other = opposite (doc->job->foot);
  if (other == PR_FOOT_ANY) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("Tell first which foot this is, in the part “Tracing”."));
    return false;
  }
  visit = own_visit (doc);
  id = visit ? traced_foot (doc->book, visit, other) : 0;
  if (!id) {
    g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
                 _ ("The %s has no tracing in this visit yet; open a photo of it first."),
                 pr_foot_name (other));
    return false;
  }
  plan = doc->job->plan;
  return pr_document_open_foot (doc, id, error) && take_plan (doc, &plan, error);
}

/* The plan of FOOT in VISIT. */
static bool
plan_of (PrBook *book, PrBookId visit, PrFoot foot, PrPlan *plan)
{
  g_autoptr (GPtrArray) feet = pr_book_feet (book, visit, NULL);

  for (guint i = 0; feet && i < feet->len; i++) {
    const PrBookFoot *row = g_ptr_array_index (feet, i);
    g_autofree char *text
        = row->foot == foot && row->has_plan ? pr_book_get_plan (book, row->id, NULL) : NULL;
    g_autoptr (JsonNode) node = text ? json_from_string (text, NULL) : NULL;

    if (node && pr_plan_from_json (plan, node, NULL))
      return true;
  }
  return false;
}

bool
pr_document_take_last_visit (PrDocument *doc, GError **error)
{
  g_autoptr (GPtrArray) visits
      = doc->book && doc->horse ? pr_book_visits (doc->book, doc->horse, NULL) : NULL;
  PrBookId own;
  bool earlier = false;
  PrPlan plan;

  g_return_val_if_fail (doc->job, false);
  own = own_visit (doc);
  plan = doc->job->plan;
  for (guint i = 0; visits && i < visits->len; i++) { /* newest first */
    const PrBookVisit *visit = g_ptr_array_index (visits, i);

    if (earlier && plan_of (doc->book, visit->id, doc->job->foot, &plan))
      return take_plan (doc, &plan, error);
    earlier |= visit->id == own;
  }
  g_set_error (error, PR_ERROR, PR_ERROR_INPUT,
               _ ("No earlier visit has a shoe for the %s; choose a style instead."),
               pr_foot_name (doc->job->foot));
  return false;
}
