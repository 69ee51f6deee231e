/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the ways to a scale share. */
#pragma once
#include "pr-photo.h"
#include "pr-tracing.h"

/* WHY lowers the verdict to usable where VALUE is over USABLE, to retake where it is over RETAKE. */
void pr_scale_lower_by (PrScale *scale, double value, double usable, double retake, const char *why);
/* What every way has in common, once camera, size and residual stand: density and tilt. */
void pr_scale_measure (PrTracing *t);
/* By the edges of a plain sheet; STEPS_DIR as in PrTraceOptions. */
bool pr_scale_by_plain (PrTracing *t, const PrPhoto *photo, const uint8_t *grey, PrPaper paper,
                        const char *steps_dir, GError **error);
