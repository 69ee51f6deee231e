/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Is a hoof as wide as hooves are (limits width.fore, width.hind: beyond LOOK few are, beyond MEND hardly any)?
 * A sheet may be of another size than it was taken or told to be, and every measure then wrong by a
 * third. What is usual spans less than from A4 to A3: a usual hoof on the one is none on the other. */
#pragma once
#include "pr-tracing.h"

/* FALSE with an error that asks for the paper when T's was told from its shape and makes the hoof
 * one of a width that hooves hardly have. PART: the line may be a piece of it only. */
bool pr_width_check_likely (const PrTracing *t, bool part, PrUnit unit, GError **error);
/* A paper that was told, or a printed sheet, is asked about when it makes a hoof that few are as wide as:
 * the verdict falls to usable. FOOT as far as it is known. PART as above. */
void pr_width_check_ask (PrTracing *t, PrFoot foot, bool part, PrUnit unit);
/* The reason for T's verdict says how wide the foot is when the paper was told from its shape: a
 * farrier knows that of a foot, and the paper by it. */
void pr_width_check_tell (PrTracing *t, PrUnit unit);
