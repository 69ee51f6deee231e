/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-checks.h"

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
