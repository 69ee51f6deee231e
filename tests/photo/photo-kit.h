/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every test of the photo chain begins with: a scene, its photo, its tracing. Each fails the test in
 * words when it cannot be had. */
#pragma once
#include "measure.h"

/* The usual scene of SEED in a photo WIDTH pixels wide, three to four. */
void scene_of_width (SceneOptions *o, guint32 seed, int width);
/* Decoded. Transfer full. */
PrPhoto *photo_taken (const Scene *scene);
/* The same pixels once more, to be spoilt. Transfer full. */
PrPhoto *photo_copy (const PrPhoto *photo);
/* OPTIONS may be NULL: the usual ones. WHAT names the case. Transfer full. */
PrTracing *photo_traced (const PrPhoto *photo, const PrTraceOptions *options, const char *what);
/* Rendered, taken, traced on the paper O says and measured; the figures are printed. A sheet without
 * fiducials is told to be plain: that it is found unasked is the business of the tests of sheets. Transfer full. */
PrTracing *scene_traced (const SceneOptions *o, const char *what, Measure *m);
void print_measure (const char *what, const Measure *m, const PrTracing *t);
