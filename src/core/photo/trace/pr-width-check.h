/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Is a hoof as wide as hooves are? A sheet whose size was guessed from its shape may be a paper of
 * another size, and every measure then wrong by a third. */
#pragma once
#include "pr-tracing.h"

/* FALSE with an error that asks for the paper when T's was told from its shape and makes the hoof
 * one of a width that hooves hardly have. PART: the line may be a piece of it only. */
bool pr_width_check_likely (const PrTracing *t, bool part, GError **error);
/* The reason for T's verdict says how wide the foot is when the paper was told from its shape: a
 * farrier knows that of a foot, and the paper by it. */
void pr_width_check_tell (PrTracing *t);
