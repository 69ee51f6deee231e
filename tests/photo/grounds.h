/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scenes of lines on what is no paper, of turned ones and of two, for the tests and for the table of
 * errors. */
#pragma once
#include "measure.h"

typedef struct {
  const char *name;
  SceneGround ground;
  ScenePen pen;
  double pen_mm;
  PrScaleMethod by; /* AUTO: fiducials or the sheet's edges */
  double leaf[2];   /* of the ground, mm; 0: A4 */
  PrPaper paper;    /* of the printed sheet */
  double rim;
  double turned;   /* the foot on it, degrees; 360: by chance */
  double other[2]; /* a second foot */
  double length;   /* of the foot; 0: by chance */
  bool plain, closed, frog, writing, ticks;
} GroundKind;

extern const GroundKind ground_kinds[];
extern const size_t ground_kinds_n;

void ground_scene (const GroundKind *kind, guint32 seed, SceneOptions *options);
/* The scale as a person would mark it in SCENE, some pixels off. */
void ground_options (const GroundKind *kind, const SceneOptions *o, const Scene *scene,
                     PrTraceOptions *options);
