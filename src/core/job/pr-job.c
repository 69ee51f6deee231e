/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-job.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "pr-bounds.h"
#include "pr-checks-heels.h"
#include "pr-error.h"
#include "pr-json.h"
#include "pr-limits.h"
#include "pr-own-nails.h"
#include "pr-shrink.h"
#include "pr-size.h"

/* A web at the heel is narrowed for the frog to this share of the width at the least, and so much further than it must be:
 * common practice, no source. */
#define LEAST_HEEL_WEB 0.1
#define FROG_CLEAR_MM 0.2
#define MOST_DRAWN 0.25 /* and not so far that the bar is drawn further than that: within iron.draw */
#define MOST_DRAWN_GIVEN \
  0.46 /* a bar that is given and used whole is another matter: common practice, no source */
#define FROG_ROUNDS 4
#define USE_ROUNDS 3
#define BARS_TRIED 8 /* of the rack, for a new shoe */

PrJob *
pr_job_new (void)
{
  PrJob *job = g_new0 (PrJob, 1);

  pr_sources_init (&job->sources);
  job->shoe = pr_shoe_new ();
  job->findings = g_ptr_array_new ();
  return job;
}

void
pr_job_free (PrJob *job)
{
  if (!job)
    return;
  pr_sources_clear (&job->sources);
  pr_hoof_clear (&job->hoof);
  pr_shoe_free (job->shoe);
  pr_iron_clear (&job->iron);
  g_ptr_array_unref (job->findings);
  g_free (job);
}

PrJob *
pr_job_copy (const PrJob *from)
{
  PrJob *job = pr_job_new ();

  job->unit = from->unit;
  job->face = from->face;
  pr_job_take_sources (job, &from->sources, NULL);
  return job;
}

bool
pr_job_take_sources (PrJob *job, const PrSources *sources, GError **error)
{
  PrSources copy;

  pr_sources_copy (&copy, sources); /* they may be the job's own */
  pr_sources_clear (&job->sources);
  job->sources = copy;
  if (pr_sources_has_outline (&job->sources) && !job->sources.tracing->figure)
    return pr_job_refresh_hoof (job, error);
  pr_hoof_clear (&job->hoof);
  return true;
}

/* Can N points be a hoof's line? */
static bool
is_hoof (PrFoot foot, const PrSheetPt *outline, size_t n, bool closed, GError **error)
{
  PrHoof probe = { 0 };

  if (!pr_hoof_from_outline (&probe, outline, n, closed, foot, NULL, error))
    return false;
  pr_hoof_clear (&probe);
  return true;
}

static void
put_tracing (PrJob *job, PrTracing *tracing)
{
  if (job->sources.tracing != tracing)
    pr_tracing_free (job->sources.tracing);
  job->sources.tracing = tracing;
  job->sources.marks = (PrLandmarks){ 0 };
}

static void
no_hoof (const PrTracing *tracing, GError **error)
{
  g_set_error (error, PR_ERROR, PR_ERROR_LINE,
               _ ("No outline of a foot was found in %s, only another closed line; draw the outline by hand, "
                  "or go over the tracing with a darker pen and photograph it again."),
               tracing->file ? tracing->file : _ ("the photo"));
}

bool
pr_job_is_hoof_line (const PrTracing *tracing, PrFoot foot, GError **error)
{
  if (!tracing->figure)
    return !tracing->outline || is_hoof (foot, tracing->outline, tracing->n_outline, tracing->closed, error);
  no_hoof (tracing, error);
  return false;
}

/* NEXT (emptied) becomes the job's, with the wall that is known. */
static bool
put_hoof (PrJob *job, PrHoof *next, GError **error)
{
  for (int i = 0; i < 3; i++)
    if (job->sources.wall[i] > 0 && job->sources.wall[i] <= pr_hoof_wall_most (next)) {
      next->wall[i] = job->sources.wall[i];
      next->wall_known[i] = true;
    }
  next->stand_in = pr_sources_is_specimen (&job->sources);
  pr_hoof_clear (&job->hoof);
  job->hoof = *next;
  *next = (PrHoof){ 0 };
  return pr_job_refresh (job, error);
}

bool
pr_job_take_tracing (PrJob *job, PrTracing *tracing, GError **error)
{
  const PrLandmarks none = { 0 };

  return pr_job_take_marked (job, tracing, &none, NULL, error);
}

bool
pr_job_take_marked (PrJob *job, PrTracing *tracing, const PrLandmarks *marks, const double wall[3],
                    GError **error)
{
  PrFoot foot = job->sources.foot == PR_FOOT_ANY ? tracing->scale.foot : job->sources.foot;
  PrHoof next = { 0 };

  if (tracing->figure) {
    no_hoof (tracing, error);
    pr_tracing_free (tracing);
    return false;
  }
  if (tracing->outline && !pr_hoof_of_tracing (&next, tracing, foot, marks, error)) {
    pr_tracing_free (tracing);
    return false;
  }
  job->sources.foot = foot;
  put_tracing (job, tracing);
  job->sources.marks = *marks;
  if (wall)
    memcpy (job->sources.wall, wall, sizeof job->sources.wall);
  if (tracing->outline)
    return put_hoof (job, &next, error);
  pr_hoof_clear (&job->hoof);
  return true;
}

void
pr_job_take_figure (PrJob *job, PrTracing *tracing)
{
  put_tracing (job, tracing);
  pr_hoof_clear (&job->hoof);
}

bool
pr_job_take_outline (PrJob *job, const PrSheetPt *outline, size_t n, bool closed, GError **error)
{
  if (!is_hoof (job->sources.foot, outline, n, closed, error))
    return false;
  if (!job->sources.tracing)
    job->sources.tracing = pr_tracing_new ();
  pr_tracing_set_line (job->sources.tracing, outline, n, closed);
  job->sources.marks = (PrLandmarks){ 0 };
  return pr_job_refresh_hoof (job, error);
}

bool
pr_job_refresh_hoof (PrJob *job, GError **error)
{
  PrHoof next = { 0 };

  if (!pr_sources_has_outline (&job->sources)) {
    g_set_error (error, PR_ERROR, PR_ERROR_LINE,
                 _ ("There is no outline yet; open a photo of a tracing or draw the outline by hand."));
    return false;
  }
  if (!pr_hoof_of_tracing (&next, job->sources.tracing, job->sources.foot, &job->sources.marks, error))
    return false;
  return put_hoof (job, &next, error);
}

bool
pr_job_refresh (PrJob *job, GError **error)
{
  if (!pr_shoe_build (job->shoe, &job->hoof, &job->sources.plan, error))
    return false;
  pr_iron_plan (&job->iron, &job->hoof, &job->sources.plan, job->shoe);
  g_ptr_array_unref (job->findings);
  job->findings = pr_checks_run (&job->hoof, &job->sources.plan, job->shoe, &job->iron,
                                 pr_sources_scale (&job->sources), job->unit);
  if (pr_sources_is_specimen (&job->sources))
    pr_findings_without_foot (job->findings);
  else if (pr_sources_scale (&job->sources)
           && pr_scale_is_about (pr_sources_scale (&job->sources), PR_ABOUT_HEELS))
    pr_findings_without_heels (job->findings, job->hoof.buttress[PR_MEDIAL]);
  return true;
}

const char *
pr_job_offer (const PrJob *job, PrFinding *finding)
{
  if (finding->offer && !finding->tried
      && !pr_offer_works (finding->id, &job->hoof, &job->sources.plan, job->shoe, &job->iron))
    finding->offer = NULL;
  finding->tried = true;
  return finding->offer;
}

/* A branch of an open shoe leaves room for a foot-pick beside a frog that is known: PLAN's webs at the heels are narrowed as
 * far as that needs, measured on the shoe. */
static void
spare_frog (const PrHoof *hoof, PrPlan *plan)
{
  g_autoptr (PrShoe) shoe = pr_shoe_new ();
  PrPlan laid = *plan;

  if (!(hoof->has_frog[PR_MEDIAL] || hoof->has_frog[PR_LATERAL]) || plan->bar != PR_BAR_NONE
      || !pr_fit (&laid, hoof, NULL, NULL))
    return;
  double drawn = plan->web_use_all && plan->given > 0 ? MOST_DRAWN_GIVEN : MOST_DRAWN;
  double least_web = MAX (LEAST_HEEL_WEB * hoof->width, plan->stock_width / (1 + drawn));

  for (int round = 0; round < FROG_ROUNDS; round++) {
    if (!pr_shoe_build (shoe, hoof, &laid, NULL))
      return;
    for (int b = 0; b < 2; b++) {
      if (!hoof->has_frog[b] || pr_plan_locked (plan, b == PR_MEDIAL ? PR_LOCK_HEEL_M : PR_LOCK_HEEL_L))
        continue;
      double missing
          = pr_limit_share ("heel.frog", hoof->width).look + FROG_CLEAR_MM - pr_heel_frog_gap (hoof, shoe, b);
      double least = MIN (plan->web_heel[b], least_web);

      laid.web_heel[b] = CLAMP (laid.web_heel[b] - missing, least, plan->web_heel[b]);
    }
  }
  for (int b = 0; b < 2; b++)
    plan->web_heel[b] = laid.web_heel[b];
}

/* PLAN's webs as wide as the whole of its bar lets them be, but for what the frog takes at the heels: the other webs then
 * take that up. */
static void
use_all (const PrHoof *hoof, PrPlan *plan)
{
  PrPlan next;

  for (int round = 0; round < USE_ROUNDS && pr_plan_use_all (hoof, plan, plan->given, &next); round++) {
    *plan = next;
    spare_frog (hoof, plan);
    if (plan->web_heel[PR_MEDIAL] == next.web_heel[PR_MEDIAL]
        && plan->web_heel[PR_LATERAL] == next.web_heel[PR_LATERAL])
      return;
  }
}

/* PLAN laid on the job's hoof, the web solved for where the plan wants the whole bar used. */
static bool
lay_plan (const PrJob *job, PrPlan *plan, GError **error)
{
  if (!pr_fit (plan, &job->hoof, NULL, error))
    return false;
  if (plan->web_use_all && plan->given > 0)
    use_all (&job->hoof, plan);
  return true;
}

bool
pr_job_fit (PrJob *job, GError **error)
{
  return lay_plan (job, &job->sources.plan, error) && pr_job_refresh (job, error);
}

/* STYLE on PLAN with the bar PLAN has, or the one for a foot of this size. */
static void
apply_with_bar (const PrJob *job, const PrStyle *style, PrPlan *plan)
{
  pr_style_apply (style, &job->hoof, plan);
  /* where all of a bar is used the webs are not known before the fit */
  if (!style->own && !(plan->web_use_all && plan->given > 0))
    spare_frog (&job->hoof, plan);
}

/* PLAN, which has no bar in hand, with STYLE and the bar so thick and wide instead. */
static PrPlan
with_bar (const PrJob *job, const PrStyle *style, const PrPlan *plan, const PrRackBar *bar)
{
  PrPlan next = *plan;

  next.stock_width = bar->width;
  next.stock_thick = bar->thickness;
  next.stock_known = true;
  apply_with_bar (job, style, &next);
  next.stock_known = false;
  return next;
}

/* Does the shoe PLAN lays come out of its bar without more drawing and upsetting than is well? */
static bool
is_easy (const PrJob *job, const PrPlan *plan)
{
  g_autoptr (PrShoe) shoe = pr_shoe_new ();
  g_auto (PrIron) iron = { 0 };
  PrPlan laid = *plan;

  if (!lay_plan (job, &laid, NULL) || !pr_shoe_build (shoe, &job->hoof, &laid, NULL))
    return false;
  pr_iron_plan (&iron, &job->hoof, &laid, shoe);
  for (size_t i = 0; i < iron.n_st; i++)
    if (iron.strain[i] > pr_limit ("iron.draw")->look || -iron.strain[i] > pr_limit ("iron.upset")->look)
      return false;
  return true;
}

/* The first of RANKED that is easy, among the BARS_TRIED of least work; else the one of least work. */
static PrPlan
with_best_bar (const PrJob *job, const PrStyle *style, const PrPlan *plan, const GArray *ranked)
{
  for (guint i = 0; i < ranked->len && i < BARS_TRIED; i++) {
    PrPlan next = with_bar (job, style, plan, &g_array_index (ranked, PrRackLine, i).bar);

    if (is_easy (job, &next))
      return next;
  }
  return with_bar (job, style, plan, &g_array_index (ranked, PrRackLine, 0).bar);
}

/* PLAN with STYLE, laid, its webs as wide as the style wants them by itself and as thick as a foot of this size asks for. FALSE:
 * it cannot be laid, or its web has no share of the foot to go by. */
static bool
lay_by_shares (const PrJob *job, const PrStyle *style, PrPlan *plan)
{
  double web;

  if (!style->share || !pr_json_number (json_node_get_object (style->share), "web.toe", &web))
    return false;
  pr_size_apply (&job->hoof, plan);
  plan->stock_width = web * pr_size_width (&job->hoof);
  plan->stock_known = true;
  apply_with_bar (job, style, plan);
  return lay_plan (job, plan, NULL);
}

void
pr_job_apply_style (const PrJob *job, const PrStyle *style, PrPlan *plan)
{
  g_autoptr (PrShoe) shoe = pr_shoe_new ();
  PrPlan before = *plan, laid = *plan;

  apply_with_bar (job, style, plan);
  if (before.stock_known || plan->stock_known || !(job->hoof.width > 0) || !lay_by_shares (job, style, &laid)
      || !pr_shoe_build (shoe, &job->hoof, &laid, NULL))
    return;
  g_autoptr (GArray) rack = pr_rack_load (NULL);
  g_autoptr (GArray) alike = pr_rack_of_unit (rack, job->unit, plan->material);
  g_autoptr (GArray) ranked = pr_rack_rank (alike, &job->hoof, &laid, shoe);
  if (ranked->len > 0)
    *plan = with_best_bar (job, style, &before, ranked);
}

bool
pr_job_set_style (PrJob *job, const PrStyle *style, GError **error)
{
  PrPlan before = job->sources.plan;

  pr_job_apply_style (job, style, &job->sources.plan);
  if (pr_job_fit (job, error))
    return true;
  job->sources.plan = before;
  return false;
}

/* What of a shoe comes from its bar. */
static bool
is_of_bar (const PrParam *param)
{
  static const char *const groups[] = { "web", "thickness", "toe", "bar", "clips", NULL };

  return param->kind == PR_PARAM_LENGTH && g_strv_contains (groups, param->group);
}

bool
pr_job_take_bar (PrJob *job, double width, double thickness, GError **error)
{
  g_autoptr (GPtrArray) styles = pr_styles_load (NULL);
  const PrStyle *style = pr_styles_find (styles, job->sources.plan.style);
  PrPlan *plan = &job->sources.plan, before, after;
  bool follows = style && pr_job_usual_plan (job, style, &before);

  plan->stock_width = width;
  plan->stock_thick = thickness;
  plan->stock_known = true;
  if (follows && pr_job_usual_plan (job, style, &after))
    for (size_t i = 0; i < pr_n_params; i++) {
      const PrParam *param = &pr_params[i];

      if (is_of_bar (param) && pr_param_get (plan, param) == pr_param_get (&before, param))
        pr_param_set (plan, param, pr_param_get (&after, param));
    }
  return pr_job_refresh (job, error);
}

bool
pr_job_usual_plan (const PrJob *job, const PrStyle *style, PrPlan *usual)
{
  PrPlan plan;

  pr_plan_init (&plan);
  plan.stock_width = job->sources.plan.stock_width;
  plan.stock_thick = job->sources.plan.stock_thick;
  plan.stock_known = job->sources.plan.stock_known;
  plan.given = job->sources.plan.given;
  pr_own_nail_carry (&job->sources.plan, &plan);
  pr_job_apply_style (job, style, &plan);
  if (!lay_plan (job, &plan, NULL))
    return false;
  *usual = plan;
  return true;
}

/* As the plan gives it, what to look at behind each step. */
static void
add_steps (const PrJob *job, GPtrArray *lines)
{
  g_auto (PrHeats) heats = { NULL };

  pr_heats_make (&heats, &job->sources.plan, job->shoe, &job->iron, job->unit);
  for (guint i = 0; i < heats.steps->len; i++)
    g_ptr_array_add (lines, pr_step_words (&g_array_index (heats.steps, PrStep, i)));
}

GPtrArray *
pr_job_order (const PrJob *job)
{
  GPtrArray *steps = g_ptr_array_new_with_free_func (g_free);

  if (!job->sources.order) {
    add_steps (job, steps);
    return steps;
  }
  g_auto (GStrv) lines = g_strsplit (job->sources.order, "\n", -1);

  for (char **line = lines; *line; line++)
    if (*g_strstrip (*line))
      g_ptr_array_add (steps, g_strdup (*line));
  return steps;
}

JsonNode *
pr_job_plan_json (const PrJob *job)
{
  JsonNode *node = pr_plan_to_json (&job->sources.plan);

  if (job->sources.order)
    json_object_set_string_member (json_node_get_object (node), "order", job->sources.order);
  return node;
}

bool
pr_job_take_plan_json (PrJob *job, JsonNode *node, GError **error)
{
  if (!pr_plan_from_json (&job->sources.plan, node, error))
    return false;
  const char *order = pr_json_string (json_node_get_object (node), "order");
  g_free (job->sources.order);
  job->sources.order = order ? pr_note_fit (order) : NULL;
  return true;
}
