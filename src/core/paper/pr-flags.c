/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-flags.h"

#include <math.h>

static void
flag_clear (gpointer data)
{
  g_free (((PrFlag *) data)->text);
}

GArray *
pr_flags_new (void)
{
  GArray *flags = g_array_new (FALSE, TRUE, sizeof (PrFlag));

  g_array_set_clear_func (flags, flag_clear);
  return flags;
}

static int
flag_order (gconstpointer a, gconstpointer b)
{
  const PrFlag *p = a, *q = b;

  return (p->foot > q->foot) - (p->foot < q->foot);
}

/* Does FLAG's word in ROW cover a word of that row, or a leader that goes higher? */
static bool
row_taken (const PrFlag *first, const PrFlag *flag, int row)
{
  for (const PrFlag *f = first; f < flag; f++) {
    bool word = f->row == row && f->left + f->width + PR_FLAG_CLEAR > flag->left;
    bool leader = f->row > row && f->head + PR_FLAG_CLEAR > flag->left;

    if (word || leader)
      return true;
  }
  return false;
}

/* A word ends before the next leader, so that none is ever in the way of one still to come, and
 * goes into the lowest free row. */
int
pr_flags_lay (GArray *flags, double low, double high)
{
  int rows = 0;

  g_array_sort (flags, flag_order);
  PrFlag *all = (PrFlag *) (void *) flags->data;

  for (guint i = 0; i < flags->len; i++)
    all[i].head = i == 0 ? all[i].foot : fmax (all[i].foot, all[i - 1].head + PR_FLAG_APART);
  for (guint i = 0; i < flags->len; i++) {
    double end = i + 1 < flags->len ? fmin (high, all[i + 1].head - PR_FLAG_CLEAR) : high;
    double right = fmin (all[i].head + all[i].width / 2, fmax (end, all[i].head));

    all[i].left = right - all[i].width;
    if (all[i].left < low)
      all[i].left = fmax (all[i].left, fmin (low, fmax (end, all[i].head) - all[i].width));
    for (all[i].row = 0; row_taken (all, &all[i], all[i].row);)
      all[i].row++;
    rows = MAX (rows, all[i].row + 1);
  }
  return rows;
}
