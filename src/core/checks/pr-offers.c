/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-offers.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "pr-checks-heels.h"
#include "pr-checks-parts.h"
#include "pr-fit.h"
#include "pr-limits.h"
#include "pr-rack.h"
#include "pr-shrink.h"
#include "pr-size.h"

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
#define NAIL_PASSES 2      /* the second lays the nails on the insets the first gave them */
#define ROLL_LEAVES_MM 2.0 /* of the web behind a roll */
#define HEEL_BEHIND_MM 2.5 /* so far behind the buttress a heel reaches that covers it */
#define WIDEN_ROUNDS 4
#define FROG_ROUNDS 6
#define COVER_SLANT_MM \
  1.5 /* a web is wider than the cover it gives, as the cut slants and its corners are rounded */
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

  o->next->heel_past[b]
      = CLAMP (o->plan->heel_past[b], pr_limit ("heel.past.least")->look + CLEAR_MM, most.look - CLEAR_MM);
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

/* How much cover a wider web gives depends on how the branch lies and its corners are rounded, so it is measured again. A heel
 * that ends ahead of where iron must lie is too short before it is too narrow. */
static bool
widen_heel (const Offer *o, const char *id)
{
  g_autoptr (PrShoe) made = pr_shoe_new ();
  int b = side_of (id);
  double behind = pr_heel_past (o->hoof, o->plan, o->shoe, b), missing = 1;
  PrPt at;

  if (behind < HEEL_BEHIND_MM)
    set_param (o->next, "heel.past", b, o->plan->heel_past[b] + HEEL_BEHIND_MM - behind);
  for (int round = 0; round < WIDEN_ROUNDS && missing > 0; round++) {
    if (!pr_shoe_build (made, o->hoof, o->next, NULL))
      return false;
    missing = pr_limit_share ("heel.cover", o->hoof->width).look + CLEAR_MM
              - pr_heel_cover (o->hoof, made, b, &at);
    set_param (o->next, "web.heel", b, o->next->web_heel[b] + MAX (0, missing));
  }
  return true;
}

/* As far as the web at the heels may be narrowed: its bar is then drawn no further, and its cover no less, than is well. */
static double
least_heel_web (const Offer *o)
{
  const PrLimit *draw = pr_limit ("iron.draw");
  double section = o->plan->stock_width * o->plan->stock_thick * exp (-draw->look);

  return MAX (section / o->plan->thick_heel,
              pr_limit_share ("heel.cover", o->hoof->width).look + COVER_SLANT_MM);
}

/* A branch makes room beside the frog by a narrower web; what that cannot give, by standing out more behind the last nail. The
 * cut slants and the edge is laid anew, so it is measured again. */
static bool
clear_frog (const Offer *o, const char *id)
{
  g_autoptr (PrShoe) made = pr_shoe_new ();
  int b = side_of (id);
  double want = pr_limit_share ("heel.frog", o->hoof->width).look + CLEAR_MM;
  double least = MIN (o->plan->web_heel[b], least_heel_web (o));
  double missing = want - pr_heel_frog_gap (o->hoof, o->shoe, b);

  for (int round = 0; round < FROG_ROUNDS && missing > 0; round++) {
    double web = o->next->web_heel[b], rest = missing - (web - least) / HEEL_GAIN;

    o->next->web_heel[b] = MAX (least, web - HEEL_GAIN * missing);
    if (rest > 0) {
      o->next->fit_heel[b]
          = MIN (o->next->fit_heel[b] + rest, MAX (o->plan->fit_heel[b], pr_limit ("fit.heel.most")->look));
      if (!pr_fit (o->next, o->hoof, NULL, NULL))
        return false;
    }
    if (!pr_shoe_build (made, o->hoof, o->next, NULL))
      return false;
    missing = want - pr_heel_frog_gap (o->hoof, made, b);
  }
  return true;
}

/* The nails of both branches, or of the one ID names, laid as a fit lays them. */
static bool
lay_nails (const Offer *o, const char *id)
{
  for (int b = 0; b < 2; b++) {
    if (g_str_has_suffix (id, b == PR_MEDIAL ? ".lateral" : ".medial"))
      continue;
    for (int pass = 0; pass < NAIL_PASSES; pass++) {
      pr_fit_lay_nails (o->next, o->hoof, o->shoe, b);
      pr_fit_insets (o->next, o->hoof, b);
    }
  }
  return true;
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

/* The first clip that stands on a branch, not at the toe. */
static const PrClip *
first_on_branch (const PrShoe *shoe)
{
  for (size_t i = 0; i < shoe->n_clips; i++)
    if (shoe->clip[i].edge_from > 0)
      return &shoe->clip[i];
  return NULL;
}

/* Makes PLAN the mirror of CLIP on the other branch, as far from the toe along the edge. */
static void
mirror_clip (const Offer *o, const PrClip *clip, PrClipPlan *plan)
{
  *plan = o->plan->clip[clip->plan_index];
  plan->branch = !clip->branch;
  plan->tie = PR_CLIP_AT_PLACE;
  plan->gap = 0;
  plan->place = pr_shoe_edge_to_place (o->shoe, plan->branch, clip->edge);
}

static bool
pair_clips (const Offer *o, const char *id)
{
  const PrClip *first = first_on_branch (o->shoe);

  (void) id;
  for (size_t i = 0; first && i < o->shoe->n_clips; i++) {
    const PrClip *clip = &o->shoe->clip[i];

    if (clip->branch != first->branch && clip->edge_from > 0)
      mirror_clip (o, first, &o->next->clip[clip->plan_index]);
  }
  return first != NULL;
}

static bool
add_partner (const Offer *o, const char *id)
{
  const PrClip *alone = first_on_branch (o->shoe);

  (void) id;
  for (int i = 0; alone && i < PR_MAX_CLIPS; i++)
    if (!o->plan->clip[i].kind) {
      mirror_clip (o, alone, &o->next->clip[i]);
      return true;
    }
  return false;
}

static bool
centre_clip (const Offer *o, const char *id)
{
  (void) id;
  for (size_t i = 0; i < o->shoe->n_clips; i++) {
    const PrClip *clip = &o->shoe->clip[i];

    if (clip->edge_from <= 0) {
      o->next->clip[clip->plan_index].tie = PR_CLIP_AT_PLACE;
      o->next->clip[clip->plan_index].place = 0;
    }
  }
  return true;
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
crease_to_head (const Offer *o, const char *id)
{
  (void) id;
  o->next->crease_width = o->plan->nail_head_width;
  return true;
}

/* Two thirds deep (Lungwitz & Adams; USDA), less where too little would be left below it. */
static bool
crease_two_thirds (const Offer *o, const char *id)
{
  double thin = MIN (o->plan->thick_toe, o->plan->thick_heel);

  (void) id;
  o->next->crease_depth = pr_size_crease_depth (thin);
  return true;
}

/* As wide as the edge stands out where it stands out least. */
static bool
narrow_boxing (const Offer *o, const char *id)
{
  int b = side_of (id);
  PrPt at;

  o->next->boxing[b].width
      = MAX (0, o->plan->boxing[b].width - pr_boxing_under (o->hoof, o->plan, o->shoe, b, &at));
  return true;
}

static bool
thicken_extension (const Offer *o, const char *id)
{
  (void) id;
  o->next->ext_thick = o->plan->thick_toe;
  return true;
}

static bool
one_piece (const Offer *o, const char *id)
{
  (void) id;
  o->next->ext_piece = o->next->bar_piece = false;
  return true;
}

static bool
narrow_roll (const Offer *o, const char *id)
{
  (void) id;
  o->next->toe_amount = o->plan->web_toe - ROLL_LEAVES_MM;
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
  g_autoptr (GArray) rack = pr_rack_load (NULL);
  const PrRackBar *held = pr_rack_find (rack, o->plan->stock_width, o->plan->stock_thick, o->plan->material);
  g_autoptr (GArray) alike
      = pr_rack_of_unit (rack, held && held->inch ? PR_UNIT_INCH : PR_UNIT_MM, o->plan->material);

  if (!pr_rack_best (alike, o->hoof, o->plan, &best))
    return false;
  o->next->stock_width = best.bar.width;
  o->next->stock_thick = best.bar.thickness;
  o->next->stock_known = true;
  return best.bar.width != o->plan->stock_width || best.bar.thickness != o->plan->stock_thick;
}

static const struct {
  const char *id, *name;
  bool (*apply) (const Offer *o, const char *id);
  const char *costs; /* the finding that it may make worse, as that is what it asks for; NULL: none */
} offers[] = {
  { "heels.level", N_ ("Bring both heels level"), level_heels },
  { "heels.cut", N_ ("Cut square to the centre line"), cut_to_centre },
  { "heel.past.medial", N_ ("Set the heel's length"), set_heel_past },
  { "heel.past.lateral", N_ ("Set the heel's length"), set_heel_past },
  { "heel.cover.medial", N_ ("Widen the heel"), widen_heel },
  { "heel.cover.lateral", N_ ("Widen the heel"), widen_heel },
  { "heel.frog.medial", N_ ("Make room beside the frog"), clear_frog },
  { "heel.frog.lateral", N_ ("Make room beside the frog"), clear_frog },
  { "heel.overhang", N_ ("Fit the edge again"), fit_anew },
  { "fit.inside", N_ ("Fit the edge again"), fit_anew },
  { "fit.front.medial", N_ ("Fit the edge again"), fit_anew },
  { "fit.front.lateral", N_ ("Fit the edge again"), fit_anew },
  { "fit.heel.medial", N_ ("Fit the edge again"), fit_anew },
  { "fit.heel.lateral", N_ ("Fit the edge again"), fit_anew },
  { "nail.clip", N_ ("Space the nails again"), lay_nails },
  { "nail.spacing.medial", N_ ("Space the nails again"), lay_nails },
  { "nail.spacing.lateral", N_ ("Space the nails again"), lay_nails },
  { "nail.last.medial", N_ ("Space the nails again"), lay_nails },
  { "nail.last.lateral", N_ ("Space the nails again"), lay_nails },
  { "nail.last.even", N_ ("Space the nails again"), lay_nails },
  { "nail.crease", N_ ("Lengthen the crease"), lengthen_crease },
  { "nail.wall", N_ ("Set the nails on the white line"), inset_to_white_line },
  { "nail.extension.medial", N_ ("Move the nail back"), nail_past_extension },
  { "nail.extension.lateral", N_ ("Move the nail back"), nail_past_extension },
  { "crease.rim", N_ ("Set the nails on the white line"), inset_to_white_line },
  { "crease.width", N_ ("As wide as the nail's head"), crease_to_head },
  { "crease.depth", N_ ("Two thirds of the thickness"), crease_two_thirds },
  { "boxing.bearing.medial", N_ ("Narrow the boxing"), narrow_boxing },
  { "boxing.bearing.lateral", N_ ("Narrow the boxing"), narrow_boxing },
  { "toe.roll", N_ ("Narrow the roll"), narrow_roll },
  { "clip.alone", N_ ("Add its partner"), add_partner },
  { "clip.centre", N_ ("Move it to the centre line"), centre_clip },
  { "clip.pair", N_ ("Set the clips alike"), pair_clips },
  { "clip.height", N_ ("As high as the shoe is thick"), clip_height },
  { "extension.even", N_ ("Move the toe onto the centre line"), toe_to_centre },
  { "extension.square", N_ ("Even out the toe quarters"), even_quarters },
  { "extension.thin", N_ ("As thick as the shoe"), thicken_extension },
  { "weld.aluminium", N_ ("Make it of one piece"), one_piece },
  /* a shoe that comes out of a bar too short is drawn further */
  { "iron.enough", N_ ("Narrow the web to suit the stock"), shrink_to_bar, "iron.draw" },
  { "iron.draw", N_ ("Take the best stock on the rack"), next_bar },
  { "iron.upset", N_ ("Take the best stock on the rack"), next_bar },
};

const char *
pr_offer_name (const char *id)
{
  for (size_t i = 0; i < G_N_ELEMENTS (offers); i++)
    if (strcmp (offers[i].id, id) == 0)
      return _ (offers[i].name);
  return NULL;
}

bool
pr_offer_costs (const char *id, const char *finding)
{
  for (size_t i = 0; i < G_N_ELEMENTS (offers); i++)
    if (strcmp (offers[i].id, id) == 0 && g_strcmp0 (offers[i].costs, finding) == 0)
      return true;
  return false;
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
