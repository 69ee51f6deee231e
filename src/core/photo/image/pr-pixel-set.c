/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pr-pixel-set.h"

#include <glib.h>
#include <string.h>

/* Steps of the chamfer, thirds of a pixel: straight and across (Borgefors 1986). */
#define STRAIGHT 3
#define ACROSS 4
/* Further than any pixel from another, and still a number of 16 bits with a step added. */
#define FAR 60000

void
pr_pixel_set_room (PrPixelRoom *room, int width, int height)
{
  gsize n = (gsize) width * (gsize) height;

  *room = (PrPixelRoom){ .width = width,
                         .height = height,
                         .far = g_new (uint16_t, n),
                         .stack = g_new (uint32_t, n),
                         .mark = g_new (uint8_t, n),
                         .spare = g_new (uint8_t, n) };
}

void
pr_pixel_set_room_clear (PrPixelRoom *room)
{
  g_free (room->far);
  g_free (room->stack);
  g_free (room->mark);
  g_free (room->spare);
  *room = (PrPixelRoom){ 0 };
}

static size_t
count_of (const PrPixelRoom *room)
{
  return (size_t) room->width * (size_t) room->height;
}

static inline uint16_t
least (uint16_t a, int b)
{
  return a < b ? a : (uint16_t) b;
}

/* ROW from the row LAST done, straight and across; the compiler takes several at once. */
static void
from_row (uint16_t *restrict row, const uint16_t *restrict last, int w)
{
  for (int x = 0; x < w; x++)
    row[x] = least (row[x], last[x] + STRAIGHT);
  for (int x = 1; x < w; x++)
    row[x] = least (row[x], last[x - 1] + ACROSS);
  for (int x = 0; x + 1 < w; x++)
    row[x] = least (row[x], last[x + 1] + ACROSS);
}

static void
rim_of_row (uint16_t *row, int w, bool whole, int rim)
{
  for (int x = 0; x < w; x += whole ? 1 : MAX (w - 1, 1))
    row[x] = least (row[x], rim + STRAIGHT);
}

/* Both passes of the chamfer; RIM stands beyond the picture. */
static void
spread (PrPixelRoom *room, int rim)
{
  int w = room->width, h = room->height;
  uint16_t *far = room->far;

  for (int y = 0; y < h; y++) {
    uint16_t *row = far + (size_t) y * (size_t) w;
    rim_of_row (row, w, y == 0 || y == h - 1, rim);
    if (y > 0)
      from_row (row, row - w, w);
    for (int x = 1; x < w; x++)
      row[x] = least (row[x], row[x - 1] + STRAIGHT);
  }
  for (int y = h - 1; y >= 0; y--) {
    uint16_t *row = far + (size_t) y * (size_t) w;
    if (y + 1 < h)
      from_row (row, row + w, w);
    for (int x = w - 2; x >= 0; x--)
      row[x] = least (row[x], row[x + 1] + STRAIGHT);
  }
}

/* Distance of every pixel from the nearest whose byte is TO. */
static void
distances (PrPixelRoom *room, const uint8_t *set, uint8_t to, int rim)
{
  size_t n = count_of (room);

  for (size_t i = 0; i < n; i++)
    room->far[i] = set[i] == to ? 0 : FAR;
  spread (room, rim);
}

static void
grow (PrPixelRoom *room, uint8_t *set, double radius)
{
  size_t n = count_of (room);

  distances (room, set, 1, FAR);
  for (size_t i = 0; i < n; i++)
    set[i] = room->far[i] <= STRAIGHT * radius;
}

/* RIM 0: what touches the picture's rim shrinks from it too. */
static void
shrink (PrPixelRoom *room, uint8_t *set, double radius, int rim)
{
  size_t n = count_of (room);

  distances (room, set, 0, rim);
  for (size_t i = 0; i < n; i++)
    set[i] = room->far[i] > STRAIGHT * radius;
}

void
pr_pixel_set_close (PrPixelRoom *room, uint8_t *set, double radius)
{
  if (radius <= 0)
    return;
  grow (room, set, radius);
  shrink (room, set, radius, FAR);
}

void
pr_pixel_set_open (PrPixelRoom *room, uint8_t *set, double radius)
{
  size_t n = count_of (room);

  memcpy (room->spare, set, n);
  shrink (room, set, radius, 0);
  grow (room, set, radius);
  for (size_t i = 0; i < n; i++)
    set[i] &= room->spare[i];
}

double
pr_pixel_set_depth (PrPixelRoom *room, const uint8_t *set)
{
  size_t n = count_of (room);
  uint16_t most = 0;

  distances (room, set, 0, 0);
  for (size_t i = 0; i < n; i++)
    most = MAX (most, room->far[i]);
  return (double) most / STRAIGHT;
}

/* Room for one pixel to be seen next, if it is of the piece. */
static inline size_t
push (PrPixelRoom *room, const uint8_t *set, size_t i, uint8_t of, uint8_t label, size_t top)
{
  if (set[i] != of || room->mark[i] == label)
    return top;
  room->mark[i] = label;
  room->stack[top] = (uint32_t) i;
  return top + 1;
}

size_t
pr_pixel_set_flood (PrPixelRoom *room, const uint8_t *set, size_t start, uint8_t label)
{
  size_t w = (size_t) room->width, n = count_of (room), top = 0, seen = 0;
  uint8_t of = set[start];

  top = push (room, set, start, of, label, top);
  while (top > 0) {
    size_t i = room->stack[--top], x = i % w;
    seen++;
    if (x > 0)
      top = push (room, set, i - 1, of, label, top);
    if (x + 1 < w)
      top = push (room, set, i + 1, of, label, top);
    if (i >= w)
      top = push (room, set, i - w, of, label, top);
    if (i + w < n)
      top = push (room, set, i + w, of, label, top);
  }
  return seen;
}

size_t
pr_pixel_set_largest (PrPixelRoom *room, uint8_t *set)
{
  size_t n = count_of (room), most = 0, best = 0;

  memset (room->mark, 0, n);
  for (size_t i = 0; i < n; i++)
    if (set[i] == 1 && room->mark[i] == 0) {
      size_t size = pr_pixel_set_flood (room, set, i, 1);
      if (size > most) {
        most = size;
        best = i;
      }
    }
  if (most > 0)
    pr_pixel_set_flood (room, set, best, 2);
  for (size_t i = 0; i < n; i++)
    set[i] = most > 0 && room->mark[i] == 2;
  return most;
}

GArray *
pr_pixel_set_edge (const PrPixelRoom *room, const uint8_t *set)
{
  static const int dx[4] = { 1, 0, -1, 0 }, dy[4] = { 0, 1, 0, -1 };
  GArray *edge = g_array_new (FALSE, FALSE, sizeof (PrPx));
  size_t w = (size_t) room->width, n = count_of (room), start = 0;
  int way = 0;

  while (start < n && !set[start])
    start++;
  if (start == n)
    return edge;
  int x0 = (int) (start % w), y0 = (int) (start / w), x = x0, y = y0;
  do {
    PrPx p = { x, y };
    g_array_append_val (edge, p);
    x += dx[way];
    y += dy[way];
    /* the pixels ahead, left and right of the way */
    int lx = x + (way == 2 || way == 3 ? -1 : 0), ly = y + (way == 0 || way == 3 ? -1 : 0);
    int rx = x + (way == 1 || way == 2 ? -1 : 0), ry = y + (way == 2 || way == 3 ? -1 : 0);
    bool left = set[(size_t) ly * w + (size_t) lx], right = set[(size_t) ry * w + (size_t) rx];
    if (!right)
      way = (way + 1) % 4;
    else if (left)
      way = (way + 3) % 4;
  } while (x != x0 || y != y0);
  return edge;
}
