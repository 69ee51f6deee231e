/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is done to the iron, step by step, in the order a plan asks for: which part of it is hot, how long it takes, what to look at.
 *
 * Order of a toe extension: scarf, upset, weld, close, dress, turn, crease, punch, clip, box, heels. A bar shoe is welded once
 * its branches are turned and before they are creased. Common practice, no source.
 *
 * Seconds at the anvil, all common practice, no source: PR_DRAW_S for each mm a stretch becomes longer, three times as much for
 * each mm it is upset by (upsetting counts three times, as in the rack), so much a mm of crease, a nail, a clip, a bevel, a bend. */
#pragma once
#include "pr-iron.h"

#define PR_DRAW_S 0.25

typedef enum {
  PR_STEP_CUT,
  PR_STEP_MARK,
  PR_STEP_SCARF,
  PR_STEP_UPSET,
  PR_STEP_WELD,
  PR_STEP_CLOSE, /* the weld's corners, in a second welding heat */
  PR_STEP_DRESS,
  PR_STEP_DRAW, /* or upset, where the iron is to be thicker than the bar */
  PR_STEP_TURN,
  PR_STEP_TURN_HEEL, /* in, to become the bar */
  PR_STEP_EXTEND,    /* an extension out of the bar itself */
  PR_STEP_CREASE,
  PR_STEP_PUNCH,
  PR_STEP_CLIP,
  PR_STEP_BOX,
  PR_STEP_SEAT,
  PR_STEP_TOE, /* rolled, squared or set back */
  PR_STEP_HEELS,
  PR_STEP_LEVEL
} PrStepKind;

/* The part that is hot. */
typedef enum {
  PR_ZONE_COLD,
  PR_ZONE_TOE,
  PR_ZONE_MEDIAL,
  PR_ZONE_LATERAL,
  PR_ZONE_HEELS,
  PR_ZONE_EXTENSION,
  PR_ZONE_BAR,
  PR_N_ZONES
} PrZone;

typedef struct {
  char id[24]; /* "turn.medial", "weld.extension": C locale, each once */
  PrStepKind kind;
  int branch; /* -1: neither */
  PrZone zone;
  double seconds;
  char *text; /* owned, translated */
  char *look; /* what to look at then; owned, may be NULL */
} PrStep;

const char *pr_zone_name (PrZone zone); /* "toe", "medial branch": translated */
const char *pr_zone_id (PrZone zone);   /* "toe", "medial": C locale */
/* What is done and what is then looked at. Transfer full. */
char *pr_step_words (const PrStep *step);
/* Elements PrStep, freed with the array. Cold ones first and last. Transfer full. */
GArray *pr_steps_of (const PrPlan *plan, const PrShoe *shoe, const PrIron *iron, PrUnit unit);
