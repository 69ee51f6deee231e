/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-document-forged.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include "pr-compare-json.h"
#include "pr-compare.h"
#include "pr-document-private.h"
#include "pr-error.h"
#include "pr-forged-text.h"
#include "pr-json.h"
#include "pr-own.h"
#include "pr-words.h"

struct _PrForged {
  PrSeen seen;
  GBytes *photo;
  PrLay lay;
  PrComparison compared;
  bool stale; /* the plan has changed since */
  bool kept;
};

void
pr_forged_free (PrForged *forged)
{
  if (!forged)
    return;
  pr_seen_clear (&forged->seen);
  pr_comparison_clear (&forged->compared);
  g_bytes_unref (forged->photo);
  g_free (forged);
}

void
pr_document_forged_is_stale (PrDocument *doc)
{
  if (doc->forged)
    doc->forged->stale = true;
}

static void
told (PrDocument *doc)
{
  pr_document_changed (doc, PR_CHANGED_FORGED);
}

/* --- taking it --- */

/* TAKE transfer full. */
static void
look_for_shoe (PrDocument *doc, PrTake *take, const PrSeenOptions *how)
{
  take->into = doc->foot;
  take->how = *how;
  pr_intake_start (doc->intake, take, _ ("looking for the shoe"));
}

void
pr_document_take_forged (PrDocument *doc, GFile *file, const PrSeenOptions *how)
{
  g_return_if_fail (pr_document_has_line (doc));
  look_for_shoe (doc, pr_take_of_file (PR_TAKE_SHOE, file), how);
}

void
pr_document_take_forged_received (PrDocument *doc, const PrReceived *photo, const PrSeenOptions *how)
{
  g_return_if_fail (pr_document_has_line (doc));
  look_for_shoe (doc, pr_take_of_bytes (PR_TAKE_SHOE, photo->bytes, photo->name), how);
}

bool
pr_document_put_shoe (PrDocument *doc, PrTake *take, GError **error)
{
  PrForged *forged = g_new0 (PrForged, 1);
  g_autoptr (GError) question = NULL;

  forged->seen = take->seen;
  take->seen = (PrSeen){ 0 };
  forged->photo = g_bytes_ref (take->bytes);
  if (!pr_document_has_line (doc) || take->into != doc->foot) { /* another foot was opened meanwhile */
    pr_forged_free (forged);
    return true;
  }
  if (!pr_compare (&forged->compared, doc->job, &forged->seen, forged->lay, error)) {
    pr_forged_free (forged);
    return false;
  }
  pr_forged_free (doc->forged);
  doc->forged = forged;
  told (doc);
  if (!pr_compare_ask (&forged->compared, &question))
    pr_document_trouble (doc, question->message);
  return true;
}

/* --- looking at it --- */

/* Laid on the plan as that is now; what can no longer be compared is left. */
static void
lay_again (PrDocument *doc)
{
  PrForged *forged = doc->forged;
  g_autoptr (GError) error = NULL;

  if (!forged || !forged->stale || pr_document_editing (doc))
    return;
  forged->stale = false;
  if (pr_compare (&forged->compared, doc->job, &forged->seen, forged->lay, &error))
    return;
  pr_forged_free (g_steal_pointer (&doc->forged));
  pr_document_trouble (doc, error->message);
}

const PrComparison *
pr_document_forged (PrDocument *doc)
{
  lay_again (doc);
  return doc->forged ? &doc->forged->compared : NULL;
}

const PrSeen *
pr_document_forged_seen (PrDocument *doc)
{
  return doc->forged ? &doc->forged->seen : NULL;
}

void
pr_document_lay_forged (PrDocument *doc, PrLay lay)
{
  if (!doc->forged || doc->forged->lay == lay)
    return;
  doc->forged->lay = lay;
  doc->forged->stale = true;
  told (doc);
}

void
pr_document_leave_forged (PrDocument *doc)
{
  if (!doc->forged)
    return;
  pr_forged_free (g_steal_pointer (&doc->forged));
  told (doc);
}

/* --- keeping it --- */

bool
pr_document_forged_is_kept (PrDocument *doc)
{
  return doc->forged && doc->forged->kept;
}

/* The worst that either edge is off, where the photo is sure. */
static double
worst_off (const PrComparison *c)
{
  double outer = fabs (c->sum[PR_SEEN_OUTER].max), inner = fabs (c->sum[PR_SEEN_INNER].max);

  return fmax (isfinite (outer) ? outer : 0, isfinite (inner) ? inner : 0);
}

bool
pr_document_keep_forged (PrDocument *doc, const PrBookAttempt *told_by, GError **error)
{
  const PrComparison *c = pr_document_forged (doc);
  g_autofree char *today = pr_words_today ();
  PrBookAttempt attempt = *told_by;
  PrBookId id;

  g_return_val_if_fail (c && doc->book && doc->foot, false);
  g_autoptr (JsonNode) node = pr_compare_json (c, &doc->forged->seen, NULL);
  g_autofree char *json = pr_json_text (node, false);
  pr_own_describe (doc->job, c, &attempt.forged);
  attempt.foot = doc->foot;
  attempt.date = today;
  attempt.off_mm = worst_off (c);
  if (!pr_book_begin (doc->book, error))
    return false;
  id = pr_book_add_attempt (doc->book, &attempt, doc->forged->photo, error);
  if (!pr_book_end (doc->book, id && pr_book_set_compared (doc->book, id, json, error), error))
    return false;
  doc->forged->kept = true;
  told (doc);
  return true;
}

GPtrArray *
pr_document_attempts (PrDocument *doc)
{
  GPtrArray *attempts = doc->book && doc->foot ? pr_book_attempts (doc->book, doc->foot, NULL) : NULL;

  return attempts ? attempts : g_ptr_array_new_with_free_func ((GDestroyNotify) pr_book_attempt_free);
}

static bool
read_own (PrDocument *doc, PrOwnFigures *own)
{
  return doc->book && pr_document_has_line (doc) && pr_own_read (doc->book, doc->job, own, NULL);
}

char *
pr_document_own_bar (PrDocument *doc)
{
  PrOwnFigures own;

  return read_own (doc, &own) ? pr_own_text (doc->job, &own) : NULL;
}

bool
pr_document_uses_own (PrDocument *doc)
{
  return doc->job && doc->job->sources.plan.own_more != 0;
}

bool
pr_document_use_own (PrDocument *doc, bool use, GError **error)
{
  PrOwnFigures own;
  double more = 0;

  g_return_val_if_fail (pr_document_has_line (doc), false);
  if (use && !(read_own (doc, &own) && pr_own_more (doc->job, &own, &more))) {
    g_set_error_literal (error, PR_ERROR, PR_ERROR_INPUT,
                         _ ("Your shoes so far are no measure of this one; cut by the model."));
    return false;
  }
  pr_document_begin (doc);
  doc->job->sources.plan.own_more = more;
  return pr_document_finish (doc, pr_job_refresh (doc->job, error), PR_CHANGED_PLAN, NULL);
}

char *
pr_document_attempt_words (PrDocument *doc, const PrBookAttempt *attempt)
{
  g_autofree char *day = pr_words_date (attempt->date), *off = pr_off_text (attempt->off_mm, doc->unit);

  return g_strdup_printf (_ ("%s: off by %s at most"), day, off);
}
