/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrMarking: a photo on which something of known size is being marked, so that it gets its scale. */
#pragma once
#include "pr-take.h"

typedef struct {
  PrPhoto *photo;         /* turned upright; the take's own */
  PrTraceOptions options; /* as last asked for; points only when they were marked */
  char *why;              /* one sentence: why the scale must be marked */
  PrTake *take;           /* whose photo it is */
} PrMarking;

/* TAKE (transfer full) has a photo. */
PrMarking *pr_marking_new (PrTake *take);
void pr_marking_free (PrMarking *marking);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrMarking, pr_marking_free)
/* TAKE is this photo once more, traced as marked and in vain: options and reason are now TAKE's, and the photo
 * stays as it is on the screen. FALSE when it is another photo; nothing is changed then. */
bool pr_marking_goes_on (PrMarking *marking, const PrTake *take);
