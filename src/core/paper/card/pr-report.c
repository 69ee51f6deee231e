/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-report.h"

#include "pr-card-title.h"
#include "pr-card.h"
#include "pr-hoof-json.h"
#include "pr-language.h"

#include <glib/gi18n-lib.h>

#define TEXT_COLUMNS 84 /* a narrow page of fixed-width type */
#define LABEL_COLUMNS 22

/* --- text -------------------------------------------------------------------------------- */

static void
pad (GString *out, const char *text, long columns)
{
  g_string_append (out, text);
  for (long n = g_utf8_strlen (text, -1); n < columns; n++)
    g_string_append_c (out, ' ');
}

/* TEXT broken between words, later lines set in by INDENT; the first begins in column AT. */
static void
wrap (GString *out, const char *text, long at, int indent)
{
  g_auto (GStrv) word = g_strsplit (text, " ", -1);

  for (int i = 0; word[i] != NULL; i++) {
    long n = g_utf8_strlen (word[i], -1);

    if (i > 0 && at + 1 + n > TEXT_COLUMNS) {
      g_string_append_printf (out, "\n%*s", indent, "");
      at = indent;
    } else if (i > 0) {
      g_string_append_c (out, ' ');
      at++;
    }
    g_string_append (out, word[i]);
    at += n;
  }
  g_string_append_c (out, '\n');
}

static void
rule (GString *out, const char *text, char mark)
{
  long n = g_utf8_strlen (text, -1);

  g_string_append_printf (out, "%s\n", text);
  while (n-- > 0)
    g_string_append_c (out, mark);
  g_string_append_c (out, '\n');
}

static void
line_text (GString *out, const PrCardLine *line)
{
  switch (line->kind) {
  case PR_CARD_HEAD:
    g_string_append_c (out, '\n');
    rule (out, line->label, '-');
    break;
  case PR_CARD_ROW:
    pad (out, line->label, LABEL_COLUMNS);
    wrap (out, line->value, LABEL_COLUMNS, LABEL_COLUMNS);
    break;
  case PR_CARD_MARK:
    pad (out, line->label, LABEL_COLUMNS);
    g_string_append_printf (out, "%12s%14s\n", line->value, line->more);
    break;
  case PR_CARD_TEXT:
    g_string_append (out, line->label != NULL ? "[" : "- ");
    if (line->label != NULL)
      g_string_append_printf (out, "%s] ", line->label);
    wrap (out, line->value, line->label != NULL ? g_utf8_strlen (line->label, -1) + 3 : 2, 2);
    break;
  }
}

char *
pr_report_text (const PrJob *job, PrUnit unit)
{
  PR_PLAIN_NUMBERS;
  g_autoptr (GPtrArray) lines = pr_card_lines (job, unit);
  g_autofree char *title = pr_card_title (job, NULL, NULL);
  GString *out = g_string_new (NULL);

  rule (out, title, '=');
  for (guint i = 0; i < lines->len; i++)
    line_text (out, g_ptr_array_index (lines, i));
  return g_string_free (out, FALSE);
}

/* --- JSON -------------------------------------------------------------------------------- */

static void
put (JsonBuilder *b, const char *name, double value)
{
  json_builder_set_member_name (b, name);
  if (isfinite (value))
    json_builder_add_double_value (b, value);
  else
    json_builder_add_null_value (b);
}

static void
put_text (JsonBuilder *b, const char *name, const char *value)
{
  json_builder_set_member_name (b, name);
  json_builder_add_string_value (b, value != NULL ? value : "");
}

static void
put_bool (JsonBuilder *b, const char *name, bool value)
{
  json_builder_set_member_name (b, name);
  json_builder_add_boolean_value (b, value);
}

static void
put_int (JsonBuilder *b, const char *name, gint64 value)
{
  json_builder_set_member_name (b, name);
  json_builder_add_int_value (b, value);
}

static void
add_pt (JsonBuilder *b, PrPt p)
{
  json_builder_begin_array (b);
  json_builder_add_double_value (b, p.x);
  json_builder_add_double_value (b, p.y);
  json_builder_end_array (b);
}

static void
put_pt (JsonBuilder *b, const char *name, PrPt p)
{
  json_builder_set_member_name (b, name);
  add_pt (b, p);
}

static void
add_path (JsonBuilder *b, const PrPath *path)
{
  json_builder_begin_array (b);
  for (size_t i = 0; i < path->n; i++)
    add_pt (b, path->p[i]);
  json_builder_end_array (b);
}

static void
put_path (JsonBuilder *b, const char *name, const PrPath *path)
{
  json_builder_set_member_name (b, name);
  add_path (b, path);
}

static void
begin (JsonBuilder *b, const char *name)
{
  json_builder_set_member_name (b, name);
  json_builder_begin_object (b);
}

static void
begin_list (JsonBuilder *b, const char *name)
{
  json_builder_set_member_name (b, name);
  json_builder_begin_array (b);
}

static void
put_branch (JsonBuilder *b, int branch)
{
  put_text (b, "branch", branch == PR_MEDIAL ? "medial" : "lateral");
}

static void
put_hoof (JsonBuilder *b, const PrJob *job)
{
  const PrHoof *hoof = &job->hoof;

  begin (b, "hoof");
  put_text (b, "foot", pr_foot_code (job->sources.foot));
  put_text (b, "frame", "x lateral, y to the toe, mm");
  put (b, "length_mm", hoof->length);
  put (b, "width_mm", hoof->width);
  put (b, "width_medial_mm", hoof->width_side[PR_MEDIAL]);
  put (b, "width_lateral_mm", hoof->width_side[PR_LATERAL]);
  put (b, "toe_to_widest_mm", hoof->toe_to_widest);
  put (b, "widest_to_heels_mm", hoof->widest_to_heels);
  put (b, "heel_width_mm", hoof->heel_width);
  put (b, "area_mm2", hoof->area);
  put (b, "perimeter_mm", hoof->perimeter);
  put (b, "lean_mm", hoof->lean);
  put_pt (b, "lean_at_mm", hoof->lean_at);
  put_pt (b, "toe_mm", hoof->toe);
  put_pt (b, "buttress_medial_mm", hoof->buttress[PR_MEDIAL]);
  put_pt (b, "buttress_lateral_mm", hoof->buttress[PR_LATERAL]);
  if (hoof->has_frog_apex)
    put_pt (b, "frog_apex_mm", hoof->frog_apex);
  put (b, "wall_toe_mm", hoof->wall[0]);
  put (b, "wall_quarter_mm", hoof->wall[1]);
  put (b, "wall_heel_mm", hoof->wall[2]);
  pr_hoof_json_put (b, hoof);
  put_bool (b, "closed", hoof->closed);
  put_path (b, "outline_mm", &hoof->outline);
  json_builder_end_object (b);
}

static void
put_scale (JsonBuilder *b, const PrTracing *tracing)
{
  const PrScale *scale = &tracing->scale;

  begin (b, "scale");
  put_text (b, "method", pr_scale_method_code (scale->method));
  put_text (b, "paper", pr_paper_name (scale->paper));
  put (b, "px_per_mm", scale->px_per_mm);
  put (b, "residual_mm", scale->residual_mm);
  put (b, "tilt_deg", scale->tilt * 180 / G_PI);
  put (b, "lens_k1", tracing->camera.k1);
  put_text (b, "verdict", pr_verdict_code (scale->verdict));
  put_text (b, "why", scale->why);
  json_builder_end_object (b);
}

static void
add_nail (JsonBuilder *b, const PrNail *nail)
{
  json_builder_begin_object (b);
  put_branch (b, nail->branch);
  put_int (b, "index", nail->index);
  put_pt (b, "at_mm", nail->at);
  put_pt (b, "along", nail->along);
  put (b, "place", nail->place);
  put (b, "edge_mm", nail->edge);
  put (b, "inset_mm", nail->inset);
  put (b, "head_length_mm", nail->head_length);
  put (b, "head_width_mm", nail->head_width);
  put (b, "shank_mm", nail->shank);
  json_builder_end_object (b);
}

static void
add_clip (JsonBuilder *b, const PrClip *clip)
{
  json_builder_begin_object (b);
  put_branch (b, clip->branch);
  put_pt (b, "at_mm", clip->at);
  put (b, "place", clip->place);
  put (b, "edge_mm", clip->edge);
  put (b, "edge_from_mm", clip->edge_from);
  put (b, "edge_to_mm", clip->edge_to);
  put (b, "base_mm", clip->base);
  put (b, "height_mm", clip->height);
  put (b, "thickness_mm", clip->thickness);
  put_path (b, "ring_mm", &clip->ring);
  json_builder_end_object (b);
}

static void
add_crease (JsonBuilder *b, const PrCrease *crease)
{
  json_builder_begin_object (b);
  put_branch (b, crease->branch);
  put (b, "edge_from_mm", crease->edge_from);
  put (b, "edge_to_mm", crease->edge_to);
  put (b, "place_from", crease->place_from);
  put (b, "place_to", crease->place_to);
  put (b, "width_mm", crease->width);
  put (b, "depth_mm", crease->depth);
  put_path (b, "middle_mm", &crease->middle);
  json_builder_end_object (b);
}

static void
put_extension (JsonBuilder *b, const PrExtension *ext)
{
  json_builder_set_member_name (b, "extension");
  if (!ext->present) {
    json_builder_add_null_value (b);
    return;
  }
  json_builder_begin_object (b);
  put (b, "ahead_mm", ext->ahead);
  put (b, "width_mm", ext->width);
  put (b, "thickness_mm", ext->thick);
  put (b, "volume_mm3", ext->volume);
  put_path (b, "corner_mm", &(PrPath){ .p = (PrPt *) ext->corner, .n = 4 });
  put_path (b, "line_mm", &(PrPath){ .p = (PrPt *) ext->line, .n = 2 });
  json_builder_end_object (b);
}

/* Station by station: a point of the roll's line, the outer edge ahead of it, and how far the ground surface has risen there. */
static void
put_roll (JsonBuilder *b, const PrShoe *shoe)
{
  const PrRoll *roll = &shoe->roll;
  g_auto (PrPath) line = { 0 }, edge = { 0 };

  if (!roll->present)
    return;
  pr_path_add (&line, roll->line[PR_MEDIAL]);
  pr_path_add (&edge, roll->line[PR_MEDIAL]);
  for (size_t i = 0; i < shoe->n_st; i++)
    if (shoe->st[i].outer.y > roll->y) {
      pr_path_add (&line, pr_pt (shoe->st[i].outer.x, roll->y));
      pr_path_add (&edge, shoe->st[i].outer);
    }
  pr_path_add (&line, roll->line[PR_LATERAL]);
  pr_path_add (&edge, roll->line[PR_LATERAL]);
  begin (b, "roll");
  put_path (b, "line_mm", &line);
  put_path (b, "edge_mm", &edge);
  begin_list (b, "depth_mm");
  for (size_t i = 0; i < edge.n; i++)
    json_builder_add_double_value (b, roll->slope * (edge.p[i].y - roll->y));
  json_builder_end_array (b);
  json_builder_end_object (b);
}

static void
put_parts (JsonBuilder *b, const PrShoe *shoe)
{
  begin_list (b, "nails");
  for (size_t i = 0; i < shoe->n_nails; i++)
    add_nail (b, &shoe->nail[i]);
  json_builder_end_array (b);
  begin_list (b, "clips");
  for (size_t i = 0; i < shoe->n_clips; i++)
    add_clip (b, &shoe->clip[i]);
  json_builder_end_array (b);
  begin_list (b, "crease");
  for (size_t i = 0; i < shoe->n_creases; i++)
    add_crease (b, &shoe->crease[i]);
  json_builder_end_array (b);
  put_extension (b, &shoe->ext);
  put_roll (b, shoe);
}

static void
put_shoe (JsonBuilder *b, const PrJob *job)
{
  const PrShoe *shoe = job->shoe;
  double width, length;

  begin (b, "shoe");
  pr_card_shoe_size (shoe, &width, &length);
  put (b, "width_mm", width);
  put (b, "length_mm", length);
  put (b, "area_mm2", pr_figure_area (&shoe->figure));
  put (b, "thickness_toe_mm", job->sources.plan.thick_toe);
  put (b, "thickness_heel_mm", job->sources.plan.thick_heel);
  put (b, "middle_line_mm", shoe->middle_length);
  put_bool (b, "simple", shoe->simple);
  put_text (b, "trouble", shoe->trouble);
  put_path (b, "outer_mm", &shoe->outer);
  put_path (b, "inner_mm", &shoe->inner);
  begin_list (b, "figure_mm");
  for (size_t i = 0; i < shoe->figure.n; i++)
    add_path (b, &shoe->figure.ring[i]);
  json_builder_end_array (b);
  put_parts (b, shoe);
  json_builder_end_object (b);
}

static void
add_piece (JsonBuilder *b, const PrPiece *piece)
{
  json_builder_begin_object (b);
  put_text (b, "id", piece->id);
  put_text (b, "name", piece->name);
  put (b, "length_mm", piece->length);
  put (b, "volume_mm3", piece->volume);
  put (b, "weld_allowance_mm", piece->allowance);
  begin_list (b, "marks");
  for (size_t i = 0; i < piece->n_marks; i++) {
    const PrMark *mark = &piece->mark[i];

    json_builder_begin_object (b);
    put_text (b, "id", mark->id);
    put_text (b, "name", mark->name);
    put (b, "from_end_mm", mark->from_end);
    put (b, "from_centre_mm", mark->from_centre);
    put_pt (b, "at_mm", mark->at);
    put_bool (b, "punch", mark->punch);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
  json_builder_end_object (b);
}

/* The branch that stays so much short before creasing, or what a crease lengthens it by. */
static void
put_sides (JsonBuilder *b, const char *name, const double mm[2])
{
  begin (b, name);
  put (b, "medial", mm[PR_MEDIAL]);
  put (b, "lateral", mm[PR_LATERAL]);
  json_builder_end_object (b);
}

static void
add_hammered (JsonBuilder *b, const PrRowPlace *place, double bar)
{
  json_builder_begin_object (b);
  put_text (b, "at", place->id);
  put (b, "place_mm", place->place);
  put (b, "web_mm", place->web);
  put (b, "thickness_mm", place->thick);
  put (b, "strain", log (bar / (place->web * place->thick)));
  json_builder_end_object (b);
}

/* Three rows: what the hammer leaves, what the fuller does, what the bevels do. */
static void
put_rows (JsonBuilder *b, const PrJob *job, const PrRows *rows)
{
  const PrPlan *plan = &job->sources.plan;
  g_autoptr (GArray) places = pr_rows_places (rows, job->shoe);

  begin (b, "rows");
  begin_list (b, "hammer");
  for (guint i = 0; i < places->len; i++)
    add_hammered (b, &g_array_index (places, PrRowPlace, i), plan->stock_width * plan->stock_thick);
  json_builder_end_array (b);
  begin (b, "fuller");
  put (b, "lambda", plan->crease_along);
  put (b, "widens_mm", rows->widens);
  put_sides (b, "lengthens_mm", rows->lengthens);
  double before[2];
  for (int side = 0; side < 2; side++)
    before[side] = rows->lengthens[side] + rows->bevel_lengthens[side];
  put_sides (b, "short_before_mm", before);
  json_builder_end_object (b);
  begin (b, "bevels");
  put_text (b, "worked", plan->bevels_ground ? "ground" : "hammered");
  put_sides (b, "lengthens_mm", rows->bevel_lengthens);
  json_builder_end_object (b);
  json_builder_end_object (b);
}

static void
put_sum (JsonBuilder *b, const PrIron *iron)
{
  begin_list (b, "sum");
  for (size_t i = 0; i < iron->n_sum; i++) {
    json_builder_begin_object (b);
    put_text (b, "id", iron->sum[i].id);
    put (b, "mm", iron->sum[i].mm);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

/* Planned anew, for names that do not change with the language. */
static void
put_iron (JsonBuilder *b, const PrJob *job)
{
  PR_PLAIN_WORDS;
  g_auto (PrIron) plain = { 0 };
  const PrIron *iron = &plain;

  if (job->iron.n_pieces > 0)
    pr_iron_plan (&plain, &job->hoof, &job->sources.plan, job->shoe);
  begin (b, "iron");
  put (b, "volume_mm3", iron->volume);
  put (b, "slugs_mm3", iron->slugs);
  put (b, "mass_kg", iron->mass);
  begin_list (b, "pieces");
  for (size_t i = 0; i < iron->n_pieces; i++)
    add_piece (b, &iron->piece[i]);
  json_builder_end_array (b);
  put (b, "needed_mm", iron->needed);
  put (b, "given_mm", iron->given);
  put (b, "spare_mm", iron->spare);
  put (b, "middle_line_mm", iron->middle_line);
  put (b, "hand_rule_mm", iron->hand_rule);
  put (b, "mean_abs_strain", iron->mean_abs_strain);
  put_sum (b, iron);
  if (iron->rows.n > 1)
    put_rows (b, job, &iron->rows);
  json_builder_end_object (b);
}

static void
add_finding (JsonBuilder *b, const PrJob *job, PrFinding *finding)
{
  const char *offer = pr_job_offer (job, finding);

  json_builder_begin_object (b);
  put_text (b, "id", finding->id);
  put_text (b, "group", pr_group_code (finding->group));
  put_text (b, "state", pr_state_code (finding->state));
  put (b, "value", finding->value);
  put (b, "limit", finding->limit);
  put_text (b, "unit", finding->unit);
  json_builder_set_member_name (b, "at_mm");
  if (finding->has_at)
    add_pt (b, finding->at);
  else
    json_builder_add_null_value (b);
  put_text (b, "text", finding->text);
  put_text (b, "source", finding->source);
  put_text (b, "offer", offer ? offer : "");
  json_builder_end_object (b);
}

static void
put_dividers (JsonBuilder *b, const PrShoe *shoe)
{
  begin (b, "dividers");
  for (int side = 0; side < 2; side++) {
    bool from_line;
    g_autoptr (GArray) steps = pr_dividers (shoe, side, &from_line);

    begin (b, side == PR_MEDIAL ? "medial" : "lateral");
    put_text (b, "from", from_line ? "extension" : "toe");
    begin_list (b, "steps");
    for (guint i = 0; i < steps->len; i++) {
      const PrDivider *step = &g_array_index (steps, PrDivider, i);

      json_builder_begin_object (b);
      put_text (b, "id", step->id);
      put_pt (b, "at_mm", step->at);
      put (b, "straight_mm", step->straight);
      put (b, "edge_mm", step->edge);
      put (b, "step_mm", step->step);
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

  begin_list (b, "order");
  for (guint i = 0; i < steps->len; i++)
    json_builder_add_string_value (b, steps->pdata[i]);
  json_builder_end_array (b);
}

JsonNode *
pr_report_json (const PrJob *job)
{
  PR_PLAIN_NUMBERS;
  g_autoptr (JsonBuilder) b = json_builder_new ();

  json_builder_begin_object (b);
  put_text (b, "program", "pritchel " PR_VERSION);
  if (pr_sources_scale (&job->sources) != NULL)
    put_scale (b, job->sources.tracing);
  put_hoof (b, job);
  json_builder_set_member_name (b, "plan");
  json_builder_add_value (b, pr_plan_to_json (&job->sources.plan));
  if (job->shoe != NULL)
    put_shoe (b, job);
  put_iron (b, job);
  begin_list (b, "checks");
  for (guint i = 0; job->findings != NULL && i < job->findings->len; i++)
    add_finding (b, job, g_ptr_array_index (job->findings, i));
  json_builder_end_array (b);
  if (job->shoe != NULL && job->shoe->n_st > 1) {
    put_dividers (b, job->shoe);
    put_order (b, job);
  }
  json_builder_end_object (b);
  return json_builder_get_root (b);
}
