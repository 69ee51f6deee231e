/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words on leaders along an edge, which never cover each other: each goes into the first row
 * where it finds room, moved aside a little; what finds no room is left out, its mark stays.
 * Pixels. Bold words come first, then short ones before long ones. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>

#define PR_MAX_FLAGS 64

typedef struct {
  double x, left, width;
  int row; /* -1: no room */
  bool bold;
  char *text;
} PrScreenFlag;

typedef struct {
  GtkWidget *widget;
  cairo_t *cr;
  GdkRGBA ink;
  double from, to; /* the words stay between */
  int rows;
  double row_px, edge; /* where the leaders begin */
  bool up;             /* above the edge, else below */
  PrScreenFlag flag[PR_MAX_FLAGS];
  size_t n;
} PrScreenFlags;

void pr_screen_flags_add (PrScreenFlags *flags, double x, const char *text, bool bold);
/* Places and draws them, and frees what was added. */
void pr_screen_flags_draw (PrScreenFlags *flags);
