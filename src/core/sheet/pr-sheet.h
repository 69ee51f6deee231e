/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paper sizes, and where the printed tracing sheet carries its fiducials.
 *
 * Four tag36h11 fiducials stand in the corners, PR_TAG_MM wide over the black border,
 * upright, PR_TAG_MARGIN_MM from both edges. The number of a fiducial tells all:
 *     id = PR_TAG_BASE + (paper * PR_N_FEET + foot) * 4 + corner
 * with paper as in PrPaper (A4 Letter A3 Tabloid), foot as in PrFoot and corner
 * 0 top left, 1 top right, 2 bottom right, 3 bottom left.
 * Sizes: ISO 216 (A5 148x210, A4 210x297, A3 297x420, B5 176x250), ISO 269 (C5 162x229); PWG names for the inch sizes. */
#pragma once
#include "pr-point.h"
#include "pr-foot.h"

typedef enum {
  PR_PAPER_A4,
  PR_PAPER_LETTER,
  PR_PAPER_A3,
  PR_PAPER_TABLOID,
  PR_PAPER_LEGAL,
  PR_PAPER_A5,
  PR_PAPER_B5,
  PR_PAPER_C5,
  PR_N_PAPERS,
  PR_PAPER_UNKNOWN
} PrPaper;
#define PR_N_SHEET_PAPERS 4 /* those the tracing sheet is printed on ... */
#define PR_N_PAGE_PAPERS 6  /* ... and those other pages are offered on; a foot may be drawn on any */

#define PR_TAG_MM 24.0
#define PR_TAG_MARGIN_MM 10.0 /* beyond what common printers leave blank */
#define PR_TAG_BASE 40

/* A bank card, for scale: ISO/IEC 7810, ID-1, mm. Its corners may have a radius of 2.88 to 3.48. */
#define PR_CARD_LONG_MM 85.60
#define PR_CARD_SHORT_MM 53.98
#define PR_CARD_CORNER_MM 3.18

const char *pr_paper_name (PrPaper paper);              /* "A4", static */
bool pr_paper_parse (const char *name, PrPaper *paper); /* any case */
/* Portrait size, mm. */
void pr_paper_size (PrPaper paper, double *width, double *height);

int pr_tag_id (PrPaper paper, PrFoot foot, int corner);
bool pr_tag_parse (int id, PrPaper *paper, PrFoot *foot, int *corner);
/* Corners of the black border, clockwise on the sheet from its top left. */
void pr_tag_corners (PrPaper paper, int corner, PrSheetPt out[4]);

/* The empty middle of the printed tracing sheet: nothing is printed between LOW (top left)
 * and HIGH (bottom right). */
void pr_sheet_field (PrPaper paper, PrSheetPt *low, PrSheetPt *high);

/* The printed check bars. The middle of each bar's two ends, its ends being the outer edges of
 * the ink: 0 100 mm across, 1 4 in across, 2 100 mm down, 3 4 in down. */
#define PR_SHEET_BARS 4
#define PR_SHEET_BAR_MM 2.0 /* how broad a check bar is */
void pr_sheet_bar (PrPaper paper, int bar, PrSheetPt *from, PrSheetPt *to);
