/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-quad.h"

#include <stdlib.h>

#define CORNERS 4

typedef struct {
  PrPx at;
  double turn; /* of the ray from the middle, which with y down grows clockwise */
} Corner;

static int
by_turn (const void *a, const void *b)
{
  const Corner *p = a, *q = b;

  return (p->turn > q->turn) - (p->turn < q->turn);
}

void
pr_quad_clockwise (PrPx corner[CORNERS])
{
  PrPx middle = { 0, 0 };
  Corner round[CORNERS];
  int first = 0;

  for (int i = 0; i < CORNERS; i++) {
    middle.x += corner[i].x / CORNERS;
    middle.y += corner[i].y / CORNERS;
  }
  for (int i = 0; i < CORNERS; i++)
    round[i] = (Corner){ corner[i], atan2 (corner[i].y - middle.y, corner[i].x - middle.x) };
  qsort (round, CORNERS, sizeof *round, by_turn);
  for (int i = 1; i < CORNERS; i++)
    if (round[i].at.x + round[i].at.y < round[first].at.x + round[first].at.y)
      first = i;
  for (int i = 0; i < CORNERS; i++)
    corner[i] = round[(first + i) % CORNERS].at;
}
