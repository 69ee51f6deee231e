/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrIron: what bar the shoe takes, as plain data (pr-iron.h makes it). Lengths mm, volumes mm3, masses kg. */
#pragma once
#include "pr-rows.h"
#include "pr-shoe.h"

#define PR_MAX_MARKS 48
#define PR_MAX_PIECES 3

typedef struct {
  char name[40]; /* "toe", "nail 1 medial": translated */
  char id[24];   /* "toe", "nail.0.medial": stable, C locale */
  bool punch;    /* made on the bar with a punch; the others do not survive drawing and are for the eye */
  double from_end, from_centre; /* mm on the bar; centre = the mark of the toe's middle */
  double s;                     /* where it lies on the shoe's middle line */
  PrPt at;                      /* and in the foot frame */
} PrMark;

typedef struct {
  char name[40];    /* "shoe", "toe extension", "bar" */
  char id[16];      /* "shoe" "extension" "bar" */
  double volume;    /* mm3 finished, slugs in */
  double length;    /* bar to cut, mm, losses and weld allowance in */
  double allowance; /* of which for welds */
  double given,
      spare; /* of a bar of its own, as for the whole below; 0: it comes out of the same bar as the rest */
  PrMark mark[PR_MAX_MARKS];
  size_t n_marks;
} PrPiece;

/* A line of the sum that the bar to cut is. */
typedef struct {
  const char *id;   /* "middle_line" "crease" ...: C locale */
  const char *name; /* translated */
  double mm;
} PrSum;

#define PR_MAX_SUM 12

/* A joint of two pieces, or of the two ends of one (pr-welds.h). */
typedef struct {
  char id[24];     /* "weld.extension", "weld.heel.medial", "weld.bar": C locale */
  char name[40];   /* translated */
  size_t piece[2]; /* of PrIron.piece; both the first: the two ends of one bar */
  double at[2];    /* middle of the joint on either, mm from its medial end */
  double lap;      /* mm */
  double thick;    /* to which either is upset before it is scarfed, mm */
  double upset;    /* bar that this takes of either, mm */
} PrWeld;

/* Where the bar is turned in at a heel, to become the heel bar itself: its outer corner wants iron. */
typedef struct {
  char id[24]; /* "turn.medial" */
  char name[40];
  double at; /* mm from the medial end of the first piece */
  double thick, upset;
} PrTurn;

#define PR_MAX_WELDS 3 /* a toe extension, and a bar at both heels */

typedef struct {
  PrWeld weld[PR_MAX_WELDS];
  size_t n_welds;
  PrTurn turn[2];
  size_t n_turns;
} PrWelds;

typedef struct {
  double volume, mass; /* finished shoe: mm3, kg */
  double slugs;        /* mm3 punched out */
  PrPiece piece[PR_MAX_PIECES];
  size_t n_pieces;
  PrWelds welds;
  double needed; /* sum of the pieces, mm */
  double common; /* of those that come out of one bar: all but what has a bar of its own */
  double given,
      spare; /* spare = given - common; 0 when no length is given, and where less is missing than limit
                             iron.short: so little is not short */
  double middle_line;     /* the string-round-the-curve length, mm */
  double hand_rule;       /* hoof length + width, mm; 0: there is no foot */
  double mean_abs_strain; /* volume-weighted mean |e| */
  /* strain along the shoe piece: for station i, its place on the bar and e */
  double *bar_at, *strain;
  size_t n_st;
  PrRows rows;
  PrSum sum[PR_MAX_SUM]; /* adds up to needed */
  size_t n_sum;
} PrIron;
