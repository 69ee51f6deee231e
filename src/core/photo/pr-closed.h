/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The largest closed line drawn in a picture, whatever it is and whatever the scale: the edge of a
 * specimen shoe, of a plate, of any figure.
 *
 * The light is evened out on a small copy. Ink is then taken at several strengths, and gaps in it
 * are closed by several widths, since neither pen nor paper is known: squared paper is weak ink, a
 * pencil has gaps. Each way the largest figure that the ink encloses is filled, and what hangs
 * on it by less than its own girth is cut off (an arrow, a leg, a crossing line). A figure is
 * believed the more the larger it is, the more of its edge lies on ink, and the more ways lead
 * to it. */
#pragma once
#include "pr-photo.h"

typedef struct {
  PrPx  *point;            /* the figure's edge, outside of the line, once round, photo pixels */
  size_t n;
  PrPx   low, high;        /* its box */
  double inked;            /* share of the edge that lies on ink, 0..1 */
  int    ways;             /* how many ways led to it, of PR_CLOSED_WAYS */
} PrClosed;

#define PR_CLOSED_WAYS 48

/* FALSE with PR_ERROR_LINE when nothing closed is drawn. */
bool pr_closed_find (PrClosed *closed, const PrPhoto *photo, GError **error);
void pr_closed_clear (PrClosed *closed);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrClosed, pr_closed_clear)
