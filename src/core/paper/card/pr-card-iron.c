/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-card-iron.h"

#include "pr-dividers.h"
#include "pr-heat.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

/* A mark's name, with the side where its id tells one and the name does not. Transfer full. */
static char *
mark_label (const PrMark *mark)
{
  int side = g_str_has_suffix (mark->id, ".medial")    ? PR_MEDIAL
             : g_str_has_suffix (mark->id, ".lateral") ? PR_LATERAL
                                                       : -1;
  const char *letter = side == PR_MEDIAL ? C_ ("medial", "M") : C_ ("lateral", "L");

  if (side < 0 || g_str_has_suffix (mark->name, letter) || strstr (mark->name, pr_card_side (side)) != NULL)
    return g_strdup (mark->name);
  return g_strdup_printf ("%s %s", mark->name, letter);
}

static void
add_marks (PrCardDraft *draft, const PrPiece *piece)
{
  pr_card_add (draft, PR_CARD_MARK, _ ("mark"), g_strdup (_ ("from end")), g_strdup (_ ("from toe")));
  for (size_t i = 0; i < piece->n_marks; i++) {
    const PrMark *mark = &piece->mark[i];

    g_autofree char *label = mark_label (mark);
    pr_card_add (draft, PR_CARD_MARK, label, pr_length_number (mark->from_end, draft->unit),
                 pr_length_number (mark->from_centre, draft->unit));
  }
}

static void
add_balance (PrCardDraft *draft)
{
  const PrIron *iron = &draft->job->iron;

  PR_CARD_LEN (needed, iron->needed);
  g_autofree char *cut = pr_iron_cut_text (iron, draft->unit),
                  *told = pr_length_brief (iron->needed, draft->unit);
  pr_card_row (draft, _ ("Needed"),
               g_str_equal (cut, told) ? _ ("%s, losses included")
                                       : _ ("%s, losses included; cut %s, rounded up"),
               needed, cut);
  if (iron->given > 0) {
    PR_CARD_LEN (given, iron->given);
    PR_CARD_LEN (spare, fabs (iron->spare));
    pr_card_row (draft, _ ("Given"), "%s", given);
    pr_card_row (draft, iron->spare < 0 ? _ ("Missing") : _ ("Left over"), "%s", spare);
  }
}

/* A rule, what it is for, and where it differs from this shoe. */
static void
add_rule (PrCardDraft *draft, const PrHandRule *rule)
{
  PR_CARD_LEN (length, rule->mm);
  PR_CARD_LEN (apart, fabs (rule->apart));
  pr_card_row (draft, _ ("Hand rule"), "%s, %s (%s)", length, rule->name, rule->reach);
  if (fabs (rule->apart) > PR_RULE_APART)
    pr_card_row (draft, "",
                 rule->apart > 0 ? _ ("%s more than this shoe takes") : _ ("%s less than this shoe takes"),
                 apart);
}

/* What the other lengths say about the work. */
static void
add_rules (PrCardDraft *draft)
{
  const PrIron *iron = &draft->job->iron;
  double shoe_piece = iron->n_pieces > 0 ? iron->piece[0].length : iron->needed;
  double more = shoe_piece > 0 ? (iron->middle_line / shoe_piece - 1) * 100 : 0;
  PrHandRule rules[PR_N_HAND_RULES];
  char share[16];

  PR_CARD_LEN (line, iron->middle_line);
  pr_card_row (draft, _ ("Middle line"), _ ("%s, a string round the middle of the web"), line);
  pr_card_row (draft, "",
               more >= 0 ? _ ("%s %% longer than the stock that is cut: it is drawn")
                         : _ ("%s %% shorter than the stock that is cut: it is upset"),
               pr_card_decimal (share, fabs (more), 1));
  size_t n = pr_hand_rules (iron, rules);
  for (size_t i = 0; i < n; i++)
    add_rule (draft, &rules[i]);
}

/* The lines of a sum in whole STEPS of what is told, so that they come to the sum as it is told: each is rounded down, and as
 * many as are then missing are given back, one to each of the lines that lost most. */
static void
share_out (const PrIron *iron, double step, long *told)
{
  long missing = lround (iron->needed / step);

  for (size_t i = 0; i < iron->n_sum; i++) {
    told[i] = (long) floor (iron->sum[i].mm / step);
    missing -= told[i];
  }
  for (; missing > 0; missing--) {
    size_t most = 0;

    for (size_t i = 1; i < iron->n_sum; i++)
      if (iron->sum[i].mm - step * (double) told[i] > iron->sum[most].mm - step * (double) told[most])
        most = i;
    told[most]++;
  }
}

/* What the bar to cut is made of, line by line; what comes to nothing is left out. */
static void
add_sum (PrCardDraft *draft)
{
  const PrIron *iron = &draft->job->iron;
  double step = draft->unit == PR_UNIT_INCH ? PR_MM_PER_INCH / 16 : 0.1;
  long told[G_N_ELEMENTS (iron->sum)];

  share_out (iron, step, told);
  pr_card_head (draft, true, _ ("What the stock to cut is made of"));
  for (size_t i = 0; i < iron->n_sum; i++) {
    PR_CARD_LEN (length, step * (double) labs (told[i]));

    if (told[i] != 0)
      pr_card_row (draft, iron->sum[i].name, told[i] < 0 ? "− %s" : "+ %s", length);
  }
  PR_CARD_LEN (needed, iron->needed);
  pr_card_row (draft, _ ("together"), "= %s", needed);
}

/* What the hammer leaves before the fuller comes. */
static void
add_rows (PrCardDraft *draft)
{
  const PrRows *rows = &draft->job->iron.rows;
  g_autoptr (GArray) places = pr_rows_places (rows, draft->job->shoe);

  if (places->len == 0)
    return;
  pr_card_head (draft, true, _ ("Leave before creasing"));
  pr_card_add (draft, PR_CARD_MARK, _ ("place"), g_strdup (_ ("from the toe")), g_strdup (_ ("web")));
  for (guint i = 0; i < places->len; i++) {
    const PrRowPlace *place = &g_array_index (places, PrRowPlace, i);
    g_autofree char *name = i == 0
                                ? g_strdup (place->name)
                                : g_strdup_printf (_ ("%s, %s"), place->name, pr_card_side (place->branch));

    pr_card_add (draft, PR_CARD_MARK, name, pr_length_number (place->place, draft->unit),
                 pr_length_number (place->web, draft->unit));
  }
  PR_CARD_LEN (medial, rows->lengthens[PR_MEDIAL] + rows->bevel_lengthens[PR_MEDIAL]);
  PR_CARD_LEN (lateral, rows->lengthens[PR_LATERAL] + rows->bevel_lengthens[PR_LATERAL]);
  PR_CARD_LEN (widens, rows->widens);
  pr_card_row (draft, _ ("Heels short"),
               _ ("%s medial and %s lateral before creasing: the fuller lengthens the branches"), medial,
               lateral);
  pr_card_row (draft, _ ("Web"),
               _ ("widens by %s at most under the fuller; the share that lengthens is common practice, no "
                  "source"),
               widens);
}

static void
add_kg (PrCardDraft *draft, const char *label, double kg)
{
  char mass[16];
  bool inch = draft->unit == PR_UNIT_INCH;

  /* 1 oz avoirdupois = 0.028349523125 kg exactly (international pound, 1959) */
  pr_card_row (draft, label, inch ? _ ("%s oz") : _ ("%s g"),
               inch ? pr_card_decimal (mass, kg / 0.028349523125, 1) : pr_card_decimal (mass, kg * 1000, 0));
}

static void
add_mass (PrCardDraft *draft)
{
  const PrIron *iron = &draft->job->iron;
  const PrPlan *plan = &draft->job->sources.plan;
  double kg_per_mm3 = pr_material_density ((PrMaterial) plan->material) / 1e9;
  char work[16];

  add_kg (draft, _ ("Mass"), iron->mass);
  add_kg (draft, _ ("Slugs"), iron->slugs * kg_per_mm3);
  if (iron->spare > 0)
    add_kg (draft, _ ("Left over"), iron->spare * plan->stock_width * plan->stock_thick * kg_per_mm3);
  pr_card_row (draft, _ ("Work"), _ ("%s %% drawn and upset, upsetting counted three times"),
               pr_card_decimal (work, pr_rack_work (plan, draft->job->shoe, iron) * 100, 0));
}

/* How long there is to work, and for what there is no telling. */
static void
add_heat (PrCardDraft *draft)
{
  const PrPlan *plan = &draft->job->sources.plan;
  double seconds = pr_heat_seconds (plan->stock_width, plan->stock_thick, PR_HEAT_FROM_C, PR_HEAT_TO_C);
  char air[16], anvil[16];

  if (plan->material == PR_MATERIAL_ALUMINIUM)
    pr_card_row (draft, _ ("A heat"), "%s",
                 _ ("aluminium gives no sign of its heat: never judge it by eye or hand"));
  else
    pr_card_row (draft, _ ("A heat"),
                 _ ("lasts %s s in still air from yellow to red, about %s s on the anvil"),
                 pr_card_decimal (air, seconds, 0), pr_card_decimal (anvil, seconds * PR_HEAT_ON_ANVIL, 0));
}

static void
add_pieces (PrCardDraft *draft)
{
  const PrIron *iron = &draft->job->iron;

  for (size_t i = 0; i < iron->n_pieces; i++) {
    g_autofree char *length = pr_length_cut (iron->piece[i].length, draft->unit);
    PR_CARD_LEN (weld, iron->piece[i].allowance);

    if (iron->n_pieces > 1)
      pr_card_row (draft, iron->piece[i].name, "%s", length);
    if (iron->piece[i].allowance > 0)
      pr_card_row (draft, iron->n_pieces > 1 ? "" : _ ("Welds"),
                   _ ("%s of it for welds (common practice, no source)"), weld);
  }
}

void
pr_card_add_iron (PrCardDraft *draft)
{
  const PrIron *iron = &draft->job->iron;
  const PrPlan *plan = &draft->job->sources.plan;
  char loss[16];

  g_autofree char *stock = pr_section_as_called (plan->stock_width, plan->stock_thick, draft->unit);

  pr_card_head (draft, true, _ ("Stock"));
  pr_card_row (draft, C_ ("iron as bought", "Bar"), "%s, %s", stock,
               plan->material == PR_MATERIAL_ALUMINIUM ? _ ("aluminium") : _ ("steel"));
  add_pieces (draft);
  add_balance (draft);
  add_mass (draft);
  add_heat (draft);
  draft->anvil = false;
  pr_card_row (draft, _ ("Losses"),
               _ ("%s %% to scale and grinding (published figures run from 0.6 to 7.5 %%)"),
               pr_card_decimal (loss, plan->loss * 100, 1));
  add_rules (draft);
  add_sum (draft);
  add_rows (draft);
  for (size_t i = 0; i < iron->n_pieces; i++) {
    g_autofree char *label = g_strdup_printf (_ ("Marks on the stock: %s"), iron->piece[i].name);

    if (iron->piece[i].n_marks == 0)
      continue;
    pr_card_head (draft, true, label);
    add_marks (draft, &iron->piece[i]);
  }
}

/* --- work --- */

/* Every mark of a branch as a smith steps it off. */
static void
add_dividers (PrCardDraft *draft, int side)
{
  bool from_line = false;
  g_autoptr (GArray) steps = pr_dividers (draft->job->shoe, side, &from_line);
  g_autofree char *label = g_strdup_printf (from_line ? _ ("Dividers from the extension line, %s branch")
                                                      : _ ("Dividers from the toe, %s branch"),
                                            pr_card_side (side));

  pr_card_head (draft, true, label);
  pr_card_add (draft, PR_CARD_MARK, _ ("mark"), g_strdup (C_ ("distance from mark to mark", "straight")),
               g_strdup (_ ("step")));
  for (guint i = 0; i < steps->len; i++) {
    const PrDivider *step = &g_array_index (steps, PrDivider, i);

    pr_card_add (draft, PR_CARD_MARK, step->name, pr_length_number (step->straight, draft->unit),
                 pr_length_number (step->step, draft->unit));
  }
}

/* A person's own words, a step a line. */
static void
add_words (PrCardDraft *draft)
{
  g_autoptr (GPtrArray) steps = pr_job_order (draft->job);

  for (guint i = 0; i < steps->len; i++) {
    g_autofree char *number = g_strdup_printf ("%u", i + 1);

    pr_card_add (draft, PR_CARD_TEXT, number, g_strdup (steps->pdata[i]), NULL);
  }
}

/* Which part is hot and how long, before the steps of heat OF. */
static void
add_heat_name (GString *text, const PrHeats *heats, guint of)
{
  const PrHeat *heat = &g_array_index (heats->heats, PrHeat, of - 1);

  g_string_append (text, pr_zone_name (heat->zone));
  if (heat->limit > 0)
    g_string_append_printf (text, _ (", %.0f of %.0f s"), heat->seconds, heat->limit);
  g_string_append (text, ":");
}

static void
add_heats (PrCardDraft *draft)
{
  const PrJob *job = draft->job;
  g_auto (PrHeats) heats = { NULL };

  pr_heats_make (&heats, &job->sources.plan, job->shoe, &job->iron, draft->unit);
  for (guint i = 0; i < heats.steps->len;) {
    guint of = pr_heats_of_step (&heats, i);
    bool hot = of > 0 && of <= heats.heats->len;
    g_autofree char *number = hot ? g_strdup_printf ("%u", of) : NULL;
    GString *text = g_string_new (NULL);

    if (hot)
      add_heat_name (text, &heats, of);
    for (; i < heats.steps->len && pr_heats_of_step (&heats, i) == of; i++) {
      g_autofree char *words = pr_step_words (&g_array_index (heats.steps, PrStep, i));

      g_string_append_printf (text, "%s%s", text->len > 0 ? " " : "", words);
    }
    pr_card_add (draft, PR_CARD_TEXT, number, g_string_free (text, FALSE), NULL);
  }
}

static void
add_order (PrCardDraft *draft)
{
  pr_card_head (draft, true, draft->job->sources.order ? _ ("Order of work") : _ ("Heats"));
  if (draft->job->sources.order)
    add_words (draft);
  else
    add_heats (draft);
}

void
pr_card_add_work (PrCardDraft *draft)
{
  if (draft->job->shoe == NULL || draft->job->shoe->n_st < 2)
    return;
  add_dividers (draft, PR_MEDIAL);
  add_dividers (draft, PR_LATERAL);
  add_order (draft);
}
