/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one drawing of hoof and shoe, in mm, on any cairo context: board, printer, PDF, SVG, PNG
 * and tests. The caller's CTM must have 1 unit = 1 mm on the target, y down. */
#pragma once
#include <cairo.h>
#include "pr-job.h"

typedef struct {
  PrFace face;
  bool hoof, centre_lines, shoe, crease, nails, clips, labels, landmarks;
  bool fill;   /* the figure filled as steel */
  bool strain; /* draw and upset as colour along the shoe */
  bool dark;   /* on a dark ground */
  bool halo;   /* only what hoof, letters, labels and landmarks stand on, so that they are seen on any ground:
                              the ground's colour round them; to be drawn first, below the shoe */
  double line_mm; /* width of the shoe's lines on the target, mm; lettering follows it
                              (numbers 9.6 lines high), so that it keeps its size on a board
                              whose line is pixels / zoom */
} PrDrawOptions;

/* Everything a template shows, at 0.35 mm lines. */
#define PR_DRAW_TEMPLATE(face_)                                                                       \
  {                                                                                                   \
    .face = (face_), .hoof = true, .centre_lines = true, .shoe = true, .crease = true, .nails = true, \
    .clips = true, .labels = true, .landmarks = true, .line_mm = 0.35                                 \
  }

/* Concatenates foot frame -> target, with the foot's origin at (X, Y) of the target: y up, lateral
 * on the side pr_lateral_sign says. */
void pr_draw_enter_foot (cairo_t *cr, PrFoot foot, PrFace face, double x, double y);
/* Inside the foot frame: draws what OPTIONS say. */
void pr_draw_job (cairo_t *cr, const PrJob *job, const PrDrawOptions *options);
/* The shoe of JOB, its ground surface up, alone and filled, as large as WIDTH x HEIGHT hold it with PAD free all round; lines of
 * LINE. All in the units of CR; DARK: on a dark ground. */
void pr_draw_small (cairo_t *cr, const PrJob *job, double width, double height, double pad, double line,
                    bool dark);
/* Upright text of SIZE mm centred on a point of the foot frame, whatever the frame's mirror. */
void pr_draw_label (cairo_t *cr, PrFoot foot, PrFace face, PrPt at, double size, const char *text);
/* Where the letters M and L of the centre lines stand, foot frame, at lines of LINE_MM; returns their size. */
double pr_draw_letters (const PrJob *job, double line_mm, PrPt at[2]);
/* Extent of hoof, shoe, clips and extension in the foot frame. */
void pr_draw_extent (const PrJob *job, PrPt *low, PrPt *high);
