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
#include "pr-seen-redraw.h"
#include "pr-words.h"

/* As it was before an edge was drawn anew. */
typedef struct {
  PrSeen seen;
  bool kept;
} Before;

struct _PrForged {
  PrSeen seen;
  PrTracing *sheet;
  GPtrArray *before; /* Before, the last one last */
  bool drawn;        /* on, by hand, just now */
  GBytes *photo;
  PrLay lay;
  PrComparison compared;
  bool stale; /* the plan has changed since */
  bool kept;
};

static void
before_free (Before *before)
{
  pr_seen_clear (&before->seen);
  g_free (before);
}

/* Takes what TAKE has. */
static PrForged *
forged_new (PrTake *take)
{
  PrForged *forged = g_new0 (PrForged, 1);

  forged->seen = take->seen;
  take->seen = (PrSeen){ 0 };
  forged->sheet = g_steal_pointer (&take->tracing);
  forged->photo = g_bytes_ref (take->bytes);
  forged->before = g_ptr_array_new_with_free_func ((GDestroyNotify) before_free);
  return forged;
}

void
pr_forged_free (PrForged *forged)
{
  if (!forged)
    return;
  pr_seen_clear (&forged->seen);
  g_clear_pointer (&forged->sheet, pr_tracing_free);
  g_ptr_array_unref (forged->before);
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
  pr_document_start_take (doc, take, _ ("looking for the shoe"));
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
  PrForged *forged = forged_new (take);
  g_autoptr (GError) question = NULL;

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
  pr_document_changed (doc, PR_CHANGED_FORGED | PR_CHANGED_STAGE | PR_CHANGED_HISTORY);
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
  pr_document_changed (doc, PR_CHANGED_FORGED | PR_CHANGED_STAGE | PR_CHANGED_HISTORY);
}

/* --- drawing its edges by hand --- */

const PrTracing *
pr_document_forged_sheet (PrDocument *doc)
{
  return doc->forged ? doc->forged->sheet : NULL;
}

void
pr_document_draw_forged (PrDocument *doc, bool on)
{
  if (!doc->forged || doc->forged->drawn == on)
    return;
  doc->forged->drawn = on;
  pr_document_changed (doc, PR_CHANGED_FORGED | PR_CHANGED_STAGE);
}

bool
pr_document_forged_is_drawn (PrDocument *doc)
{
  return doc->forged && doc->forged->drawn;
}

static void
keep_before (PrForged *forged)
{
  Before *before = g_new0 (Before, 1);

  before->seen = forged->seen;
  before->kept = forged->kept;
  forged->seen = (PrSeen){ 0 };
  g_ptr_array_add (forged->before, before);
}

bool
pr_document_redraw_forged (PrDocument *doc, const PrSheetPt *stroke, size_t n, GError **error)
{
  PrForged *forged = doc->forged;
  g_auto (PrSeen) seen = { 0 };
  g_auto (PrComparison) compared = { 0 };

  g_return_val_if_fail (forged && !doc->start, false);
  pr_seen_copy (&seen, &forged->seen);
  if (!pr_seen_redraw (&seen, stroke, n, error)
      || !pr_compare (&compared, doc->job, &seen, forged->lay, error))
    return false;
  keep_before (forged);
  forged->seen = seen;
  seen = (PrSeen){ 0 };
  forged->stale = true;
  forged->kept = false;
  doc->deleted = (PrDeleted){ 0 };
  pr_document_forget_described (doc);
  pr_document_changed (doc, PR_CHANGED_FORGED | PR_CHANGED_HISTORY);
  return true;
}

bool
pr_document_forged_was_redrawn (PrDocument *doc)
{
  return doc->forged && doc->forged->before->len > 0;
}

void
pr_document_forget_redrawn (PrDocument *doc)
{
  if (doc->forged)
    g_ptr_array_set_size (doc->forged->before, 0);
}

void
pr_document_undo_redrawn (PrDocument *doc)
{
  PrForged *forged = doc->forged;
  Before *before = g_ptr_array_steal_index (forged->before, forged->before->len - 1);

  pr_seen_clear (&forged->seen);
  forged->seen = before->seen;
  forged->kept = before->kept;
  g_free (before);
  forged->stale = true;
  pr_document_changed (doc, PR_CHANGED_FORGED | PR_CHANGED_HISTORY);
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

  return g_strdup_printf (_ ("%s: an edge off by %s at most"), day, off);
}
