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
    N_ ("Toe of the hoof"), N_ ("Buttress, medial"),  N_ ("Buttress, lateral"),
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
    *known = has[mark];
  if (has[mark])
    return at[mark];
  return t && t->drawn.frog_lines ? drawn_at (hoof, &t->drawn, mark) : usual_at (hoof, mark);
}
