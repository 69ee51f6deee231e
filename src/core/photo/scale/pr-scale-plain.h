/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scale by the edges of a plain sheet, and what they make it worth. */
#pragma once
#include "pr-photo.h"
#include "pr-tracing.h"

/* Fills scale and camera of T. STEPS_DIR as in PrTraceOptions. */
bool pr_scale_by_plain (PrTracing *t, const PrPhoto *photo, const uint8_t *grey, PrPaper paper, bool sure,
                        PrUnit unit, const char *steps_dir, GError **error);
