/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-tracing-lines.h"

#include "pr-tracing-heels.h"

void
pr_tracing_swap_other (PrTracing *t, size_t nth)
{
  PrFootLine taken = t->other[nth];

  t->other[nth] = pr_tracing_steal_line (t);
  pr_tracing_put_line (t, &taken);
  pr_tracing_ask_heels (t);
}
