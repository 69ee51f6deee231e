/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-offers.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-checks-heels.h"
#include "pr-fit.h"
#include "pr-limits.h"
#include "pr-rack.h"
#include "pr-shrink.h"

typedef struct {
  const PrHoof *hoof;
  const PrPlan *plan;
  const PrShoe *shoe;
  const PrIron *iron;
  PrPlan *next;
} Offer;

#define CLEAR_MM 0.3 /* beyond the limit, so that rounding does not bring the finding back */
/* The cut at a heel slants to the wall, so the web must change by a little more than the cover it is to give. */
#define HEEL_GAIN 1.15
/* Nails stand on a line inside the edge, nearer together than along the edge: by 12 % where a toe is roundest. */
#define EDGE_OVER_NAILS 1.12
#define HEEL_BEHIND_MM \
  2.5 /* so far behind the buttress a heel reaches that covers it, and half its rounding more */
#define CREASE_OVER_MM 1.0 /* of crease beyond a nail's head */

/* Sets the parameter NAME of side B, within its range. */
static void
set_param (PrPlan *plan, const char *name, int b, double value)
{
  g_autofree char *full = g_strconcat (name, b == PR_MEDIAL ? ".medial" : ".lateral", NULL);

  pr_param_set (plan, pr_param_find (full), value);
}

static int
side_of (const char *id)
{
  return g_str_has_suffix (id, ".medial") ? PR_MEDIAL : PR_LATERAL;
}

/* The shorter heel is drawn back to the longer one. */
static bool
level_heels (const Offer *o, const char *id)
{
  double end[2];

  (void) id;
  for (int b = 0; b < 2; b++)
    end[b] = o->hoof->buttress[b].y - o->plan->heel_past[b];
  double low = MIN (end[0], end[1]);
  for (int b = 0; b < 2; b++)
    o->next->heel_past[b] = o->hoof->buttress[b].y - low;
  return true;
}

static bool
set_heel_past (const Offer *o, const char *id)
{
  int b = side_of (id);
  PrLimit most = pr_limit_on ("heel.past.most", o->plan->thick_heel);

  o->next->heel_past[b] = CLAMP (o->plan->heel_past[b], pr_limit ("heel.past.least")->look, most.look);
  return true;
}

static bool
cut_to_centre (const Offer *o, const char *id)
{
  (void) id;
  o->next->heel_cut = PR_HEEL_CUT_CENTRE;
  return o->plan->heel_cut != PR_HEEL_CUT_CENTRE;
}

/* The edge laid on the foot anew, locks or no locks on the part that is wrong. */
static bool
fit_anew (const Offer *o, const char *id)
{
  (void) id;
  o->next->locks &= ~((1u << PR_LOCK_TOE) | (1u << PR_LOCK_MEDIAL) | (1u << PR_LOCK_LATERAL)
                      | (1u << PR_LOCK_HEEL_M) | (1u << PR_LOCK_HEEL_L));
  for (int b = 0; b < 2; b++) {
    o->next->fit_heel[b]
        = CLAMP (o->next->fit_heel[b], pr_limit ("fit.heel.least")->look, pr_limit ("fit.heel.most")->look);
    o->next->fit_front[b]
        = CLAMP (o->next->fit_front[b], 0, pr_limit_share ("fit.front", o->hoof->width).look / 2);
  }
  return pr_fit (o->next, o->hoof, NULL, NULL);
}

static bool
widen_heel (const Offer *o, const char *id)
{
  int b = side_of (id);
  PrPt at;
  double least = pr_heel_past (o->hoof, o->plan, o->shoe, b), round = o->plan->heel_round[b];
  double missing = pr_limit_share ("heel.cover", o->hoof->width).look + CLEAR_MM
                   - pr_heel_cover (o->hoof, o->shoe, b, &at);

  /* a heel that ends ahead of where iron must lie is too short before it is too narrow */
  if (least < HEEL_BEHIND_MM + round / 2)
    set_param (o->next, "heel.past", b, HEEL_BEHIND_MM + round / 2);
  else
    set_param (o->next, "web.heel", b, o->plan->web_heel[b] + HEEL_GAIN * missing);
  return true;
}

static bool
narrow_heel (const Offer *o, const char *id)
{
  int b = side_of (id);

  double missing
      = pr_limit_share ("heel.frog", o->hoof->width).look + CLEAR_MM - pr_heel_frog_gap (o->hoof, o->shoe, b);

  set_param (o->next, "web.heel", b, o->plan->web_heel[b] - HEEL_GAIN * missing);
  return true;
}

/* Clips ahead of the nail move towards the toe, those behind it towards the heel. */
static bool
move_clips (const Offer *o, const char *id)
{
  double want = pr_limit ("nail.clip")->look + CLEAR_MM;

  (void) id;
  for (size_t i = 0; i < o->shoe->n_clips; i++)
    for (size_t k = 0; k < o->shoe->n_nails; k++) {
      const PrClip *clip = &o->shoe->clip[i];
      const PrNail *nail = &o->shoe->nail[k];
      double half = nail->head_length / 2;

      if (nail->branch != clip->branch)
        continue;
      bool ahead = clip->edge <= nail->edge;
      double gap = ahead ? nail->edge - half - clip->edge_to : clip->edge_from - nail->edge - half;
      if (gap >= want)
        continue;
      double edge = clip->edge + (ahead ? -(want - gap) : want - gap);
      if (edge < 0) /* no room at the toe: the nail goes back instead */
        o->next->nail_shift[nail->branch][nail->index] += want - gap;
      else
        o->next->clip[clip->plan_index].place = pr_shoe_edge_to_place (o->shoe, clip->branch, edge);
    }
  return true;
}

static bool
even_nails (const Offer *o, const char *id)
{
  int b = side_of (id);
  double gap = pr_limit ("nail.spacing.least")->look * EDGE_OVER_NAILS;
  double places = pr_shoe_edge_to_place (o->shoe, b, gap * (o->plan->nails[b] - 1));

  memset (o->next->nail_shift[b], 0, sizeof o->next->nail_shift[b]);
  /* from the first nail back, as far as the last may stand; then from there forward */
  double last = MAX (o->plan->nail_last[b], o->plan->nail_first[b] + places);
  o->next->nail_last[b] = MIN (last, 1); /* the buttress */
  return true;
}

static bool
bring_last_forward (const Offer *o, const char *id)
{
  int b = side_of (id);

  memset (o->next->nail_shift[b], 0, sizeof o->next->nail_shift[b]);
  /* the fit holds the last nail where it belongs; only the nails of this side are let go */
  o->next->locks |= (1u << PR_LOCK_TOE) | (1u << PR_LOCK_MEDIAL) | (1u << PR_LOCK_LATERAL)
                    | (1u << PR_LOCK_HEEL_M) | (1u << PR_LOCK_HEEL_L) | (1u << PR_LOCK_CLIPS);
  o->next->locks |= 1u << (b == PR_MEDIAL ? PR_LOCK_NAILS_L : PR_LOCK_NAILS_M);
  o->next->locks &= ~(1u << (b == PR_MEDIAL ? PR_LOCK_NAILS_M : PR_LOCK_NAILS_L));
  bool done = pr_fit (o->next, o->hoof, NULL, NULL);
  o->next->locks = o->plan->locks;
  return done;
}

static bool
lengthen_crease (const Offer *o, const char *id)
{
  (void) id;
  for (size_t i = 0; i < o->shoe->n_nails; i++) {
    const PrNail *nail = &o->shoe->nail[i];
    int b = nail->branch;
    double half = nail->head_length / 2 + CREASE_OVER_MM;
    double from = pr_shoe_edge_to_place (o->shoe, b, MAX (0, nail->edge - half));
    double to = pr_shoe_edge_to_place (o->shoe, b, nail->edge + half);

    for (size_t k = 0; k < o->shoe->n_creases; k++) {
      const PrCrease *crease = &o->shoe->crease[k];

      if (crease->branch != b)
        continue;
      if (nail->edge - half < crease->edge_from) {
        o->next->crease_from_tie[b] = PR_TIE_PLACE;
        o->next->crease_from[b] = from;
      }
      if (nail->edge + half > crease->edge_to) {
        o->next->crease_to_tie[b] = PR_TIE_PLACE;
        o->next->crease_to[b] = to;
      }
    }
  }
  return true;
}

static bool
inset_to_white_line (const Offer *o, const char *id)
{
  (void) id;
  for (int b = 0; b < 2; b++)
    pr_fit_insets (o->next, o->hoof, b);
  return true;
}

static bool
nail_past_extension (const Offer *o, const char *id)
{
  int b = side_of (id);

  for (size_t i = 0; i < o->shoe->n_nails; i++) {
    const PrNail *nail = &o->shoe->nail[i];
    double want
        = pr_limit ("nail.extension")->look + CLEAR_MM + nail->head_length / 2 + o->shoe->ext.line_edge[b];

    if (nail->branch == b && nail->index == 0 && nail->edge < want)
      o->next->nail_shift[b][0] += want - nail->edge;
  }
  return true;
}

static bool
pair_clips (const Offer *o, const char *id)
{
  const PrClip *first = o->shoe->n_clips ? &o->shoe->clip[0] : NULL;

  (void) id;
  for (size_t i = 1; i < o->shoe->n_clips; i++) {
    const PrClip *clip = &o->shoe->clip[i];
    PrClipPlan *plan = &o->next->clip[clip->plan_index];

    if (clip->branch == first->branch)
      continue;
    plan->place = pr_shoe_edge_to_place (o->shoe, clip->branch, first->edge);
    plan->base = first->base;
    plan->height = first->height;
    plan->thickness = first->thickness;
  }
  return o->shoe->n_clips > 1;
}

static bool
clip_height (const Offer *o, const char *id)
{
  (void) id;
  for (int i = 0; i < PR_MAX_CLIPS; i++)
    if (o->plan->clip[i].kind)
      o->next->clip[i].height = o->plan->thick_toe; /* every thickness lies in the range of a clip's height */
  return true;
}

static bool
toe_to_centre (const Offer *o, const char *id)
{
  (void) id;
  o->next->knot[PR_KNOT_TOE].x = 0;
  return true;
}

/* The toe quarters made each other's mirror, so that the extension's sides are of one length. */
static bool
even_quarters (const Offer *o, const char *id)
{
  PrPt m = o->plan->knot[PR_KNOT_TOE_QUARTER_M], l = o->plan->knot[PR_KNOT_TOE_QUARTER_L];
  PrPt mean = pr_pt ((l.x - m.x) / 2, (l.y + m.y) / 2);

  (void) id;
  o->next->knot[PR_KNOT_TOE].x = 0;
  o->next->knot[PR_KNOT_TOE_QUARTER_M] = pr_pt (-mean.x, mean.y);
  o->next->knot[PR_KNOT_TOE_QUARTER_L] = mean;
  return true;
}

static bool
shrink_to_bar (const Offer *o, const char *id)
{
  (void) id;
  return o->plan->given > 0 && pr_plan_shrink (o->hoof, o->plan, o->plan->given, o->next);
}

/* The bar of the rack that asks for the least work. */
static bool
next_bar (const Offer *o, const char *id)
{
  PrRackLine best;

  (void) id;
  if (!pr_rack_best (o->hoof, o->plan, &best))
    return false;
  o->next->stock_width = best.bar.width;
  o->next->stock_thick = best.bar.thickness;
  return best.bar.width != o->plan->stock_width || best.bar.thickness != o->plan->stock_thick;
}

static const struct {
  const char *id, *name;
  bool (*apply) (const Offer *o, const char *id);
} offers[] = {
  { "heels.level", N_ ("Bring both heels level"), level_heels },
  { "heels.cut", N_ ("Cut square to the centre line"), cut_to_centre },
  { "heel.past.medial", N_ ("Set the heel's length"), set_heel_past },
  { "heel.past.lateral", N_ ("Set the heel's length"), set_heel_past },
  { "heel.cover.medial", N_ ("Widen the heel"), widen_heel },
  { "heel.cover.lateral", N_ ("Widen the heel"), widen_heel },
  { "heel.frog.medial", N_ ("Narrow the heel"), narrow_heel },
  { "heel.frog.lateral", N_ ("Narrow the heel"), narrow_heel },
  { "heel.overhang", N_ ("Fit the edge anew"), fit_anew },
  { "fit.inside", N_ ("Fit the edge anew"), fit_anew },
  { "fit.front.medial", N_ ("Fit the edge anew"), fit_anew },
  { "fit.front.lateral", N_ ("Fit the edge anew"), fit_anew },
  { "fit.heel.medial", N_ ("Fit the edge anew"), fit_anew },
  { "fit.heel.lateral", N_ ("Fit the edge anew"), fit_anew },
  { "nail.clip", N_ ("Move clip or nail apart"), move_clips },
  { "nail.spacing.medial", N_ ("Space the nails evenly"), even_nails },
  { "nail.spacing.lateral", N_ ("Space the nails evenly"), even_nails },
  { "nail.last.medial", N_ ("Bring the last nail forward"), bring_last_forward },
  { "nail.last.lateral", N_ ("Bring the last nail forward"), bring_last_forward },
  { "nail.crease", N_ ("Lengthen the crease"), lengthen_crease },
  { "nail.wall", N_ ("Set the nails on the white line"), inset_to_white_line },
  { "nail.extension.medial", N_ ("Move the nail back"), nail_past_extension },
  { "nail.extension.lateral", N_ ("Move the nail back"), nail_past_extension },
  { "clip.pair", N_ ("Set the clips alike"), pair_clips },
  { "clip.height", N_ ("As high as the shoe is thick"), clip_height },
  { "extension.even", N_ ("Move the toe onto the centre line"), toe_to_centre },
  { "extension.square", N_ ("Even out the toe quarters"), even_quarters },
  { "iron.enough", N_ ("Narrow the web to fit the bar"), shrink_to_bar },
  { "iron.draw", N_ ("Take the best bar of the rack"), next_bar },
  { "iron.upset", N_ ("Take the best bar of the rack"), next_bar },
};

const char *
pr_offer_name (const char *id)
{
  for (size_t i = 0; i < G_N_ELEMENTS (offers); i++)
    if (strcmp (offers[i].id, id) == 0)
      return _ (offers[i].name);
  return NULL;
}

/* What the table allows can be kept and read again; an offer goes as far as that. */
static void
keep_in_range (PrPlan *plan)
{
  for (size_t i = 0; i < pr_n_params; i++)
    pr_param_set (plan, &pr_params[i], pr_param_get (plan, &pr_params[i]));
}

bool
pr_offer_change (const char *id, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe,
                 const PrIron *iron, PrPlan *next)
{
  const Offer offer = { hoof, plan, shoe, iron, next };

  g_assert (next != plan);
  *next = *plan;
  for (size_t i = 0; i < G_N_ELEMENTS (offers); i++)
    if (strcmp (offers[i].id, id) == 0 && offers[i].apply (&offer, id)) {
      keep_in_range (next);
      if (!pr_plan_equal (plan, next))
        return true;
    }
  *next = *plan;
  return false;
}
