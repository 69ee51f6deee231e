/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The JSON of a tracing: what `trace --json` prints and the book keeps; pr-job-read.c reads it. */
#include <string.h>

#include "pr-hoof-json.h"
#include "pr-job-marks.h"
#include "pr-json-put.h"

const char *const pr_job_wall_names[3] = { "toe", "quarter", "heel" };

void
pr_job_list_marks (PrLandmarks *marks, PrJobMark out[PR_JOB_MARKS])
{
  const PrJobMark table[PR_JOB_MARKS] = {
    { "toe", &marks->has_toe, &marks->toe },
    { "heel_medial", &marks->has_buttress[PR_MEDIAL], &marks->buttress[PR_MEDIAL] },
    { "heel_lateral", &marks->has_buttress[PR_LATERAL], &marks->buttress[PR_LATERAL] },
    { "frog_apex", &marks->has_frog_apex, &marks->frog_apex },
    { "frog_medial", &marks->has_frog[PR_MEDIAL], &marks->frog[PR_MEDIAL] },
    { "frog_lateral", &marks->has_frog[PR_LATERAL], &marks->frog[PR_LATERAL] },
  };

  memcpy (out, table, sizeof table);
}

static void
put_sheet_point (JsonBuilder *b, const char *name, PrSheetPt p)
{
  json_builder_set_member_name (b, name);
  pr_add_pt (b, pr_pt (p.x, p.y));
}

void
pr_job_put_reasons (JsonBuilder *b, const PrScale *scale)
{
  json_builder_set_member_name (b, "reasons");
  json_builder_begin_array (b);
  for (size_t i = 0; i < scale->n_reasons; i++) {
    const PrReason *reason = &scale->reason[i];

    json_builder_begin_object (b);
    pr_put_text (b, "severity", pr_verdict_code (reason->severity));
    pr_put_text (b, "text", reason->text);
    if (reason->has_at) {
      json_builder_set_member_name (b, "at");
      json_builder_begin_array (b);
      json_builder_add_double_value (b, reason->at.x);
      json_builder_add_double_value (b, reason->at.y);
      json_builder_end_array (b);
    }
    if (reason->about != PR_ABOUT_ELSE)
      pr_put_text (b, "about", pr_about_code (reason->about));
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_references (JsonBuilder *b, const PrTracing *tracing)
{
  json_builder_set_member_name (b, "points");
  json_builder_begin_array (b);
  for (size_t i = 0; i < tracing->n_reference; i++) {
    const PrReference *r = &tracing->reference[i];
    json_builder_begin_object (b);
    pr_put (b, "x_px", r->px.x);
    pr_put (b, "y_px", r->px.y);
    pr_put (b, "off_mm", r->off_mm);
    json_builder_set_member_name (b, "outlier");
    json_builder_add_boolean_value (b, r->outlier);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_pair (JsonBuilder *b, const char *name, const double pair[2])
{
  json_builder_set_member_name (b, name);
  json_builder_begin_array (b);
  json_builder_add_double_value (b, pair[0]);
  json_builder_add_double_value (b, pair[1]);
  json_builder_end_array (b);
}

void
pr_job_put_question (JsonBuilder *b, const PrScale *scale)
{
  if (scale->printed[0] > 0 || scale->printed[1] > 0) {
    json_builder_set_member_name (b, "printed");
    json_builder_begin_object (b);
    if (scale->printed[0] > 0)
      pr_put (b, "across", scale->printed[0]);
    if (scale->printed[1] > 0)
      pr_put (b, "down", scale->printed[1]);
    json_builder_end_object (b);
  }
  pr_put_text (b, "trust", pr_trust_code (scale->trust));
  pr_put_text (b, "question", pr_question_code (scale->question));
}

void
pr_job_put_scale (JsonBuilder *b, const PrTracing *tracing)
{
  const PrScale *scale = &tracing->scale;

  json_builder_set_member_name (b, "scale");
  json_builder_begin_object (b);
  pr_put_text (b, "method", pr_scale_method_code (scale->method));
  pr_put_text (b, "paper", pr_paper_name (scale->paper));
  pr_put_text (b, "foot", pr_foot_code (scale->foot));
  pr_put (b, "width_mm", scale->width_mm);
  pr_put (b, "height_mm", scale->height_mm);
  if (scale->turns != 0)
    pr_put (b, "turned_deg", 90 * scale->turns);
  pr_put (b, "px_per_mm", scale->px_per_mm);
  pr_put (b, "residual_mm", scale->residual_mm);
  pr_put (b, "tilt_deg", scale->tilt * 180 / G_PI);
  pr_put (b, "lens_k1", tracing->camera.k1);
  pr_put_text (b, "verdict", pr_verdict_code (scale->verdict));
  pr_put_text (b, "why", scale->why);
  pr_job_put_question (b, scale);
  if (scale->by[0] > 0) {
    put_pair (b, "print_moved_mm", scale->moved);
    put_pair (b, "print_by", scale->by);
  }
  pr_job_put_reasons (b, scale);
  put_references (b, tracing);
  json_builder_end_object (b);
}

static void
put_bend (JsonBuilder *b, const PrBend *bend)
{
  json_builder_set_member_name (b, "bend");
  json_builder_begin_object (b);
  pr_put (b, "length_mm", bend->length);
  put_pair (b, "along", bend->along);
  pr_put (b, "from_mm", bend->from);
  put_pair (b, "rise_mm", bend->rise);
  json_builder_set_member_name (b, "lift");
  json_builder_begin_array (b);
  for (int i = 0; i < 3; i++)
    json_builder_add_double_value (b, bend->lift[i]);
  json_builder_end_array (b);
  json_builder_end_object (b);
}

static void
put_camera (JsonBuilder *b, const PrTracing *tracing)
{
  const PrCamera *cam = &tracing->camera;

  json_builder_set_member_name (b, "camera");
  json_builder_begin_object (b);
  json_builder_set_member_name (b, "h");
  json_builder_begin_array (b);
  for (int i = 0; i < 9; i++)
    json_builder_add_double_value (b, cam->h[i]);
  json_builder_end_array (b);
  pr_put (b, "k1", cam->k1);
  pr_put (b, "centre_x", cam->centre.x);
  pr_put (b, "centre_y", cam->centre.y);
  pr_put (b, "radius", cam->radius);
  if (cam->bend.length > 0)
    put_bend (b, &cam->bend);
  pr_put (b, "raster_px_per_mm", tracing->raster);
  pr_put (b, "pen_mm", tracing->pen_mm);
  pr_put (b, "inward_mm", tracing->inward_mm);
  json_builder_end_object (b);
}

static void
put_doubt (JsonBuilder *b, const PrFootLine *line)
{
  json_builder_set_member_name (b, "doubt");
  json_builder_begin_array (b);
  for (size_t i = 0; i < line->n_doubt; i++) {
    json_builder_begin_object (b);
    pr_put (b, "from_mm", line->doubt[i].from_mm);
    pr_put (b, "to_mm", line->doubt[i].to_mm);
    pr_put_text (b, "why", line->doubt[i].why);
    if (line->doubt[i].heel)
      pr_put_bool (b, "heel", true);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

/* What a line drawn closed has besides its outline: the way round the bulbs, and how far off each heel may be. */
static void
put_closed (JsonBuilder *b, const PrFootLine *line)
{
  if (line->n_rest == 0)
    return;
  json_builder_set_member_name (b, "bulbs_mm");
  json_builder_begin_array (b);
  for (size_t i = 0; i < line->n_rest; i++)
    pr_add_pt (b, pr_pt (line->rest[i].x, line->rest[i].y));
  json_builder_end_array (b);
  json_builder_set_member_name (b, "heel_range_mm");
  pr_add_pt (b, pr_pt (line->heel_range[0], line->heel_range[1]));
}

const char *const pr_job_drawn_codes[] = { "none", "unsure", "sure" };

/* Where a hand drew a toe tick and a frog, as found on the photo. */
static void
put_drawn (JsonBuilder *b, const PrDrawnMarks *drawn)
{
  json_builder_set_member_name (b, "drawn");
  json_builder_begin_object (b);
  if (drawn->tick) {
    pr_put_text (b, "tick", pr_job_drawn_codes[drawn->tick]);
    put_sheet_point (b, "toe_mm", drawn->toe);
  }
  if (drawn->frog_lines) {
    pr_put_text (b, "frog", pr_job_drawn_codes[drawn->frog_lines]);
    put_sheet_point (b, "frog_apex_mm", drawn->frog_apex);
    put_sheet_point (b, "frog_edge_a_mm", drawn->frog[0]);
    put_sheet_point (b, "frog_edge_b_mm", drawn->frog[1]);
  }
  json_builder_end_object (b);
}

static void
put_landmarks (JsonBuilder *b, const PrJob *job)
{
  const PrHoof *hoof = &job->hoof;

  json_builder_set_member_name (b, "landmarks");
  json_builder_begin_object (b);
  put_sheet_point (b, "toe", pr_foot_frame_out (&hoof->frame, hoof->toe));
  put_sheet_point (b, "heel_medial", pr_foot_frame_out (&hoof->frame, hoof->buttress[PR_MEDIAL]));
  put_sheet_point (b, "heel_lateral", pr_foot_frame_out (&hoof->frame, hoof->buttress[PR_LATERAL]));
  put_sheet_point (b, "widest_medial", pr_foot_frame_out (&hoof->frame, hoof->widest[PR_MEDIAL]));
  put_sheet_point (b, "widest_lateral", pr_foot_frame_out (&hoof->frame, hoof->widest[PR_LATERAL]));
  if (hoof->has_frog_apex)
    put_sheet_point (b, "frog_apex", pr_foot_frame_out (&hoof->frame, hoof->frog_apex));
  if (hoof->has_frog[PR_MEDIAL])
    put_sheet_point (b, "frog_medial", pr_foot_frame_out (&hoof->frame, hoof->frog[PR_MEDIAL]));
  if (hoof->has_frog[PR_LATERAL])
    put_sheet_point (b, "frog_lateral", pr_foot_frame_out (&hoof->frame, hoof->frog[PR_LATERAL]));
  json_builder_end_object (b);
}

/* The members of a line, into an object that is open. */
static void
put_line (JsonBuilder *b, const PrFootLine *line)
{
  json_builder_set_member_name (b, "outline_mm");
  json_builder_begin_array (b);
  for (size_t i = 0; i < line->n_outline; i++)
    pr_add_pt (b, pr_pt (line->outline[i].x, line->outline[i].y));
  json_builder_end_array (b);
  json_builder_set_member_name (b, "closed");
  json_builder_add_boolean_value (b, line->closed);
  put_closed (b, line);
  if (line->figure)
    pr_put_bool (b, "figure", true);
  put_doubt (b, line);
  if (line->drawn.tick || line->drawn.frog_lines)
    put_drawn (b, &line->drawn);
}

/* Other feet on the same sheet. */
static void
put_others (JsonBuilder *b, const PrTracing *t)
{
  json_builder_set_member_name (b, "others");
  json_builder_begin_array (b);
  for (size_t i = 0; i < t->n_other; i++) {
    json_builder_begin_object (b);
    pr_put (b, "pen_mm", t->other[i].pen_mm);
    pr_put (b, "inward_mm", t->other[i].inward_mm);
    put_line (b, &t->other[i]);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

/* Those set by hand, which finding anew must not move, where the hand put them. */
static void
put_marks (JsonBuilder *b, PrLandmarks *marks)
{
  PrJobMark table[PR_JOB_MARKS];

  pr_job_list_marks (marks, table);
  json_builder_set_member_name (b, "landmarks_by_hand");
  json_builder_begin_array (b);
  for (int i = 0; i < PR_JOB_MARKS; i++)
    if (*table[i].has)
      json_builder_add_string_value (b, table[i].name);
  json_builder_end_array (b);
  json_builder_set_member_name (b, "by_hand_mm");
  json_builder_begin_object (b);
  for (int i = 0; i < PR_JOB_MARKS; i++)
    if (*table[i].has)
      put_sheet_point (b, table[i].name, *table[i].at);
  json_builder_end_object (b);
}

/* Only what was entered: a default is made again, and may be another one in a later version. */
static void
put_wall (JsonBuilder *b, const double wall[3])
{
  json_builder_set_member_name (b, "wall_mm");
  json_builder_begin_object (b);
  for (int i = 0; i < 3; i++)
    if (wall[i] > 0)
      pr_put (b, pr_job_wall_names[i], wall[i]);
  json_builder_end_object (b);
}

static void
put_hoof (JsonBuilder *b, const PrHoof *hoof)
{
  json_builder_set_member_name (b, "hoof");
  json_builder_begin_object (b);
  pr_put (b, "length_mm", hoof->length);
  pr_put (b, "width_mm", hoof->width);
  pr_put (b, "length_to_width", hoof->width > 0 ? hoof->length / hoof->width : 0);
  pr_put (b, "width_medial_mm", hoof->width_side[PR_MEDIAL]);
  pr_put (b, "width_lateral_mm", hoof->width_side[PR_LATERAL]);
  pr_put (b, "toe_to_widest_mm", hoof->toe_to_widest);
  pr_put (b, "widest_to_heels_mm", hoof->widest_to_heels);
  pr_put (b, "heel_width_mm", hoof->heel_width);
  pr_put (b, "area_mm2", hoof->area);
  pr_put (b, "perimeter_mm", hoof->perimeter);
  pr_put (b, "lean_mm", hoof->lean);
  pr_put (b, "wall_toe_mm", hoof->wall[0]);
  pr_put (b, "wall_quarter_mm", hoof->wall[1]);
  pr_put (b, "wall_heel_mm", hoof->wall[2]);
  pr_hoof_json_put (b, hoof);
  json_builder_end_object (b);
}

JsonNode *
pr_job_trace_json (const PrJob *job)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();
  const PrTracing *t = job->sources.tracing;

  json_builder_begin_object (b);
  if (pr_sources_scale (&job->sources)) {
    json_builder_set_member_name (b, "photo");
    json_builder_begin_object (b);
    pr_put_text (b, "file", job->sources.tracing->file);
    json_builder_set_member_name (b, "width_px");
    json_builder_add_int_value (b, job->sources.tracing->width_px);
    json_builder_set_member_name (b, "height_px");
    json_builder_add_int_value (b, job->sources.tracing->height_px);
    json_builder_end_object (b);
    pr_job_put_scale (b, job->sources.tracing);
    put_camera (b, job->sources.tracing);
  }
  pr_put_text (b, "foot", pr_foot_code (job->sources.foot));
  PrFootLine line = t ? pr_foot_line_of (t) : (PrFootLine){ 0 };
  put_line (b, &line);
  if (t && t->light)
    pr_put_bool (b, "light", true);
  if (t && t->specimen)
    pr_put_bool (b, "specimen", true);
  if (t && t->n_other > 0)
    put_others (b, t);
  put_wall (b, job->sources.wall);
  if (job->hoof.outline.n) {
    PrLandmarks marks = job->sources.marks;

    put_landmarks (b, job);
    put_marks (b, &marks);
    put_hoof (b, &job->hoof);
  }
  json_builder_end_object (b);
  return json_builder_get_root (b);
}
