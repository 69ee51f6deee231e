/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Several feet's lines on one sheet: which of them is the tracing's own. */
#pragma once
#include "pr-tracing.h"

/* TRACING's line and its NTHs other change places, and what is asked about the heels is that of the new one. */
void pr_tracing_swap_other (PrTracing *tracing, size_t nth);
