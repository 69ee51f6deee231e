/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far a tracing is from the truth of its scene. */
#pragma once
#include "pr-trace.h"
#include "scene.h"

typedef struct {
  double sheet_rms, sheet_max;          /* mm: camera against the true one over the whole sheet */
  double line_mean, line_p95, line_max; /* mm: found points to the true line */
  double miss_max;                      /* mm: true points to the found line */
  double silent;                        /* mm of found line more than 1 mm off that no doubt covers */
  double heel[2];                       /* mm: found ends to the true ones */
  bool has_line;
  bool swapped; /* the outline begins at the lateral heel */
  double other; /* mm: mean of the found second foot's points to the nearer true line; INFINITY: none found */
  double tick, apex; /* mm: found to true, where one was found */
  double base;       /* mm: middle of the frog's found edges to the true frog's axis */
} Measure;

/* What a sweep is asked for: [KIND|all [SEEDS|FROM-TO ...]]. */
typedef struct {
  const char *only; /* NULL: all kinds */
  guint32 first, last;
} SweepArgs;

SweepArgs sweep_args (int argc, char **argv, guint32 seeds);

/* TURNED is set to the quarter turns between the frames (plain sheets have no top). */
void measure_tracing (Measure *m, const PrTracing *tracing, const Scene *scene, PrPaper paper);
/* The line alone, its two ends and what is silently off, whatever the frame: the found line in the photo, laid on the true sheet. */
void measure_line_in_photo (Measure *m, const PrTracing *tracing, const Scene *scene);
/* The tracing of SCENE's photo on the PAPER that was given, or unknown. Transfer full. */
PrTracing *trace_scene (const Scene *scene, PrPaper paper, GError **error);
