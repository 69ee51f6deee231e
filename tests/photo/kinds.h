/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Kinds of scene the photo chain is held against. */
#pragma once
#include "scene.h"

typedef struct {
  const char *name;
  double tilt; /* degrees; 0 = drawn from the seed */
  bool plain;
  ScenePen pen;
  SceneBench bench;
  bool closed, frog, ticks, writing, dirt, shadow, folds, grid;
  double gap, dark;
  double k1, turn, fill, length, blur; /* 0 = drawn or the scene's own */
  PrPaper paper;
} Kind;

extern const Kind kinds[];
extern const size_t kinds_n;

void kind_scene (const Kind *kind, guint32 seed, SceneOptions *o);
