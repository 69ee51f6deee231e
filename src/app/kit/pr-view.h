/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A view of something that can be zoomed and panned: how large it is shown, where its origin lies,
 * which way its axes run. Knows no widget. The board's own is the foot frame in mm, a photo's is its
 * pixels. */
#pragma once
#include <stdbool.h>

/* A place of the widget: x right, y down, pixels. */
typedef struct {
  double x, y;
} PrScreenPt;

typedef struct {
  double scale;  /* widget pixels to one unit of what is shown */
  double x0, y0; /* where its origin lies, widget pixels */
  int sx, sy;    /* +1 or -1: x runs to the right, y down, or the other way */
  bool fitted;   /* keeps fitting until it is moved by hand */
} PrView;

/* How far a view goes. */
typedef struct {
  double least, most; /* of its scale */
} PrViewLimits;

/* A rectangle, in either frame. */
typedef struct {
  double x, y, width, height;
} PrViewBox;

PrScreenPt pr_view_out (const PrView *view, double x, double y);
void pr_view_in (const PrView *view, PrScreenPt at, double *x, double *y);
/* FACTOR times as large; what lies at AT stays there. */
void pr_view_zoom (PrView *view, const PrViewLimits *limits, double factor, PrScreenPt at);
/* The origin comes to lie at X0, Y0, by a hand. */
void pr_view_move (PrView *view, double x0, double y0);
/* WHAT (of what is shown, x and y its least ones) as large as ROOM (of the widget) allows, in the
 * middle of it. */
void pr_view_fit (PrView *view, const PrViewLimits *limits, PrViewBox what, PrViewBox room);
/* Do both show the same thing in the same place? */
bool pr_view_same (const PrView *a, const PrView *b);
