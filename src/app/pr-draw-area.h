/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrDrawArea: the flat photo with the hoof's line over it, to draw on. A stroke of the pointer is
 * told by the signal "stroke" when it ends; another button than the first pans. */
#pragma once
#include "pr-document.h"
#include "pr-picture.h"

#define PR_TYPE_DRAW_AREA (pr_draw_area_get_type ())
G_DECLARE_FINAL_TYPE (PrDrawArea, pr_draw_area, PR, DRAW_AREA, PrPicture)

GtkWidget *pr_draw_area_new (void);
void pr_draw_area_set_document (PrDrawArea *area, PrDocument *doc);
/* Takes the photo up anew (SHOW), or lets go of it. */
void pr_draw_area_show (PrDrawArea *area, bool show);
/* The stroke just drawn, sheet mm. Transfer none. */
const PrSheetPt *pr_draw_area_stroke (PrDrawArea *area, size_t *n);
