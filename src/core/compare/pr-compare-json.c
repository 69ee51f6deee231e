/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-compare-json.h"

#include "pr-json-put.h"
#include "pr-seen-json.h"

static const char *const edge_codes[] = { "outer", "inner" };
static const char *const kind_codes[] = { "heel", "branch", "toe", "bar", "length", "web", "nail" };

static const char *
branch_code (int branch)
{
  return branch == PR_MEDIAL ? "medial" : "lateral";
}

/* --- what was seen ------------------------------------------------------------------------- */

static void
lay (PrSheetPt *p, size_t n, const PrComparison *c)
{
  for (size_t i = 0; i < n; i++) {
    PrPt in = pr_comparison_in (c, p[i]);
    p[i] = (PrSheetPt){ in.x, in.y };
  }
}

/* As pr_seen_to_json has it, but in the plan's foot frame. */
static void
put_seen (JsonBuilder *b, const PrComparison *c, const PrSeen *seen)
{
  g_auto (PrSeen) laid = { 0 };

  pr_seen_copy (&laid, seen);
  lay (laid.outer.p, laid.outer.n, c);
  lay (laid.inner.p, laid.inner.n, c);
  for (size_t i = 0; i < laid.n_opening; i++)
    lay (laid.opening[i].p, laid.opening[i].n, c);
  for (size_t i = 0; i < laid.n_nail; i++)
    lay (&laid.nail[i].at, 1, c);
  JsonNode *node = pr_seen_to_json (&laid);
  json_object_set_string_member (json_node_get_object (node), "frame", "x lateral, y to the toe, mm");
  json_builder_set_member_name (b, "seen");
  json_builder_add_value (b, node);
}

/* --- offsets ------------------------------------------------------------------------------- */

static void
add_offset (JsonBuilder *b, const PrOffset *o)
{
  json_builder_begin_object (b);
  pr_put_text (b, "edge", edge_codes[o->edge]);
  pr_put_text (b, "branch", branch_code (o->branch));
  pr_put_fine (b, "place_mm", o->place);
  pr_put_pt_fine (b, "at_mm", o->at);
  pr_put_fine (b, "off_mm", o->off);
  if (o->doubted)
    pr_put_bool (b, "doubt", true);
  if (o->heel)
    pr_put_bool (b, "heel", true);
  if (o->clip)
    pr_put_bool (b, "clip", true);
  if (o->bar)
    pr_put_bool (b, "bar", true);
  json_builder_end_object (b);
}

static void
put_offsets (JsonBuilder *b, const PrComparison *c)
{
  pr_begin_list (b, "offsets");
  for (guint i = 0; i < c->offset->len; i++)
    if (g_array_index (c->offset, PrOffset, i).known)
      add_offset (b, &g_array_index (c->offset, PrOffset, i));
  json_builder_end_array (b);
}

/* --- summary ------------------------------------------------------------------------------- */

static void
put_branches (JsonBuilder *b, const char *name, const double value[2])
{
  pr_begin (b, name);
  for (int i = 0; i < 2; i++)
    pr_put_fine (b, branch_code (i), value[i]);
  json_builder_end_object (b);
}

static void
put_sum (JsonBuilder *b, const char *name, const PrEdgeSum *sum)
{
  pr_begin (b, name);
  pr_put_fine (b, "places", (double) sum->n);
  pr_put_fine (b, "mean_mm", sum->n > 0 ? sum->mean : NAN);
  pr_put_fine (b, "mean_abs_mm", sum->n > 0 ? sum->mean_abs : NAN);
  pr_put_fine (b, "p95_mm", sum->n > 0 ? sum->p95 : NAN);
  pr_put_fine (b, "max_mm", sum->n > 0 ? sum->max : NAN);
  pr_put_pt_fine (b, "at_mm", sum->max_at);
  put_branches (b, "parallel_mm", sum->parallel);
  put_branches (b, "wedge_mm_per_100", sum->wedge);
  json_builder_end_object (b);
}

/* As found, with what was planned beside it. */
static void
put_two (JsonBuilder *b, const char *name, const PrTwo *two)
{
  g_autofree char *planned = g_strdup_printf ("planned_%s", name);

  pr_put_fine (b, name, two->seen);
  pr_put_fine (b, planned, two->plan);
}

static void
put_heels (JsonBuilder *b, const PrSizes *s)
{
  pr_begin_list (b, "heels");
  for (int i = 0; i < 2; i++) {
    json_builder_begin_object (b);
    pr_put_text (b, "branch", branch_code (i));
    put_two (b, "past_buttress_mm", &s->heel_past[i]);
    put_two (b, "toe_to_heel_mm", &s->toe_to_heel[i]);
    put_two (b, "along_edge_mm", &s->along_edge[i]);
    pr_put_fine (b, "branch_out_mm", s->branch_out[i].seen);
    pr_put_fine (b, "heel_out_mm", s->heel_out[i].seen);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_webs (JsonBuilder *b, const PrSizes *s)
{
  pr_begin_list (b, "web");
  for (PrWebAt at = 0; at < PR_N_WEBS; at++) {
    json_builder_begin_object (b);
    pr_put_text (b, "at", pr_web_code (at));
    if (pr_web_branch (at) >= 0)
      pr_put_text (b, "branch", branch_code (pr_web_branch (at)));
    put_two (b, "web_mm", &s->web[at]);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_nails (JsonBuilder *b, const PrComparison *c)
{
  pr_begin_list (b, "nails");
  for (guint i = 0; i < c->nail->len; i++) {
    const PrNailOff *nail = &g_array_index (c->nail, PrNailOff, i);

    json_builder_begin_object (b);
    pr_put_text (b, "branch", branch_code (nail->branch));
    pr_put_fine (b, "index", nail->index);
    pr_put_pt_fine (b, "planned_mm", nail->plan);
    pr_put_pt_fine (b, "at_mm", nail->seen);
    pr_put_fine (b, "along_mm", nail->along);
    pr_put_fine (b, "out_mm", nail->out);
    pr_put_fine (b, "off_mm", hypot (nail->along, nail->out));
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_clips (JsonBuilder *b, const PrComparison *c)
{
  pr_begin_list (b, "clips");
  for (guint i = 0; i < c->clip->len; i++) {
    const PrClipOff *clip = &g_array_index (c->clip, PrClipOff, i);

    json_builder_begin_object (b);
    pr_put_text (b, "branch", branch_code (clip->branch));
    pr_put_pt_fine (b, "planned_mm", clip->plan);
    pr_put_fine (b, "along_mm", clip->along);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

static void
put_summary (JsonBuilder *b, const PrComparison *c)
{
  const PrSizes *s = &c->size;

  pr_begin (b, "summary");
  pr_put_text (b, "state", pr_state_code (c->state));
  put_sum (b, "outer", &c->sum[PR_SEEN_OUTER]);
  put_sum (b, "inner", &c->sum[PR_SEEN_INNER]);
  put_two (b, "length_mm", &s->length);
  put_two (b, "width_mm", &s->width);
  put_two (b, "widest_behind_toe_mm", &s->widest);
  put_two (b, "heel_gap_mm", &s->heel_gap);
  put_two (b, "heel_width_mm", &s->heel_width);
  put_two (b, "across_mm", &s->across);
  pr_put_fine (b, "across_at_mm", s->across_at.seen);
  put_heels (b, s);
  put_webs (b, s);
  put_nails (b, c);
  put_clips (b, c);
  json_builder_end_object (b);
}

static void
put_corrections (JsonBuilder *b, const PrComparison *c)
{
  pr_begin_list (b, "corrections");
  for (guint i = 0; i < c->correction->len; i++) {
    const PrCorrection *one = &g_array_index (c->correction, PrCorrection, i);

    json_builder_begin_object (b);
    pr_put_text (b, "kind", kind_codes[one->kind]);
    if (one->branch >= 0)
      pr_put_text (b, "branch", branch_code (one->branch));
    pr_put_fine (b, "mm", one->mm);
    pr_put_text (b, "state", pr_state_code (one->state));
    pr_put_pt_fine (b, "at_mm", one->at);
    pr_put_pt_fine (b, "to_mm", one->to);
    pr_put_text (b, "text", one->text);
    json_builder_end_object (b);
  }
  json_builder_end_array (b);
}

/* --- all of it ----------------------------------------------------------------------------- */

static void
put_laid (JsonBuilder *b, const PrComparison *c)
{
  pr_begin (b, "laid");
  pr_put_text (b, "by", pr_lay_code (c->lay));
  pr_put_text (b, "foot", pr_foot_code (c->foot));
  if (c->sheet_foot != PR_FOOT_ANY)
    pr_put_text (b, "sheet_foot", pr_foot_code (c->sheet_foot));
  pr_put_fine (b, "rms_mm", c->rms);
  pr_put_fine (b, "rms_mirrored_mm", c->rms_mirrored);
  pr_put_bool (b, "mirrored", c->mirrored);
  pr_put_bool (b, "coarse", c->coarse);
  json_builder_end_object (b);
}

JsonNode *
pr_compare_json (const PrComparison *c, const PrSeen *seen, const PrTracing *tracing)
{
  g_autoptr (JsonBuilder) b = json_builder_new ();

  json_builder_begin_object (b);
  if (tracing != NULL)
    pr_job_put_scale (b, tracing);
  put_laid (b, c);
  put_seen (b, c, seen);
  put_offsets (b, c);
  put_summary (b, c);
  put_corrections (b, c);
  json_builder_end_object (b);
  return json_builder_get_root (b);
}
