/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-view.h"

#include <glib.h>

PrScreenPt
pr_view_out (const PrView *view, double x, double y)
{
  return (PrScreenPt){ view->x0 + view->sx * view->scale * x, view->y0 + view->sy * view->scale * y };
}

void
pr_view_in (const PrView *view, PrScreenPt at, double *x, double *y)
{
  *x = (at.x - view->x0) / (view->sx * view->scale);
  *y = (at.y - view->y0) / (view->sy * view->scale);
}

void
pr_view_zoom (PrView *view, const PrViewLimits *limits, double factor, PrScreenPt at)
{
  double x, y;

  pr_view_in (view, at, &x, &y);
  view->scale = CLAMP (view->scale * factor, limits->least, limits->most);
  pr_view_move (view, at.x - view->sx * view->scale * x, at.y - view->sy * view->scale * y);
}

void
pr_view_move (PrView *view, double x0, double y0)
{
  view->fitted = false;
  view->x0 = x0;
  view->y0 = y0;
}

void
pr_view_fit (PrView *view, const PrViewLimits *limits, PrViewBox what, PrViewBox room)
{
  double k = MIN (room.width / what.width, room.height / what.height);

  view->scale = CLAMP (k, limits->least, limits->most);
  view->x0 = room.x + room.width / 2 - view->sx * view->scale * (what.x + what.width / 2);
  view->y0 = room.y + room.height / 2 - view->sy * view->scale * (what.y + what.height / 2);
  view->fitted = true;
}

bool
pr_view_same (const PrView *a, const PrView *b)
{
  return a->scale == b->scale && a->x0 == b->x0 && a->y0 == b->y0 && a->sx == b->sx && a->sy == b->sy;
}
