/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-compare-sums.h"

/* A straight line through values over places. */
typedef struct {
  double n, x, y, xx, xy;
} Line;

static void
line_add (Line *line, double x, double y)
{
  line->n++;
  line->x += x;
  line->y += y;
  line->xx += x * x;
  line->xy += x * y;
}

static double
line_mean (const Line *line)
{
  return line->n > 0 ? line->y / line->n : 0;
}

static double
line_slope (const Line *line)
{
  double spread = line->n * line->xx - line->x * line->x;

  return spread > 1e-9 ? (line->n * line->xy - line->x * line->y) / spread : 0;
}

bool
pr_offset_counts (const PrOffset *o)
{
  return o->known && !o->doubted && !o->clip && !o->heel;
}

static int
by_value (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return x < y ? -1 : x > y;
}

static void
take (PrEdgeSum *sum, const PrOffset *o, GArray *amount)
{
  double size = fabs (o->off);

  sum->mean += o->off;
  sum->mean_abs += size;
  if (size > fabs (sum->max)) {
    sum->max = o->off;
    sum->max_at = o->at;
  }
  g_array_append_val (amount, size);
}

void
pr_compare_sum (const GArray *offset, PrSeenEdge edge, PrEdgeSum *sum)
{
  g_autoptr (GArray) amount = g_array_new (FALSE, FALSE, sizeof (double));
  Line line[2] = { 0 };

  *sum = (PrEdgeSum){ 0 };
  for (guint i = 0; i < offset->len; i++) {
    const PrOffset *o = &g_array_index (offset, PrOffset, i);

    if (o->edge != edge || !pr_offset_counts (o))
      continue;
    take (sum, o, amount);
    if (!o->bar)
      line_add (&line[o->branch], o->place, o->off);
  }
  sum->n = amount->len;
  for (int b = 0; b < 2; b++) {
    sum->parallel[b] = line_mean (&line[b]);
    sum->wedge[b] = 100 * line_slope (&line[b]);
  }
  if (sum->n == 0)
    return;
  g_array_sort (amount, by_value);
  sum->mean /= (double) sum->n;
  sum->mean_abs /= (double) sum->n;
  sum->p95 = g_array_index (amount, double, (sum->n - 1) * 95 / 100);
}

/* How long each edge of BRANCH is. */
static void
edge_lengths (const GArray *offset, int branch, double length[2])
{
  length[0] = length[1] = 1;
  for (guint i = 0; i < offset->len; i++) {
    const PrOffset *o = &g_array_index (offset, PrOffset, i);

    if (!o->bar && o->branch == branch)
      length[o->edge] = MAX (length[o->edge], o->place);
  }
}

bool
pr_compare_branch (const GArray *offset, int branch, double from, double to, double *out, double *wider,
                   double *rise)
{
  Line line[2] = { 0 };
  double length[2];

  edge_lengths (offset, branch, length);
  for (guint i = 0; i < offset->len; i++) {
    const PrOffset *o = &g_array_index (offset, PrOffset, i);
    double share = o->place / length[o->edge];

    if (pr_offset_counts (o) && !o->bar && o->branch == branch && share >= from && share <= to)
      line_add (&line[o->edge], share, o->off);
  }
  bool outer = line[PR_SEEN_OUTER].n > 0, inner = line[PR_SEEN_INNER].n > 0;
  double a = line_mean (&line[PR_SEEN_OUTER]), b = line_mean (&line[PR_SEEN_INNER]);
  double p = line_slope (&line[PR_SEEN_OUTER]), q = line_slope (&line[PR_SEEN_INNER]);
  *out = outer && inner ? (a - b) / 2 : outer ? a : -b;
  *wider = outer && inner ? a + b : 0;
  if (rise != NULL)
    *rise = outer && inner ? (p - q) / 2 : outer ? p : -q;
  return outer || inner;
}
