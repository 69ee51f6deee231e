/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-iron.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-length.h"
#include "pr-limits.h"
#include "pr-text.h"
#include "pr-welds.h"

#define MM3_PER_M3 1e9
#define HEEL_LOST_MOST \
  0.9 /* of the last stretch: rounding a heel off leaves some of it, or the bar map would stand still */

double
pr_material_density (PrMaterial material)
{
  return material == PR_MATERIAL_ALUMINIUM ? 2700 : 7850;
}

char *
pr_iron_cut_text (const PrIron *iron, PrUnit unit)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (size_t i = 0; i < iron->n_pieces; i++) {
    g_autofree char *length = pr_length_cut (iron->piece[i].length, unit);

    if (iron->given <= 0 || iron->piece[i].given <= 0)
      g_string_append_printf (text, text->len > 0 ? " + %s" : "%s", length);
  }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

bool
pr_iron_is_short (const PrIron *iron)
{
  for (size_t i = 0; i < iron->n_pieces; i++)
    if (iron->piece[i].spare < 0)
      return true;
  return iron->spare < 0;
}

void
pr_iron_clear (PrIron *iron)
{
  g_free (iron->bar_at);
  g_free (iron->strain);
  pr_rows_clear (&iron->rows);
  *iron = (PrIron){ 0 };
}

/* Half an ellipse. */
static double
clip_volume (const PrClip *clip)
{
  return G_PI / 4 * clip->base * clip->height * clip->thickness;
}

/* A hole from the foot surface to the floor of its crease, or right through. */
static double
slug_volume (const PrPlan *plan, const PrShoe *shoe, const PrNail *nail)
{
  double thick = pr_plan_thick_at (plan, shoe, nail->branch, nail->place), share = 1;

  for (size_t i = 0; i < shoe->n_creases; i++) {
    const PrCrease *crease = &shoe->crease[i];

    if (crease->branch == nail->branch && nail->edge >= crease->edge_from && nail->edge <= crease->edge_to)
      share = 1 - plan->crease_depth;
  }
  return nail->shank * nail->shank * thick * share;
}

/* Spreads VOLUME evenly over the stretches between two outer-edge lengths (from the medial heel). */
static void
spread (const PrShoe *shoe, double *volume, double from, double to, double amount)
{
  double total = shoe->st[shoe->n_st - 1].edge, covered = 0;

  from = CLAMP (from, 0, total);
  to = CLAMP (to, 0, total);
  for (int pass = 0; pass < 2; pass++)
    for (size_t i = 0; i + 1 < shoe->n_st; i++) {
      double part = MIN (to, shoe->st[i + 1].edge) - MAX (from, shoe->st[i].edge);

      if (part <= 0)
        continue;
      if (pass == 0)
        covered += part;
      else
        volume[i] += amount * part / covered;
    }
}

/* Where an extension of its own lies under the toe, each piece gives half the thickness over the lap: takes from VOLUME what
 * the shoe gives, returns what the extension brings there, mm3. */
static double
take_lap (const PrPlan *plan, const PrShoe *shoe, double *volume)
{
  double toe = shoe->edge_length[PR_MEDIAL], given = 0;
  double from = toe - shoe->ext.line_edge[PR_MEDIAL], to = toe + shoe->ext.line_edge[PR_LATERAL];

  if (!shoe->ext.present || !plan->ext_piece)
    return 0;
  for (size_t i = 0; i + 1 < shoe->n_st; i++) {
    const PrStation *a = &shoe->st[i], *b = a + 1;
    double out = b->edge - a->edge, part = MIN (to, b->edge) - MAX (from, a->edge);
    double share = MIN (plan->ext_lap / MAX (a->web, 1e-9), 1);
    /* the lap's middle is shorter than the edge, as the inner edge is */
    double length = out + (pr_pt_dist (a->inner, b->inner) - out) * share / 2;

    if (part <= 0 || !(out > 0))
      continue;
    double half = MIN (length * part / out * share * a->web * a->thick / 2, HEEL_LOST_MOST * volume[i]);
    volume[i] -= half;
    given += half;
  }
  return given;
}

/* Iron each stretch of the shoe piece needs, in the order of the stations. */
static void
stretch_volumes (const PrPlan *plan, const PrShoe *shoe, double *volume)
{
  double toe = shoe->edge_length[PR_MEDIAL];

  for (size_t i = 0; i + 1 < shoe->n_st; i++)
    volume[i] = shoe->st[i].volume_next + (plan->bevels_ground ? shoe->st[i].bevel_next : 0);
  for (int b = 0; b < 2; b++) {
    size_t i = b == PR_MEDIAL ? 0 : shoe->n_st - 2;

    volume[i] -= MIN (shoe->heel_lost[b] * plan->thick_heel, HEEL_LOST_MOST * volume[i]);
  }
  for (size_t i = 0; i < shoe->n_clips; i++) {
    const PrClip *clip = &shoe->clip[i];
    double mid = toe + pr_side_sign (clip->branch) * clip->edge;

    spread (shoe, volume, mid - clip->base / 2, mid + clip->base / 2, clip_volume (clip));
  }
  if (shoe->ext.present && !plan->ext_piece)
    spread (shoe, volume, toe - shoe->ext.line_edge[PR_MEDIAL], toe + shoe->ext.line_edge[PR_LATERAL],
            shoe->ext.volume);
}

double
pr_iron_loss (const PrPlan *plan)
{
  return 1 - (1 - plan->loss) / (1 + plan->own_more);
}

double
pr_iron_bar_length (double volume, double width, double thickness, double loss, double allowance)
{
  return volume / (width * thickness) / (1 - loss) + allowance;
}

static void
add_piece (PrIron *iron, const PrPlan *plan, const char *id, const char *name, double volume,
           double allowance)
{
  PrPiece *piece = &iron->piece[iron->n_pieces++];

  *piece = (PrPiece){ .volume = volume, .allowance = allowance };
  g_strlcpy (piece->id, id, sizeof piece->id);
  pr_text_copy (piece->name, sizeof piece->name, name);
  piece->length
      = pr_iron_bar_length (volume, plan->stock_width, plan->stock_thick, pr_iron_loss (plan), allowance);
}

/* Places on the bar by equal volume, and the strain there. LEAD mm of it lie before the medial heel. */
static void
map_bar (PrIron *iron, const PrPlan *plan, const PrShoe *shoe, const double *volume, double lead)
{
  double section = plan->stock_width * plan->stock_thick, work = 0, total = 0;

  iron->n_st = shoe->n_st;
  for (size_t i = 0; i < shoe->n_st; i++) {
    iron->bar_at[i] = i ? iron->bar_at[i - 1] + volume[i - 1] / section / (1 - pr_iron_loss (plan)) : lead;
    iron->strain[i] = log (section / iron->rows.section[i]);
  }
  for (size_t i = 0; i + 1 < shoe->n_st; i++) {
    work += volume[i] * (fabs (iron->strain[i]) + fabs (iron->strain[i + 1])) / 2;
    total += volume[i];
  }
  iron->mean_abs_strain = total > 0 ? work / total : 0;
}

#define RULE_MORE_MM 38.1 /* 1 1/2 in */

size_t
pr_hand_rules (const PrIron *iron, PrHandRule rules[PR_N_HAND_RULES])
{
  if (!(iron->hand_rule > 0))
    return 0;
  rules[0] = (PrHandRule){ "length_width", _ ("foot length + foot width"),
                           _ ("any shoe without a heel bar: Lungwitz & Adams"), iron->hand_rule, 0 };
  rules[1] = (PrHandRule){
    "length_width_plus", _ ("foot length + foot width + 38 mm (1 1/2 in)"),
    _ ("plain-stamped 3/4 × 3/8: a members' article of an Australian farriers' association"),
    iron->hand_rule + RULE_MORE_MM, 0
  };
  for (int i = 0; i < PR_N_HAND_RULES; i++)
    rules[i].apart = rules[i].mm - iron->needed;
  return PR_N_HAND_RULES;
}

static void
add_line (PrIron *iron, const char *id, const char *name, double mm)
{
  if (mm != 0)
    iron->sum[iron->n_sum++] = (PrSum){ id, name, mm };
}

/* What the bar to cut is made of, in mm of it: the middle line first, then what it would be longer or shorter by. What drawing
 * gives back is what is left: the webs are no longer the bar's. */
static void
sum_up (PrIron *iron, const PrPlan *plan, const PrShoe *shoe)
{
  double section = plan->stock_width * plan->stock_thick, crease = 0, bevels = 0, clips = 0, welds = 0,
         cut = 0;

  for (size_t i = 0; i + 1 < shoe->n_st; i++) {
    crease += shoe->st[i].crease_next;
    bevels += plan->bevels_ground ? 0 : shoe->st[i].bevel_next;
  }
  for (size_t i = 0; i < shoe->n_clips; i++)
    clips += clip_volume (&shoe->clip[i]);
  for (size_t i = 0; i < iron->n_pieces; i++) {
    welds += iron->piece[i].allowance;
    cut += iron->piece[i].length - iron->piece[i].allowance;
  }
  add_line (iron, "middle_line", _ ("middle line"), iron->middle_line);
  size_t rest = iron->n_sum;
  iron->sum[iron->n_sum++] = (PrSum){ "drawing", _ ("drawing and upsetting"), 0 };
  add_line (iron, "crease", _ ("crease and holes"), -(crease + iron->slugs) / section);
  add_line (iron, "bevels", _ ("bevels"), -bevels / section);
  add_line (iron, "clips", _ ("clips"), clips / section);
  add_line (iron, "extension", _ ("extension"), shoe->ext.present ? shoe->ext.volume / section : 0);
  add_line (iron, "bar", _ ("heel bar"), plan->bar != PR_BAR_NONE ? shoe->bar_volume / section : 0);
  add_line (iron, "slugs", _ ("slugs"), iron->slugs / section);
  double told = cut / (1 + plan->own_more); /* by the model */
  add_line (iron, "loss", _ ("loss in the fire"), told * plan->loss);
  add_line (iron, "own", _ ("your own figure"), cut - told);
  add_line (iron, "welds", _ ("welds"), welds);
  for (size_t i = 0; i < iron->n_sum; i++)
    if (i != rest)
      iron->sum[rest].mm -= iron->sum[i].mm;
  iron->sum[rest].mm += iron->needed;
}

static double
own_length (const PrPlan *plan, const PrPiece *piece)
{
  if (strcmp (piece->id, "extension") == 0)
    return plan->given_ext;
  return strcmp (piece->id, "bar") == 0 ? plan->given_bar : 0;
}

/* What GIVEN leaves over LENGTH, negative where it is short. */
static double
spare_of (double given, double length)
{
  double spare = given - length;

  return spare < 0 && spare >= -pr_limit ("iron.short")->look ? 0 : spare;
}

static void
add_up (PrIron *iron, const PrPlan *plan)
{
  double all = 0;

  for (size_t i = 0; i < iron->n_pieces; i++) {
    PrPiece *piece = &iron->piece[i];

    all += piece->volume;
    iron->needed += piece->length;
    piece->given = own_length (plan, piece);
    piece->spare = piece->given > 0 ? spare_of (piece->given, piece->length) : 0;
    iron->common += piece->given > 0 ? 0 : piece->length;
  }
  iron->volume = all - iron->slugs;
  iron->mass = iron->volume / MM3_PER_M3 * pr_material_density ((PrMaterial) plan->material);
  iron->given = plan->given;
  iron->spare = plan->given > 0 ? spare_of (plan->given, iron->common) : 0;
}

void
pr_iron_plan (PrIron *iron, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe)
{
  PrIron next = { .bar_at = g_renew (double, iron->bar_at, shoe->n_st),
                  .strain = g_renew (double, iron->strain, shoe->n_st),
                  .rows = iron->rows };
  g_autofree double *volume = g_new (double, shoe->n_st);
  double sum = 0;

  *iron = next;
  pr_rows_make (&iron->rows, plan, shoe);
  stretch_volumes (plan, shoe, volume);
  double lap = take_lap (plan, shoe, volume);
  for (size_t i = 0; i + 1 < shoe->n_st; i++)
    sum += volume[i];
  for (size_t i = 0; i < shoe->n_nails; i++)
    iron->slugs += slug_volume (plan, shoe, &shoe->nail[i]);
  /* a heel bar forged of the branches lies on the bar half before the one heel and half behind the other, its weld with it */
  bool turned = plan->bar != PR_BAR_NONE && !plan->bar_piece;
  double ends = turned ? shoe->bar_volume : 0, allowance = turned ? plan->weld_allowance : 0;
  map_bar (iron, plan, shoe, volume,
           pr_iron_bar_length (ends / 2, plan->stock_width, plan->stock_thick, pr_iron_loss (plan),
                               allowance / 2));
  add_piece (iron, plan, "shoe", _ ("shoe"), sum + ends, allowance);
  if (shoe->ext.present && plan->ext_piece)
    add_piece (iron, plan, "extension", _ ("toe extension"), shoe->ext.volume + lap, plan->weld_allowance);
  if (plan->bar != PR_BAR_NONE && plan->bar_piece)
    add_piece (iron, plan, "bar", _ ("heel bar"), shoe->bar_volume, 2 * plan->weld_allowance);
  iron->welds = pr_welds_of (iron, plan, shoe);
  pr_bar_mark (iron, shoe);
  iron->middle_line = shoe->middle_length;
  iron->hand_rule = hoof->stand_in ? 0 : hoof->length + hoof->width;
  add_up (iron, plan);
  sum_up (iron, plan, shoe);
}
