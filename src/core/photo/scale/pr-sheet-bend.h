/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sheet bent along one way, from its four edges. Straight across, it is raised by a smooth bow (PrBend): the two
 * edges that follow the bow are then seen curved, the other two straight. The lens curves all four, so that both
 * can be told apart.
 *
 * Least squares over the edges' points, in pixels: where the camera stands (three turns, three ways), its focal
 * length about a telephone's usual one, the lens term about none, and the bow's two figures, for a bend along
 * the sheet and one across. Costs some 20 ms. */
#pragma once
#include "pr-sheet-sides.h"

/* CAM lays a flat sheet of WIDTH x HEIGHT mm to the corners of SIDE. TRUE where a bend makes the edges fit far
 * better: CAM is then the camera of the bent sheet, HIGH how far it is raised at most (mm), RESIDUAL the RMS of
 * the edges' points about it, pixels. CAM stays as it is otherwise. */
bool pr_sheet_bend_fit (PrCamera *cam, const PrSheetSide side[4], double width, double height, double *high,
                        double *residual);
