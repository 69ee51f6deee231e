/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-checks-nails.h"

#include "pr-fit.h"

/* Distance along the edge between a nail's head and a clip, below 0 where they overlap. */
static double
clip_gap (const PrNail *nail, const PrClip *clip)
{
  double mid = nail->branch == clip->branch ? nail->edge : -nail->edge;
  double lo = mid - nail->head_length / 2, hi = mid + nail->head_length / 2;

  return mid > clip->edge ? lo - clip->edge_to : clip->edge_from - hi;
}

static void
check_nail_clip (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("nail.clip");
  const PrNail *which = NULL;
  double least = INFINITY;

  for (size_t i = 0; i < run->shoe->n_nails; i++)
    for (size_t k = 0; k < run->shoe->n_clips; k++) {
      double gap = clip_gap (&run->shoe->nail[i], &run->shoe->clip[k]);

      if (gap < least) {
        least = gap;
        which = &run->shoe->nail[i];
      }
    }
  if (!which)
    return;
  PrState state = pr_below (least, limit);
  g_autofree char *gap = pr_length_text (fabs (least), run->unit);
  g_autofree char *want = pr_length_text (limit->look, run->unit);
  const char *text
      = least < 0 ? _ ("Nail %d %s sits %s under the clip's edge (it wants %s clear); move nail or clip.")
        : state == PR_FITS ? _ ("Nail %d %s, the nearest to a clip, is %s clear of its edge (at least %s).")
                           : _ ("Nail %d %s is %s from the clip's edge (limit %s); move nail or clip.");
  char *full = g_strdup_printf (text, which->index + 1, pr_side_word (which->branch), gap, want);

  pr_finding_at (pr_run_add (run, "nail.clip", PR_GROUP_NAILS, state, least, limit->look, "mm", limit->source,
                             full),
                 which->at);
}

static void
check_spacing (const PrRun *run, int b)
{
  const PrLimit *least = pr_limit ("nail.spacing.least"), *most = pr_limit ("nail.spacing.most");
  const PrNail *before = NULL, *where = NULL;
  double worst = 0, limit = 0;
  PrState state = PR_FITS;

  for (size_t i = 0; i < run->shoe->n_nails; i++) {
    const PrNail *nail = &run->shoe->nail[i];

    if (nail->branch != b)
      continue;
    if (before) {
      double gap = pr_pt_dist (nail->at, before->at);
      PrState low = pr_below (gap, least), high = pr_above (gap, most);

      if (!where || MAX (low, high) > state) {
        state = MAX (low, high);
        worst = gap;
        limit = high > low ? most->look : least->look;
        where = nail;
      }
    }
    before = nail;
  }
  if (!where)
    return;
  const char *text = state == PR_FITS ? _ ("The %s nails stand %s apart (at least %s).")
                     : limit == most->look
                         ? _ ("Two %s nails stand %s apart (at most %s); bring them closer.")
                         : _ ("Two %s nails stand %s apart (at least %s); move one.");
  pr_finding_at (pr_run_add (run, b == PR_MEDIAL ? "nail.spacing.medial" : "nail.spacing.lateral",
                             PR_GROUP_NAILS, state, worst, limit, "mm",
                             limit == most->look ? most->source : least->source,
                             pr_say_side (run, text, b, worst, limit)),
                 where->at);
}

static void
check_last_nail (const PrRun *run, int b)
{
  const PrLimit *limit = pr_limit ("nail.last");
  bool hind = pr_foot_is_hind (run->hoof->foot);
  double y = pr_fit_rearmost_nail (run->hoof);
  const PrNail *last = NULL;

  for (size_t i = 0; i < run->shoe->n_nails; i++)
    if (run->shoe->nail[i].branch == b && (!last || run->shoe->nail[i].at.y < last->at.y))
      last = &run->shoe->nail[i];
  if (!last)
    return;
  double behind = y - last->at.y;
  PrState state = pr_above (behind, limit);
  const char *text = state == PR_FITS
                         ? (hind ? _ ("The last %s nail stands %s ahead of the rear third.")
                                 : _ ("The last %s nail stands %s ahead of the widest line."))
                         : (hind ? _ ("The last %s nail stands %s into the rear third; move it forward.")
                                 : _ ("The last %s nail stands %s behind the widest line; move it forward."));
  g_autofree char *d = pr_length_text (fabs (behind), run->unit);

  pr_finding_at (pr_run_add (run, b == PR_MEDIAL ? "nail.last.medial" : "nail.last.lateral", PR_GROUP_NAILS,
                             state, behind, limit->look, "mm", limit->source,
                             g_strdup_printf (text, pr_side_word (b), d)),
                 last->at);
}

static const PrCrease *
crease_of (const PrShoe *shoe, int b)
{
  for (size_t i = 0; i < shoe->n_creases; i++)
    if (shoe->crease[i].branch == b)
      return &shoe->crease[i];
  return NULL;
}

/* The nail that comes nearest to leaving its crease, by its head's end. */
static void
check_crease (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("nail.crease");
  const PrNail *which = NULL;
  double least = INFINITY;

  for (size_t i = 0; i < run->shoe->n_nails; i++) {
    const PrNail *nail = &run->shoe->nail[i];
    const PrCrease *crease = crease_of (run->shoe, nail->branch);

    if (!crease)
      continue;
    double half = nail->head_length / 2;
    double in = MIN (nail->edge - half - crease->edge_from, crease->edge_to - nail->edge - half);
    if (in < least) {
      least = in;
      which = nail;
    }
  }
  if (!which)
    return;
  PrState state = pr_below (least, limit);
  g_autofree char *d = pr_length_text (fabs (least), run->unit);
  const char *text
      = state == PR_FITS
            ? _ ("Every nail lies in the crease; nail %d %s is %s from its end.")
            : _ ("Nail %d %s stands %s out of the crease; lengthen the crease or move the nail.");

  pr_finding_at (pr_run_add (run, "nail.crease", PR_GROUP_NAILS, state, least, limit->look, "mm",
                             limit->source,
                             g_strdup_printf (text, which->index + 1, pr_side_word (which->branch), d)),
                 which->at);
}

/* Each nail against the white line, which is the wall moved in by its thickness. */
static void
check_white_line (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("nail.wall");
  const PrNail *which = NULL;
  double worst = 0;

  for (size_t i = 0; i < run->shoe->n_nails; i++) {
    const PrNail *nail = &run->shoe->nail[i];
    double in = -pr_hoof_outside (run->hoof, nail->at) - pr_hoof_wall (run->hoof, nail->place);

    if (!which || fabs (in) > fabs (worst)) {
      which = nail;
      worst = in;
    }
  }
  if (!which)
    return;
  PrState state = pr_above (fabs (worst), limit);
  g_autofree char *d = pr_length_text (fabs (worst), run->unit);
  const char *text = state == PR_FITS
                         ? _ ("The nails stand on the white line; nail %d %s is the furthest off, by %s.")
                     : worst > 0 ? _ ("Nail %d %s stands %s inside the white line and may lame; move it out.")
                                 : _ ("Nail %d %s stands %s outside the white line; move it in.");

  pr_finding_at (pr_run_add (run, "nail.wall", PR_GROUP_NAILS, state, worst, limit->look, "mm", limit->source,
                             g_strdup_printf (text, which->index + 1, pr_side_word (which->branch), d)),
                 which->at);
}

/* Iron left between a nail's head and the nearer edge of the web. */
static void
check_edges (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("nail.edge");
  const PrNail *which = NULL;
  double least = INFINITY;

  for (size_t i = 0; i < run->shoe->n_nails; i++) {
    const PrNail *nail = &run->shoe->nail[i];
    double inner = pr_path_nearest (&run->shoe->inner, nail->at, NULL, NULL);
    double left = MIN (nail->inset, inner) - nail->head_width / 2;

    if (!pr_figure_holds (&run->shoe->figure, nail->at))
      left = -left;
    if (left < least) {
      least = left;
      which = nail;
    }
  }
  if (!which)
    return;
  PrState state = pr_below (least, limit);
  g_autofree char *d = pr_length_text (least, run->unit), *want = pr_length_text (limit->look, run->unit);
  const char *text
      = state == PR_FITS
            ? _ ("Nail %d %s, the nearest to an edge of the web, leaves %s of iron (at least %s).")
            : _ ("Nail %d %s leaves only %s of iron to the edge of the web (at least %s); widen the web or "
                 "move the nail line.");

  pr_finding_at (pr_run_add (run, "nail.edge", PR_GROUP_NAILS, state, least, limit->look, "mm", limit->source,
                             g_strdup_printf (text, which->index + 1, pr_side_word (which->branch), d, want)),
                 which->at);
}

/* Clips in each other's way, and clips as a pair. */
static void
check_clips (const PrRun *run)
{
  const PrShoe *shoe = run->shoe;
  const PrLimit *pair = pr_limit ("clip.pair"), *apart = pr_limit ("clip.apart");

  for (size_t i = 0; i < shoe->n_clips; i++)
    for (size_t k = i + 1; k < shoe->n_clips; k++) {
      const PrClip *a = &shoe->clip[i], *b = &shoe->clip[k];
      bool same = a->branch == b->branch;
      double gap = same ? MAX (a->edge_from, b->edge_from) - MIN (a->edge_to, b->edge_to)
                        : a->edge_from + b->edge_from;
      PrState state = pr_below (gap, apart);

      if (state != PR_FITS)
        pr_finding_at (
            pr_run_add (run, "clip.apart", PR_GROUP_NAILS, state, gap, apart->look, "mm", apart->source,
                        pr_say (run,
                                _ ("Two clips stand %s apart (at least %s); move one or make them narrower."),
                                gap, apart->look)),
            a->at);
      if (same || a->edge <= 0 || b->edge <= 0)
        continue;
      double off = fabs (a->edge - b->edge) + fabs (a->base - b->base) / 2;
      state = pr_above (off, pair);
      pr_finding_at (
          pr_run_add (run, "clip.pair", PR_GROUP_NAILS, state, off, pair->look, "mm", pair->source,
                      pr_say (run,
                              state == PR_FITS
                                  ? _ ("The clips are a pair within %s (limit %s).")
                                  : _ ("The clips are %s from being a pair (limit %s); set them alike."),
                              off, pair->look)),
          b->at);
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
                     : low > high ? _ ("The clip is only %s high on a shoe %s thick; draw it higher.")
                                  : _ ("The clip is %s high on a shoe %s thick; draw it lower.");

  pr_finding_at (pr_run_add (run, "clip.height", PR_GROUP_NAILS, MAX (low, high), share,
                             low > high ? least->look : most->look, "", most->source,
                             g_strdup_printf (text, h, t)),
                 which->at);
}

void
pr_check_nails (const PrRun *run)
{
  check_nail_clip (run);
  for (int b = 0; b < 2; b++) {
    check_spacing (run, b);
    check_last_nail (run, b);
  }
  check_crease (run);
  check_white_line (run);
  check_edges (run);
  check_clips (run);
  check_clip_height (run);
}
