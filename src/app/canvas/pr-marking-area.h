/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrMarkingArea: a photo with the points that give it its scale: the four corners of something, or a
 * ruler's two ends. They are dragged under the lens, or moved with the arrow keys (1 pixel; with Shift
 * 0.1, with Ctrl 10), and when let go they go to the corner or edge nearby. */
#pragma once
#include "pr-photo.h"
#include "pr-picture.h"

#define PR_TYPE_MARKING_AREA (pr_marking_area_get_type ())
G_DECLARE_FINAL_TYPE (PrMarkingArea, pr_marking_area, PR, MARKING_AREA, PrPicture)

/* PHOTO is looked at until another one, or NULL, is set. */
void pr_marking_area_set_photo (PrMarkingArea *area, const PrPhoto *photo);
/* 4 corners or 2 ends, at POINT (NULL: at a first guess). */
void pr_marking_area_set_points (PrMarkingArea *area, size_t n, const PrPx *point);
void pr_marking_area_set_snap (PrMarkingArea *area, bool snap);
/* The points, corners clockwise from the top left; how many. Writes up to 4. */
size_t pr_marking_area_points (PrMarkingArea *area, PrPx *point);
/* TRUE when each point lies where the photo's own corners and edges drew it. */
bool pr_marking_area_snapped (PrMarkingArea *area);
