/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words over marks on a line, each with a leader down to its mark: no word covers another word or a
 * leader, whatever the marks' distances. Lengths in units of the lettering: mm where it is printed.
 * Inside this room only. */
#pragma once
#include <glib.h>
#include <stdbool.h>

/* Least distance between two leaders: they stay two lines on paper. */
#define PR_FLAG_APART 1.4
/* Between a word and a leader or another word. */
#define PR_FLAG_CLEAR 0.6

typedef struct {
  double foot;  /* given: where the mark is */
  double width; /* given: of the word */
  bool bold;    /* given: the last to be left out */
  char *text;   /* given, owned */
  double head;  /* found: where the leader meets the word */
  double left;  /* found: where the word begins */
  int row;      /* found: 0 is next to the line; -1: left out */
} PrFlag;

/* Element type PrFlag; words are freed with it. Transfer full. */
GArray *pr_flags_new (void);
/* Sorts by foot and finds head, left and row; words keep between LOW and HIGH where that is
 * possible. With MOST rows at most (0: as many as it takes) the words that find no room are left
 * out, wide ones before narrow ones. Returns the number of rows. Cost O(n^3). */
int pr_flags_lay (GArray *flags, double low, double high, int most);
