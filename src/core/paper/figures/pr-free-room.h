/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a drawing leaves room for words: a map of what is inked, and the place nearest to a point where a box of words
 * covers nothing. Lengths mm, x right, y down; what is asked for is found to half a millimetre. Inside this room only. */
#pragma once
#include <cairo.h>
#include "pr-point.h"
#include "pr-tiles.h"

typedef struct _PrFreeRoom PrFreeRoom;

/* All of BOX is free. */
PrFreeRoom *pr_free_room_new (PrBox box);
void pr_free_room_free (PrFreeRoom *room);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrFreeRoom, pr_free_room_free)

PrBox pr_free_room_box (const PrFreeRoom *room);
/* Whatever is drawn on this context, in any colour, is not free any more. With SOLID a leader may not cross it either; what
 * is solid has to be drawn on both. Transfer none. */
cairo_t *pr_free_room_ink (PrFreeRoom *room, bool solid);
/* The place for a box W x H that is the best for something at AT: near, its leader short and over little ink. A box keeps
 * 0.6 mm clear of ink. WITHIN (may be NULL): it lies in there, its middle near AT, and has no leader. Returns what is to be
 * said against it, in mm of leader; INFINITY when there is no room at all. Cost O(area). */
double pr_free_room_find (PrFreeRoom *room, PrPt at, double w, double h, const PrBox *within, PrBox *out);
/* The point of BOX nearest to P. */
PrPt pr_box_nearest (const PrBox *box, PrPt p);
