/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words over marks on a line, each with a leader down to its mark: no word covers another word or a
 * leader, whatever the marks' distances. Lengths mm. Inside this room only. */
#pragma once
#include <glib.h>
#include <stdbool.h>

#define PR_FLAG_APART \
  1.4                     /* least distance between two leaders, mm: they stay two lines on paper  \
                           */
#define PR_FLAG_CLEAR 0.6 /* between a word and a leader or another word, mm */

typedef struct {
  double foot;  /* given: where the mark is */
  double width; /* given: of the word */
  bool bold;    /* given, not used here */
  char *text;   /* given, owned */
  double head;  /* found: where the leader meets the word */
  double left;  /* found: where the word begins */
  int row;      /* found: 0 is next to the line */
} PrFlag;

/* Element type PrFlag; words are freed with it. Transfer full. */
GArray *pr_flags_new (void);
/* Sorts by foot and finds head, left and row; words keep between LOW and HIGH where that is
 * possible. Returns the number of rows. Cost O(n^2). */
int pr_flags_lay (GArray *flags, double low, double high);
