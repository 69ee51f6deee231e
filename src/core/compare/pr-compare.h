/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A real shoe held against its plan: laid on it (moved and turned, never scaled), measured along both edges, and told in a
 * smith's words. The plan says what fit was meant. */
#pragma once
#include "pr-compare-data.h"

/* JOB must have a shoe. OUT is cleared first. FALSE with an error when SEEN is no shoe that could be held against this one.
 * A shoe that fits much better as its mirror is compared as it was told, with OUT's mirrored set: it lies with the other
 * face up, or is the other foot's; see pr_compare_ask. Some 30 ms. */
bool pr_compare (PrComparison *out, const PrJob *job, const PrSeen *seen, PrLay lay, GError **error);
/* FALSE with the question as an error when C's shoe fits as its mirror. */
bool pr_compare_ask (const PrComparison *c, GError **error);
