/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tick across the line at the toe and the frog's two lines, where a hand drew them. */
#pragma once
#include "pr-ink-map.h"

/* Fills T's drawn marks from the ink round its line; none where it has no hoof's line. */
void pr_drawn_marks_find (PrTracing *tracing, const PrInkMap *ink);
