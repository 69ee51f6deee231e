/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrStage: the iron at one moment between bar and shoe, as data. Made by pr_stage_build (pr-stage.h) and never edited. Foot frame,
 * mm, mm3. */
#pragma once
#include "pr-iron.h"
#include "pr-stage-progress.h"

/* Parts of the work, as bits: what a heat is taken on. */
enum {
  PR_PART_TOE = 1 << 0,
  PR_PART_MEDIAL = 1 << 1, /* behind the first nail or the extension line */
  PR_PART_LATERAL = 1 << 2,
  PR_PART_HEEL_M = 1 << 3,
  PR_PART_HEEL_L = 1 << 4,
  PR_PART_EXTENSION = 1 << 5,
  PR_PART_BAR = 1 << 6
};

typedef struct {
  PrPt outer, inner;
  unsigned part; /* which of these it lies in */
  double thick;
  double creased; /* 0 to 1: how far the fuller has been here */
} PrStageCut;

/* Iron that is no part of the branches: lies ready beside the work, is being joined, or is joined. */
typedef struct {
  const char *id; /* "extension" "bar" "bar.medial" "bar.lateral": C locale */
  unsigned part;
  double volume;
  double thick; /* volume over the ring's area */
  PrPath ring;
} PrStagePart;

#define PR_MAX_STAGE_PARTS 3

typedef struct {
  char id[24], name[40]; /* as on the bar map */
  double s;              /* finished place, middle line */
  PrPt at;               /* on the outer edge */
} PrStageMark;

typedef struct {
  PrStageProgress progress;
  bool finished;   /* all of it is done: the cuts are the shoe's own, and its figure is what is to be drawn */
  PrStageCut *cut; /* as many and in the order of the shoe's stations */
  size_t n;
  PrPath ring; /* of the branches, heels rounded as far as they are; parts are not in it */
  PrStagePart part[PR_MAX_STAGE_PARTS];
  size_t n_parts;
  PrStageMark mark[PR_MAX_MARKS]; /* centre, extension line, crease ends, nails, heels */
  size_t n_marks;
  PrPath outer, inner, room; /* working room, kept from one stage to the next */
} PrStage;

void pr_stage_clear (PrStage *stage);
/* Where the finished middle-line place S lies, ACROSS of the way from the outer (0) to the inner edge (1). OUT (may be NULL): the
 * unit direction there from inner to outer. */
PrPt pr_stage_at (const PrStage *stage, const PrShoe *shoe, double s, double across, PrPt *out);
/* Extent of branches and parts. */
void pr_stage_extent (const PrStage *stage, PrPt *low, PrPt *high);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrStage, pr_stage_clear)
