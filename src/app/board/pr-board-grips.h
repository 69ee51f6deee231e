/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The handle widgets: which there are, where they lie, their Tab order round the shoe, and the
 * bubble that tells the value of the one at hand. */
#pragma once
#include "pr-board-stage.h"
#include "pr-handle.h"
#include "pr-marks.h"

#define PR_MAX_GRIPS (PR_MAX_HANDLES + PR_N_MARKS)

/* Something to take hold of: a handle of the shoe, or a landmark of the hoof. */
typedef struct {
  int mark;        /* -1: the shoe's handle; else a PrLandmark */
  PrHandle handle; /* of a landmark only AT counts */
  double order;    /* along the shoe: the Tab order */
} PrGrip;

typedef struct {
  const PrBoardStage *stage;
  bool marks; /* landmarks instead of the shoe's handles */
  PrGrip grip[PR_MAX_GRIPS];
  GtkWidget *widget[PR_MAX_GRIPS];
  size_t n;
  GtkWidget *bubble;
  int told; /* which grip the bubble tells of; -1: none */
} PrGrips;

void pr_grips_start (PrGrips *grips, const PrBoardStage *stage);
void pr_grips_clear (PrGrips *grips);
/* What there is to take hold of now. */
void pr_grips_update (PrGrips *grips);
void pr_grips_allocate (PrGrips *grips);
void pr_grips_append (PrGrips *grips, GtkSnapshot *snapshot);
/* Shows name and value beside a grip; -1 hides the bubble. */
void pr_grips_tell (PrGrips *grips, int grip);
/* Where that stands, on the board; FALSE: nowhere. */
bool pr_grips_words (const PrGrips *grips, graphene_rect_t *at);
/* Which grip can be taken from X, Y with what reaches ACROSS px (PR_GRAB_PX, PR_THUMB_PX); -1: none. */
int pr_grips_at (const PrGrips *grips, double x, double y, double across);
/* The one under the pointer grows; -1: none. */
void pr_grips_light_up (PrGrips *grips, int grip);
int pr_grips_focused (const PrGrips *grips); /* -1: none */
/* Moves the keyboard round the shoe from the medial heel to the lateral one; FALSE: out of the board. */
bool pr_grips_focus_next (PrGrips *grips, GtkDirectionType direction);
