/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far a shoe that was found is from the one that lay there. */
#pragma once
#include "pr-seen-find.h"
#include "shoe-scenes.h"

typedef struct {
  double mean, p95, p99; /* mm, of what lies further than 6 mm from a heel's end */
} SeenEdgeError;

typedef struct {
  SeenEdgeError outer, inner, flat; /* flat: the outer edge with its height left in */
  double both;                      /* mean over both edges */
  double heels;                     /* mean within 6 mm of an open shoe's ends */
  double miss;                      /* largest distance of the true outline from the found one */
  double length, width, flat_width; /* found less true, mm */
  double doubt;                     /* share of the edges in doubt */
  double silent;                    /* mm of edge further than 1.5 mm off that no doubt covers */
  double silent_mean;               /* mean of what no doubt covers */
  int openings;                     /* found less true */
  double nail;                      /* mean distance of found nails to the nearest true one */
} SeenError;

void seen_measure (SeenError *e, const PrSeen *seen, const PrTracing *t, const ShoeScene *scene);
/* The photo rendered, read and looked at as KIND's asks for. Transfer full; NULL with ERROR. */
bool seen_scene (PrSeen *out, PrTracing **scale, const ShoeScene *scene, const ShoeKind *kind, Scene **photo,
                 double *ms, GError **error);
