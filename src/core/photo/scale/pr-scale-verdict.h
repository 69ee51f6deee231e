/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a scale is worth, and why: the verdict falls with each reason against it and never rises. */
#pragma once
#include "pr-tracing.h"

/* WHY joins the reasons; the verdict falls to VERDICT unless it is as low already. */
void pr_scale_lower (PrScale *scale, PrVerdict verdict, const char *why);
/* The same, with its place on the sheet. */
void pr_scale_lower_at (PrScale *scale, PrVerdict verdict, const char *why, PrSheetPt at);
/* WHY lowers the verdict to usable where VALUE is over USABLE, to retake where it is over RETAKE. */
void pr_scale_lower_by (PrScale *scale, double value, double usable, double retake, const char *why);
/* Lowers it to usable because a person is to answer QUESTION; among reasons as grave WHY is the one that is told first, as
 * it can be mended on the spot. */
void pr_scale_ask (PrScale *scale, PrQuestion question, const char *why);
/* What every way to a scale has in common, once camera, size and residual stand: density and tilt. */
void pr_scale_measure (PrTracing *t);
