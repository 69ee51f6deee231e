/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-shoe-data.h"

#include "pr-text.h"

PrShoe *
pr_shoe_new (void)
{
  PrShoe *shoe = g_new0 (PrShoe, 1);

  shoe->st = g_new0 (PrStation, PR_N_STATIONS);
  return shoe;
}

void
pr_shoe_free (PrShoe *shoe)
{
  if (!shoe)
    return;
  pr_path_clear (&shoe->outer);
  pr_path_clear (&shoe->inner);
  pr_figure_clear (&shoe->figure);
  pr_path_clear (&shoe->ext.front);
  for (int i = 0; i < PR_MAX_CLIPS; i++)
    pr_path_clear (&shoe->clip[i].ring);
  for (int i = 0; i < 2; i++) {
    pr_path_clear (&shoe->crease[i].middle);
    pr_path_clear (&shoe->weld[i]);
  }
  g_free (shoe->st);
  g_free (shoe);
}

void
pr_shoe_trouble (PrShoe *shoe, PrPt at, const char *text)
{
  if (*shoe->trouble)
    return;
  pr_text_copy (shoe->trouble, sizeof shoe->trouble, text);
  shoe->trouble_at = at;
}
