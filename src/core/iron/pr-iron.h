/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What bar the shoe takes.
 *
 *   V  = integral A ds over the middle line (a ring sector of web b and middle radius R holds
 *        exactly b t R theta: Pappus) + clips + extension + bar - nail holes
 *   clip = (pi/4) * base * height * mean thickness (half an ellipse)
 *   L0 = (V + slugs) / (bar width * bar thickness) / (1 - loss) + weld allowances;
 *        the slugs punched from the holes are lost, so the bar must hold them too
 *   e(s) = ln (A_bar / A0(s)), positive where iron must be drawn; A0 the section before creasing (pr-rows.h)
 * Bar map: equal volume from one end puts every station of the shoe on the straight bar.
 * Hand rule: hoof length + hoof width (Lungwitz & Adams, A Text-Book of Horseshoeing, ch. III).
 * Density of steel: 7850 kg/m3 (EN 1993-1-2, from memory); aluminium 2700 kg/m3, from memory. */
#pragma once
#include "pr-bar-marks.h"

void pr_iron_clear (PrIron *iron);
/* Is a bar too short for what is to come out of it? */
bool pr_iron_is_short (const PrIron *iron);
/* What is cut, each piece as long as it is cut: "304 mm + 96 mm"; of a bar that is given only those that come out of it. Transfer
 * full. */
char *pr_iron_cut_text (const PrIron *iron, PrUnit unit);
/* L0 above for VOLUME mm3, slugs in it. */
/* The loss that PLAN's bar is cut by: what the fire takes, and what the person's own shoes take more (own_more), so that
 * 1 / (1 - loss) = (1 + own_more) / (1 - plan's loss). */
double pr_iron_loss (const PrPlan *plan);
double pr_iron_bar_length (double volume, double width, double thickness, double loss, double allowance);
/* IRON is replaced. Never fails on a shoe that was built. */
void pr_iron_plan (PrIron *iron, const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe);
/* A rule of the hand for the bar to cut, beside what the shoe's own volume says. */
typedef struct {
  const char *id;    /* "length_width" "length_width_plus": C locale */
  const char *name;  /* what is measured, translated */
  const char *reach; /* what it is for and who says so, translated */
  double mm;
  double apart; /* MM less what IRON needs */
} PrHandRule;

#define PR_N_HAND_RULES 2
/* Beyond it a rule's difference is told, mm: half an inch. */
#define PR_RULE_APART 12.7
/* Hoof length + width (Lungwitz & Adams); the same and 1 1/2 in (a members' article of an Australian farriers' association). How many
 * there are: none without a foot. */
size_t pr_hand_rules (const PrIron *iron, PrHandRule rules[PR_N_HAND_RULES]);
double pr_material_density (PrMaterial material); /* kg/m3 */

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrIron, pr_iron_clear)
