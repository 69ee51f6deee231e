/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The largest closed line drawn in a picture, whatever it is and whatever the scale: the edge of a
 * specimen shoe, of a plate, of any figure.
 *
 * The light is evened out on a small copy. Ink is then taken at several strengths, and gaps in it
 * are closed by several widths, since neither pen nor paper is known: squared paper is weak ink, a
 * pencil has gaps. Each way the largest figure that the ink encloses is filled, parted from others
 * that arrows tie to it, and what hangs on it by less than its own girth is cut off (an arrow, a leg, a
 * crossing line). A figure may leave the picture: then its rim is a wall at that side, or at two
 * that face each other. A figure is believed the more the larger it is, the more of its edge
 * lies on ink, the fewer bays it has, the less of it lies on the rim, and the more ways lead to it. */
#pragma once
#include "pr-photo.h"

typedef struct {
  PrPx *point; /* the figure's edge, outside of the line, once round, photo pixels */
  size_t n;
  PrPx low, high; /* its box */
  double inked;   /* share of the edge off the rim that lies on ink, 0..1 */
  double rim;     /* share of the edge that lies on the picture's rim */
  int ways;       /* how many ways led to it, of PR_CLOSED_FIGURE_WAYS */
} PrClosedFigure;

#define PR_CLOSED_FIGURE_WAYS 20

/* FALSE with PR_ERROR_LINE when nothing closed is drawn. */
bool pr_closed_figure_find (PrClosedFigure *closed, const PrPhoto *photo, GError **error);
void pr_closed_figure_clear (PrClosedFigure *closed);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrClosedFigure, pr_closed_figure_clear)
