/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A class: what is to be made, in which time, and what it is judged by, as plain data. Four are shipped (data/practice.json, each with
 * where its figures come from); a person makes others. */
#pragma once
#include <json-glib/json-glib.h>
#include "pr-book-data.h"

/* What of a forged shoe a criterion can be measured by (pr-practice-measured.h). */
typedef enum {
  PR_MEASURED_NOT, /* by the eye of who judges */
  PR_MEASURED_SHAPE,
  PR_MEASURED_SECTION,
  PR_MEASURED_NAILS,
  PR_MEASURED_CLIPS,
  PR_MEASURED_HEELS,
  PR_MEASURED_TIME,
  PR_N_MEASURED
} PrMeasuredBy;

#define PR_PRACTICE_MOST_WEIGHT 10
#define PR_PRACTICE_MOST_CRITERIA 20
#define PR_PRACTICE_MOST_SHOES 20

typedef struct {
  char *name;
  int weight; /* 0 (not judged) to 10 */
  PrMeasuredBy by;
} PrPracticeCriterion;

typedef struct {
  PrBookId id;         /* 0: not in the book yet */
  char *name, *make;   /* MAKE: what is to be made */
  char *code, *source; /* of a shipped one: its name for programs, and where its figures come from; else "" */
  int seconds, heats, shoes; /* 0 seconds, 0 heats: free */
  bool striker;
  GArray *criteria; /* PrPracticeCriterion */
} PrPracticeClass;

PrPracticeClass *pr_practice_class_new (void);
PrPracticeClass *pr_practice_class_copy (const PrPracticeClass *class);
void pr_practice_class_free (PrPracticeClass *class);
void pr_practice_class_add (PrPracticeClass *class, const char *name, int weight, PrMeasuredBy by);
/* The shipped ones; element-type PrPracticeClass, transfer full. */
GPtrArray *pr_practice_shipped (void);
/* TEXT of CLASS as it reads here: a shipped one's in the language of now. Transfer none. */
const char *pr_practice_text (const PrPracticeClass *class, const char *text);
/* All texts as they read here, and no shipped one any more: for a person to change. */
void pr_practice_class_own (PrPracticeClass *class);

/* Its members for an object that is begun. */
void pr_practice_class_put (JsonBuilder *b, const PrPracticeClass *class);
/* From what was put, whoever wrote it: what cannot be is left out or brought within its bounds. Transfer full. */
PrPracticeClass *pr_practice_class_read (JsonObject *object);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrPracticeClass, pr_practice_class_free)
