/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrComparison: a real shoe laid on its plan, as plain data; made by pr-compare.h. Foot frame of the plan, mm.
 *
 * Sign of an offset: positive where the real edge lies further out of the iron than the planned one, so that there is more
 * iron than planned, at the outer edge and at the inner edge alike. A branch that stands outside by d has +d at its
 * outer edge and -d at its inner one; a web too wide by w has +w in the sum of both. */
#pragma once
#include "pr-branches.h"
#include "pr-job.h"
#include "pr-seen.h"

/* How the shoe is laid on the plan; always moved and turned, never made larger or smaller. */
typedef enum {
  PR_LAY_BEST,  /* least squares over both edges */
  PR_LAY_HEELS, /* the same with the ends of both branches on a line that runs as the plan's does */
  PR_LAY_TOE    /* the same with the middle of the toe on the plan's */
} PrLay;

/* A place of the plan's own edge, and how far from it the real edge lies there. */
typedef struct {
  PrSeenEdge edge;
  size_t ring; /* of the plan's figure */
  int branch;
  double place; /* along that edge from the middle of the toe, mm */
  double along; /* along RING from its first point, mm */
  PrPt at, out; /* on the planned edge; unit, out of the iron */
  bool known;   /* an edge was seen there that runs the same way */
  bool doubted; /* it may be something else */
  bool heel;    /* within PR_COMPARE_HEEL_MM of a branch's end, where photo and hand are least sure */
  bool clip;    /* a clip stands there, so that the edge itself is not seen */
  bool bar;     /* of a heel bar, no branch */
  double off;   /* see above; 0 where it is not known */
} PrOffset;

#define PR_COMPARE_HEEL_MM 6.0

/* Of one edge, all that is known and neither doubted, nor clip, nor within the heels. */
typedef struct {
  size_t n;
  double mean, mean_abs, p95, max; /* p95 of the amounts; max with its sign */
  PrPt max_at;
  /* by branch: the mean, and the slope of a straight line through the offsets, mm per 100 mm from toe to heel */
  double parallel[2], wedge[2];
} PrEdgeSum;

/* The same measure of both; NAN where it cannot be had. */
typedef struct {
  double plan, seen;
} PrTwo;

typedef enum {
  PR_WEB_TOE,
  PR_WEB_QUARTER_M,
  PR_WEB_QUARTER_L,
  PR_WEB_HEEL_M,
  PR_WEB_HEEL_L,
  PR_N_WEBS
} PrWebAt;

typedef struct {
  PrTwo length, width;  /* over all, clips left out: along and across the centre line */
  PrTwo widest;         /* the widest place: behind the toe, along the centre line */
  PrTwo heel_gap;       /* between the branches' ends, within PR_COMPARE_END_MM of them; NAN of a bar shoe */
  PrTwo heel_width;     /* between the outer corners of the heels, as the card has it; NAN of a bar shoe */
  PrTwo toe_to_heel[2]; /* middle of the toe straight to that corner, likewise */
  PrTwo along_edge[2];  /* the same along the outer edge; NAN of a bar shoe, and so is the next */
  PrTwo heel_past[2];   /* end of a branch behind the buttress */
  PrTwo across;    /* middle to middle of the branches, both this far from the toe along their outer edges: */
  PrTwo across_at; /* as far back as both shoes have a web; the same of both */
  PrTwo branch_out[2]; /* by what a branch stands outside its place in the mean, and */
  PrTwo heel_out[2];   /* where ACROSS is measured; of the plan 0, NAN where no shoe was laid on it */
  PrTwo web
      [PR_N_WEBS]; /* at the toe on the centre line, else square to a branch's own middle line: in the middle of
                           it, and PR_HEEL_AHEAD_MM ahead of its end */
} PrSizes;

/* Where some of them are measured. */
typedef struct {
  PrPt middle[2], planned[2]; /* by branch: middle of the web where across is measured, and the plan's */
  PrPt web[PR_N_WEBS][2];     /* of the real shoe, by PR_OUTSIDE and PR_INSIDE */
} PrSizesAt;

#define PR_COMPARE_END_MM 10.0

typedef struct {
  int branch, index;
  PrPt plan, seen;   /* on the face that is up */
  double along, out; /* seen less planned: towards the heel, outward */
} PrNailOff;

typedef struct {
  int plan_index, branch;
  PrPt plan;
  double along; /* where it stands less where it should: towards the heel of its branch */
} PrClipOff;

typedef enum {
  PR_MEND_HEEL,   /* a branch stands out or in more and more towards its heel; both: the branches are apart */
  PR_MEND_BRANCH, /* ... all along */
  PR_MEND_TOE,
  PR_MEND_BAR,
  PR_MEND_LENGTH,
  PR_MEND_WEB,
  PR_MEND_NAIL
} PrMendKind; /* in the order of work: a branch is bent to its place before it is judged for length, and that before web */

/* One thing to do at the anvil. */
typedef struct {
  PrMendKind kind;
  int branch; /* -1: none or both */
  double mm;  /* positive: outside, too wide, too long */
  PrState state;
  PrPt at, to; /* what it is drawn with: from where the iron is to where it belongs */
  char *text;  /* a sentence in a smith's words, translated */
} PrCorrection;

#define PR_MOST_CORRECTIONS 6

typedef struct {
  PrLay lay;
  PrFoot foot;
  PrFace face;
  double thickness; /* as told, mm; 0: not */
  bool drawn;       /* a line drawn round the shoe */
  bool
      coarse; /* no height was taken out of the photo: nothing finer than the limit compare.coarse is claimed */
  /* foot = turned by (TURN_COS, TURN_SIN) of (SIGN x, -y) of the sheet, then moved */
  double sign, turn_cos, turn_sin;
  PrPt shift;
  double rms, rms_mirrored; /* of the offsets the shoe was laid by; of the same with its mirror */
  bool mirrored;            /* the mirror fits so much better that it has to be asked about */
  PrFigure figure;          /* the real shoe, iron filled; foot frame */
  bool open;
  GArray *offset;   /* PrOffset, ring by ring */
  PrEdgeSum sum[2]; /* by PrSeenEdge */
  PrSizes size;
  PrSizesAt size_at;
  PrFoot sheet_foot;  /* whose printed sheet the shoe lay on; PR_FOOT_ANY: of no foot, or not known */
  GArray *nail;       /* PrNailOff */
  GArray *clip;       /* PrClipOff */
  GArray *correction; /* PrCorrection, in the order of work */
  PrState state;
} PrComparison;

void pr_comparison_clear (PrComparison *comparison);
/* From the sheet into the foot frame, as it was laid. */
PrPt pr_comparison_in (const PrComparison *comparison, PrSheetPt p);
/* How much something is off, without its sign: "1.3 mm", or in thirty-seconds of an inch, since sixteenths are as coarse as
 * the limits themselves. Transfer full. */
char *pr_off_text (double mm, PrUnit unit);
const char *pr_lay_code (PrLay lay); /* "best" "heels" "toe", static */
bool pr_lay_parse (const char *code, PrLay *lay);
const char *pr_web_code (PrWebAt at); /* "toe" "quarter" "heel", static */
int pr_web_branch (PrWebAt at);       /* -1 at the toe */

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrComparison, pr_comparison_clear)
