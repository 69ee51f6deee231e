/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-checks-clips.h"

/* A clip thins evenly from its root to a tip half as thick: common practice, no source. */
#define ROOT_OVER_MEAN (4.0 / 3)

/* One whose base lies over the middle of the toe. */
static bool
is_toe_clip (const PrClip *clip)
{
  return clip->edge_from <= 0;
}

/* Clips in each other's way; told only where they are. */
static void
check_apart (const PrRun *run, const PrClip *a, const PrClip *b)
{
  const PrLimit *limit = pr_limit ("clip.apart");
  double gap = a->branch == b->branch ? MAX (a->edge_from, b->edge_from) - MIN (a->edge_to, b->edge_to)
                                      : a->edge_from + b->edge_from;
  PrState state = pr_below (gap, limit);

  if (state != PR_FITS)
    pr_finding_at (
        pr_run_add (run, "clip.apart", PR_GROUP_NAILS, state, gap, limit->look, "mm", limit->source,
                    pr_say (run,
                            _ ("Two clips stand %s apart (at least %s); move one or make them narrower."),
                            gap, limit->look)),
        a->at);
}

/* A clip of either branch, neither at the toe. */
static void
check_pair (const PrRun *run, const PrClip *a, const PrClip *b)
{
  const PrLimit *limit = pr_limit ("clip.pair");
  int tie[2] = { run->plan->clip[a->plan_index].tie, run->plan->clip[b->plan_index].tie };
  /* two clips that stand by the same thing on either side are a pair, however uneven the foot */
  double apart = tie[0] == tie[1] && tie[0] != PR_CLIP_AT_PLACE ? 0 : fabs (a->edge - b->edge);
  double off = apart + fabs (a->base - b->base) / 2;

  if (a->branch == b->branch || is_toe_clip (a) || is_toe_clip (b))
    return;
  PrState state = pr_above (off, limit);
  const char *text = state == PR_FITS ? _ ("The clips are a pair within %s (limit %s).")
                                      : _ ("The clips are %s from being a pair (limit %s); set them alike.");

  pr_finding_at (pr_run_add (run, "clip.pair", PR_GROUP_NAILS, state, off, limit->look, "mm", limit->source,
                             pr_say (run, text, off, limit->look)),
                 b->at);
}

/* A clip off the toe with none on the other branch. Told only where it is. */
static void
check_alone (const PrRun *run, const PrClip *clip)
{
  for (size_t i = 0; i < run->shoe->n_clips; i++)
    if (run->shoe->clip[i].branch != clip->branch && !is_toe_clip (&run->shoe->clip[i]))
      return;
  pr_finding_at (
      pr_run_add (run, "clip.alone", PR_GROUP_NAILS, PR_LOOK, 1, 2, "", _ ("common practice, no source"),
                  g_strdup_printf (_ ("The %s clip stands alone; quarter clips are drawn in pairs."),
                                   pr_side_word (clip->branch))),
      clip->at);
}

/* A toe clip stands on the centre line. */
static void
check_centred (const PrRun *run, const PrClip *clip)
{
  const PrLimit *limit = pr_limit ("clip.centre");
  double off = fabs (clip->at.x);
  PrState state = pr_above (off, limit);

  pr_finding_at (
      pr_run_add (run, "clip.centre", PR_GROUP_NAILS, state, off, limit->look, "mm", limit->source,
                  pr_say (run,
                          state == PR_FITS
                              ? _ ("The toe clip stands on the centre line, within %s (limit %s).")
                              : _ ("The toe clip stands %s off the centre line (limit %s); move it "
                                   "there."),
                          off, limit->look)),
      clip->at);
}

/* A quarter clip belongs to the front half of the foot. Told only where it is not. */
static void
check_front_half (const PrRun *run, const PrClip *clip)
{
  const PrLimit *limit = pr_limit ("clip.back");
  double behind = run->hoof->toe.y - run->hoof->length / 2 - clip->at.y;
  PrState state = pr_above (behind, limit);

  if (state != PR_FITS)
    pr_finding_at (
        pr_run_add (run, "clip.back", PR_GROUP_NAILS, state, behind, limit->look, "mm", limit->source,
                    g_strdup_printf (_ ("The %s clip stands in the rear half of the foot, where the wall "
                                        "must spread; move it forward."),
                                     pr_side_word (clip->branch))),
        clip->at);
}

/* Told only where it is wrong. */
static void
check_clip_iron (const PrRun *run, const PrClip *clip)
{
  const PrLimit *root = pr_limit ("clip.root"), *most = pr_limit ("clip.thickness");
  double at_root = clip->thickness * ROOT_OVER_MEAN;
  PrState thin = pr_below (at_root, root), thick = pr_above (clip->thickness, most);

  if (thin != PR_FITS)
    pr_finding_at (
        pr_run_add (run, "clip.root", PR_GROUP_NAILS, thin, at_root, root->look, "mm", root->source,
                    pr_say (run, _ ("The clip's root is only %s thick (at least %s) and bends; leave more."),
                            at_root, root->look)),
        clip->at);
  if (thick != PR_FITS)
    pr_finding_at (
        pr_run_add (run, "clip.thickness", PR_GROUP_NAILS, thick, clip->thickness, most->look, "mm",
                    most->source,
                    pr_say (run, _ ("The clip is %s thick (at most %s) and burns in deep; draw it thinner."),
                            clip->thickness, most->look)),
        clip->at);
}

static void
check_clips (const PrRun *run)
{
  const PrShoe *shoe = run->shoe;

  for (size_t i = 0; i < shoe->n_clips; i++)
    for (size_t k = i + 1; k < shoe->n_clips; k++) {
      check_apart (run, &shoe->clip[i], &shoe->clip[k]);
      check_pair (run, &shoe->clip[i], &shoe->clip[k]);
    }
  for (size_t i = 0; i < shoe->n_clips; i++) {
    const PrClip *clip = &shoe->clip[i];

    check_clip_iron (run, clip);
    if (is_toe_clip (clip)) {
      check_centred (run, clip);
    } else {
      check_alone (run, clip);
      check_front_half (run, clip);
    }
  }
}

/* A clip a half circle, as high as the shoe is thick (Lungwitz & Adams; USDA). */
static void
check_clip_height (const PrRun *run)
{
  const PrLimit *least = pr_limit ("clip.height.least"), *most = pr_limit ("clip.height.most");
  const PrClip *which = NULL;
  double worst = 0, share = 1;

  for (size_t i = 0; i < run->shoe->n_clips; i++) {
    double r = run->shoe->clip[i].height / run->plan->thick_toe;

    if (!which || fabs (log (r)) > worst) {
      which = &run->shoe->clip[i];
      worst = fabs (log (r));
      share = r;
    }
  }
  if (!which)
    return;
  PrState low = pr_below (share, least), high = pr_above (share, most);
  g_autofree char *h = pr_length_text (which->height, run->unit),
                  *t = pr_length_text (run->plan->thick_toe, run->unit);
  const char *text = MAX (low, high) == PR_FITS ? _ ("The clip is %s high on a shoe %s thick.")
                     : low > high ? _ ("The clip is only %s high on a shoe %s thick; make it taller.")
                                  : _ ("The clip is %s high on a shoe %s thick; make it shorter.");

  pr_finding_at (pr_run_add (run, "clip.height", PR_GROUP_NAILS, MAX (low, high), share,
                             low > high ? least->look : most->look, "", most->source,
                             g_strdup_printf (text, h, t)),
                 which->at);
}

void
pr_check_clips (const PrRun *run)
{
  check_clips (run);
  check_clip_height (run);
}
