/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-checks.h"

#include <glib/gi18n-lib.h>

#include "pr-fit.h"
#include "pr-limits.h"

typedef struct {
  const PrHoof  *hoof;
  const PrPlan  *plan;
  const PrShoe  *shoe;
  const PrIron  *iron;
  const PrScale *scale;
  PrUnit         unit;
  GPtrArray     *out;
} Run;

static void
finding_free (gpointer data)
{
  PrFinding *finding = data;

  g_free (finding->text);
  g_free (finding->source);
  g_free (finding);
}

const char *
pr_state_code (PrState state)
{
  static const char *const codes[] = { "fits", "look", "mend" };

  return codes[state];
}

const char *
pr_state_name (PrState state)
{
  static const char *const names[] = { N_ ("fits"), N_ ("look"), N_ ("mend") };

  return _ (names[state]);
}

const char *
pr_group_code (PrGroup group)
{
  static const char *const codes[PR_N_GROUPS] = { "heels", "nails", "shape", "iron", "photo" };

  return codes[group];
}

const char *
pr_group_name (PrGroup group)
{
  static const char *const names[PR_N_GROUPS] = { N_ ("heels"), N_ ("nails"), N_ ("shape"), N_ ("iron"),
                                                  N_ ("photo") };

  return _ (names[group]);
}

PrState
pr_checks_group (const GPtrArray *findings, PrGroup group, int *count)
{
  PrState worst = PR_FITS;
  int n = 0;

  for (guint i = 0; i < findings->len; i++) {
    const PrFinding *finding = findings->pdata[i];

    if (finding->group != group)
      continue;
    worst = MAX (worst, finding->state);
    n += finding->state != PR_FITS;
  }
  if (count)
    *count = n;
  return worst;
}

static PrFinding *
add (const Run *run, const char *id, PrGroup group, PrState state, double value, double limit,
     const char *unit, const char *source, char *text)
{
  PrFinding *finding = g_new0 (PrFinding, 1);

  finding->id = id;
  finding->group = group;
  finding->state = state;
  finding->value = value;
  finding->limit = limit;
  g_strlcpy (finding->unit, unit, sizeof finding->unit);
  finding->source = g_strdup (source);
  finding->text = text;
  g_ptr_array_add (run->out, finding);
  return finding;
}

static void
at (PrFinding *finding, PrPt p)
{
  finding->has_at = true;
  finding->at = p;
}

static PrState
above (double value, double look, double mend)
{
  return value > mend ? PR_MEND : value > look ? PR_LOOK : PR_FITS;
}

static PrState
below (double value, double look, double mend)
{
  return value < mend ? PR_MEND : value < look ? PR_LOOK : PR_FITS;
}

static const char *
side_word (int branch)
{
  return branch == PR_MEDIAL ? _ ("medial") : _ ("lateral");
}

/* A sentence with one or two lengths in it; FORMAT takes two strings. Transfer full. */
static char *
say (const Run *run, const char *format, double a, double b)
{
  g_autofree char *x = pr_length_text (a, run->unit), *y = pr_length_text (b, run->unit);

  return g_strdup_printf (format, x, y);
}

static char *
say_side (const Run *run, const char *format, int side, double a, double b)
{
  g_autofree char *x = pr_length_text (a, run->unit), *y = pr_length_text (b, run->unit);

  return g_strdup_printf (format, side_word (side), x, y);
}

static void
check_heels_level (const Run *run)
{
  const PrLimit *limit = pr_limit ("heels.level");
  PrPt m = run->shoe->heel_outer[PR_MEDIAL], l = run->shoe->heel_outer[PR_LATERAL];
  double off = fabs (m.y - l.y);
  PrState state = above (off, limit->look, limit->mend);
  const char *text = state == PR_FITS ? _ ("The heels end level within %s (up to %s is left as it is).")
                                      : _ ("One heel ends %s behind the other (limit %s); shorten it or lengthen the other.");

  at (add (run, "heels.level", PR_GROUP_HEELS, state, off, limit->look, "mm", limit->source,
           say (run, text, off, limit->look)),
      m.y < l.y ? m : l);
}

static void
check_heel_past (const Run *run, int b)
{
  const PrLimit *least = pr_limit ("heel.past.least"), *most = pr_limit ("heel.past.most");
  double past = run->plan->heel_past[b], k = most->per_thickness ? run->plan->thick_heel : 1;
  PrState low = below (past, least->look, least->mend), high = above (past, most->look * k, most->mend * k);
  bool short_heel = low > high;
  const char *id = b == PR_MEDIAL ? "heel.past.medial" : "heel.past.lateral";
  double limit = short_heel ? least->look : most->look * k;
  const char *text = _ ("The %s heel reaches %s past the buttress (up to %s).");

  if (short_heel)
    text = _ ("The %s heel ends %s short of the buttress (at least %s past it); lengthen it.");
  else if (high != PR_FITS)
    text = _ ("The %s heel reaches %s past the buttress (limit %s); shorten it unless the foot is acute-angled.");
  at (add (run, id, PR_GROUP_HEELS, MAX (low, high), past, limit, "mm",
           short_heel ? least->source : most->source, say_side (run, text, b, fabs (past), limit)),
      run->shoe->heel_outer[b]);
}

/* How the edge stands to the wall along one side, from share T0 to T1. */
typedef struct {
  double most, least, mean;      /* outside +, mm */
  PrPt   most_at, least_at;
} Standing;

static Standing
standing (const Run *run, int b, double t0, double t1)
{
  Standing st = { .most = -INFINITY, .least = INFINITY };
  const int steps = 24;

  for (int i = 0; i <= steps; i++) {
    double edge = pr_shoe_place_to_edge (run->shoe, b, t0 + (t1 - t0) * i / steps);
    PrPt p = pr_shoe_edge_at (run->shoe, b, edge, NULL, NULL);
    double d = pr_hoof_outside (run->hoof, p);

    st.mean += d / (steps + 1);
    if (d > st.most) {
      st.most = d;
      st.most_at = p;
    }
    if (d < st.least) {
      st.least = d;
      st.least_at = p;
    }
  }
  return st;
}

static double
last_nail_place (const Run *run, int b)
{
  double place = run->plan->nail_last[b];

  for (size_t i = 0; i < run->shoe->n_nails; i++)
    if (run->shoe->nail[i].branch == b)
      place = run->shoe->nail[i].place;
  return CLAMP (place, 0.1, 0.9);
}

/* Ahead of the extension line the edge is not the shoe's. */
static double
front_start (const Run *run, int b)
{
  return run->shoe->ext.present ? run->shoe->ext.line_place[b] : 0;
}

static void
check_inside (const Run *run, const Standing st[2])
{
  const PrLimit *limit = pr_limit ("fit.inside");
  int b = st[PR_MEDIAL].least < st[PR_LATERAL].least ? PR_MEDIAL : PR_LATERAL;
  double in = MAX (0, -st[b].least);
  PrState state = above (in, limit->look, limit->mend);

  /* a toe set back or squared lies inside the wall on purpose */
  if (state == PR_MEND && (run->plan->toe == PR_TOE_SET_BACK || run->plan->toe == PR_TOE_SQUARED)
      && st[b].least_at.y > run->hoof->toe.y / 2)
    state = PR_LOOK;
  at (add (run, "fit.inside", PR_GROUP_SHAPE, state, in, limit->look, "mm", limit->source,
           say (run,
                state == PR_FITS ? _ ("The edge lies nowhere more than %s inside the wall (limit %s).")
                                 : _ ("The edge lies %s inside the wall here (limit %s); move it out."),
                in, limit->look)),
      st[b].least_at);
}

static void
check_fit (const Run *run)
{
  const PrLimit *front = pr_limit ("fit.front");
  const PrLimit *least = pr_limit ("fit.heel.least"), *most = pr_limit ("fit.heel.most");
  Standing all[2];

  for (int b = 0; b < 2; b++) {
    double last = last_nail_place (run, b);
    Standing fore = standing (run, b, front_start (run, b), last);
    Standing hind = standing (run, b, MIN (last + 0.2, 0.92), 0.98);
    PrState state = above (fore.most, front->look, front->mend);

    all[b] = standing (run, b, front_start (run, b), 0.98);
    at (add (run, b == PR_MEDIAL ? "fit.front.medial" : "fit.front.lateral", PR_GROUP_SHAPE, state, fore.most,
             front->look, "mm", front->source,
             say_side (run,
                       state == PR_FITS ? _ ("Ahead of the last %s nail the edge stands at most %s outside the wall (limit %s).")
                                        : _ ("Ahead of the last %s nail the edge stands %s outside the wall (limit %s); bring it in."),
                       b, MAX (0, fore.most), front->look)),
        fore.most_at);
    PrState low = below (hind.mean, least->look - 0.3, least->mend);
    PrState high = above (hind.mean, most->look + 0.3, most->mend);
    double limit = low > high ? least->look : most->look;
    at (add (run, b == PR_MEDIAL ? "fit.heel.medial" : "fit.heel.lateral", PR_GROUP_HEELS, MAX (low, high),
             hind.mean, limit, "mm", most->source,
             say_side (run,
                       MAX (low, high) == PR_FITS ? _ ("Behind the last %s nail the edge stands %s outside the wall (up to %s).")
                       : low > high ? _ ("Behind the last %s nail the edge stands only %s outside the wall (at least %s); let it out.")
                                    : _ ("Behind the last %s nail the edge stands %s outside the wall (limit %s); bring it in."),
                       b, hind.mean, limit)),
        low > high ? hind.least_at : hind.most_at);
  }
  check_inside (run, all);
}

/* Distance along the edge between a nail's head and a clip, below 0 where they overlap. */
static double
clip_gap (const PrShoe *shoe, const PrNail *nail, const PrClip *clip)
{
  double mid = nail->branch == clip->branch ? nail->edge : -nail->edge;
  double lo = mid - nail->head_length / 2, hi = mid + nail->head_length / 2;

  (void) shoe;
  return mid > clip->edge ? lo - clip->edge_to : clip->edge_from - hi;
}

static void
check_nail_clip (const Run *run)
{
  const PrLimit *limit = pr_limit ("nail.clip");
  const PrNail *which = NULL;
  double least = INFINITY;

  for (size_t i = 0; i < run->shoe->n_nails; i++)
    for (size_t k = 0; k < run->shoe->n_clips; k++) {
      double gap = clip_gap (run->shoe, &run->shoe->nail[i], &run->shoe->clip[k]);

      if (gap < least) {
        least = gap;
        which = &run->shoe->nail[i];
      }
    }
  if (!which)
    return;
  PrState state = below (least, limit->look, limit->mend);
  g_autofree char *gap = pr_length_text (fabs (least), run->unit);
  g_autofree char *want = pr_length_text (limit->look, run->unit);
  const char *text = least < 0 ? _ ("Nail %d %s sits %s under the clip's edge (it wants %s clear); move nail or clip.")
                     : state == PR_FITS ? _ ("Nail %d %s, the nearest to a clip, is %s clear of its edge (at least %s).")
                                        : _ ("Nail %d %s is %s from the clip's edge (limit %s); move nail or clip.");
  char *full = g_strdup_printf (text, which->index + 1, side_word (which->branch), gap, want);

  at (add (run, "nail.clip", PR_GROUP_NAILS, state, least, limit->look, "mm", limit->source, full), which->at);
}

static void
check_spacing (const Run *run, int b)
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
      /* a tenth of a millimetre is nobody's quarrel */
      PrState low = below (gap, least->look - 0.1, least->mend), high = above (gap, most->look + 0.1, most->mend);

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
                     : limit == most->look ? _ ("Two %s nails stand %s apart (at most %s); bring them closer.")
                                           : _ ("Two %s nails stand %s apart (at least %s); move one.");
  at (add (run, b == PR_MEDIAL ? "nail.spacing.medial" : "nail.spacing.lateral", PR_GROUP_NAILS, state, worst,
           limit, "mm", limit == most->look ? most->source : least->source, say_side (run, text, b, worst, limit)),
      where->at);
}

static void
check_last_nail (const Run *run, int b)
{
  const PrLimit *limit = pr_limit ("nail.last");
  const PrHoof *hoof = run->hoof;
  bool hind = pr_foot_is_hind (hoof->foot);
  double y = hind ? hoof->toe.y - hoof->length * 2 / 3 : 0;
  const PrNail *last = NULL;

  for (size_t i = 0; i < run->shoe->n_nails; i++)
    if (run->shoe->nail[i].branch == b && (!last || run->shoe->nail[i].at.y < last->at.y))
      last = &run->shoe->nail[i];
  if (!last)
    return;
  double behind = y - last->at.y;
  PrState state = above (behind, limit->look, limit->mend);
  const char *text = state == PR_FITS ? (hind ? _ ("The last %s nail stands %s ahead of the rear third.")
                                              : _ ("The last %s nail stands %s ahead of the widest line."))
                                      : (hind ? _ ("The last %s nail stands %s into the rear third; move it forward.")
                                              : _ ("The last %s nail stands %s behind the widest line; move it forward."));
  g_autofree char *d = pr_length_text (fabs (behind), run->unit);

  at (add (run, b == PR_MEDIAL ? "nail.last.medial" : "nail.last.lateral", PR_GROUP_NAILS, state, behind,
           limit->look, "mm", limit->source, g_strdup_printf (text, side_word (b), d)),
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
check_crease (const Run *run)
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
  PrState state = below (least, limit->look, limit->mend);
  g_autofree char *d = pr_length_text (fabs (least), run->unit);
  const char *text = state == PR_FITS ? _ ("Every nail lies in the crease; nail %d %s is %s from its end.")
                                      : _ ("Nail %d %s stands %s out of the crease; lengthen the crease or move the nail.");

  at (add (run, "nail.crease", PR_GROUP_NAILS, state, least, limit->look, "mm", limit->source,
           g_strdup_printf (text, which->index + 1, side_word (which->branch), d)),
      which->at);
}

/* Each nail against the white line, which is the wall moved in by its thickness. */
static void
check_white_line (const Run *run)
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
  PrState state = above (fabs (worst), limit->look, limit->mend);
  g_autofree char *d = pr_length_text (fabs (worst), run->unit);
  const char *text = state == PR_FITS ? _ ("The nails stand on the white line; nail %d %s is the furthest off, by %s.")
                     : worst > 0 ? _ ("Nail %d %s stands %s inside the white line and may lame; move it out.")
                                 : _ ("Nail %d %s stands %s outside the white line; move it in.");

  at (add (run, "nail.wall", PR_GROUP_NAILS, state, worst, limit->look, "mm", limit->source,
           g_strdup_printf (text, which->index + 1, side_word (which->branch), d)),
      which->at);
}

static void
check_extension (const Run *run)
{
  const PrExtension *ext = &run->shoe->ext;
  const PrLimit *square = pr_limit ("extension.square"), *even = pr_limit ("extension.even");
  const PrLimit *past = pr_limit ("nail.extension");

  if (!ext->present)
    return;
  double side[2] = { pr_pt_dist (ext->corner[0], ext->corner[1]), pr_pt_dist (ext->corner[3], ext->corner[2]) };
  double skew = fabs (side[0] - side[1]), off = fabs ((ext->corner[1].x + ext->corner[2].x) / 2);
  PrState state = above (skew, square->look, square->mend);

  at (add (run, "extension.square", PR_GROUP_SHAPE, state, skew, square->look, "mm", square->source,
           say (run,
                state == PR_FITS ? _ ("The extension is square: its sides differ by %s (limit %s).")
                                 : _ ("One side of the extension is %s longer than the other (limit %s); even out the toe quarters."),
                skew, square->look)),
      side[0] > side[1] ? ext->corner[1] : ext->corner[2]);
  state = above (off, even->look, even->mend);
  at (add (run, "extension.even", PR_GROUP_SHAPE, state, off, even->look, "mm", even->source,
           say (run,
                state == PR_FITS ? _ ("The extension stands even about the centre line, within %s (limit %s).")
                                 : _ ("The extension stands %s off the centre line (limit %s); move the toe onto it."),
                off, even->look)),
      pr_pt_lerp (ext->corner[1], ext->corner[2], 0.5));
  for (size_t i = 0; i < run->shoe->n_nails; i++) {
    const PrNail *nail = &run->shoe->nail[i];
    double gap = nail->edge - nail->head_length / 2 - ext->line_edge[nail->branch];

    if (nail->index != 0)
      continue;
    state = below (gap, past->look, past->mend);
    at (add (run, nail->branch == PR_MEDIAL ? "nail.extension.medial" : "nail.extension.lateral", PR_GROUP_NAILS,
             state, gap, past->look, "mm", past->source,
             say_side (run,
                       state == PR_FITS ? _ ("The first %s nail's head is %s past the extension line (at least %s).")
                                        : _ ("The first %s nail's head is %s from the extension line (at least %s past it); move it back."),
                       nail->branch, gap, past->look)),
        nail->at);
  }
}

static void
check_shape (const Run *run)
{
  const PrShoe *shoe = run->shoe;
  bool well = shoe->simple && !*shoe->trouble;
  PrFinding *finding = add (run, "shape.simple", PR_GROUP_SHAPE, well ? PR_FITS : PR_MEND, well ? 0 : 1, 0, "",
                            _ ("common practice, no source"),
                            g_strdup (well ? _ ("The shoe is one piece that nowhere crosses itself.") : shoe->trouble));

  if (!well)
    at (finding, shoe->trouble_at);
}

static void
check_bar (const Run *run)
{
  const PrIron *iron = run->iron;
  PrState state = iron->given > 0 && iron->spare < 0 ? PR_MEND : PR_FITS;
  g_autofree char *needed = pr_length_text (iron->needed, run->unit);
  g_autofree char *given = pr_length_text (iron->given, run->unit);
  g_autofree char *spare = pr_length_text (fabs (iron->spare), run->unit);
  char *text;

  if (!(iron->given > 0))
    text = g_strdup_printf (_ ("The shoe takes %s of bar; no length is given to hold it against."), needed);
  else if (state == PR_FITS)
    text = g_strdup_printf (_ ("The shoe takes %s of the %s given; %s is left over."), needed, given, spare);
  else
    text = g_strdup_printf (_ ("The shoe takes %s and %s is given: %s is missing; take a longer or a wider bar, or a smaller web."),
                            needed, given, spare);
  add (run, "iron.enough", PR_GROUP_IRON, state, iron->needed, iron->given, "mm",
       _ ("equal volume; the shoe's own figures"), text);
}

static void
check_section (const Run *run)
{
  const PrLimit *upset = pr_limit ("iron.upset"), *draw = pr_limit ("iron.draw");
  size_t most = 0, least = 0;

  for (size_t i = 0; i < run->iron->n_st; i++) {
    if (run->iron->strain[i] > run->iron->strain[most])
      most = i;
    if (run->iron->strain[i] < run->iron->strain[least])
      least = i;
  }
  double e = run->iron->strain[most], u = -run->iron->strain[least];
  PrState state = above (e, draw->look, draw->mend);
  at (add (run, "iron.draw", PR_GROUP_IRON, state, (exp (e) - 1) * 100, (exp (draw->look) - 1) * 100, "%", draw->source,
           g_strdup_printf (state == PR_FITS ? _ ("Where most is drawn the bar grows longer by %.0f %% (up to %.0f %%).")
                                             : _ ("Here the bar must be drawn longer by %.0f %% (limit %.0f %%); take a lighter bar."),
                            MAX (0, (exp (e) - 1) * 100), (exp (draw->look) - 1) * 100)),
      run->shoe->st[most].inner);
  state = above (u, upset->look, upset->mend);
  at (add (run, "iron.upset", PR_GROUP_IRON, state, (exp (u) - 1) * 100, (exp (upset->look) - 1) * 100, "%", upset->source,
           g_strdup_printf (state == PR_FITS ? _ ("Where most is upset the section grows by %.0f %% (up to %.0f %%).")
                                             : _ ("Here the section must be upset by %.0f %% (limit %.0f %%); take a heavier bar."),
                            MAX (0, (exp (u) - 1) * 100), (exp (upset->look) - 1) * 100)),
      run->shoe->st[least].inner);
}

static void
check_photo (const Run *run)
{
  const PrLimit *limit = pr_limit ("photo.residual");
  const PrScale *scale = run->scale;

  if (!scale)
    return;
  PrState state = scale->verdict == PR_VERDICT_GOOD ? PR_FITS : scale->verdict == PR_VERDICT_USABLE ? PR_LOOK : PR_MEND;
  state = MAX (state, above (scale->residual_mm, limit->look, limit->mend));
  add (run, "photo.residual", PR_GROUP_PHOTO, state, scale->residual_mm, limit->look, "mm", limit->source,
       g_strdup (scale->why ? scale->why : ""));
}

static int
by_weight (gconstpointer a, gconstpointer b)
{
  const PrFinding *p = *(const PrFinding *const *) a, *q = *(const PrFinding *const *) b;

  return p->group != q->group ? (int) p->group - (int) q->group : (int) q->state - (int) p->state;
}

GPtrArray *
pr_checks_run (const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron,
               const PrScale *scale, PrUnit unit)
{
  Run run = { hoof, plan, shoe, iron, scale, unit, g_ptr_array_new_with_free_func (finding_free) };

  check_heels_level (&run);
  check_fit (&run);
  check_nail_clip (&run);
  for (int b = 0; b < 2; b++) {
    check_heel_past (&run, b);
    check_spacing (&run, b);
    check_last_nail (&run, b);
  }
  check_crease (&run);
  check_white_line (&run);
  check_extension (&run);
  check_shape (&run);
  check_bar (&run);
  check_section (&run);
  check_photo (&run);
  /* g_ptr_array_sort is stable (merge sort), so findings of one state keep the order above */
  g_ptr_array_sort (run.out, by_weight);
  return run.out;
}
