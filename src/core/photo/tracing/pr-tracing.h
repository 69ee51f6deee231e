/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrTracing: what a photo of a drawn foot came to, as plain data: the scale and how it was found, the
 * rectified sheet, the line in sheet mm, and what of it is in doubt. Made by pr-trace.h, or from an outline
 * alone; then it has no scale (pr_tracing_has_scale). Whoever has one owns all that hangs on it, but
 * for the raster, which copies share. */
#pragma once
#include "pr-camera.h"
#include "pr-foot-line.h"
#include "pr-length.h"
#include "pr-sheet.h"
#include <glib.h>
#include <stdint.h>

typedef enum {
  PR_SCALE_AUTO,
  PR_SCALE_SHEET,
  PR_SCALE_PLAIN,
  PR_SCALE_CARD,
  PR_SCALE_RECT,
  PR_SCALE_RULER,
  PR_SCALE_DENSITY
} PrScaleMethod;
typedef enum { PR_VERDICT_GOOD, PR_VERDICT_USABLE, PR_VERDICT_RETAKE } PrVerdict;

/* Which is true where a printed sheet's print and the cut edges of its paper are of two sizes. */
typedef enum { PR_TRUST_ASK, PR_TRUST_PAPER, PR_TRUST_PRINT } PrTrust;
/* What a person is asked about the scale. */
typedef enum {
  PR_QUESTION_NONE,
  PR_QUESTION_TRUST, /* the paper or the print? */
  PR_QUESTION_PAPER, /* which paper is it? */
} PrQuestion;

typedef struct {
  PrScaleMethod method;
  PrPaper paper;   /* PR_PAPER_UNKNOWN: told from the picture */
  bool paper_sure; /* PAPER was named where it was asked for, and is not asked for again */
  PrTrust trust;   /* of a printed sheet */
  PrFoot foot;     /* as far as it is known beforehand: how wide a hoof can be goes by it */
  PrPx point[4];   /* marked by hand: clockwise corners, or the ruler's two ends */
  size_t n_points;
  double side_mm[2];     /* RECT: width, height; RULER: length in [0] */
  double pen_mm;         /* outline moves inward by half of this; 0 = middle of the line */
  bool snap;             /* marked points are refined on the photo (pr-snap.h) */
  const char *steps_dir; /* each stage as a picture there, or NULL */
  PrUnit unit;           /* of lengths in what is told of the photo */
} PrTraceOptions;

#define PR_TRACE_OPTIONS_DEFAULT                                     \
  {                                                                  \
    .method = PR_SCALE_AUTO, .paper = PR_PAPER_UNKNOWN, .snap = true \
  }

#define PR_REASONS_MOST 12

/* What a person on the board puts an end to: setting both heels, choosing one of several feet. */
typedef enum { PR_ABOUT_ELSE, PR_ABOUT_HEELS, PR_ABOUT_FEET, PR_N_ABOUTS } PrAbout;

/* Something that the verdict rests on. */
typedef struct {
  PrVerdict severity; /* what it lowers the verdict to; PR_VERDICT_GOOD: it speaks for it */
  char *text;         /* one sentence, translated */
  bool has_at;
  PrSheetPt at; /* where on the sheet */
  PrAbout about;
} PrReason;

typedef struct {
  PrScaleMethod method;   /* the one used */
  PrPaper paper;          /* PR_PAPER_UNKNOWN for card, rectangle, ruler, density */
  bool by_shape;          /* PAPER was told from the sheet's shape, which others share */
  int unseen;             /* corner of the printed sheet whose fiducial is not seen, or -1 */
  PrFoot foot;            /* from the fiducials; PR_FOOT_ANY when not told */
  double printed[2];      /* by the paper's cut edges: share of its true size at which the sheet was
                               * printed, across and down; 0: not told */
  PrTrust trust;          /* what PRINTED was answered with; ASK: the print is taken meanwhile */
  double moved[2], by[2]; /* trusting the paper: what was printed at x lies at (x - moved[0]) by[0] */
  PrQuestion question;
  double width_mm, height_mm; /* of the sheet or of what was rectified */
  int turns;                  /* quarter turns clockwise by which the printed sheet lies in the frame */
  double px_per_mm;           /* of the photo at the foot */
  double residual_mm;         /* RMS of the reference points; 0 when nothing to spare */
  double tilt;                /* radians */
  PrVerdict verdict;
  char *
      why; /* one sentence for the verdict, translated: the first of the worst reasons, or what takes its place */
  PrReason reason[PR_REASONS_MOST]; /* all of them, in the order they were found */
  size_t n_reasons;
} PrScale;

/* Adds a reason, AT (may be NULL) its place. One that is there already, and what is more than there is room for, adds nothing. */
void pr_scale_add_reason (PrScale *scale, PrVerdict severity, const char *text, const PrSheetPt *at);
void pr_scale_clear_reasons (PrScale *scale);
/* The empty middle of a printed sheet (pr_sheet_field), where it lies on the sheet as measured and turned. */
void pr_scale_field (const PrScale *scale, PrSheetPt *low, PrSheetPt *high);
/* The same, and the verdict falls to SEVERITY unless it is as low already. */
void pr_scale_lower_about (PrScale *scale, PrVerdict severity, PrAbout about, const char *text,
                           const PrSheetPt *at);
/* The reasons ABOUT that are none any more, and the verdict is what the others make it. */
void pr_scale_drop_about (PrScale *scale, PrAbout about);
bool pr_scale_is_about (const PrScale *scale, PrAbout about); /* is there such a reason? */
/* Sentence, translated, static: nothing speaks against the verdict. */
const char *pr_scale_nothing_wrong (void);

/* A point that the scale was taken from: a corner of a fiducial; of a plain sheet the place on each
 * side that lies furthest from a straight edge. */
typedef struct {
  PrPx px;       /* in the photo */
  double off_mm; /* how far from where all together put it */
  bool outlier;  /* further than the others: bent up, covered, bowed */
} PrReference;

#define PR_OUTLINE_STEP 0.75 /* mm between the points of an outline, at most */
#define PR_REFERENCES_MOST 16

#define PR_OTHERS_MOST 3

typedef struct {
  char *file;
  int width_px, height_px; /* of the photo, upright */
  PrScale scale;
  PrCamera camera;
  PrReference reference[PR_REFERENCES_MOST];
  size_t n_reference; /* 0: marked by hand, a ruler, a scan */
  /* the rectified sheet: RGB, sheet point (x,y) lies at pixel (x*raster - 0.5, y*raster - 0.5); counted
   * by references (g_atomic_rc_box), never written once it is filled; NULL while it is not made */
  uint8_t *raster_rgb;
  int raster_width, raster_height;
  double raster;      /* px per mm */
  PrSheetPt *outline; /* heel to heel round the toe; NULL when no line was found */
  size_t n_outline;
  bool closed;     /* was it drawn closed round the bulbs */
  PrSheetPt *rest; /* CLOSED: from the outline's last point round the bulbs to its first; else NULL */
  size_t n_rest;
  double heel_range
      [2];       /* how far off a heel may be, to either side along the line from the outline's first and last
                         * point, mm; 0: it is there */
  bool figure;   /* no hoof's line but another, all the way round (pr-trace-figure.h) */
  double pen_mm; /* measured width of the stroke */
  double inward_mm; /* by which the outline was moved inward from its middle */
  bool specimen;    /* the outline is the outer edge of a shoe that is to be forged again; there is no foot */
  bool light;       /* the line is lighter than what it is drawn on: chalk, a white pen */
  PrDoubt *doubt;
  size_t n_doubt;
  PrDrawnMarks drawn; /* goes with the line */
  PrFootLine other[PR_OTHERS_MOST];
  size_t n_other;
} PrTracing;

/* Nothing known: no scale, no line, paper unknown. Transfer full. */
PrTracing *pr_tracing_new (void);
void pr_tracing_free (PrTracing *tracing);
/* All of it but the raster, which both then share. Transfer full. */
PrTracing *pr_tracing_copy (const PrTracing *tracing);
/* Same scale, camera, line and doubts, to the last bit; the raster is not looked at, as it follows. */
bool pr_tracing_equal (const PrTracing *a, const PrTracing *b);
/* Do both lay the same sheet flat in the same way, so that one's raster serves the other? */
bool pr_tracing_same_view (const PrTracing *a, const PrTracing *b);
/* TRUE when it came from a photo whose scale is known. */
bool pr_tracing_has_scale (const PrTracing *tracing);
double pr_tracing_length (const PrTracing *tracing); /* of the outline, mm */
/* N points as its line; doubts and what was measured on the line before go. Copies OUTLINE. */
void pr_tracing_set_line (PrTracing *tracing, const PrSheetPt *outline, size_t n, bool closed);
/* Takes outline and doubts away; scale, raster and other feet's lines stay. */
void pr_tracing_drop_line (PrTracing *tracing);
/* TRACING's own line; all of it stays TRACING's. */
PrFootLine pr_foot_line_of (const PrTracing *tracing);
/* The line out of TRACING, which has none then; and LINE (emptied) in place of the one it has. */
PrFootLine pr_tracing_steal_line (PrTracing *tracing);
void pr_tracing_put_line (PrTracing *tracing, PrFootLine *line);
void pr_tracing_drop_other (PrTracing *tracing, size_t nth);
void pr_tracing_drop_others (PrTracing *tracing);
/* All lines of FROM, which has none then, in place of TRACING's. */
void pr_tracing_take_lines (PrTracing *tracing, PrTracing *from);
/* Takes the raster away; others that share it keep it. */
void pr_tracing_drop_raster (PrTracing *tracing);
/* Shares FROM's raster, with its size; FROM may have none. */
void pr_tracing_share_raster (PrTracing *tracing, const PrTracing *from);

const char *pr_scale_method_code (PrScaleMethod method); /* "sheet", static */
bool pr_scale_method_parse (const char *code, PrScaleMethod *method);
const char *pr_trust_code (PrTrust trust); /* "ask", "paper", "print"; static */
bool pr_trust_parse (const char *code, PrTrust *trust);
const char *pr_about_code (PrAbout about);              /* "else", "heels", "feet"; static */
bool pr_about_parse (const char *code, PrAbout *about); /* FALSE: CODE (may be NULL) is none */
const char *pr_question_code (PrQuestion question);     /* "none", "trust", "paper"; static */
PrQuestion pr_question_parse (const char *code);        /* of anything else: none */
const char *pr_verdict_code (PrVerdict verdict);        /* "good", static */
const char *pr_verdict_name (PrVerdict verdict);        /* translated, static */

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrTracing, pr_tracing_free)
