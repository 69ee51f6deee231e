/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the job came to, in words and figures for the side. All transfer full. */
#pragma once
#include "pr-job.h"

/* One line for the header of each part. */
char *pr_facts_tracing (const PrJob *job);
char *pr_facts_hoof (const PrJob *job);
char *pr_facts_shoe (const PrJob *job, const GPtrArray *styles);
char *pr_facts_nailing (const PrJob *job);
char *pr_facts_iron (const PrJob *job);
char *pr_facts_order (const PrJob *job);

/* "label\tvalue" lines for the parts that are read, not typed. NULL-terminated. Of a specimen nothing is told that only a foot
 * has. */
GStrv pr_facts_tracing_list (const PrJob *job);
GStrv pr_facts_hoof_list (const PrJob *job);
GStrv pr_facts_hoof_more (const PrJob *job); /* what is seldom asked for */
GStrv pr_facts_iron_list (const PrJob *job);
