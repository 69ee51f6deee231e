/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-marks.h"

#include <glib/gi18n-lib.h>
#include "pr-job-marks.h"

/* Where a frog usually lies, only to offer its marks: apex behind the toe, share of the length; edges each side of the
 * centre line, share of the width, ahead of the heels, share of the length. Common practice, no source. */
#define USUAL_APEX 0.40
#define USUAL_EDGE 0.17
#define USUAL_AHEAD 0.08

const char *
pr_mark_name (PrLandmark mark)
{
  static const char *const names[PR_N_MARKS] = {
    N_ ("Toe of the foot"), N_ ("Buttress, medial"),  N_ ("Buttress, lateral"),
    N_ ("Frog, apex"),      N_ ("Frog, medial edge"), N_ ("Frog, lateral edge"),
  };

  return _ (names[mark]);
}

void
pr_mark_set (PrLandmarks *marks, PrLandmark mark, PrSheetPt at)
{
  PrJobMark table[PR_JOB_MARKS];

  G_STATIC_ASSERT ((int) PR_N_MARKS == PR_JOB_MARKS);
  pr_job_list_marks (marks, table); /* in the same order */
  *table[mark].has = true;
  *table[mark].at = at;
}

/* Of the frog perhaps drawn: which of its two edges is the lateral one, the frame tells. */
static PrPt
drawn_at (const PrHoof *hoof, const PrDrawnMarks *drawn, PrLandmark mark)
{
  PrPt a = pr_foot_frame_in (&hoof->frame, drawn->frog[0]),
       b = pr_foot_frame_in (&hoof->frame, drawn->frog[1]);

  if (mark == PR_MARK_FROG_APEX)
    return pr_foot_frame_in (&hoof->frame, drawn->frog_apex);
  return (mark == PR_MARK_FROG_LATERAL) == (a.x > b.x) ? a : b;
}

static PrPt
usual_at (const PrHoof *hoof, PrLandmark mark)
{
  double side = mark == PR_MARK_FROG_LATERAL ? 1 : -1;

  if (mark == PR_MARK_FROG_APEX)
    return pr_pt (0, hoof->toe.y - USUAL_APEX * hoof->length);
  return pr_pt (side * USUAL_EDGE * hoof->width, USUAL_AHEAD * hoof->length - hoof->widest_to_heels);
}

/* Which end of the tracing's outline lies on SIDE. */
static int
end_of (const PrJob *job, int side)
{
  const PrTracing *t = job->sources.tracing;
  PrPt first = pr_foot_frame_in (&job->hoof.frame, t->outline[0]);
  PrPt last = pr_foot_frame_in (&job->hoof.frame, t->outline[t->n_outline - 1]);

  return (first.x < last.x) == (side == PR_MEDIAL) ? 0 : 1;
}

bool
pr_mark_waits (const PrJob *job, PrLandmark mark)
{
  const PrTracing *t = job->sources.tracing;

  if ((mark != PR_MARK_BUTTRESS_MEDIAL && mark != PR_MARK_BUTTRESS_LATERAL) || !t || t->n_outline == 0)
    return false;
  return t->heel_range[end_of (job, mark == PR_MARK_BUTTRESS_MEDIAL ? PR_MEDIAL : PR_LATERAL)] > 0;
}

static void
add_points (PrPath *out, const PrFootFrame *frame, const PrSheetPt *points, size_t n)
{
  for (size_t i = 0; i < n; i++)
    pr_path_add (out, pr_foot_frame_in (frame, points[i]));
}

void
pr_mark_range (const PrJob *job, PrLandmark mark, PrPath *out)
{
  const PrTracing *t = job->sources.tracing;
  const PrFootFrame *frame = &job->hoof.frame;
  int end = end_of (job, mark == PR_MARK_BUTTRESS_MEDIAL ? PR_MEDIAL : PR_LATERAL);
  g_auto (PrPath) whole = { 0 };

  add_points (&whole, frame, end == 0 ? t->rest : t->outline, end == 0 ? t->n_rest : t->n_outline);
  double heel = pr_path_length (&whole);
  add_points (&whole, frame, end == 0 ? t->outline : t->rest, end == 0 ? t->n_outline : t->n_rest);
  pr_path_part (out, &whole, fmax (heel - t->heel_range[end], 0),
                fmin (heel + t->heel_range[end], pr_path_length (&whole)));
}

int
pr_mark_waiting_at (const PrJob *job, PrPt p, double near_mm, PrPt *at)
{
  double least = near_mm;
  int found = -1;

  for (PrLandmark mark = PR_MARK_BUTTRESS_MEDIAL; mark <= PR_MARK_BUTTRESS_LATERAL; mark++) {
    g_auto (PrPath) range = { 0 };
    PrPt q;

    if (!pr_mark_waits (job, mark))
      continue;
    pr_mark_range (job, mark, &range);
    double off = range.n > 1 ? pr_path_nearest (&range, p, NULL, &q) : INFINITY;
    if (off > least)
      continue;
    least = off;
    found = (int) mark;
    *at = q;
  }
  return found;
}

PrPt
pr_mark_at (const PrJob *job, PrLandmark mark, bool *known)
{
  const PrHoof *hoof = &job->hoof;
  const PrTracing *t = job->sources.tracing;
  const PrPt at[PR_N_MARKS] = { hoof->toe,       hoof->buttress[PR_MEDIAL], hoof->buttress[PR_LATERAL],
                                hoof->frog_apex, hoof->frog[PR_MEDIAL],     hoof->frog[PR_LATERAL] };
  const bool has[PR_N_MARKS]
      = { true, true, true, hoof->has_frog_apex, hoof->has_frog[PR_MEDIAL], hoof->has_frog[PR_LATERAL] };

  if (known)
    *known = has[mark] && !pr_mark_waits (job, mark);
  if (has[mark])
    return at[mark];
  return t && t->drawn.frog_lines ? drawn_at (hoof, &t->drawn, mark) : usual_at (hoof, mark);
}
