/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-stage.h"

#include <string.h>

#include "pr-shoe-figure.h"
#include "pr-stage-parts.h"

#define TOE_SHARE \
  0.2 /* of a branch's edge that is turned with the toe, where neither nail nor extension says it */
#define TOE_SHARE_MOST 0.5 /* and at most */
#define HEEL_SHARE 0.75    /* from here on at the latest a branch is turned with its heel ... */
#define HEEL_WEBS 1.35     /* ... and so many webs from its end: there the cuts turn level */
#define DRAWN_OVER_MM \
  10.0 /* on either side of where the toe ends, drawing goes over from the one to the other */
#define CREASING_MM 10.0 /* over this the fuller has not yet got to the depth and width it leaves */
#define EVENED 5         /* stations on either side */
#define LEAST_SINE 0.05  /* of the mean cut: a stretch turned inside out is laid as if it were as wide */

/* What a stage is made of, and what of it is the same for all its stretches. */
typedef struct {
  const PrPlan *plan;
  const PrShoe *shoe;
  const PrIron *iron;
  const PrStageProgress *done;
  double toe_to[2],
      heel_from[2]; /* outer edge from the toe, mm: turned with the toe up to here, with the heel from here */
  const PrCrease *crease[2];
} Work;

/* A cut where it lies. */
typedef struct {
  PrPt middle, dir; /* unit, outer towards inner */
  double angle, finished_angle;
  double half;
} Lying;

static double
mix (double a, double b, double t)
{
  return a + (b - a) * t;
}

static double
wrap (double angle)
{
  return remainder (angle, 2 * G_PI);
}

/* --- how far each place has come ------------------------------------------------------------ */

static void
find_zones (Work *w)
{
  const PrShoe *shoe = w->shoe;

  for (int b = 0; b < 2; b++) {
    double length = shoe->edge_length[b], to = TOE_SHARE * length;
    const PrStation *end = &shoe->st[b == PR_LATERAL ? shoe->n_st - 1 : 0];

    for (size_t i = 0; i < shoe->n_nails; i++)
      if (shoe->nail[i].branch == b && shoe->nail[i].index == 0)
        to = MAX (shoe->nail[i].edge, to);
    if (shoe->ext.present)
      to = shoe->ext.line_edge[b];
    w->toe_to[b] = CLAMP (to, 0, TOE_SHARE_MOST * length);
    w->heel_from[b] = MAX (MIN (HEEL_SHARE * length, length - HEEL_WEBS * end->web), w->toe_to[b]);
    for (size_t i = 0; i < shoe->n_creases; i++)
      if (shoe->crease[i].branch == b)
        w->crease[b] = &shoe->crease[i];
  }
}

/* Outer edge from the toe, and the branch, of EDGE from the medial heel. */
static double
from_toe (const PrShoe *shoe, double edge, int *b)
{
  double e = edge - shoe->edge_length[PR_MEDIAL];

  *b = e > 0 ? PR_LATERAL : PR_MEDIAL;
  return fabs (e);
}

static unsigned
part_at (const Work *w, double edge)
{
  static const unsigned branches[2] = { PR_PART_MEDIAL, PR_PART_LATERAL },
                        heels[2] = { PR_PART_HEEL_M, PR_PART_HEEL_L };
  int b;
  double e = from_toe (w->shoe, edge, &b);

  if (e < w->toe_to[b])
    return PR_PART_TOE;
  return e < w->heel_from[b] ? branches[b] : heels[b];
}

static double
turned_at (const Work *w, double edge)
{
  const PrStageProgress *done = w->done;

  switch (part_at (w, edge)) {
  case PR_PART_TOE:
    return done->turned_toe;
  case PR_PART_MEDIAL:
    return done->turned[PR_MEDIAL];
  case PR_PART_LATERAL:
    return done->turned[PR_LATERAL];
  case PR_PART_HEEL_M:
    return done->heels[PR_MEDIAL];
  default:
    return done->heels[PR_LATERAL];
  }
}

/* From the toe's to the branch's evenly, so that there is no step between them. */
static double
drawn_at (const Work *w, double edge)
{
  int b;
  double e = from_toe (w->shoe, edge, &b), over = MAX (MIN (DRAWN_OVER_MM, w->toe_to[b]), 1e-9);

  return mix (w->done->drawn_toe, w->done->drawn[b], CLAMP ((e - w->toe_to[b] + over) / (2 * over), 0, 1));
}

/* The fuller goes along the branch, from the toe. */
static double
creased_at (const Work *w, const PrStation *st)
{
  int b;
  double e = from_toe (w->shoe, st->edge, &b), done = w->done->creased[b];
  const PrCrease *crease = w->crease[b];

  if (!crease || done >= 1)
    return done;
  double reach = crease->edge_to - crease->edge_from + CREASING_MM;
  return CLAMP ((done * reach - MAX (e - crease->edge_from, 0)) / CREASING_MM, 0, 1);
}

/* --- iron ---------------------------------------------------------------------------------- */

/* Of the clips that come out of the stretch A to B, mm3; DRAWN: what has come out by now. */
static double
clips_of (const Work *w, const PrStation *a, const PrStation *b, double *drawn)
{
  const PrShoe *shoe = w->shoe;
  double volume = 0, total = shoe->st[shoe->n_st - 1].edge;

  *drawn = 0;
  for (size_t i = 0; i < shoe->n_clips; i++) {
    const PrClip *clip = &shoe->clip[i];
    double middle = shoe->edge_length[PR_MEDIAL] + pr_side_sign (clip->branch) * clip->edge;
    double from = CLAMP (middle - clip->base / 2, 0, total), to = CLAMP (middle + clip->base / 2, 0, total);
    double part = MAX (MIN (to, b->edge) - MAX (from, a->edge), 0) / MAX (to - from, 1e-9);
    double iron = G_PI / 4 * clip->base * clip->height * clip->thickness * part;

    volume += iron;
    *drawn += iron * w->done->clipped[clip->plan_index];
  }
  return volume;
}

/* How far it has come that stretch I holds GIVEN mm3 less than its section: the lap it gives for an extension welded on, its heel's
 * rounding; or, negative, more, which becomes an extension drawn out of it. */
static double
given_share (const Work *w, size_t i, double given)
{
  const PrShoe *shoe = w->shoe;
  const PrStation *a = &shoe->st[i], *b = a + 1;
  double toe = shoe->edge_length[PR_MEDIAL];

  if (shoe->ext.present && b->edge > toe - shoe->ext.line_edge[PR_MEDIAL]
      && a->edge < toe + shoe->ext.line_edge[PR_LATERAL])
    return given > 0 ? w->done->scarfed : w->done->extension;
  return w->done->heels[i >= shoe->toe_st ? PR_LATERAL : PR_MEDIAL];
}

/* Iron of stretch I, and what of web times thickness is hollow there at this stage, mm3. */
static double
stretch_iron (const Work *w, size_t i, double creased, double *hollow)
{
  const PrPlan *plan = w->plan;
  const PrStageProgress *done = w->done;
  const PrStation *a = &w->shoe->st[i], *b = a + 1;
  double section = plan->stock_width * plan->stock_thick * (1 - pr_iron_loss (plan)), drawn;
  double volume = (w->iron->bar_at[i + 1] - w->iron->bar_at[i]) * section;
  double clips = clips_of (w, a, b, &drawn);
  /* what is ground off in the end is iron until then */
  double ground = plan->bevels_ground ? a->bevel_next : 0;
  double taken = a->plane_next * (a->thick + b->thick) / 2 - a->volume_next;
  double crease = MIN (a->crease_next, taken), bevels = MIN (a->bevel_next, taken - crease) - ground;
  double roll = taken - crease - bevels - ground, given = a->volume_next + ground + clips - volume;

  *hollow = crease * creased + bevels * done->bevelled[i >= w->shoe->toe_st ? PR_LATERAL : PR_MEDIAL]
            + roll * done->rolled - drawn + given * given_share (w, i, given);
  return volume;
}

/* --- where it lies ------------------------------------------------------------------------- */

static double
angle_of (PrPt dir)
{
  return atan2 (dir.y, dir.x);
}

/* Web of cut I before creasing. Where a crease begins or ends it goes over evenly, as it leaves the hammer. */
static double
web_before (const Work *w, size_t i)
{
  size_t from = i > EVENED ? i - EVENED : 0, to = MIN (i + EVENED, w->shoe->n_st - 1);
  double sum = 0;

  for (size_t k = from; k <= to; k++) {
    const PrStation *st = &w->shoe->st[k];

    sum += (w->iron->rows.section[k] + st->roll_area) / st->thick - st->web;
  }
  return w->shoe->st[i].web + sum / (double) (to - from + 1);
}

/* Width and thickness of cut I. */
static void
work_cut (const Work *w, size_t i, PrStageCut *cut, Lying *lying)
{
  const PrStation *st = &w->shoe->st[i];
  double drawn = drawn_at (w, st->edge), slant = pr_pt_dist (st->outer, st->inner) / st->web;
  double before = web_before (w, i);

  cut->creased = creased_at (w, st);
  cut->thick = mix (w->plan->stock_thick, st->thick, drawn);
  lying->finished_angle = angle_of (pr_pt_sub (st->inner, st->outer));
  lying->half = mix (w->plan->stock_width, mix (before, st->web, cut->creased), drawn)
                * mix (1, slant, turned_at (w, st->edge)) / 2;
}

static void
lay_cut (PrStageCut *cut, Lying *lying)
{
  cut->outer = pr_pt_along (lying->middle, lying->dir, -lying->half);
  cut->inner = pr_pt_along (lying->middle, lying->dir, lying->half);
}

static void
lay_toe (const Work *w, PrStageCut *cut, Lying *lying)
{
  work_cut (w, w->shoe->toe_st, cut, lying);
  lying->angle = wrap (lying->finished_angle + G_PI / 2) * w->done->turned_toe - G_PI / 2;
  lying->dir = pr_pt (cos (lying->angle), sin (lying->angle));
  lying->middle = pr_pt_along (w->shoe->st[w->shoe->toe_st].outer, lying->dir, lying->half);
  lay_cut (cut, lying);
}

/* Lays the cut beside BEFORE, which is cut I of CUTS; SIGN: +1 towards the lateral heel. */
static void
lay_next (const Work *w, PrStageCut *cuts, size_t i, int sign, Lying *lying)
{
  size_t next = i + (size_t) sign, k = MIN (i, next);
  const PrStation *a = &w->shoe->st[k], *b = a + 1;
  double z = turned_at (w, (a->edge + b->edge) / 2), hollow;
  Lying to = { 0 };

  work_cut (w, next, &cuts[next], &to);
  PrPt step = pr_pt_sub (pr_pt_lerp (b->outer, b->inner, 0.5), pr_pt_lerp (a->outer, a->inner, 0.5));
  double turn = wrap (to.finished_angle - lying->finished_angle);
  double slant = wrap (angle_of (step) - (lying->finished_angle + turn / 2) - G_PI / 2);
  double aim = lying->angle + z * turn / 2 + G_PI / 2 + z * slant;
  PrPt dir = pr_pt (cos (aim), sin (aim));

  to.angle = lying->angle + z * turn;
  to.dir = pr_pt (cos (to.angle), sin (to.angle));
  double iron = stretch_iron (w, k, (cuts[k].creased + cuts[k + 1].creased) / 2, &hollow);
  double across
      = pr_pt_cross (pr_pt_add (pr_pt_scale (lying->dir, lying->half), pr_pt_scale (to.dir, to.half)), dir);
  double length = MAX (iron + hollow, 0) / ((cuts[k].thick + cuts[k + 1].thick) / 2)
                  / MAX (across, LEAST_SINE * (lying->half + to.half));

  to.middle = pr_pt_along (lying->middle, dir, sign * length);
  lay_cut (&cuts[next], &to);
  *lying = to;
}

static void
lay_all (const Work *w, PrStageCut *cuts)
{
  size_t toe = w->shoe->toe_st, n = w->shoe->n_st;
  Lying middle = { 0 }, lying;

  lay_toe (w, &cuts[toe], &middle);
  lying = middle;
  for (size_t i = toe; i > 0; i--)
    lay_next (w, cuts, i, -1, &lying);
  lying = middle;
  for (size_t i = toe; i + 1 < n; i++)
    lay_next (w, cuts, i, 1, &lying);
}

static void
take_finished (PrStage *stage, const PrShoe *shoe)
{
  for (size_t i = 0; i < shoe->n_st; i++) {
    const PrStation *st = &shoe->st[i];

    stage->cut[i] = (PrStageCut){ .outer = st->outer, .inner = st->inner, .thick = st->thick, .creased = 1 };
  }
}

static void
tell_parts (const Work *w, PrStageCut *cuts)
{
  for (size_t i = 0; i < w->shoe->n_st; i++)
    cuts[i].part = part_at (w, w->shoe->st[i].edge);
}

/* --- outline and marks --------------------------------------------------------------------- */

static void
make_ring (PrStage *stage, const PrPlan *plan, const PrShoe *shoe)
{
  double round[2], web = 0;

  pr_path_empty (&stage->outer);
  pr_path_empty (&stage->inner);
  for (size_t i = 0; i < stage->n; i++) {
    pr_path_add (&stage->outer, stage->cut[i].outer);
    pr_path_add (&stage->inner, stage->cut[i].inner);
    web = MAX (web, shoe->st[i].web);
  }
  if (shoe->loops)
    pr_path_cut_loops (&stage->inner, G_PI * web);
  /* what a rounding takes off goes with the square of its radius */
  for (int b = 0; b < 2; b++)
    round[b] = shoe->heel_lost[b] > 0 ? plan->heel_round[b] * sqrt (stage->progress.heels[b]) : 0;
  pr_shoe_join_edges (&stage->ring, &stage->outer, &stage->outer, &stage->inner, round, NULL);
}

static bool
is_shown (const char *id)
{
  static const char *const shown[] = { "toe", "extension.", "crease.", "nail.", "heel." };

  for (size_t i = 0; i < G_N_ELEMENTS (shown); i++)
    if (g_str_has_prefix (id, shown[i]))
      return true;
  return false;
}

static void
place_marks (PrStage *stage, const PrShoe *shoe, const PrIron *iron)
{
  const PrPiece *piece = &iron->piece[0];

  stage->n_marks = 0;
  for (size_t i = 0; i < piece->n_marks; i++) {
    const PrMark *from = &piece->mark[i];

    if (!is_shown (from->id))
      continue;
    PrStageMark *mark = &stage->mark[stage->n_marks++];
    G_STATIC_ASSERT (sizeof mark->id == sizeof from->id && sizeof mark->name == sizeof from->name);
    memcpy (mark->id, from->id, sizeof mark->id);
    memcpy (mark->name, from->name, sizeof mark->name);
    mark->s = from->s;
    mark->at = pr_stage_at (stage, shoe, from->s, 0, NULL);
  }
}

void
pr_stage_build (PrStage *stage, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron,
                const PrStageProgress *progress)
{
  Work w = { .plan = plan, .shoe = shoe, .iron = iron, .done = progress };

  g_return_if_fail (shoe->n_st > 1 && iron->n_st == shoe->n_st);
  stage->cut = g_renew (PrStageCut, stage->cut, shoe->n_st);
  stage->n = shoe->n_st;
  stage->progress = *progress;
  stage->finished = pr_stage_progress_is_finished (progress);
  find_zones (&w);
  if (stage->finished)
    take_finished (stage, shoe);
  else
    lay_all (&w, stage->cut);
  tell_parts (&w, stage->cut);
  make_ring (stage, plan, shoe);
  pr_stage_make_parts (stage, plan, shoe, iron);
  place_marks (stage, shoe, iron);
}
