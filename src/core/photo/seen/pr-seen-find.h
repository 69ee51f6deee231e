/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a photo to the shoe that lies on its sheet, or to the line drawn round one, in mm on the cold shoe. The scale is
 * the tracing's (pr-trace.h); the height is taken out edge by edge (pr-seen-edge.h). Keeps nothing global; may be called
 * from any thread. A photo of 12 megapixels takes about half a second. */
#pragma once
#include <gio/gio.h>
#include "pr-photo.h"
#include "pr-seen.h"
#include "pr-tracing.h"

typedef struct {
  double thickness_mm; /* within the limits compare.thickness; of a drawn one not looked at */
  PrFace face;         /* the one that is up */
  bool drawn;     /* a closed line drawn round it: its side towards the iron is the edge, whatever the pen */
  double focal35; /* focal length on 36 mm film; 0: as the photo tells, else the usual */
} PrSeenOptions;

/* OUT is empty or cleared, and filled only on TRUE. SCALE_OUT (may be NULL) receives the sheet's scale and raster, transfer
 * full, also only then. FALSE with an error (PR_ERROR_INPUT, PR_ERROR_SCALE, PR_ERROR_LINE) of one sentence, or
 * G_IO_ERROR_CANCELLED. */
bool pr_seen_find (PrSeen *out, PrTracing **scale_out, const PrPhoto *photo,
                   const PrTraceOptions *trace_options, const PrSeenOptions *options,
                   GCancellable *cancellable, GError **error);
