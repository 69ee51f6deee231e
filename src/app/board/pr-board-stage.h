/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every part of the board stands on: its widget, its document, the view of the foot frame, and
 * what is pointed at. The parts (scene, grips, drag, ruler, doubts) hold a PrBoardStage and know nothing
 * of the board that puts them together. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"
#include "pr-view.h"

typedef struct {
  GtkWidget *widget; /* the board: its signals are emitted here by their names */
  PrDocument *doc;   /* owned by the board; NULL before it is set */
  PrView view;       /* foot frame, mm, to widget pixels */
  PrFace face;
  int width, height;     /* as last allocated, pixels */
  const char *cursor;    /* where nothing is under the pointer; NULL: the desktop's own */
  bool measuring;        /* two points are clicked on, and nothing is taken hold of */
  double hover_s;        /* middle-line place shown as a cut; negative: none */
  bool under_way;        /* a stage between bar and shoe is shown, and nothing to take hold of */
  bool looked_at;        /* the shoe is held against what was, and there is nothing to take hold of */
  bool ringed;           /* a place of the shoe is ringed */
  const char *ringed_id; /* which finding's place it is, static; NULL: of none */
  PrPt ring;
} PrBoardStage;

const PrJob *pr_board_stage_job (const PrBoardStage *stage); /* NULL when there is none */
/* The view's directions follow foot and face. */
void pr_board_stage_turn (PrBoardStage *stage);
PrScreenPt pr_board_stage_out (const PrBoardStage *stage, PrPt p);
PrPt pr_board_stage_in (const PrBoardStage *stage, double x, double y);
/* What the buttons in the lower left corner cover. */
graphene_rect_t pr_board_stage_buttons (const PrBoardStage *stage);
/* The foot's extent in the middle; nothing without a job or before a size is given. */
void pr_board_stage_fit (PrBoardStage *stage);
void pr_board_stage_zoom (PrBoardStage *stage, double factor, PrScreenPt at);
/* The view was moved: all is laid and drawn anew, and "view" is emitted. */
void pr_board_stage_moved (PrBoardStage *stage);
/* Rings AT, which comes to the middle when it is not seen; NULL takes the ring away. ID: of the finding whose place
 * that is (static), else NULL. */
void pr_board_stage_ring (PrBoardStage *stage, const PrPt *at, const char *id);
/* The job has changed: the ring goes where its finding has gone, and goes away with it. */
void pr_board_stage_follow_ring (PrBoardStage *stage);
/* Has the foot come to need more room than a fitted view gives it? */
bool pr_board_stage_outgrown (const PrBoardStage *stage);
