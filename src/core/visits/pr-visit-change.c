/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-visit-change.h"

#include <glib/gi18n-lib.h>

#include "pr-check.h"
#include "pr-compare-figures.h"
#include "pr-compare-stations.h"
#include "pr-error.h"
#include "pr-visit-gap.h"

#define NEAR_MM 5.0 /* each way from a place at the toe or a quarter */
/* The stretch of wall ahead of a buttress that tells of its heel: what lies behind already turns into the bar. */
#define HEEL_FROM_MM 8.0
#define HEEL_TO_MM 18.0

void
pr_visit_change_clear (PrVisitChange *change)
{
  pr_path_clear (&change->before);
  pr_figure_clear (&change->shoe);
  g_clear_pointer (&change->gap, g_array_unref);
  g_clear_pointer (&change->shoe_gap, g_array_unref);
  *change = (PrVisitChange){ 0 };
}

char *
pr_visit_place_words (PrVisitPlace place)
{
  switch (place) {
  case PR_VISIT_AT_TOE:
    return g_strdup (_ ("Toe"));
  case PR_VISIT_AT_QUARTER_M:
  case PR_VISIT_AT_QUARTER_L:
    return g_strdup_printf ("%s, %s", _ ("Quarter"), pr_side_word (place - PR_VISIT_AT_QUARTER_M));
  default:
    return g_strdup_printf ("%s, %s", _ ("Heel"), pr_side_word (place - PR_VISIT_AT_HEEL_M));
  }
}

/* --- can they be compared? ----------------------------------------------------------------- */

static bool
refuse (GError **error, const char *text)
{
  g_set_error_literal (error, PR_ERROR, PR_ERROR_SHAPE, text);
  return false;
}

static bool
is_foot (const PrJob *job, GError **error)
{
  if (job->hoof.outline.n < 2)
    return refuse (error,
                   _ ("One of these feet has no outline to scale yet; open it and give its scale first."));
  return !job->hoof.stand_in
         || refuse (error,
                    _ ("One of these is a specimen, and there is no foot to compare; choose another."));
}

static bool
are_alike (const PrJob *now, const PrJob *before, GError **error)
{
  if (!is_foot (now, error) || !is_foot (before, error))
    return false;
  return pr_foot_is_hind (now->sources.foot) == pr_foot_is_hind (before->sources.foot)
         || refuse (error, _ ("A fore foot is not laid on a hind foot; choose two of one kind."));
}

/* A question about the scale that nobody has answered, or a scale that should be taken again. */
static bool
is_doubtful (const PrJob *job)
{
  const PrScale *scale = pr_sources_scale (&job->sources);

  return scale && (scale->question != PR_QUESTION_NONE || scale->verdict == PR_VERDICT_RETAKE);
}

/* The heels of a line drawn closed may lie elsewhere than they were taken. */
static bool
knows_heels (const PrJob *job)
{
  const PrScale *scale = pr_sources_scale (&job->sources);

  return !scale || !pr_scale_is_about (scale, PR_ABOUT_HEELS);
}

/* --- the foot ------------------------------------------------------------------------------ */

/* Along HOOF's line, where PLACE is. */
static double
middle_of (const PrHoof *hoof, PrVisitPlace place)
{
  double s = hoof->toe_s;

  if (place == PR_VISIT_AT_QUARTER_M || place == PR_VISIT_AT_QUARTER_L)
    pr_path_nearest (&hoof->outline, hoof->widest[place - PR_VISIT_AT_QUARTER_M], &s, NULL);
  if (place >= PR_VISIT_AT_HEEL_M) {
    int side = place - PR_VISIT_AT_HEEL_M;

    pr_path_nearest (&hoof->outline, hoof->buttress[side], &s, NULL);
    s -= pr_side_sign (side) * (HEEL_FROM_MM + HEEL_TO_MM) / 2;
  }
  return s;
}

static void
put_place (PrVisitChange *out, const PrHoof *before, PrVisitPlace place)
{
  PrVisitGap *gap = &out->place[place];
  double s = middle_of (before, place);
  PrPt along;

  gap->at = pr_motion_of (&out->motion, pr_path_at (&before->outline, s, &along));
  gap->out = pr_motion_turn (&out->motion, pr_pt_left (along));
  gap->known = pr_visit_mean (out->gap, s - NEAR_MM, s + NEAR_MM, &gap->mm);
}

static void
put_foot (PrVisitChange *out, const PrJob *now, const PrJob *before)
{
  const PrVisitLine line = pr_visit_hoof_line (&now->hoof);
  bool heels = knows_heels (now) && knows_heels (before);

  for (size_t i = 0; i < before->hoof.outline.n; i++)
    pr_path_add (&out->before, pr_motion_of (&out->motion, before->hoof.outline.p[i]));
  out->gap = pr_visit_stations (&before->hoof);
  pr_visit_measure_gap (out->gap, &out->motion, &line);
  pr_visit_move (out->gap, &out->motion);
  for (PrVisitPlace place = 0; place < PR_N_VISIT_PLACES; place++)
    put_place (out, &before->hoof, place);
  for (PrVisitPlace place = PR_VISIT_AT_HEEL_M; !heels && place <= PR_VISIT_AT_HEEL_L; place++)
    out->place[place].known = false;
  for (PrVisitMeasure m = 0; m < PR_N_VISIT_MEASURES; m++) {
    out->now_mm[m] = pr_visit_measure_of (&now->hoof, m);
    out->before_mm[m] = pr_visit_measure_of (&before->hoof, m);
  }
}

/* --- the shoe ------------------------------------------------------------------------------ */

static bool
has_shoe (const PrJob *job)
{
  return job->shoe != NULL && job->shoe->figure.n > 0 && job->shoe->n_st > 1;
}

/* What was found of the other shoe becomes what was planned: it is the earlier one. Its heels lie behind another buttress. */
static void
turn_sizes (PrSizes *sizes)
{
  PrTwo *two = (PrTwo *) sizes;

  for (size_t i = 0; i < sizeof *sizes / sizeof *two; i++)
    two[i] = (PrTwo){ two[i].seen, two[i].plan };
  sizes->heel_past[PR_MEDIAL] = sizes->heel_past[PR_LATERAL] = (PrTwo){ NAN, NAN };
}

static void
put_shoes (PrVisitChange *out, const PrJob *now, const PrJob *before)
{
  const PrVisitLine line = { now->shoe->figure.ring, now->shoe->figure.n, true, -1 };
  g_auto (PrBranches) branches = { 0 };

  pr_figure_copy (&out->shoe, &before->shoe->figure);
  for (size_t r = 0; r < out->shoe.n; r++)
    for (size_t i = 0; i < out->shoe.ring[r].n; i++)
      out->shoe.ring[r].p[i] = pr_motion_of (&out->motion, out->shoe.ring[r].p[i]);
  out->shoe_gap = pr_compare_stations (before->shoe);
  pr_visit_measure_gap (out->shoe_gap, &out->motion, &line);
  pr_visit_move (out->shoe_gap, &out->motion);
  /* each in its own frame: along its own centre line */
  pr_branches_of_shoe (&branches, before->shoe);
  pr_compare_sizes (&out->size, NULL, now, &before->shoe->figure, &branches, pr_shoe_is_open (before->shoe));
  turn_sizes (&out->size);
}

bool
pr_visit_change (PrVisitChange *out, const PrJob *now, const PrJob *before, PrVisitLay lay, GError **error)
{
  PrFoot a = now->sources.foot, b = before->sources.foot;

  pr_visit_change_clear (out);
  if (!are_alike (now, before, error)
      || !pr_visit_lay_on (&now->hoof, &before->hoof, lay, &out->motion, error))
    return false;
  out->lay = lay;
  out->mirrored = pr_foot_is_left (a) != pr_foot_is_left (b);
  out->doubtful = is_doubtful (now) || is_doubtful (before);
  put_foot (out, now, before);
  out->shoes = has_shoe (now) && has_shoe (before);
  if (out->shoes)
    put_shoes (out, now, before);
  return true;
}
