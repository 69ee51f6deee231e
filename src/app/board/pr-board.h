/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrBoard: the photo, the shoe on it and the hoof drawn over that, and the handles on it. Knows the
 * board frame (widget pixels); every other number comes from the job. Zoom is at the pointer; the
 * photo is uploaded once, and of the drawing only the shoe's layer is made again while a
 * handle is dragged. Signals: "hover" (double s: middle-line place under the pointer, or
 * negative when there is none), "view" (zoom or face changed). */
#pragma once
#include <gtk/gtk.h>
#include "pr-board-layers.h"
#include "pr-document.h"
#include "pr-stage-progress.h"
#include "pr-view.h"

#define PR_SCREEN_LEAST 1.5 /* px per mm: a projector's wall */
#define PR_SCREEN_MOST 20.0 /* px per mm: finer than any screen sold */

#define PR_TYPE_BOARD (pr_board_get_type ())
G_DECLARE_FINAL_TYPE (PrBoard, pr_board, PR, BOARD, GtkWidget)

void pr_board_set_document (PrBoard *board, PrDocument *doc);
void pr_board_fit (PrBoard *board);
void pr_board_true_size (PrBoard *board);
void pr_board_zoom_by (PrBoard *board, double factor); /* about the middle */
double pr_board_share (PrBoard *board);                /* of true size on this screen */
/* Pixels of this screen per mm, as measured; 0 goes back to what the monitor says. */
void pr_board_set_screen (PrBoard *board, double px_per_mm);
double pr_board_screen (PrBoard *board);
bool pr_board_is_measured (PrBoard *board);
/* The monitor the board is on, in the same pixels; FALSE when it is on none. */
bool pr_board_monitor (PrBoard *board, GdkRectangle *area);
void pr_board_set_face (PrBoard *board, PrFace face);
PrFace pr_board_face (PrBoard *board);
void pr_board_set_dark (PrBoard *board, bool dark);
/* Shows the stage at PROGRESS instead of the shoe, its HOT parts tinted (PR_PART_*), and nothing to take hold of; NULL: the shoe. */
void pr_board_set_stage (PrBoard *board, const PrStageProgress *progress, unsigned hot);
void pr_board_set_show_photo (PrBoard *board, bool show);
void pr_board_set_layers (PrBoard *board, const PrBoardLayers *layers);
const PrBoardLayers *pr_board_layers (PrBoard *board); /* transfer none */
/* The day of the visit before that of the open foot, ISO 8601, transfer none; NULL: there is none. What has changed since, in
 * words, transfer full; NULL: that cannot be told. */
const char *pr_board_ghost_day (PrBoard *board);
char *pr_board_ghost_words (PrBoard *board);
/* Two clicks and the distance between them, until it is set back. M and Escape on the board activate win.measure. */
/* The document's forged shoe on its plan, in place of the planned one; ON FALSE: the plan as usual. */
void pr_board_compare (PrBoard *board, bool on);
/* 0 the plan alone, 1 the forged shoe alone, half way both. */
void pr_board_mix (PrBoard *board, double mix);
/* SHARE of the width, from the left, shows the foot without its shoe: 0 none, 1 all of it. */
void pr_board_set_split (PrBoard *board, double share);
void pr_board_set_measuring (PrBoard *board, bool measuring);
/* Landmarks instead of the shoe's handles. */
void pr_board_set_marks (PrBoard *board, bool marks);
/* Shows the cut at middle-line place S; negative hides it. */
void pr_board_point_out (PrBoard *board, double s);
/* Where a place of the foot frame lies on the board, widget pixels. */
PrScreenPt pr_board_out (PrBoard *board, PrPt at);
/* Rings a place of the shoe and brings it into view; NULL takes the ring away. ID: the finding whose place it is, with
 * which the ring moves and goes (static); NULL: it goes with the photo's line. */
void pr_board_ring (PrBoard *board, const PrPt *at, const char *id);
