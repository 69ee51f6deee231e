/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrSeen: a real shoe, or a line drawn round one, as a photo shows it; plain data. Lengths are mm on the cold shoe,
 * measured parallel to the sheet it lies on. Frame: the sheet's (PrSheetPt), seen from above; FACE is the one that is up,
 * so that a shoe lying with its ground surface up is seen as the farrier sees it on a lifted foot. Made by pr-seen-find.h;
 * whoever has one owns all that hangs on it. */
#pragma once
#include "pr-foot.h"
#include "pr-point.h"
#include <glib.h>

/* A closed figure, once round, without repeating its first point; clockwise as it is seen (y down). */
typedef struct {
  PrSheetPt *p;
  size_t n;
} PrSeenRing;

typedef enum { PR_SEEN_OUTER, PR_SEEN_INNER } PrSeenEdge;

/* A stretch in which the edge may be something else: shadow, glare, a sharp corner. */
typedef struct {
  PrSeenEdge edge;
  size_t opening; /* INNER: which, PR_SEEN_OPEN for the open branches' own inner edge */
  double from_mm,
      to_mm; /* arc length along that edge, from its first point; from > to: over the first point */
  char *why; /* one sentence, translated */
} PrSeenDoubt;

#define PR_SEEN_OPEN ((size_t) -1)

/* A hole through which the paper shows, or one marked by hand. */
typedef struct {
  PrSheetPt at; /* its middle on the face that is up */
  double round; /* share of a true hole that was seen through, 0..1; 1 when marked by hand */
} PrSeenNail;

typedef struct {
  bool drawn;          /* a line drawn round the shoe, no iron */
  PrFace face;         /* the one that is up */
  PrFoot sheet_foot;   /* whose printed sheet it lies on; PR_FOOT_ANY: of no foot, or not known */
  double thickness_mm; /* as told; of a drawn one 0 */
  double focal_px;     /* the lens the height was taken out with; 0: none was needed */
  PrSheetPt camera_at; /* the camera's foot point on the sheet, */
  double camera_mm;    /* and its height above it; 0: not known, or not needed as of a drawn one */
  double height_mm;    /* what the height was worth: the largest shift it took out of an edge */
  /* An open shoe: OUTER runs from the heel at its beginning round the toe to the other heel, INNER back from there to
   * the first; both are open, and together they are the silhouette. A bar shoe: both are rings, OPENING its holes, the
   * largest first, and INNER is empty. */
  bool open;
  PrSeenRing outer, inner;
  PrSeenRing *opening;
  size_t n_opening;
  PrSeenNail *nail;
  size_t n_nail;
  PrSeenDoubt *doubt;
  size_t n_doubt;
} PrSeen;

/* All of it but SEEN itself, which is empty then. */
void pr_seen_clear (PrSeen *seen);
/* TO must be empty or cleared. */
void pr_seen_copy (PrSeen *to, const PrSeen *from);
/* N points, copied, in place of what RING had. */
void pr_seen_ring_set (PrSeenRing *ring, const PrSheetPt *p, size_t n);
/* Takes WHY. */
void pr_seen_add_doubt (PrSeen *seen, PrSeenEdge edge, size_t opening, double from_mm, double to_mm,
                        char *why);
void pr_seen_add_nail (PrSeen *seen, PrSheetPt at, double round);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrSeen, pr_seen_clear)
