/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The template as a drawing for other programs: ASCII DXF of release 12 (AC1009), the oldest that
 * every reader knows, 1 unit = 1 mm, y up, foot frame with the lateral side where FACE shows it.
 * Release 12 has no word for units; $INSUNITS and $MEASUREMENT came later and are read all the same,
 * and a comment says it to people. Cost O(points). Inside this room only. */
#pragma once
#include "pr-paper.h"

/* Appends the whole file to OUT: text, which cannot fail. */
void pr_make_template_dxf (const PrJob *job, PrFace face, GByteArray *out);
