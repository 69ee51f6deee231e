/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A plan whose shoe is a real one, or the drawing of one, that lies on the sheet: outer edge, webs, heels, thickness, nails as
 * far as they were seen; what is not seen (crease, bevels, clips) as the style has it. There is no foot: the outer edge
 * stands in for the outline, and what only a foot can tell is not said. */
#pragma once
#include "pr-compare-data.h"

/* JOB's foot says which side is lateral. Its plan becomes STYLE's, then the shoe SEEN; of an open shoe, with or without a toe extension,
 * or of one that a straight, an egg or a heart bar closes, lying with its toe towards the sheet's top.
 * SHEET (may be NULL): the scale it was seen by, with its raster, which becomes the job's as a foot is drawn: turned over where
 * the ground surface is up. OFF (may be NULL): how far the plan's outer edge stays off the real one in the mean, mm. FALSE with
 * an error; JOB is then of no use. */
bool pr_specimen_plan (PrJob *job, const PrSeen *seen, const PrTracing *sheet, const PrStyle *style,
                       double *off, GError **error);
/* A part that a plan has in another form (a trailer, a squared toe) is told, as nobody would look for it: one sentence where
 * JOB's plan and SEEN are further apart than the limit compare.off allows, else NULL. Transfer full. */
char *pr_specimen_unlike (const PrJob *job, const PrSeen *seen);
