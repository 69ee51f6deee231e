/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a photo to the hoof's outline in sheet mm: scale, rectified picture, drawn line.
 * Keeps nothing global; may be called from any thread. */
#pragma once
#include "pr-photo.h"
#include "pr-tracing.h"

/* Called from the working thread: DONE in 0..1, WHAT a translated word for the stage. */
typedef void (*PrProgress) (double done, const char *what, gpointer data);

/* NULL with an error when cancelled, when no scale can be trusted, or when no line is found
 * (PR_ERROR_LINE). Transfer full. PROGRESS, CANCELLABLE may be NULL. */
PrTracing *pr_trace_photo (const PrPhoto *photo, const PrTraceOptions *options, PrProgress progress,
                           gpointer data, GCancellable *cancellable, GError **error);
/* As above without looking for the line (outline stays NULL). */
PrTracing *pr_trace_scale (const PrPhoto *photo, const PrTraceOptions *options, PrProgress progress,
                           gpointer data, GCancellable *cancellable, GError **error);
