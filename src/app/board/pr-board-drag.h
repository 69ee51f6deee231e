/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Taking hold: drag, pan, zoom and the keyboard. Hitting, dragging and snapping are the core's;
 * here pixels become millimetres and one drag becomes one undo step. */
#pragma once
#include "pr-board-grips.h"

typedef struct {
  PrBoardStage *stage;
  PrGrips *grips;
  GtkGesture *drag;
  int held;    /* grip held; -1: none, the board is panned */
  bool moving; /* past the threshold */
  PrGrip held_start;
  PrLandmarks marks_start;
  PrFootFrame
      frame_start;    /* a mark may turn the foot under the pointer: it goes by the frame the drag began in */
  PrShoe *shoe_start; /* built from the plan the drag began with */
  PrScreenPt press, pan, pointer; /* where it was pressed, the view's origin then, where it is now */
  double zoom_start;
  int pointed;   /* grip under the pointer; -1: none */
  guint resting; /* the wait until that is named; 0: none */
  bool named;    /* the bubble tells of it because the pointer rests there */
} PrDrag;

/* Adds its controllers to the stage's widget; STAGE and GRIPS live as long as that. */
void pr_drag_start (PrDrag *drag, PrBoardStage *stage, PrGrips *grips);
void pr_drag_clear (PrDrag *drag);
