/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The board's layers, lowest first: grid and photo, shoe, hoof, then what points at something. Each
 * drawn layer is a render node kept until what it shows changes; all of them are kept for one view
 * and one size, and made anew for another. */
#pragma once
#include "pr-board-layers.h"
#include "pr-board-stage.h"
#include "pr-ghost.h"
#include "pr-levels.h"
#include "pr-stage-data.h"

/* A layer that a drag of the shoe leaves as it is. */
typedef struct {
  GskRenderNode *node;
  bool still; /* it is one picture already, of this format */
  cairo_format_t format;
} PrSceneKept;

typedef struct {
  const PrBoardStage *stage;
  PrBoardLayers layers; /* after a change of these three: pr_scene_drop */
  bool dark, show_photo;
  bool comparing; /* the forged shoe is shown on its plan ... */
  double mix;     /* ... 0 the plan alone, 1 the forged shoe alone */
  double split;   /* share of the width, from the left, that is without the shoe */
  PrLevels photo;
  PrStageProgress progress; /* of the stage that is shown, while one is ... */
  unsigned hot;             /* ... and what of it is hot */
  PrStage bent;             /* and it itself */
  PrSceneKept ground;       /* grid and photo */
  PrSceneKept hoof;         /* its lines, above the shoe */
  PrGhost ghost;            /* the visit before */
  GskRenderNode *shoe, *past;
  PrView seen; /* the view and the size they were made for */
  int width, height;
} PrScene;

void pr_scene_start (PrScene *scene, const PrBoardStage *stage);
void pr_scene_clear (PrScene *scene);
/* Takes the photo of the job there is now, or none. */
void pr_scene_take_photo (PrScene *scene);
/* Makes all layers anew, or the shoe's only: what a drag changes. */
void pr_scene_drop (PrScene *scene);
void pr_scene_drop_shoe (PrScene *scene);
void pr_scene_append (PrScene *scene, GtkSnapshot *snapshot);
