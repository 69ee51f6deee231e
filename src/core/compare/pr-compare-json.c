/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-compare-json.h"

#define PER_MM_TOLD 1000.0 /* a thousandth of a mm is finer than anything seen */

static const char *const edge_codes[] = { "outer", "inner" };
static const char *const kind_codes[] = { "heel", "branch", "toe", "web", "length", "bar", "nail" };

static const char *
branch_code (int branch)
{
  return branch == PR_MEDIAL ? "medial" : "lateral";
}

static void
add (JsonBuilder *b, double value)
{
  if (isfinite (value))
    json_builder_add_double_value (b, round (value * PER_MM_TOLD) / PER_MM_TOLD);
  else
    json_builder_add_null_value (b);
}

static void
put (JsonBuilder *b, const char *name, double value)
{
  json_builder_set_member_name (b, name);
  add (b, value);
}

static void
put_text (JsonBuilder *b, const char *name, const char *value)
{
  json_builder_set_member_name (b, name);
  json_builder_add_string_value (b, value ? value : "");
}

static void
put_true (JsonBuilder *b, const char *name, bool value)
{
  json_builder_set_member_name (b, name);
  json_builder_add_boolean_value (b, value);
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
add_pt (JsonBuilder *b, PrPt p)
{
  json_builder_begin_array (b);
  add (b, p.x);
  add (b, p.y);
  json_builder_end_array (b);
}

static void
put_pt (JsonBuilder *b, const char *name, PrPt p)
{
  json_builder_set_member_name (b, name);
  add_pt (b, p);
}

/* --- what was seen ------------------------------------------------------------------------- */

static void
add_ring (JsonBuilder *b, const PrComparison *c, const PrSeenRing *ring)
{
  json_builder_begin_array (b);
  for (size_t i = 0; i < ring->n; i++)
    add_pt (b, pr_comparison_in (c, ring->p[i]));
  json_builder_end_array (b);
}

static void
put_ring (JsonBuilder *b, const char *name, const PrComparison *c, const PrSeenRing *ring)
{
  json_builder_set_member_name (b, name);
  add_ring (b, c, ring);
}

static void
add_doubt (JsonBuilder *b, const PrSeenDoubt *doubt)
{
  json_builder_begin_object (b);
  put_text (b, "edge", edge_codes[doubt->edge]);
  if (doubt->edge == PR_SEEN_INNER && doubt->opening != PR_SEEN_OPEN)
    put (b, "opening", (double) doubt->opening);
  put (b, "from_mm", doubt->from_mm);
  put (b, "to_mm", doubt->to_mm);
  put_text (b, "why", doubt->why);
  json_builder_end_object (b);
}

static void
put_seen (JsonBuilder *b, const PrComparison *c, const PrSeen *seen)
{
  begin (b, "seen");
  put_text (b, "frame", "x lateral, y to the toe, mm");
  put_ring (b, "outer_mm", c, &seen->outer);
  put_ring (b, "inner_mm", c, &seen->inner);
  begin_list (b, "openings_mm");
  for (size_t i = 0; i < seen->n_opening; i++)
    add_ring (b, c, &seen->opening[i]);
  json_builder_end_array (b);
  begin_list (b, "nails_mm");
  for (size_t i = 0; i < seen->n_nail; i++)
    add_pt (b, pr_comparison_in (c, seen->nail[i].at));
  json_builder_end_array (b);
  put_text (b, "face", seen->face == PR_FACE_FOOT ? "foot" : "ground");
  put (b, "thickness_mm", seen->thickness_mm);
  put_true (b, "drawn", seen->drawn);
  put (b, "height_mm", seen->height_mm);
  begin_list (b, "doubt");
  for (size_t i = 0; i < seen->n_doubt; i++)
    add_doubt (b, &seen->doubt[i]);
  json_builder_end_array (b);
  json_builder_end_object (b);
}

/* --- offsets ------------------------------------------------------------------------------- */

static void
add_offset (JsonBuilder *b, const PrOffset *o)
{
  json_builder_begin_object (b);
  put_text (b, "edge", edge_codes[o->edge]);
  put_text (b, "branch", branch_code (o->branch));
  put (b, "place_mm", o->place);
  put_pt (b, "at_mm", o->at);
  put (b, "off_mm", o->off);
  if (o->doubted)
    put_true (b, "doubt", true);
  if (o->heel)
    put_true (b, "heel", true);
  if (o->clip)
    put_true (b, "clip", true);
  if (o->bar)
    put_true (b, "bar", true);
  json_builder_end_object (b);
}

static void
put_offsets (JsonBuilder *b, const PrComparison *c)
{
  begin_list (b, "offsets");
  for (guint i = 0; i < c->offset->len; i++)
    if (g_array_index (c->offset, PrOffset, i).known)
      add_offset (b, &g_array_index (c->offset, PrOffset, i));
  json_builder_end_array (b);
}

/* --- summary ------------------------------------------------------------------------------- */

static void
put_branches (JsonBuilder *b, const char *name, const double value[2])
{
  begin (b, name);
  for (int i = 0; i < 2; i++)
    put (b, branch_code (i), value[i]);
  json_builder_end_object (b);
}

static void
put_sum (JsonBuilder *b, const char *name, const PrEdgeSum *sum)
{
  begin (b, name);
  put (b, "places", (double) sum->n);
  put (b, "mean_mm", sum->n > 0 ? sum->mean : NAN);
  put (b, "mean_abs_mm", sum->n > 0 ? sum->mean_abs : NAN);
  put (b, "p95_mm", sum->n > 0 ? sum->p95 : NAN);
  put (b, "max_mm", sum->n > 0 ? sum->max : NAN);
  put_pt (b, "at_mm", sum->max_at);
  put_branches (b, "parallel_mm", sum->parallel);
  put_branches (b, "wedge_mm_per_100", sum->wedge);
  json_builder_end_object (b);
}

/* As found, with what was planned beside it. */
static void
put_two (JsonBuilder *b, const char *name, const PrTwo *two)
{
  g_autofree char *planned = g_strdup_printf ("planned_%s", name);

  put (b, name, two->seen);
  put (b, planned, two->plan);
}

static void
put_heels (JsonBuilder *b, const PrSizes *s)
{
  begin_list (b, "heels");
  for (int i = 0; i < 2; i++) {
    json_builder_begin_object (b);
    put_text (b, "branch", branch_code (i));
    put_two (b, "past_buttress_mm", &s->heel_past[i]);
    put_two (b, "toe_to_heel_mm", &s->toe_to_heel[i]);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_webs (JsonBuilder *b, const PrSizes *s)
{
  begin_list (b, "web");
  for (PrWebAt at = 0; at < PR_N_WEBS; at++) {
    json_builder_begin_object (b);
    put_text (b, "at", pr_web_code (at));
    if (pr_web_branch (at) >= 0)
      put_text (b, "branch", branch_code (pr_web_branch (at)));
    put_two (b, "web_mm", &s->web[at]);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_nails (JsonBuilder *b, const PrComparison *c)
{
  begin_list (b, "nails");
  for (guint i = 0; i < c->nail->len; i++) {
    const PrNailOff *nail = &g_array_index (c->nail, PrNailOff, i);

    json_builder_begin_object (b);
    put_text (b, "branch", branch_code (nail->branch));
    put (b, "index", nail->index);
    put_pt (b, "planned_mm", nail->plan);
    put_pt (b, "at_mm", nail->seen);
    put (b, "along_mm", nail->along);
    put (b, "out_mm", nail->out);
    put (b, "off_mm", hypot (nail->along, nail->out));
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_clips (JsonBuilder *b, const PrComparison *c)
{
  begin_list (b, "clips");
  for (guint i = 0; i < c->clip->len; i++) {
    const PrClipOff *clip = &g_array_index (c->clip, PrClipOff, i);

    json_builder_begin_object (b);
    put_text (b, "branch", branch_code (clip->branch));
    put_pt (b, "planned_mm", clip->plan);
    put (b, "along_mm", clip->along);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_summary (JsonBuilder *b, const PrComparison *c)
{
  const PrSizes *s = &c->size;

  begin (b, "summary");
  put_text (b, "state", pr_state_code (c->state));
  put_sum (b, "outer", &c->sum[PR_SEEN_OUTER]);
  put_sum (b, "inner", &c->sum[PR_SEEN_INNER]);
  put_two (b, "length_mm", &s->length);
  put_two (b, "width_mm", &s->width);
  put_two (b, "widest_behind_toe_mm", &s->widest);
  put_two (b, "heel_gap_mm", &s->heel_gap);
  put_two (b, "heel_width_mm", &s->heel_width);
  put_heels (b, s);
  put_webs (b, s);
  put_nails (b, c);
  put_clips (b, c);
  json_builder_end_object (b);
}

static void
put_corrections (JsonBuilder *b, const PrComparison *c)
{
  begin_list (b, "corrections");
  for (guint i = 0; i < c->correction->len; i++) {
    const PrCorrection *one = &g_array_index (c->correction, PrCorrection, i);

    json_builder_begin_object (b);
    put_text (b, "kind", kind_codes[one->kind]);
    if (one->branch >= 0)
      put_text (b, "branch", branch_code (one->branch));
    put (b, "mm", one->mm);
    put_text (b, "state", pr_state_code (one->state));
    put_pt (b, "at_mm", one->at);
    put_pt (b, "to_mm", one->to);
    put_text (b, "text", one->text);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

/* --- all of it ----------------------------------------------------------------------------- */

static void
put_scale (JsonBuilder *b, const PrScale *scale)
{
  begin (b, "scale");
  put_text (b, "method", pr_scale_method_code (scale->method));
  put_text (b, "paper", pr_paper_name (scale->paper));
  put (b, "px_per_mm", scale->px_per_mm);
  put (b, "residual_mm", scale->residual_mm);
  put (b, "tilt_deg", scale->tilt * 180 / G_PI);
  put_text (b, "verdict", pr_verdict_code (scale->verdict));
  put_text (b, "why", scale->why);
  pr_job_put_question (b, scale);
  pr_job_put_reasons (b, scale);
  json_builder_end_object (b);
}

static void
put_laid (JsonBuilder *b, const PrComparison *c)
{
  begin (b, "laid");
  put_text (b, "by", pr_lay_code (c->lay));
  put_text (b, "foot", pr_foot_code (c->foot));
  put (b, "rms_mm", c->rms);
  put (b, "rms_mirrored_mm", c->rms_mirrored);
  put_true (b, "mirrored", c->mirrored);
  put_true (b, "coarse", c->coarse);
  json_builder_end_object (b);
}

JsonNode *
pr_compare_json (const PrComparison *c, const PrSeen *seen, const PrScale *scale)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();

  json_builder_begin_object (b);
  if (scale != NULL)
    put_scale (b, scale);
  put_laid (b, c);
  put_seen (b, c, seen);
  put_offsets (b, c);
  put_summary (b, c);
  put_corrections (b, c);
  json_builder_end_object (b);
  return json_builder_get_root (b);
}
