/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A run: one go at a class against the clock, as plain data. It is the list of what was pressed and when; all times follow from
 * that. Each press is added with the moment it was made at, so that nothing of it depends on a program that is still there. */
#pragma once
#include "pr-practice-class.h"
#include "pr-practice-clock.h"

typedef enum {
  PR_PRESSED_START, /* always the first, and no other is */
  PR_PRESSED_HEAT,  /* the iron comes out of the fire */
  PR_PRESSED_STEP,  /* a step of the order of work is done */
  PR_PRESSED_STOP,  /* the last, where there is one */
  PR_N_PRESSED
} PrPressedKind;

typedef struct {
  PrPressedKind kind;
  PrPracticeMoment at;
  gint64 us; /* since the start; filled in */
} PrPressed;

/* What one of a class's criteria got. */
typedef struct {
  double value;  /* 0 to 10; -1: nothing yet */
  bool measured; /* by the comparison or the clock, not by a person */
} PrPracticeScore;

/* What the comparison of the forged shoe says, mm; -1: nothing. */
typedef struct {
  PrBookId attempt; /* 0: none */
  double off;       /* the worst that an edge is off: what a season is told by */
  double by[PR_N_MEASURED];
} PrPracticeMeasured;

typedef struct {
  PrBookId id, class, foot; /* FOOT 0: none */
  PrBookId after;           /* the newest attempt in the book when it began */
  char *started;            /* "2026-11-30T14:05:09", the time of the place */
  PrPracticeClass *as;      /* the class as it was then */
  GPtrArray *steps;         /* char *: the order of work then; may be empty */
  GArray *pressed;          /* PrPressed */
  bool broken;              /* ended without a stop: only what was pressed is known */
  bool unfinished;          /* stopped before what was to be made was made: its time is none */
  double told_minutes;      /* by a person, in place of the clock's; 0: not */
  double leftover;          /* of the bar, mm; 0: not told */
  char *note, *judge;       /* JUDGE: who gave the scores; "" */
  GArray *scores;           /* PrPracticeScore, one for each criterion */
  PrPracticeMeasured measured;
  bool has_photo;
} PrPracticeRun;

#define PR_PRACTICE_MOST_PRESSED 2000
#define PR_PRACTICE_MOST_STEPS 200

/* Of CLASS, which must be in the book, or is going to be; empty. */
PrPracticeRun *pr_practice_run_new (const PrPracticeClass *class);
void pr_practice_run_free (PrPracticeRun *run);
/* AT is not before what was pressed last. A stop after some of the steps, and not all, leaves the run unfinished until a person says
 * otherwise; who presses no steps tells nothing. FALSE, nothing added: the run is not going (but for START, which begins it), or too much
 * was pressed already. */
bool pr_practice_press (PrPracticeRun *run, PrPressedKind kind, const PrPracticeMoment *at);
/* The last press never was; a stop taken back lets the run go on as if there had been none. FALSE: there is only the start. */
bool pr_practice_take_back (PrPracticeRun *run);
/* The same of a run that was found when the program began again: it goes on, or ends with what was pressed last. */
bool pr_practice_is_going (const PrPracticeRun *run);
/* Since the start, microseconds: until NOW while it is going, else until it ended. NOW may be NULL where it is not. */
gint64 pr_practice_us (const PrPracticeRun *run, const PrPracticeMoment *now);
/* What it took, seconds: as a person has told, else by the clock; of a run that is over. */
double pr_practice_seconds (const PrPracticeRun *run);
/* What the machine went through until NOW (of a run that is over: NULL): all of it added up. */
PrPracticeSpan pr_practice_told_by_clocks (const PrPracticeRun *run, const PrPracticeMoment *now);
guint pr_practice_heats (const PrPracticeRun *run);
guint pr_practice_steps_done (const PrPracticeRun *run);
/* How long step NR, from 0, took, microseconds; -1: it is not done. */
gint64 pr_practice_split (const PrPracticeRun *run, guint nr);
/* The mean of all scores there are, by their weights; -1: none. N (may be NULL): of how many criteria that count. */
double pr_practice_score (const PrPracticeRun *run, guint *n);
/* How many of its criteria weigh anything. */
guint pr_practice_criteria (const PrPracticeRun *run);

/* The record as it is kept. Transfer full. */
char *pr_practice_run_text (const PrPracticeRun *run);
/* From TEXT, whoever wrote it: what cannot be is left out. NULL with error where it is no JSON. Transfer full. */
PrPracticeRun *pr_practice_run_read (const char *text, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrPracticeRun, pr_practice_run_free)
