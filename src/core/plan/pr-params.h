/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of all plan parameters: it names every field of PrPlan for --set, JSON, panels and random tests, with its
 * range and its normal value. A range is told here and nowhere else. */
#pragma once
#include <stddef.h>
#include "pr-plan-data.h"

typedef enum {
  PR_PARAM_LENGTH,
  PR_PARAM_SHARE,
  PR_PARAM_PLACE,
  PR_PARAM_ANGLE,
  PR_PARAM_COUNT,
  PR_PARAM_CHOICE,
  PR_PARAM_SWITCH
} PrParamKind;

typedef struct {
  const char *name;  /* "web.quarter.medial" */
  const char *label; /* "Web at the quarter"; marked for translation; see pr_param_label */
  const char *group; /* "edge" "web" "thickness" "heels" "bevels" "crease" "nails"
                              "clips" "toe" "bar" "iron" "fit" */
  PrParamKind kind;
  size_t offset; /* in PrPlan; a double, an int (COUNT, CHOICE) or a bool (SWITCH) */
  double min, max, normal;
  const char *const *choices; /* CHOICE: codes, NULL-terminated */
} PrParam;

extern const PrParam pr_params[];
extern const size_t pr_n_params;

const PrParam *pr_param_find (const char *name);
/* "Web at the quarter, medial", "Nail moved 2, lateral": label with number and side, translated. Transfer full. */
char *pr_param_label (const PrParam *param);
double pr_param_get (const PrPlan *plan, const PrParam *param);
/* Is it a length that grows with the foot, so that a style gives it as a share of the foot's width? */
bool pr_param_of_width (const PrParam *param);
/* Is it a figure of the nail itself? */
bool pr_param_of_nail (const PrParam *param);
/* Does VALUE lie within the parameter's range? */
bool pr_param_takes (const PrParam *param, double value);
/* Clamps to [min, max]; FALSE when VALUE is not finite. */
bool pr_param_set (PrPlan *plan, const PrParam *param, double value);
