/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-checks-nails.h"

#include "pr-fit.h"

/* The nail for which MEASURE is least, NULL without nails; *LEAST receives it. A nail MEASURE tells INFINITY of does not
 * count. */
static const PrNail *
least_nail (const PrRun *run, double (*measure) (const PrRun *run, const PrNail *nail), double *least)
{
  const PrNail *which = NULL;

  *least = INFINITY;
  for (size_t i = 0; i < run->shoe->n_nails; i++) {
    double here = measure (run, &run->shoe->nail[i]);

    if (here < *least) {
      *least = here;
      which = &run->shoe->nail[i];
    }
  }
  return which;
}

/* Distance along the edge between a nail's head and a clip, below 0 where they overlap. */
static double
clip_gap (const PrShoe *shoe, const PrNail *nail, const PrClip *clip)
{
  double mid = nail->branch == clip->branch ? nail->edge : -nail->edge;
  double half = pr_shoe_edge_over (shoe, nail->branch, nail->edge, nail->inset, nail->head_length) / 2;
  double lo = mid - half, hi = mid + half;

  return mid > clip->edge ? lo - clip->edge_to : clip->edge_from - hi;
}

static double
nearest_clip (const PrRun *run, const PrNail *nail)
{
  double least = INFINITY;

  for (size_t k = 0; k < run->shoe->n_clips; k++)
    least = MIN (least, clip_gap (run->shoe, nail, &run->shoe->clip[k]));
  return least;
}

static void
check_nail_clip (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("nail.clip");
  double least;
  const PrNail *which = least_nail (run, nearest_clip, &least);

  if (!which)
    return;
  PrState state = pr_below (least, limit);
  g_autofree char *gap = NULL, *want = NULL;
  pr_say_two (run, fabs (least), limit->look, &gap, &want);
  const char *text
      = least < 0 ? _ ("Nail %d %s sits %s under the clip's edge (it needs %s clear); move nail or clip.")
        : state == PR_FITS ? _ ("Nail %d %s, the nearest to a clip, is %s clear of its edge (at least %s).")
                           : _ ("Nail %d %s is %s from the clip's edge (limit %s); move nail or clip.");
  char *full = g_strdup_printf (text, which->index + 1, pr_side_word (which->branch), gap, want);

  pr_finding_at (pr_run_add (run, "nail.clip", PR_GROUP_NAILS, state, least, limit->look, "mm", limit->source,
                             full),
                 which->at);
}

/* Does a clip stand between two nails of one branch? The gap that holds it is no spacing. */
static bool
clip_between (const PrShoe *shoe, const PrNail *a, const PrNail *b)
{
  for (size_t i = 0; i < shoe->n_clips; i++) {
    const PrClip *clip = &shoe->clip[i];

    if (clip->branch == a->branch && clip->edge > MIN (a->edge, b->edge)
        && clip->edge < MAX (a->edge, b->edge))
      return true;
  }
  return false;
}

/* The inch figures are for a medium foot (Hunting); on others, and with an extension, the share of the width counts. */
#define MEDIUM_LEAST_MM 127.0
#define MEDIUM_MOST_MM 150.0

typedef struct {
  PrLimit least, most;
} Spacing;

static Spacing
spacing_limits (const PrRun *run)
{
  double width = run->hoof->width;

  if (run->shoe->ext.present)
    return (Spacing){ pr_limit_share ("nail.spacing.extension.least", width),
                      pr_limit_share ("nail.spacing.share.most", width) };
  if (width >= MEDIUM_LEAST_MM && width <= MEDIUM_MOST_MM)
    return (Spacing){ *pr_limit ("nail.spacing.least"), *pr_limit ("nail.spacing.most") };
  return (Spacing){ pr_limit_share ("nail.spacing.share.least", width),
                    pr_limit_share ("nail.spacing.share.most", width) };
}

typedef struct {
  const PrNail *at; /* NULL: no two nails to compare */
  PrState state;
  double gap;
  bool wide;
} Worst;

static Worst
worst_spacing (const PrRun *run, int b, const Spacing *limits)
{
  const PrNail *before = NULL;
  Worst worst = { 0 };

  for (size_t i = 0; i < run->shoe->n_nails; i++) {
    const PrNail *nail = &run->shoe->nail[i];

    if (nail->branch != b)
      continue;
    if (before && !clip_between (run->shoe, before, nail)) {
      double gap = pr_pt_dist (nail->at, before->at);
      PrState low = pr_below (gap, &limits->least), high = pr_above (gap, &limits->most);

      if (!worst.at || MAX (low, high) > worst.state)
        worst = (Worst){ nail, MAX (low, high), gap, high > low };
    }
    before = nail;
  }
  return worst;
}

static void
check_spacing (const PrRun *run, int b)
{
  Spacing limits = spacing_limits (run);
  Worst worst = worst_spacing (run, b, &limits);
  const PrLimit *limit = worst.wide ? &limits.most : &limits.least;

  if (!worst.at)
    return;
  const char *text = worst.state == PR_FITS ? _ ("The %s nails stand %s apart (at least %s).")
                     : worst.wide ? _ ("Two %s nails stand %s apart (at most %s); bring them closer.")
                                  : _ ("Two %s nails stand %s apart (at least %s); move one.");
  pr_finding_at (pr_run_add (run, b == PR_MEDIAL ? "nail.spacing.medial" : "nail.spacing.lateral",
                             PR_GROUP_NAILS, worst.state, worst.gap, limit->look, "mm", limit->source,
                             pr_say_side (run, text, b, worst.gap, limit->look)),
                 worst.at->at);
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

static const PrNail *
last_nail (const PrShoe *shoe, int b)
{
  const PrNail *last = NULL;

  for (size_t i = 0; i < shoe->n_nails; i++)
    if (shoe->nail[i].branch == b)
      last = &shoe->nail[i];
  return last;
}

/* The medial side moves more and its wall is thinner behind, so its last nail is not the rearmost. Told only where it is. */
static void
check_last_even (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("nail.last.even");
  const PrNail *medial = last_nail (run->shoe, PR_MEDIAL), *lateral = last_nail (run->shoe, PR_LATERAL);

  if (!medial || !lateral)
    return;
  double behind = lateral->at.y - medial->at.y;
  PrState state = pr_above (behind, limit);
  if (state != PR_FITS)
    pr_finding_at (pr_run_add (run, "nail.last.even", PR_GROUP_NAILS, state, behind, limit->look, "mm",
                               limit->source,
                               pr_say (run,
                                       _ ("The last medial nail stands %s further back than the lateral one "
                                          "(limit %s); move it forward."),
                                       behind, limit->look)),
                   medial->at);
}

static void
check_any_nails (const PrRun *run)
{
  if (run->shoe->n_nails == 0)
    pr_run_add (run, "nail.none", PR_GROUP_NAILS, PR_LOOK, 0, 1, "", _ ("common practice, no source"),
                g_strdup (_ ("The shoe has no nails; say how it is to be held, or give it nails.")));
}

static const PrCrease *
crease_of (const PrShoe *shoe, int b)
{
  for (size_t i = 0; i < shoe->n_creases; i++)
    if (shoe->crease[i].branch == b)
      return &shoe->crease[i];
  return NULL;
}

/* By how much a nail's head lies within its crease. */
static double
within_crease (const PrRun *run, const PrNail *nail)
{
  const PrCrease *crease = crease_of (run->shoe, nail->branch);
  double half = nail->head_length / 2;

  return crease ? MIN (nail->edge - half - crease->edge_from, crease->edge_to - nail->edge - half) : INFINITY;
}

static void
check_crease (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("nail.crease");
  double least;
  const PrNail *which = least_nail (run, within_crease, &least);

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

/* How far the inner face of a nail's shank comes out inside (+) the white line, on the foot surface: the hole slopes by the
 * nail's pitch through the thickness. */
static double
inside_white_line (const PrRun *run, const PrNail *nail)
{
  double thick = pr_plan_thick_at (run->plan, run->shoe, nail->branch, nail->place);
  double in = nail->shank / 2 + thick * tan (run->plan->nail_pitch);

  return -pr_hoof_outside (run->hoof, pr_pt_along (nail->at, nail->out, -in))
         - pr_hoof_wall (run->hoof, nail->place);
}

static void
check_white_line (const PrRun *run)
{
  const PrLimit *inside = pr_limit ("nail.wall.inside"), *outside = pr_limit ("nail.wall.outside");
  const PrNail *which = NULL;
  PrState state = PR_FITS;
  double worst = 0;

  for (size_t i = 0; i < run->shoe->n_nails; i++) {
    double in = inside_white_line (run, &run->shoe->nail[i]);
    PrState here = MAX (pr_above (in, inside), pr_above (-in, outside));

    if (!which || here > state || (here == state && in > worst)) {
      which = &run->shoe->nail[i];
      state = here;
      worst = in;
    }
  }
  /* on a wall nobody measured no nail is called safe: the finding that it is a guess stands for those that would fit */
  if (!which || (state == PR_FITS && pr_hoof_wall_is_guess (run->hoof)))
    return;
  const PrLimit *limit = worst > 0 ? inside : outside;
  g_autofree char *d = NULL, *most = NULL;
  pr_say_two (run, fabs (worst), limit->look, &d, &most);
  const char *text = state == PR_FITS ? _ ("Every nail comes out outside the white line; nail %d %s is the "
                                           "nearest to it, at %s.")
                     : worst > 0 ? _ ("Nail %d %s comes out %s inside the white line and may lame; move it "
                                      "out or take a finer nail.")
                                 : _ ("Nail %d %s comes out %s outside the white line; move it in.");

  pr_finding_at (pr_run_add (run, "nail.wall", PR_GROUP_NAILS, state, worst, limit->look, "mm", limit->source,
                             g_strdup_printf (text, which->index + 1, pr_side_word (which->branch), d)),
                 which->at);
}

static void
check_wall_known (const PrRun *run)
{
  static const char *const id = "wall.guess";
  bool guess = pr_hoof_wall_is_guess (run->hoof);

  pr_run_add (run, id, PR_GROUP_NAILS, guess ? PR_LOOK : PR_FITS, guess, 0, "",
              _ ("common practice, no source"),
              g_strdup (guess
                            ? _ ("The wall is a guess from the foot's width; measure it at toe, quarter and "
                                 "heel before trusting a nail.")
                            : _ ("The wall was measured at toe, quarter and heel.")));
}

/* Iron left between a nail's head and the nearer edge of the web, the outer one only where no crease has a rim of its own;
 * below 0 beside the web. */
static double
iron_left (const PrRun *run, const PrNail *nail)
{
  double inner = pr_path_nearest (&run->shoe->inner, nail->at, NULL, NULL);
  double left
      = (crease_of (run->shoe, nail->branch) ? inner : MIN (nail->inset, inner)) - nail->head_width / 2;

  return pr_figure_holds (&run->shoe->figure, nail->at) ? left : -left;
}

static void
check_edges (const PrRun *run)
{
  const PrLimit *limit = pr_limit ("nail.edge");
  double least;
  const PrNail *which = least_nail (run, iron_left, &least);

  if (!which)
    return;
  PrState state = pr_below (least, limit);
  g_autofree char *d = NULL, *want = NULL;
  pr_say_two (run, least, limit->look, &d, &want);
  const char *text
      = state == PR_FITS
            ? _ ("Nail %d %s, the nearest to an edge of the web, leaves %s of metal (at least %s).")
            : _ ("Nail %d %s leaves only %s of metal to the edge of the web (at least %s); widen the web or "
                 "move the nail line.");

  pr_finding_at (pr_run_add (run, "nail.edge", PR_GROUP_NAILS, state, least, limit->look, "mm", limit->source,
                             g_strdup_printf (text, which->index + 1, pr_side_word (which->branch), d, want)),
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
  check_last_even (run);
  check_any_nails (run);
  check_wall_known (run);
}
