/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-report-iron.h"

#include <math.h>

#include "pr-language.h"
#include "pr-json-put.h"

static void
add_piece (JsonBuilder *b, const PrPiece *piece)
{
  json_builder_begin_object (b);
  pr_put_text (b, "id", piece->id);
  pr_put_text (b, "name", piece->name);
  pr_put (b, "length_mm", piece->length);
  pr_put (b, "volume_mm3", piece->volume);
  pr_put (b, "weld_allowance_mm", piece->allowance);
  pr_put (b, "given_mm", piece->given);
  pr_put (b, "spare_mm", piece->spare);
  pr_begin_list (b, "marks");
  for (size_t i = 0; i < piece->n_marks; i++) {
    const PrMark *mark = &piece->mark[i];

    json_builder_begin_object (b);
    pr_put_text (b, "id", mark->id);
    pr_put_text (b, "name", mark->name);
    pr_put (b, "from_end_mm", mark->from_end);
    pr_put (b, "from_centre_mm", mark->from_centre);
    pr_put_pt (b, "at_mm", mark->at);
    pr_put_bool (b, "punch", mark->punch);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
  json_builder_end_object (b);
}

/* The branch that stays so much short before creasing, or what a crease lengthens it by. */
static void
put_sides (JsonBuilder *b, const char *name, const double mm[2])
{
  pr_begin (b, name);
  pr_put (b, "medial", mm[PR_MEDIAL]);
  pr_put (b, "lateral", mm[PR_LATERAL]);
  json_builder_end_object (b);
}

static void
add_hammered (JsonBuilder *b, const PrRowPlace *place, double bar)
{
  json_builder_begin_object (b);
  pr_put_text (b, "at", place->id);
  pr_put (b, "place_mm", place->place);
  pr_put (b, "web_mm", place->web);
  pr_put (b, "thickness_mm", place->thick);
  pr_put (b, "strain", log (bar / (place->web * place->thick)));
  json_builder_end_object (b);
}

/* Three rows: what the hammer leaves, what the fuller does, what the bevels do. */
static void
put_rows (JsonBuilder *b, const PrJob *job, const PrRows *rows)
{
  const PrPlan *plan = &job->sources.plan;
  g_autoptr (GArray) places = pr_rows_places (rows, job->shoe);

  pr_begin (b, "rows");
  pr_begin_list (b, "hammer");
  for (guint i = 0; i < places->len; i++)
    add_hammered (b, &g_array_index (places, PrRowPlace, i), plan->stock_width * plan->stock_thick);
  json_builder_end_array (b);
  pr_begin (b, "fuller");
  pr_put (b, "lambda", plan->crease_along);
  pr_put (b, "widens_mm", rows->widens);
  put_sides (b, "lengthens_mm", rows->lengthens);
  double before[2];
  for (int side = 0; side < 2; side++)
    before[side] = rows->lengthens[side] + rows->bevel_lengthens[side];
  put_sides (b, "short_before_mm", before);
  json_builder_end_object (b);
  pr_begin (b, "bevels");
  pr_put_text (b, "worked", plan->bevels_ground ? "ground" : "hammered");
  put_sides (b, "lengthens_mm", rows->bevel_lengthens);
  json_builder_end_object (b);
  json_builder_end_object (b);
}

static void
put_welds (JsonBuilder *b, const PrIron *iron)
{
  pr_begin_list (b, "welds");
  for (size_t i = 0; i < iron->welds.n_welds; i++) {
    const PrWeld *weld = &iron->welds.weld[i];

    json_builder_begin_object (b);
    pr_put_text (b, "id", weld->id);
    pr_begin_list (b, "on");
    for (int k = 0; k < 2; k++) {
      json_builder_begin_object (b);
      pr_put_text (b, "piece", iron->piece[weld->piece[k]].id);
      pr_put (b, "place_mm", weld->at[k]);
      json_builder_end_object (b);
    }
    json_builder_end_array (b);
    pr_put (b, "lap_mm", weld->lap);
    pr_put (b, "upset_to_mm", weld->thick);
    pr_put (b, "upset_takes_mm", weld->upset);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
  pr_begin_list (b, "turns");
  for (size_t i = 0; i < iron->welds.n_turns; i++) {
    json_builder_begin_object (b);
    pr_put_text (b, "id", iron->welds.turn[i].id);
    pr_put (b, "place_mm", iron->welds.turn[i].at);
    pr_put (b, "upset_to_mm", iron->welds.turn[i].thick);
    pr_put (b, "upset_takes_mm", iron->welds.turn[i].upset);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_sum (JsonBuilder *b, const PrIron *iron)
{
  pr_begin_list (b, "sum");
  for (size_t i = 0; i < iron->n_sum; i++) {
    json_builder_begin_object (b);
    pr_put_text (b, "id", iron->sum[i].id);
    pr_put (b, "mm", iron->sum[i].mm);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_rules (JsonBuilder *b, const PrIron *iron)
{
  PrHandRule rules[PR_N_HAND_RULES];

  size_t n = pr_hand_rules (iron, rules);
  pr_begin_list (b, "rules");
  for (size_t i = 0; i < n; i++) {
    json_builder_begin_object (b);
    pr_put_text (b, "id", rules[i].id);
    pr_put (b, "mm", rules[i].mm);
    pr_put (b, "apart_mm", rules[i].apart);
    pr_put_text (b, "reach", rules[i].reach);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

/* Planned anew, for names that do not change with the language. */
void
pr_report_put_iron (JsonBuilder *b, const PrJob *job)
{
  PR_PLAIN_WORDS;
  g_auto (PrIron) plain = { 0 };
  const PrIron *iron = &plain;

  double density = pr_material_density ((PrMaterial) job->sources.plan.material); /* kg/m3 */

  if (job->iron.n_pieces > 0)
    pr_iron_plan (&plain, &job->hoof, &job->sources.plan, job->shoe);
  pr_begin (b, "iron");
  pr_put (b, "volume_mm3", iron->volume);
  pr_put (b, "slugs_mm3", iron->slugs);
  pr_put (b, "mass_kg", iron->mass);
  pr_put (b, "slugs_kg", iron->slugs * density / 1e9);
  pr_put (b, "spare_kg",
          MAX (iron->spare, 0) * job->sources.plan.stock_width * job->sources.plan.stock_thick * density
              / 1e9);
  pr_begin_list (b, "pieces");
  for (size_t i = 0; i < iron->n_pieces; i++)
    add_piece (b, &iron->piece[i]);
  json_builder_end_array (b);
  pr_put (b, "needed_mm", iron->needed);
  pr_put (b, "given_mm", iron->given);
  pr_put (b, "spare_mm", iron->spare);
  pr_put (b, "middle_line_mm", iron->middle_line);
  pr_put (b, "hand_rule_mm", iron->hand_rule);
  put_rules (b, iron);
  pr_put (b, "mean_abs_strain", iron->mean_abs_strain);
  put_welds (b, iron);
  put_sum (b, iron);
  if (iron->rows.n > 1)
    put_rows (b, job, &iron->rows);
  json_builder_end_object (b);
}

static void
put_dividers (JsonBuilder *b, const PrShoe *shoe)
{
  pr_begin (b, "dividers");
  for (int side = 0; side < 2; side++) {
    bool from_line;
    g_autoptr (GArray) steps = pr_dividers (shoe, side, &from_line);

    pr_begin (b, side == PR_MEDIAL ? "medial" : "lateral");
    pr_put_text (b, "from", from_line ? "extension" : "toe");
    pr_begin_list (b, "steps");
    for (guint i = 0; i < steps->len; i++) {
      const PrDivider *step = &g_array_index (steps, PrDivider, i);

      json_builder_begin_object (b);
      pr_put_text (b, "id", step->id);
      pr_put_pt (b, "at_mm", step->at);
      pr_put (b, "straight_mm", step->straight);
      pr_put (b, "edge_mm", step->edge);
      pr_put (b, "step_mm", step->step);
      json_builder_end_object (b);
    }
    json_builder_end_array (b);
    json_builder_end_object (b);
  }
  json_builder_end_object (b);
}

static void
put_order (JsonBuilder *b, const PrJob *job)
{
  g_autoptr (GPtrArray) steps = pr_job_order (job);

  pr_begin_list (b, "order");
  for (guint i = 0; i < steps->len; i++)
    json_builder_add_string_value (b, steps->pdata[i]);
  json_builder_end_array (b);
}

static void
add_step (JsonBuilder *b, const PrStep *step)
{
  json_builder_begin_object (b);
  pr_put_text (b, "id", step->id);
  pr_put (b, "seconds", step->seconds);
  pr_put_text (b, "text", step->text);
  pr_put_text (b, "look", step->look);
  json_builder_end_object (b);
}

static void
put_heats (JsonBuilder *b, const PrJob *job)
{
  g_auto (PrHeats) heats = { NULL };

  pr_heats_make (&heats, &job->sources.plan, job->shoe, &job->iron, job->unit);
  pr_begin_list (b, "heats");
  for (guint i = 0; i < heats.heats->len; i++) {
    const PrHeat *heat = &g_array_index (heats.heats, PrHeat, i);

    json_builder_begin_object (b);
    pr_put_text (b, "zone", pr_zone_id (heat->zone));
    pr_put_bool (b, "weld", heat->weld);
    pr_put (b, "seconds", heat->seconds);
    pr_put (b, "limit_s", heat->limit);
    pr_begin_list (b, "steps");
    for (guint k = 0; k < heat->n; k++)
      add_step (b, &g_array_index (heats.steps, PrStep, heat->first + k));
    json_builder_end_array (b);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

void
pr_report_put_work (JsonBuilder *b, const PrJob *job)
{
  put_dividers (b, job->shoe);
  put_order (b, job);
  put_heats (b, job);
}
