/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How large what comes from outside may be: the JSON of a tracing, a plan, a style; the rows of a book; a book
 * that somebody sent; a name that is typed. One table (pr-bounds.c) holds every bound with its reason. A value is
 * held against it where it is read, so that all that follows may count on it.
 *
 * They are wider than anything sound, and tell only what cannot be: what a good foot has is for the checks. */
#pragma once
#include <glib.h>
#include <stdbool.h>

typedef enum {
  /* a tracing */
  PR_BOUND_PX_PER_MM,
  PR_BOUND_LENS,
  PR_BOUND_RESIDUAL, /* mm */
  PR_BOUND_TILT,     /* degrees */
  PR_BOUND_UNIT,     /* part of a direction */
  PR_BOUND_PRINT,    /* of a printed sheet, share of its true size */
  PR_BOUND_SHEET,    /* a side of the sheet, mm */
  PR_BOUND_PHOTO,    /* a side of the photo, pixels */
  PR_BOUND_PIXEL,    /* a place in the photo */
  PR_BOUND_RASTER,   /* pixels a mm of the flat picture */
  PR_BOUND_CAMERA,   /* an entry of the homography */
  PR_BOUND_RADIUS,   /* half the photo's diagonal, pixels */
  PR_BOUND_PEN,      /* width of a line, mm */
  PR_BOUND_INWARD,   /* how far an outline was moved, mm */
  PR_BOUND_PLACE,    /* a coordinate on the sheet, mm */
  PR_BOUND_WALL,     /* mm */
  PR_BOUND_POINTS,   /* of an outline */
  PR_BOUND_DOUBTS,
  PR_BOUND_DOUBT, /* where one lies along the outline, mm */
  /* JSON */
  PR_BOUND_JSON_DEPTH,
  PR_BOUND_JSON_BYTES,
  PR_BOUND_JSON_VALUES,
  /* text, in characters */
  PR_BOUND_NAME,
  PR_BOUND_SENTENCE,
  PR_BOUND_NOTE,
  /* a book */
  PR_BOUND_YEAR,
  PR_BOUND_MINUTES,
  PR_BOUND_HEATS,
  PR_BOUND_DUE_DAYS, /* from visit to visit */
  PR_BOUND_CARD_COLOUR,
  PR_BOUND_VET,     /* what was asked and allowed for the vet, in bytes of JSON */
  PR_BOUND_OFF,     /* mm; sizes of a shoe too */
  PR_BOUND_BAR,     /* a length of bar, mm */
  PR_BOUND_KG,      /* a bar, or a shoe */
  PR_BOUND_SHARE,   /* lost, or gone along the branch */
  PR_BOUND_SECTION, /* mm2 */
  PR_BOUND_PHOTO_BYTES,
  PR_BOUND_SENT_BYTES,
  PR_BOUND_SENT_FEET,
  PR_BOUND_SENT_SECONDS,
  PR_BOUND_WHOLE_BYTES,
  PR_BOUND_WHOLE_FEET,
  PR_BOUND_WHOLE_SECONDS,
  PR_N_BOUNDS
} PrBound;

double pr_bound_least (PrBound bound);
double pr_bound_most (PrBound bound);
/* Is VALUE a number, and within both? */
bool pr_bound_holds (PrBound bound, double value);
/* The nearest to VALUE that holds; the least of one that is no number. */
double pr_bound_clamp (PrBound bound, double value);
/* What is wrong with VALUE, as part of a sentence: "pixels per mm: 1e+12, where 0.5 to 200 can be". Transfer full. */
char *pr_bound_says (PrBound bound, double value);

/* --- text --- */

/* TEXT (may be NULL, need not be UTF-8) as a name may be: on one line, without control characters and without
 * those that turn the direction of writing, blanks only between words. Not cut; "" when nothing is left to see.
 * Names that are typed and those that were sent both go through it. Transfer full. */
char *pr_name_clean (const char *text);
/* The same, and cut to what a name may be long, with "…" for what goes. For names nobody can be asked about. */
char *pr_name_fit (const char *text);
/* Is NAME, cleaned, too long for a name? */
bool pr_name_is_long (const char *name);
/* A sentence from a file: as pr_name_fit, and as long as PR_BOUND_SENTENCE. Transfer full. */
char *pr_sentence_fit (const char *text);
/* Text of several lines: only what controls goes, and what is beyond PR_BOUND_NOTE. Transfer full. */
char *pr_note_fit (const char *text);
/* Is DATE one of the years PR_BOUND_YEAR, written 2024-11-30, alone or before a "T" and a time? */
bool pr_date_holds (const char *date);
