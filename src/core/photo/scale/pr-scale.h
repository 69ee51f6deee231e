/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From the photo to a camera: every method of PrScaleMethod, tried or asked for, and the
 * verdict. */
#pragma once
#include "pr-photo.h"
#include "pr-scale-verdict.h"

/* Fills scale and camera of TRACING. GREY is the photo's brightness. */
bool pr_scale_find (PrTracing *tracing, const PrPhoto *photo, const uint8_t *grey,
                    const PrTraceOptions *options, GError **error);
