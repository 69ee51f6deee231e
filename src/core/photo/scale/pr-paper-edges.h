/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cut edges of a printed sheet, where they are in the picture, against the print: how large was the sheet
 * printed? A camera from the fiducials measures in millimetres of the print; on a sheet printed at 97 % the
 * paper is then 100/97 as large as it is cut. Two edges across from each other tell that for their
 * direction, wherever on the paper the print lies; one alone tells only how far off its place the print is.
 * Costs some 3 ms at any size of photo. */
#pragma once
#include "pr-photo.h"
#include "pr-sheet.h"
#include "pr-tracing.h"

typedef struct {
  bool seen[4];  /* top, right, bottom, left of the sheet as printed */
  double out[4]; /* how far the edge lies outside of where the print has it, mm of the print */
  double bow[4]; /* and how far from straight */
} PrPaperEdges;

/* CAM as the fiducials of PAPER tell it; GREY is the photo's brightness. */
void pr_paper_edges_find (PrPaperEdges *edges, const PrCamera *cam, PrPaper paper, const PrPhoto *photo,
                          const uint8_t *grey);
/* What share of its true size the sheet was printed at, across and down; 0 where two opposite edges are not seen. */
void pr_paper_edges_shares (const PrPaperEdges *edges, PrPaper paper, double share[2]);
