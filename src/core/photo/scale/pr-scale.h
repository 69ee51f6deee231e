/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the photo to a camera: every method of PrScaleMethod, tried or asked for, and the
 * verdict. */
#pragma once
#include "pr-photo.h"
#include "pr-tracing.h"

/* Fills scale and camera of TRACING. GREY is the photo's brightness. */
bool pr_scale_find (PrTracing *tracing, const PrPhoto *photo, const uint8_t *grey,
                    const PrTraceOptions *options, GError **error);
/* WHY joins the reasons; the verdict falls to VERDICT unless it is as low already. */
void pr_scale_lower (PrScale *scale, PrVerdict verdict, const char *why);
/* Lowers it to usable because a person is to answer QUESTION; among reasons as grave WHY is the one that is told first, as
 * it can be mended on the spot. */
void pr_scale_ask (PrScale *scale, PrQuestion question, const char *why);
/* As pr_scale_lower, with its place on the sheet. */
void pr_scale_lower_at (PrScale *scale, PrVerdict verdict, const char *why, PrSheetPt at);
