/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-report.h"

#include "pr-card-title.h"
#include "pr-card.h"
#include "pr-hoof-json.h"
#include "pr-language.h"
#include "pr-report-iron.h"
#include "pr-json-put.h"

#include <glib/gi18n-lib.h>

#define TEXT_COLUMNS 84 /* a narrow page of fixed-width type */
#define LABEL_COLUMNS 22

/* --- text -------------------------------------------------------------------------------- */

static void
pad (GString *out, const char *text, long columns)
{
  g_string_append (out, text);
  long n = g_utf8_strlen (text, -1);

  g_string_append_c (out, ' '); /* also behind one that is longer than its column */
  for (n++; n < columns; n++)
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
add_path (JsonBuilder *b, const PrPath *path)
{
  json_builder_begin_array (b);
  for (size_t i = 0; i < path->n; i++)
    pr_add_pt (b, path->p[i]);
  json_builder_end_array (b);
}

static void
put_path (JsonBuilder *b, const char *name, const PrPath *path)
{
  json_builder_set_member_name (b, name);
  add_path (b, path);
}

static void
put_branch (JsonBuilder *b, int branch)
{
  pr_put_text (b, "branch", branch == PR_MEDIAL ? "medial" : "lateral");
}

static void
put_hoof (JsonBuilder *b, const PrJob *job)
{
  const PrHoof *hoof = &job->hoof;

  pr_begin (b, "hoof");
  pr_put_text (b, "foot", pr_foot_code (job->sources.foot));
  pr_put_text (b, "frame", "x lateral, y to the toe, mm");
  pr_put (b, "length_mm", hoof->length);
  pr_put (b, "width_mm", hoof->width);
  pr_put (b, "width_medial_mm", hoof->width_side[PR_MEDIAL]);
  pr_put (b, "width_lateral_mm", hoof->width_side[PR_LATERAL]);
  pr_put (b, "toe_to_widest_mm", hoof->toe_to_widest);
  pr_put (b, "widest_to_heels_mm", hoof->widest_to_heels);
  pr_put (b, "heel_width_mm", hoof->heel_width);
  pr_put (b, "area_mm2", hoof->area);
  pr_put (b, "perimeter_mm", hoof->perimeter);
  pr_put (b, "lean_mm", hoof->lean);
  pr_put_pt (b, "lean_at_mm", hoof->lean_at);
  pr_put_pt (b, "toe_mm", hoof->toe);
  pr_put_pt (b, "buttress_medial_mm", hoof->buttress[PR_MEDIAL]);
  pr_put_pt (b, "buttress_lateral_mm", hoof->buttress[PR_LATERAL]);
  if (hoof->has_frog_apex)
    pr_put_pt (b, "frog_apex_mm", hoof->frog_apex);
  pr_put (b, "wall_toe_mm", hoof->wall[0]);
  pr_put (b, "wall_quarter_mm", hoof->wall[1]);
  pr_put (b, "wall_heel_mm", hoof->wall[2]);
  pr_hoof_json_put (b, hoof);
  pr_put_bool (b, "closed", hoof->closed);
  put_path (b, "outline_mm", &hoof->outline);
  json_builder_end_object (b);
}

static void
put_scale (JsonBuilder *b, const PrTracing *tracing)
{
  const PrScale *scale = &tracing->scale;

  pr_begin (b, "scale");
  pr_put_text (b, "method", pr_scale_method_code (scale->method));
  pr_put_text (b, "paper", pr_paper_name (scale->paper));
  pr_put (b, "px_per_mm", scale->px_per_mm);
  pr_put (b, "residual_mm", scale->residual_mm);
  pr_put (b, "tilt_deg", scale->tilt * 180 / G_PI);
  pr_put (b, "lens_k1", tracing->camera.k1);
  pr_put_text (b, "verdict", pr_verdict_code (scale->verdict));
  pr_put_text (b, "why", scale->why);
  pr_job_put_question (b, scale);
  pr_job_put_reasons (b, scale);
  json_builder_end_object (b);
}

static void
add_nail (JsonBuilder *b, const PrNail *nail)
{
  json_builder_begin_object (b);
  put_branch (b, nail->branch);
  pr_put_int (b, "index", nail->index);
  pr_put_pt (b, "at_mm", nail->at);
  pr_put_pt (b, "along", nail->along);
  pr_put (b, "place", nail->place);
  pr_put (b, "edge_mm", nail->edge);
  pr_put (b, "inset_mm", nail->inset);
  pr_put (b, "head_length_mm", nail->head_length);
  pr_put (b, "head_width_mm", nail->head_width);
  pr_put (b, "shank_mm", nail->shank);
  json_builder_end_object (b);
}

static void
add_clip (JsonBuilder *b, const PrClip *clip)
{
  json_builder_begin_object (b);
  put_branch (b, clip->branch);
  pr_put_pt (b, "at_mm", clip->at);
  pr_put (b, "place", clip->place);
  pr_put (b, "edge_mm", clip->edge);
  pr_put (b, "edge_from_mm", clip->edge_from);
  pr_put (b, "edge_to_mm", clip->edge_to);
  pr_put (b, "base_mm", clip->base);
  pr_put (b, "height_mm", clip->height);
  pr_put (b, "thickness_mm", clip->thickness);
  put_path (b, "ring_mm", &clip->ring);
  json_builder_end_object (b);
}

static void
add_crease (JsonBuilder *b, const PrCrease *crease)
{
  json_builder_begin_object (b);
  put_branch (b, crease->branch);
  pr_put (b, "edge_from_mm", crease->edge_from);
  pr_put (b, "edge_to_mm", crease->edge_to);
  pr_put (b, "place_from", crease->place_from);
  pr_put (b, "place_to", crease->place_to);
  pr_put (b, "width_mm", crease->width);
  pr_put (b, "depth_mm", crease->depth);
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
  pr_put (b, "ahead_mm", ext->ahead);
  pr_put (b, "width_mm", ext->width);
  pr_put (b, "thickness_mm", ext->thick);
  pr_put (b, "volume_mm3", ext->volume);
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
  pr_begin (b, "roll");
  put_path (b, "line_mm", &line);
  put_path (b, "edge_mm", &edge);
  pr_begin_list (b, "depth_mm");
  for (size_t i = 0; i < edge.n; i++)
    json_builder_add_double_value (b, roll->slope * (edge.p[i].y - roll->y));
  json_builder_end_array (b);
  json_builder_end_object (b);
}

static void
put_parts (JsonBuilder *b, const PrShoe *shoe)
{
  pr_begin_list (b, "nails");
  for (size_t i = 0; i < shoe->n_nails; i++)
    add_nail (b, &shoe->nail[i]);
  json_builder_end_array (b);
  pr_begin_list (b, "clips");
  for (size_t i = 0; i < shoe->n_clips; i++)
    add_clip (b, &shoe->clip[i]);
  json_builder_end_array (b);
  pr_begin_list (b, "crease");
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

  pr_begin (b, "shoe");
  pr_card_shoe_size (shoe, &width, &length);
  pr_put (b, "width_mm", width);
  pr_put (b, "length_mm", length);
  pr_put (b, "area_mm2", pr_figure_area (&shoe->figure));
  pr_put (b, "thickness_toe_mm", job->sources.plan.thick_toe);
  pr_put (b, "thickness_heel_mm", job->sources.plan.thick_heel);
  pr_put (b, "middle_line_mm", shoe->middle_length);
  pr_put_bool (b, "simple", shoe->simple);
  pr_put_text (b, "trouble", shoe->trouble);
  put_path (b, "outer_mm", &shoe->outer);
  put_path (b, "inner_mm", &shoe->inner);
  pr_begin_list (b, "figure_mm");
  for (size_t i = 0; i < shoe->figure.n; i++)
    add_path (b, &shoe->figure.ring[i]);
  json_builder_end_array (b);
  put_parts (b, shoe);
  json_builder_end_object (b);
}

static void
add_finding (JsonBuilder *b, const PrJob *job, PrFinding *finding)
{
  const char *offer = pr_job_offer (job, finding);

  json_builder_begin_object (b);
  pr_put_text (b, "id", finding->id);
  pr_put_text (b, "group", pr_group_code (finding->group));
  pr_put_text (b, "state", pr_state_code (finding->state));
  pr_put (b, "value", finding->value);
  pr_put (b, "limit", finding->limit);
  pr_put_text (b, "unit", finding->unit);
  json_builder_set_member_name (b, "at_mm");
  if (finding->has_at)
    pr_add_pt (b, finding->at);
  else
    json_builder_add_null_value (b);
  pr_put_text (b, "text", finding->text);
  pr_put_text (b, "source", finding->source);
  pr_put_text (b, "offer", offer ? offer : "");
  json_builder_end_object (b);
}

JsonNode *
pr_report_json (const PrJob *job)
{
  PR_PLAIN_NUMBERS;
  g_autoptr (JsonBuilder) b = json_builder_new ();

  json_builder_begin_object (b);
  pr_put_text (b, "program", "pritchel " PR_VERSION);
  if (pr_sources_scale (&job->sources) != NULL)
    put_scale (b, job->sources.tracing);
  put_hoof (b, job);
  json_builder_set_member_name (b, "plan");
  json_builder_add_value (b, pr_plan_to_json (&job->sources.plan));
  if (job->shoe != NULL)
    put_shoe (b, job);
  pr_report_put_iron (b, job);
  pr_begin_list (b, "checks");
  for (guint i = 0; job->findings != NULL && i < job->findings->len; i++)
    add_finding (b, job, g_ptr_array_index (job->findings, i));
  json_builder_end_array (b);
  if (job->shoe != NULL && job->shoe->n_st > 1)
    pr_report_put_work (b, job);
  /* with the plan it is all that the rest was made of, so that a comparison begins where this was written */
  json_builder_set_member_name (b, "tracing");
  json_builder_add_value (b, pr_job_trace_json (job));
  json_builder_end_object (b);
  return json_builder_get_root (b);
}
