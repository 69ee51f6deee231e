/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The open foot's photo worked on: its scale marked, traced once more, its line drawn by hand. */
#include "pr-document-marking.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include "pr-document-private.h"
#include "pr-redraw.h"

/* Papers whose sides' ratios are no further apart (logarithm) may be taken for each other, seen slantwise: A4 and
 * Letter are by 0.088, A4 and Tabloid by 0.089. */
#define PAPER_ALIKE 0.1

/* --- marking --- */

const PrMarking *
pr_document_marking (PrDocument *doc)
{
  return doc->marking;
}

void
pr_document_leave_marking (PrDocument *doc)
{
  if (!doc->marking)
    return;
  pr_document_stop (doc);
  g_clear_pointer (&doc->marking, pr_marking_free);
  pr_document_changed (doc, PR_CHANGED_STAGE);
}

void
pr_document_use_marks (PrDocument *doc, const PrTraceOptions *options)
{
  g_return_if_fail (doc->marking);
  pr_document_start_take (doc, pr_take_again (doc->marking->take, options), _ ("laying the sheet flat"));
}

/* --- the open foot's photo once more --- */

const PrTraceOptions *
pr_document_asked (PrDocument *doc)
{
  static const PrTraceOptions usual = PR_TRACE_OPTIONS_DEFAULT;

  return doc->job ? &doc->job->sources.asked : &usual;
}

static PrTake *
take_kept_or_tell (PrDocument *doc, PrTakeKind kind)
{
  PrTake *take = pr_document_take_kept (doc, kind);

  if (!take)
    pr_document_trouble (doc, _ ("There is no photo kept with this foot; open it again."));
  return take;
}

void
pr_document_mark_scale (PrDocument *doc)
{
  PrTake *take = take_kept_or_tell (doc, PR_TAKE_LOOK);

  if (take)
    pr_document_start_take (doc, take, _ ("reading the photo"));
}

void
pr_document_trace_again (PrDocument *doc, const PrTraceOptions *options)
{
  PrTake *take = take_kept_or_tell (doc, PR_TAKE_TRACE);

  if (!take)
    return;
  take->options = *options;
  pr_document_start_take (doc, take, _ ("finding the outline"));
}

/* Corners of a paper marked by hand; its sides follow the choice. */
static void
mark_paper (PrTraceOptions *options, PrPaper paper)
{
  double w, h;

  if (options->method != PR_SCALE_RECT || options->n_points != 4 || options->paper == PR_PAPER_UNKNOWN)
    return;
  bool across = options->side_mm[0] > options->side_mm[1];
  pr_paper_size (paper, &w, &h);
  options->side_mm[0] = across ? h : w;
  options->side_mm[1] = across ? w : h;
}

void
pr_document_take_paper (PrDocument *doc, PrPaper paper)
{
  PrTraceOptions options = *pr_document_asked (doc);

  mark_paper (&options, paper);
  options.paper = paper;
  options.paper_sure = true;
  pr_document_trace_again (doc, &options);
}

void
pr_document_trust (PrDocument *doc, PrTrust trust)
{
  PrTraceOptions options = *pr_document_asked (doc);

  options.trust = trust;
  pr_document_trace_again (doc, &options);
}

bool
pr_document_wants_paper (PrDocument *doc)
{
  const PrScale *scale = doc->job ? pr_sources_scale (&doc->job->sources) : NULL;

  return scale && (scale->question == PR_QUESTION_PAPER || scale->by_shape);
}

size_t
pr_document_papers (PrDocument *doc, PrPaper paper[PR_N_PAPERS], double foot[PR_N_PAPERS])
{
  const PrScale *scale = doc->job ? pr_sources_scale (&doc->job->sources) : NULL;
  size_t n = 0;

  if (!scale || scale->paper >= PR_N_PAPERS || !pr_document_has_line (doc))
    return 0;
  double w, h,
      ratio = log (fmax (scale->width_mm, scale->height_mm) / fmin (scale->width_mm, scale->height_mm));
  double area = scale->width_mm * scale->height_mm;
  for (PrPaper p = 0; p < PR_N_PAPERS; p++) {
    pr_paper_size (p, &w, &h);
    if (fabs (log (h / w) - ratio) > PAPER_ALIKE)
      continue;
    paper[n] = p;
    foot[n++] = doc->job->hoof.width * sqrt (w * h / area);
  }
  return n;
}

/* The line that stands, on the sheet as it is measured now. */
static void
carry_line (const PrTracing *from, PrTracing *to)
{
  pr_tracing_set_line (to, from->outline, from->n_outline, from->closed);
  for (size_t i = 0; i < to->n_outline; i++)
    to->outline[i] = pr_camera_to_sheet (&to->camera, pr_camera_to_photo (&from->camera, to->outline[i]));
}

bool
pr_document_fit_or_first (PrDocument *doc, GError **error)
{
  PrPlan none;

  if (!pr_document_has_line (doc))
    return true;
  pr_plan_init (&none);
  return pr_plan_equal (&doc->job->sources.plan, &none)
             ? pr_document_first_plan (doc, doc->job, doc->horse, error)
             : pr_job_fit (doc->job, error);
}

bool
pr_document_put_again (PrDocument *doc, PrTake *take, GError **error)
{
  PrTracing *tracing = g_steal_pointer (&take->tracing);
  bool found = tracing->outline != NULL, had = pr_document_has_line (doc);

  if (!found && had && pr_sources_scale (&doc->job->sources))
    carry_line (doc->job->sources.tracing, tracing);
  pr_document_keep_line (doc->job->sources.tracing, tracing);
  pr_document_begin (doc);
  doc->job->sources.asked = take->options;
  if (!pr_document_finish (
          doc, pr_job_take_tracing (doc->job, tracing, error) && pr_document_fit_or_first (doc, error),
          had ? PR_CHANGED_HOOF | PR_CHANGED_PLAN | PR_CHANGED_PHOTO : PR_CHANGED_ALL, NULL))
    return false;
  g_clear_pointer (&doc->marking, pr_marking_free);
  g_free (doc->bare_why);
  doc->bare_why = g_steal_pointer (&take->why);
  pr_document_changed (doc, had ? PR_CHANGED_STAGE | PR_CHANGED_BOOK : PR_CHANGED_ALL);
  if (!found && had)
    pr_document_trouble (doc,
                         _ ("The new scale is used, but no outline was found; the earlier outline is kept."));
  else if (!had && pr_document_has_line (doc) && doc->job->sources.foot == PR_FOOT_ANY)
    pr_document_ask_foot (doc);
  return true;
}

/* --- drawing --- */

const PrTracing *
pr_document_bare (PrDocument *doc, const char **why)
{
  if (why)
    *why = doc->bare_why;
  return doc->job && !pr_document_has_line (doc) ? doc->job->sources.tracing : NULL;
}

/* The first line of a photo without one: from here on it is a foot like any other. */
static bool
draw_first (PrDocument *doc, const PrSheetPt *stroke, size_t n, bool to_ink, GError **error)
{
  PrJob *job = doc->job;
  bool ok;

  pr_document_begin (doc);
  ok = pr_tracing_outline_by_hand (job->sources.tracing, stroke, n, to_ink, error)
       && pr_job_refresh_hoof (job, error) && pr_document_fit_or_first (doc, error);
  if (!pr_document_finish (doc, ok, PR_CHANGED_ALL, NULL))
    return false;
  if (job->sources.foot == PR_FOOT_ANY)
    pr_document_ask_foot (doc);
  return true;
}

bool
pr_document_draw_line (PrDocument *doc, const PrSheetPt *stroke, size_t n, bool to_ink, GError **error)
{
  PrJob *job = doc->job;

  g_return_val_if_fail (job && job->sources.tracing && !doc->start, false);
  if (!pr_document_has_line (doc))
    return draw_first (doc, stroke, n, to_ink, error);
  pr_document_begin (doc); /* remembers what stands, doubts too */
  return pr_document_finish (doc,
                             pr_tracing_redraw (job->sources.tracing, stroke, n, to_ink, error)
                                 && pr_job_refresh_hoof (job, error) && pr_job_fit (job, error),
                             PR_CHANGED_HOOF | PR_CHANGED_PLAN, NULL);
}
