/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What has become of a foot and its shoe from one visit to another: the later is as it is, the earlier laid on it. All gaps
 * are in the later one's foot frame, mm, positive where the later lies further out; all figures are later less earlier. */
#pragma once
#include "pr-compare-data.h"
#include "pr-visit-lay.h"
#include "pr-visit-measure.h"

typedef enum {
  PR_VISIT_AT_TOE,
  PR_VISIT_AT_QUARTER_M,
  PR_VISIT_AT_QUARTER_L,
  PR_VISIT_AT_HEEL_M,
  PR_VISIT_AT_HEEL_L,
  PR_N_VISIT_PLACES
} PrVisitPlace;

/* The gap at a place, a mean over a stretch of the wall as long as a thumb is wide. Heels: of the wall just ahead of the
 * buttress. */
typedef struct {
  bool known;
  double mm;
  PrPt at, out; /* on the earlier outline as laid; unit, out of the foot */
} PrVisitGap;

typedef struct {
  PrVisitLay lay;
  PrMotion motion; /* from the earlier foot frame into the later */
  bool mirrored;   /* a left foot on a right one */
  bool doubtful;   /* the scale of one of them was not sure */
  PrPath before;   /* the earlier outline, laid */
  GArray *gap;     /* PrOffset along it */
  PrVisitGap place[PR_N_VISIT_PLACES];
  double now_mm[PR_N_VISIT_MEASURES], before_mm[PR_N_VISIT_MEASURES]; /* NAN: not told */
  bool shoes;       /* both have a planned shoe; only then: */
  PrFigure shoe;    /* the earlier, laid */
  GArray *shoe_gap; /* PrOffset along its edges */
  PrSizes size;     /* "plan" the earlier, "seen" the later; heels behind their buttresses are left out */
} PrVisitChange;

/* Both of the same horse, which is for the caller to know. OUT is cleared first. FALSE with an error where the two cannot be
 * compared: a fore foot and a hind one, no outline to scale, no foot at all, a landmark missing. Some milliseconds. */
bool pr_visit_change (PrVisitChange *out, const PrJob *now, const PrJob *before, PrVisitLay lay,
                      GError **error);
void pr_visit_change_clear (PrVisitChange *change);
/* "Toe", "Quarter, medial"; transfer full. */
char *pr_visit_place_words (PrVisitPlace place);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrVisitChange, pr_visit_change_clear)
