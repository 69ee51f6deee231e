/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which paper a sheet is, told from its four corners: for each format the homography that lays it
 * there is asked for the focal length that makes it a rectangle of that shape (Zhang 2000), and
 * the format is weighed by how usual that is. */
#pragma once
#include <glib.h>
#include "pr-sheet-sides.h"
#include "pr-sheet.h"

typedef struct {
  PrCamera camera;
  PrPaper paper;
  double width_mm, height_mm; /* as it lies */
  double cost;                /* how unlikely it is: squares of spreads */
  double aspect;              /* width to height over what the paper has, |logarithm| */
  bool off;                   /* GIVEN, and the shape is not quite its */
  PrPaper rival;              /* GIVEN, and this is likelier by the shape; UNKNOWN: none is */
  bool unsure;                /* not GIVEN, and a cropped photo could be of another paper */
} PrPaperFormat;

/* GIVEN PR_PAPER_UNKNOWN: the likeliest. OTHER (may be NULL): another reading of the same sides,
 * which must tell the same paper. FALSE with an error that says what does not fit. */
bool pr_paper_format_tell (PrPaperFormat *shape, const PrSheetSides *sides, const PrSheetSides *other,
                           int width, int height, PrPaper given, GError **error);
