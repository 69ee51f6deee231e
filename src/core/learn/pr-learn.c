/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-learn.h"

#include <glib.h>
#include <math.h>
#include <string.h>

#define SAME_BAR_MM 0.5
#define MOST_OFF 0.35 /* a bar a third off the model is a slip of the pen, or another shoe */
#define MOST_LAMBDA 1.0

PrLearned
pr_learn (const double *off, size_t n, double prior, double each)
{
  double sum = 0, squares = 0, weight = 1 / (prior * prior) + (double) n / (each * each);

  for (size_t i = 0; i < n; i++)
    sum += off[i];
  for (size_t i = 0; i < n; i++)
    squares += (off[i] - sum / (double) n) * (off[i] - sum / (double) n);
  return (PrLearned){ n, sum / (each * each) / weight, 1 / sqrt (weight),
                      n > 1 ? sqrt (squares / (double) (n - 1)) : 0 };
}

bool
pr_try_loss (const PrTry *t, double *loss)
{
  if (!(t->bar_kg > 0) || !(t->shoe_kg > 0))
    return false;
  *loss = 1 - (t->shoe_kg + t->slugs_kg + t->leftover_kg) / t->bar_kg;
  return *loss >= 0 && *loss < MOST_OFF;
}

bool
pr_try_residual (const PrTry *t, double *residual)
{
  if (!(t->cut > 0) || !(t->predicted > 0) || !(t->leftover >= 0))
    return false;
  *residual = (t->cut - t->leftover) / t->predicted - 1;
  return fabs (*residual) < MOST_OFF;
}

bool
pr_try_lambda (const PrTry *t, double *lambda)
{
  if (!(t->crease_before > 0) || !(t->crease_after > 0) || !(t->crease_area > 0)
      || !(t->whole_area > t->crease_area))
    return false;
  *lambda = (1 - t->crease_before / t->crease_after) * t->whole_area / t->crease_area;
  return *lambda >= 0 && *lambda <= MOST_LAMBDA;
}

bool
pr_try_alike (const PrTry *a, const PrTry *b)
{
  return a->material == b->material && strcmp (a->group, b->group) == 0
         && fabs (a->bar_width - b->bar_width) < SAME_BAR_MM
         && fabs (a->bar_thick - b->bar_thick) < SAME_BAR_MM;
}

/* One that was weighed and measured teaches both; they say the same in two ways, so only the surer of them is used. */
void
pr_own_figures (const PrTry *attempts, size_t n, const PrTry *wanted, PrOwnFigures *own)
{
  g_autofree double *loss = g_new (double, n + 1), *rest = g_new (double, n + 1),
                    *share = g_new (double, n + 1);
  size_t n_loss = 0, n_rest = 0, n_share = 0;

  for (size_t i = 0; i < n; i++) {
    const PrTry *t = &attempts[i];
    double value;

    if (!pr_try_alike (t, wanted))
      continue;
    if (pr_try_loss (t, &value))
      loss[n_loss++] = value - t->model_loss;
    if (pr_try_residual (t, &value))
      rest[n_rest++] = value;
    if (pr_try_lambda (t, &value))
      share[n_share++] = value - t->model_lambda;
  }
  own->loss = pr_learn (loss, n_loss, PR_LEARN_PRIOR, PR_LEARN_EACH);
  own->residual = pr_learn (rest, n_rest, PR_LEARN_PRIOR, PR_LEARN_EACH);
  own->lambda = pr_learn (share, n_share, PR_LEARN_LAMBDA_PRIOR, PR_LEARN_LAMBDA_EACH);
  if (n_loss + n_rest == 0)
    own->by = PR_LEARNED_NOTHING;
  else
    own->by = n_loss >= n_rest ? PR_LEARNED_LOSS : PR_LEARNED_RESIDUAL;
}

double
pr_own_cut (const PrOwnFigures *own, double model, double model_loss, double *spread)
{
  double factor = 1, off = PR_LEARN_PRIOR;

  if (own->by == PR_LEARNED_LOSS) {
    factor = (1 - model_loss) / MAX (1 - model_loss - own->loss.mean, 0.5);
    off = own->loss.spread;
  } else if (own->by == PR_LEARNED_RESIDUAL) {
    factor = 1 + own->residual.mean;
    off = own->residual.spread;
  }
  if (spread)
    *spread = model * factor * off;
  return model * factor;
}
