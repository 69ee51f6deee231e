/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the face of the clock says of a run, and how large, so that it is read from the anvil. */
#pragma once
#include "pr-practice-run.h"

/* A letter is read with ease where its height is 20 to 22 minutes of arc, and at all from 16 on (ISO 9241-303, from memory); older
 * practice for signs is 1/200 of the distance (from memory), which is 17. The face is made for 22 at four metres: 25.6 mm. */
#define PR_FACE_METRES 4.0
#define PR_FACE_ARC_MINUTES 22.0
/* Of a screen 720 px high the row of buttons below leaves it at least so much (tests/window/test-practice.py). */
#define PR_FACE_LEAST_PX 640

typedef struct {
  char *word;    /* "left", "over time", "gone": what the figures are */
  char *figures; /* "11:26"; over time "+0:34" */
  char *heat;    /* "heat 3 of 4" */
  char *step;    /* what is to be done now; "" */
  double gone;   /* share of the time, past 1 over it; -1: the class has no limit */
  bool over;     /* time or heats */
} PrPracticeFace;

/* FACE is cleared first. */
void pr_practice_face_tell (PrPracticeFace *face, const PrPracticeRun *run, const PrPracticeMoment *now);
void pr_practice_face_clear (PrPracticeFace *face);
/* The same for who does not see it, in whole minutes: it is another text once a minute, and at each heat. Transfer full. */
char *pr_practice_spoken (const PrPracticeRun *run, const PrPracticeMoment *now);

/* Where it stands on a face of WIDTH x HEIGHT px; heights are those of capitals and figures, of the step that of its whole line. */
typedef struct {
  double bar_y, bar; /* top, height */
  double word_y, word;
  double figures_y, figures;
  double heat_y, heat;
  double step_y, step;
  double margin;
} PrFaceLayout;

void pr_practice_face_lay (PrFaceLayout *lay, double width, double height);
/* How high a letter must be at METRES, mm. */
double pr_practice_letter_mm (double metres, double arc_minutes);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (PrPracticeFace, pr_practice_face_clear)
