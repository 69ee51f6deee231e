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
row_taken (PrFlag *const *shown, guint i, int row)
{
  const PrFlag *flag = shown[i];

  for (guint k = 0; k < i; k++) {
    const PrFlag *f = shown[k];
    bool word = f->row == row && f->left + f->width + PR_FLAG_CLEAR > flag->left;
    bool leader = f->row > row && f->head + PR_FLAG_CLEAR > flag->left;

    if (word || leader)
      return true;
  }
  return false;
}

/* A word ends before the next leader, so that none is ever in the way of one still to come, and
 * goes into the lowest free row. */
static int
lay_shown (PrFlag *const *shown, guint n, double low, double high)
{
  int rows = 0;

  for (guint i = 0; i < n; i++)
    shown[i]->head = i == 0 ? shown[i]->foot : fmax (shown[i]->foot, shown[i - 1]->head + PR_FLAG_APART);
  for (guint i = 0; i < n; i++) {
    PrFlag *f = shown[i];
    double end = i + 1 < n ? fmin (high, shown[i + 1]->head - PR_FLAG_CLEAR) : high;
    double right = fmin (f->head + f->width / 2, fmax (end, f->head));

    f->left = right - f->width;
    if (f->left < low)
      f->left = fmax (f->left, fmin (low, fmax (end, f->head) - f->width));
    for (f->row = 0; row_taken (shown, i, f->row);)
      f->row++;
    rows = MAX (rows, f->row + 1);
  }
  return rows;
}

/* Which to leave out: the first word above the last row, or a wider one that takes its room; a bold
 * one only where there is no other. */
static guint
least_claim (PrFlag *const *shown, int most)
{
  guint over = 0, least;

  while (shown[over]->row < most)
    over++;
  least = over;
  for (guint i = 0; i < over; i++) {
    const PrFlag *f = shown[i], *worst = shown[least];

    if (f->left + f->width + PR_FLAG_CLEAR <= shown[over]->left)
      continue;
    if (f->bold != worst->bold ? worst->bold : f->width > worst->width)
      least = i;
  }
  return least;
}

int
pr_flags_lay (GArray *flags, double low, double high, int most)
{
  g_autofree PrFlag **shown = g_new (PrFlag *, flags->len + 1);
  guint n = flags->len;
  int rows;

  g_array_sort (flags, flag_order);
  for (guint i = 0; i < n; i++)
    shown[i] = &g_array_index (flags, PrFlag, i);
  while ((rows = lay_shown (shown, n, low, high)) > most && most > 0) {
    guint out = least_claim (shown, most);

    shown[out]->row = -1;
    for (n--; out < n; out++)
      shown[out] = shown[out + 1];
  }
  return rows;
}
