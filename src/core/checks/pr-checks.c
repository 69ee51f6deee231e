/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-checks-private.h"

static void
finding_free (gpointer data)
{
  PrFinding *finding = data;

  g_free (finding->text);
  g_free (finding->source);
  g_free (finding);
}

const char *
pr_state_code (PrState state)
{
  static const char *const codes[] = { "fits", "look", "mend" };

  return codes[state];
}

const char *
pr_state_name (PrState state)
{
  static const char *const names[] = { N_ ("fits"), N_ ("look"), N_ ("mend") };

  return _ (names[state]);
}

const char *
pr_group_code (PrGroup group)
{
  static const char *const codes[PR_N_GROUPS] = { "heels", "nails", "shape", "iron", "photo" };

  return codes[group];
}

const char *
pr_group_name (PrGroup group)
{
  static const char *const names[PR_N_GROUPS]
      = { N_ ("heels"), N_ ("nails"), N_ ("shape"), N_ ("iron"), N_ ("photo") };

  return _ (names[group]);
}

PrState
pr_checks_group (const GPtrArray *findings, PrGroup group, int *count)
{
  PrState worst = PR_FITS;
  int n = 0;

  for (guint i = 0; i < findings->len; i++) {
    const PrFinding *finding = findings->pdata[i];

    if (finding->group != group)
      continue;
    worst = MAX (worst, finding->state);
    n += finding->state != PR_FITS;
  }
  if (count)
    *count = n;
  return worst;
}

PrFinding *
pr_run_add (const PrRun *run, const char *id, PrGroup group, PrState state, double value, double limit,
            const char *unit, const char *source, char *text)
{
  PrFinding *finding = g_new0 (PrFinding, 1);

  finding->id = id;
  finding->group = group;
  finding->state = state;
  finding->value = value;
  finding->limit = limit;
  g_strlcpy (finding->unit, unit, sizeof finding->unit);
  finding->source = g_strdup (source);
  finding->text = text;
  finding->offer = state == PR_FITS ? NULL : pr_offer_name (id);
  g_ptr_array_add (run->out, finding);
  return finding;
}

void
pr_finding_at (PrFinding *finding, PrPt p)
{
  finding->has_at = true;
  finding->at = p;
}

PrState
pr_above (double value, double look, double mend)
{
  return value > mend ? PR_MEND : value > look ? PR_LOOK : PR_FITS;
}

PrState
pr_below (double value, double look, double mend)
{
  return value < mend ? PR_MEND : value < look ? PR_LOOK : PR_FITS;
}

const char *
pr_side_word (int branch)
{
  return branch == PR_MEDIAL ? _ ("medial") : _ ("lateral");
}

/* A sentence with one or two lengths in it; FORMAT takes two strings. Transfer full. */
char *
pr_say (const PrRun *run, const char *format, double a, double b)
{
  g_autofree char *x = pr_length_text (a, run->unit), *y = pr_length_text (b, run->unit);

  return g_strdup_printf (format, x, y);
}

char *
pr_say_side (const PrRun *run, const char *format, int side, double a, double b)
{
  g_autofree char *x = pr_length_text (a, run->unit), *y = pr_length_text (b, run->unit);

  return g_strdup_printf (format, pr_side_word (side), x, y);
}

static int
by_weight (gconstpointer a, gconstpointer b)
{
  const PrFinding *p = *(const PrFinding *const *) a, *q = *(const PrFinding *const *) b;

  return p->group != q->group ? (int) p->group - (int) q->group : (int) q->state - (int) p->state;
}

GPtrArray *
pr_checks_run (const PrHoof *hoof, const PrPlan *plan, const PrShoe *shoe, const PrIron *iron,
               const PrScale *scale, PrUnit unit)
{
  PrRun run = { hoof, plan, shoe, iron, scale, unit, g_ptr_array_new_with_free_func (finding_free) };

  pr_check_heels (&run);
  pr_check_nails (&run);
  pr_check_toe (&run);
  pr_check_iron (&run);
  /* g_ptr_array_sort is stable (merge sort), so findings of one state keep the order above */
  g_ptr_array_sort (run.out, by_weight);
  return run.out;
}
