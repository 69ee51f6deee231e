/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-own.h"

#include <glib/gi18n-lib.h>

#include "pr-params.h"

static const char *
group_of (const PrPlan *plan)
{
  if (plan->bar != PR_BAR_NONE)
    return "bar";
  return plan->ext_ahead > 0 ? "extension" : "open";
}

static const char *
material_of (const PrPlan *plan)
{
  return plan->material == PR_MATERIAL_ALUMINIUM ? "aluminium" : "steel";
}

/* The middle station of the first crease: its sections stand for all of it. */
static const PrStation *
creased_station (const PrShoe *shoe)
{
  const PrStation *best = NULL;

  if (shoe->n_creases == 0)
    return NULL;
  const PrCrease *crease = &shoe->crease[0];
  double middle = (crease->place_from + crease->place_to) / 2;
  for (size_t i = 0; i < shoe->n_st; i++)
    if (shoe->st[i].branch == crease->branch
        && (best == NULL || fabs (shoe->st[i].place - middle) < fabs (best->place - middle)))
      best = &shoe->st[i];
  return best;
}

/* What the found shape has more than the planned one, as bar. */
static double
found_more (const PrJob *job, const PrComparison *c)
{
  const PrPlan *plan = &job->sources.plan;
  double area = pr_figure_area (&c->figure) - pr_figure_area (&job->shoe->figure);

  return pr_iron_bar_length (area * (plan->thick_toe + plan->thick_heel) / 2, plan->stock_width,
                             plan->stock_thick, plan->loss, 0);
}

static void
put_sizes (const PrComparison *c, PrBookForged *f)
{
  const PrSizes *s = &c->size;

  f->length = s->length.seen;
  f->width = s->width.seen;
  f->web_toe = s->web[PR_WEB_TOE].seen;
  f->web_quarter[PR_MEDIAL] = s->web[PR_WEB_QUARTER_M].seen;
  f->web_quarter[PR_LATERAL] = s->web[PR_WEB_QUARTER_L].seen;
  f->web_heel[PR_MEDIAL] = s->web[PR_WEB_HEEL_M].seen;
  f->web_heel[PR_LATERAL] = s->web[PR_WEB_HEEL_L].seen;
}

/* What the model asks of the bar, the person's own figure left out. */
static double
by_the_model (const PrJob *job)
{
  PrPlan plan = job->sources.plan;
  g_auto (PrIron) iron = { 0 };

  if (plan.own_more == 0)
    return job->iron.common;
  plan.own_more = 0;
  pr_iron_plan (&iron, &job->hoof, &plan, job->shoe);
  return iron.common;
}

void
pr_own_describe (const PrJob *job, const PrComparison *c, PrBookForged *f)
{
  const PrPlan *plan = &job->sources.plan;
  const PrStation *crease = creased_station (job->shoe);

  f->material = (char *) material_of (plan);
  f->group = (char *) group_of (plan);
  f->bar_width = plan->stock_width;
  f->bar_thick = plan->stock_thick;
  f->loss = plan->loss;
  f->lambda = plan->crease_along;
  f->predicted = by_the_model (job) + (c != NULL ? found_more (job, c) : 0);
  if (crease != NULL) {
    f->crease_area = crease->crease_area;
    f->whole_area = crease->area + crease->crease_area;
  }
  if (c != NULL)
    put_sizes (c, f);
}

static PrTry
try_of (const PrBookForged *f)
{
  PrTry t
      = { .material = g_strcmp0 (f->material, "aluminium") == 0 ? PR_MATERIAL_ALUMINIUM : PR_MATERIAL_STEEL,
          .bar_width = f->bar_width,
          .bar_thick = f->bar_thick,
          .cut = f->cut,
          .leftover = f->leftover,
          .predicted = f->predicted,
          .model_loss = f->loss,
          .bar_kg = f->bar_kg,
          .shoe_kg = f->shoe_kg,
          .slugs_kg = f->slugs_kg,
          .leftover_kg = f->leftover_kg,
          .crease_before = f->crease_before,
          .crease_after = f->crease_after,
          .crease_area = f->crease_area,
          .whole_area = f->whole_area,
          .model_lambda = f->lambda };

  g_strlcpy (t.group, f->group != NULL ? f->group : "", sizeof t.group);
  return t;
}

bool
pr_own_read (PrBook *book, const PrJob *job, PrOwnFigures *own, GError **error)
{
  PrBookForged mine = { 0 };

  pr_own_describe (job, NULL, &mine);
  g_autoptr (GPtrArray) attempts = pr_book_attempts_alike (book, mine.material, mine.group, error);
  if (attempts == NULL)
    return false;
  g_autofree PrTry *tries = g_new (PrTry, attempts->len + 1);
  for (guint i = 0; i < attempts->len; i++)
    tries[i] = try_of (&((const PrBookAttempt *) attempts->pdata[i])->forged);
  const PrTry wanted = try_of (&mine);
  pr_own_figures (tries, attempts->len, &wanted, own);
  return true;
}

char *
pr_own_text (const PrJob *job, const PrOwnFigures *own)
{
  double spread, cut = pr_own_cut (own, by_the_model (job), job->sources.plan.loss, &spread);
  size_t n = own->by == PR_LEARNED_LOSS ? own->loss.n : own->residual.n;

  if (own->by == PR_LEARNED_NOTHING)
    return NULL;
  g_autofree char *length = pr_length_number (cut, job->unit), *apart = pr_length_text (spread, job->unit);
  return g_strdup_printf (ngettext ("by your last %zu shoe: %s ± %s", "by your last %zu shoes: %s ± %s", n),
                          n, length, apart);
}

bool
pr_own_more (const PrJob *job, const PrOwnFigures *own, double *more)
{
  double model = by_the_model (job), welds = 0;

  if (own->by == PR_LEARNED_NOTHING)
    return false;
  for (size_t i = 0; i < job->iron.n_pieces; i++)
    welds += job->iron.piece[i].given > 0 ? 0 : job->iron.piece[i].allowance;
  double cut = pr_own_cut (own, model, job->sources.plan.loss, NULL);
  *more = (cut - welds) / (model - welds) - 1;
  return pr_param_takes (pr_param_find ("stock.own"), *more);
}
