/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-compare.h"

#include <glib/gi18n-lib.h>

#include "pr-compare-figures.h"
#include "pr-compare-lay.h"
#include "pr-compare-sides.h"
#include "pr-compare-stations.h"
#include "pr-compare-sums.h"
#include "pr-corrections.h"
#include "pr-error.h"

#define MIRROR_SHARE 0.5    /* the mirror fits much better: its rms is below this share of the other's ... */
#define MIRROR_LEAST_MM 1.0 /* ... which itself is above this: two feet of a pair differ by that */
#define NO_SHOE_MM 9.0      /* what is left when a shoe of another kind is laid on the plan */
#define LEAST_POINTS 8

static bool
refuse (GError **error, const char *text)
{
  g_set_error_literal (error, PR_ERROR, PR_ERROR_SHAPE, text);
  return false;
}

static bool
can_be_laid (const PrJob *job, const PrSeen *seen, GError **error)
{
  bool planned = job->shoe != NULL && job->shoe->figure.n > 0 && job->shoe->n_st > 1;

  if (!planned)
    return refuse (error, _ ("There is no planned shoe to compare with; plan one first."));
  if (seen->outer.n < LEAST_POINTS || (seen->open && seen->inner.n < LEAST_POINTS)
      || !pr_seen_is_short (seen))
    return refuse (
        error, _ ("No whole edge of a shoe was found in the photo; photograph it again, or draw its edges."));
  if (seen->open == pr_shoe_is_open (job->shoe))
    return true;
  return refuse (error, seen->open ? _ ("The plan is of a bar shoe and the shoe in the photo is open behind; "
                                        "choose the plan it was forged to.")
                                   : _ ("The shoe in the photo is closed behind and the planned one is open; "
                                        "choose the plan it was forged to."));
}

static void
put_motion (PrComparison *c, double sign, const PrMotion *motion)
{
  c->sign = sign;
  c->turn_cos = motion->c;
  c->turn_sin = motion->s;
  c->shift = motion->shift;
}

/* Laid as FACE asks, and once more as its mirror, to know. */
static PrMotion
lay_both (PrComparison *c, const PrJob *job, const PrSeen *seen)
{
  double sign = pr_lateral_sign (c->foot, c->face);
  PrMotion motion = pr_compare_lay (c->offset, job->shoe, seen, sign, c->lay, &c->rms);

  pr_compare_lay (c->offset, job->shoe, seen, -sign, PR_LAY_BEST, &c->rms_mirrored);
  c->mirrored = c->rms > MIRROR_LEAST_MM && c->rms_mirrored < MIRROR_SHARE * c->rms;
  put_motion (c, sign, &motion);
  return motion;
}

static void
put_figure (PrComparison *c, const PrSeen *seen, const PrMotion *motion)
{
  pr_seen_figure (seen, c->sign, &c->figure);
  for (size_t r = 0; r < c->figure.n; r++)
    for (size_t i = 0; i < c->figure.ring[r].n; i++)
      c->figure.ring[r].p[i] = pr_motion_of (motion, c->figure.ring[r].p[i]);
}

/* The worst of what is told; a single place that is out and is of no correction counts too. */
static PrState
whole_state (const PrComparison *c)
{
  PrState state = PR_FITS;

  for (int e = 0; e < 2; e++)
    state = MAX (state, pr_compare_state (c, c->sum[e].max));
  for (guint i = 0; i < c->correction->len; i++)
    state = MAX (state, g_array_index (c->correction, PrCorrection, i).state);
  return state;
}

static void
start (PrComparison *c, const PrJob *job, const PrSeen *seen, PrLay lay)
{
  c->lay = lay;
  c->foot = job->sources.foot;
  c->face = seen->face;
  c->sheet_foot = seen->sheet_foot;
  c->thickness = seen->thickness_mm;
  c->drawn = seen->drawn;
  c->open = seen->open;
  c->coarse = !seen->drawn && !(seen->thickness_mm > 0);
  c->offset = pr_compare_stations (job->shoe);
  c->nail = g_array_new (FALSE, FALSE, sizeof (PrNailOff));
  c->clip = g_array_new (FALSE, FALSE, sizeof (PrClipOff));
}

bool
pr_compare (PrComparison *out, const PrJob *job, const PrSeen *seen, PrLay lay, GError **error)
{
  g_auto (PrComparison) c = { 0 };

  pr_comparison_clear (out);
  if (!can_be_laid (job, seen, error))
    return false;
  start (&c, job, seen, lay);
  PrMotion motion = lay_both (&c, job, seen);
  if (MIN (c.rms, c.rms_mirrored) > NO_SHOE_MM)
    return refuse (error,
                   _ ("What was found in the photo is nothing like the planned shoe; check the plan, the "
                      "scale, and that the shoe alone lies on the sheet."));
  pr_compare_measure (c.offset, seen, c.sign, &motion);
  put_figure (&c, seen, &motion);
  for (int e = 0; e < 2; e++)
    pr_compare_sum (c.offset, (PrSeenEdge) e, &c.sum[e]);
  pr_compare_size_up (&c, job, seen);
  pr_compare_nails (&c, job, seen);
  pr_compare_clips (&c, job);
  pr_corrections_make (&c, job);
  c.state = whole_state (&c);
  *out = c;
  c = (PrComparison){ 0 };
  return true;
}

bool
pr_compare_ask (const PrComparison *c, GError **error)
{
  if (!c->mirrored)
    return true;
  g_set_error (
      error, PR_ERROR, PR_ERROR_SHAPE,
      _ ("The shoe fits this plan as its mirror (%.1f mm off) and not as it was told (%.1f mm off): if "
         "its other face is up, say so; else it is a shoe for the other foot of the pair."),
      c->rms_mirrored, c->rms);
  return false;
}
