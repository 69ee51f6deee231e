/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the board's own files share. */
#pragma once
#include "pr-board.h"
#include "pr-handle.h"

#define PR_PHOTO_LEVELS 3
#define PR_MAX_GRIPS (PR_MAX_HANDLES + 3)

typedef struct {
  double x, y;
} PrBoardPt;

/* Something to take hold of: a handle of the shoe, or a landmark of the hoof. */
typedef struct {
  int mark;        /* -1: the shoe's handle; else 0 toe, 1 medial, 2 lateral buttress */
  PrHandle handle; /* of a landmark only AT counts */
  double order;    /* along the shoe: the Tab order */
} PrGrip;

struct _PrBoard {
  GtkWidget parent_instance;
  PrDocument *doc;
  /* view: board = (x0 + sign * scale * x, y0 - scale * y) */
  double scale, x0, y0;
  PrFace face;
  int width, height; /* as last allocated */
  bool fitted;       /* keeps fitting until the view is moved by hand */
  double screen;     /* measured px per mm of this screen; 0: ask the monitor */
  bool dark, show_photo, marks;
  PrBoardLayers layers;
  /* layers */
  GdkTexture *photo[PR_PHOTO_LEVELS]; /* each half the size of the one before */
  GskRenderNode *ground;              /* grid and photo */
  bool still;                         /* ground is one picture already, made for this view */
  GskRenderNode *hoof, *shoe;
  /* overlays */
  double hover_s; /* -1: none */
  bool ringed;
  PrPt ring;
  /* measuring */
  bool measuring;
  int n_measured; /* points clicked: 0, 1 or 2 */
  PrPt measured[2], measure_to;
  /* handles */
  PrGrip grip[PR_MAX_GRIPS];
  GtkWidget *widget[PR_MAX_GRIPS];
  size_t n_grips;
  GtkWidget *bubble;
  int bubble_grip; /* which grip the bubble tells of; -1: none */
  /* drag */
  GtkGesture *drag, *zoom;
  int held;    /* grip held; -1: none, the board is panned */
  bool moving; /* past the threshold */
  PrGrip held_start;
  PrLandmarks marks_start;
  PrShoe *shoe_start; /* built from the plan the drag began with */
  double press_x, press_y, pan_x0, pan_y0;
  double pointer_x, pointer_y, zoom_start;
};

PrBoardPt pr_board_from_foot (PrBoard *board, PrPt p);
PrPt pr_board_to_foot (PrBoard *board, double x, double y);
int pr_board_sign (PrBoard *board);
void pr_board_view_changed (PrBoard *board);
void pr_board_zoom_at (PrBoard *board, double factor, double x, double y);

/* measuring */
void pr_board_add_measuring (PrBoard *board);
void pr_board_append_measure (PrBoard *board, GtkSnapshot *snapshot);

/* drawing */
void pr_board_snapshot (GtkWidget *widget, GtkSnapshot *snapshot);
void pr_board_drop_layers (PrBoard *board);
void pr_board_append_doubts (PrBoard *board, const PrJob *job, GtkSnapshot *snapshot);
void pr_board_append_references (PrBoard *board, const PrJob *job, GtkSnapshot *snapshot);
void pr_board_tell_doubts (PrBoard *board);
void pr_board_drop_ground (PrBoard *board);
void pr_board_load_photo (PrBoard *board);
void pr_board_drop_photo (PrBoard *board);

/* handles */
void pr_board_update_grips (PrBoard *board);
void pr_board_allocate_grips (PrBoard *board);
gboolean pr_board_focus (GtkWidget *widget, GtkDirectionType direction);
void pr_board_add_controllers (PrBoard *board);
int pr_board_focused_grip (PrBoard *board); /* -1: none */
void pr_board_tell (PrBoard *board, int grip);
