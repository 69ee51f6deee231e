/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrDrawingArea: the flat photo with the hoof's line over it, to draw on. A stroke of the pointer is
 * told by the signal "stroke" when it ends; another button than the first pans. */
#pragma once
#include "pr-document.h"
#include "pr-picture.h"

#define PR_TYPE_DRAWING_AREA (pr_drawing_area_get_type ())
G_DECLARE_FINAL_TYPE (PrDrawingArea, pr_drawing_area, PR, DRAWING_AREA, PrPicture)

void pr_drawing_area_set_document (PrDrawingArea *area, PrDocument *doc);
/* Takes the photo up anew (SHOW), or lets go of it. */
void pr_drawing_area_show (PrDrawingArea *area, bool show);
/* The stroke just drawn, sheet mm. Transfer none. */
const PrSheetPt *pr_drawing_area_stroke (PrDrawingArea *area, size_t *n);
