/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The line looked for on dark ink, and on light ink where that may be it: taken is the one whose line is a
 * hoof's. */
#pragma once
#include "pr-hoof-choice.h"
#include "pr-ink-side.h"

typedef struct {
  PrInkSide side;
  PrInkMap ink; /* on which the line was found */
  PrHoofLine job;
  GError *error; /* why none was found, or NULL */
} PrLineLook;

/* The ink map, T's card or rectangle by which it was scaled wiped out of it. */
void pr_line_look_begin (PrLineLook *look, PrTracing *t, const PrTraceOptions *options);
/* T's lines and what is known of them; its outline is NULL when there is none. */
void pr_line_look_find (PrLineLook *look, PrTracing *t, const PrTraceOptions *options);
void pr_line_look_clear (PrLineLook *look);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrLineLook, pr_line_look_clear)
