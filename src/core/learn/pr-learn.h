/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a smith's own attempts tell about the bar his next shoe takes. Plain arithmetic: lengths mm, masses kg, shares of 1.
 *
 * Weighed, all on one scale (a bar's own tolerance is too wide to compute its mass): loss = 1 - (shoe + slugs + leftover) /
 * bar. Not weighed: residual r = (cut - leftover) / predicted - 1, PREDICTED being what the model asks for the shape that was
 * found. A learned loss is in the residual already, so only one of them is ever used.
 *
 * Each is the mean of a normal distribution about the model's own figure: prior spread 4 %, 2 % in a single attempt (common
 * practice, no source), so that after n of them, with sum S of what they are off the model by,
 *
 *   mean = S / s2 / (1 / t2 + n / s2),   spread = 1 / sqrt (1 / t2 + n / s2)
 *
 * (conjugate prior of a normal mean; any textbook of statistics). The fuller's share lambda (pr-rows.h) the same way with
 * spreads of its own. Shown with n and spread, used only when the person says so. */
#pragma once
#include <stdbool.h>
#include <stddef.h>

#define PR_LEARN_PRIOR 0.04
#define PR_LEARN_EACH 0.02
#define PR_LEARN_LAMBDA_PRIOR 0.15 /* of a share: common practice, no source */
#define PR_LEARN_LAMBDA_EACH 0.10

#define PR_LEARN_GROUP_SIZE 32

/* One attempt as far as it was told; 0: not told. */
typedef struct {
  /* what it is an example of */
  int material;                    /* PrMaterial */
  char group[PR_LEARN_GROUP_SIZE]; /* of styles: those whose iron behaves alike */
  double bar_width, bar_thick;
  /* lengths: as cut, what was left over, and what the model predicts for the shape that was found */
  double cut, leftover, predicted;
  double model_loss; /* the loss that PREDICTED reckons with */
  /* masses */
  double bar_kg, shoe_kg, slugs_kg, leftover_kg;
  /* creased length before and after fullering, section of crease and of the iron with it, and the model's share */
  double crease_before, crease_after, crease_area, whole_area, model_lambda;
} PrTry;

/* What N attempts tell: by how much the smith's own figure is above the model's. */
typedef struct {
  size_t n;
  double mean;    /* posterior */
  double spread;  /* and its standard deviation: the prior's without attempts */
  double scatter; /* of the attempts themselves, from two on */
} PrLearned;

typedef enum { PR_LEARNED_NOTHING, PR_LEARNED_LOSS, PR_LEARNED_RESIDUAL } PrLearnedBy;

/* Of a material, a group of styles and a bar. */
typedef struct {
  PrLearned loss, residual, lambda;
  PrLearnedBy by; /* what the bar goes by: what more attempts tell, of as many what was weighed */
} PrOwnFigures;

PrLearned pr_learn (const double *off, size_t n, double prior, double each);
/* FALSE: not told, or no figures of one shoe (more comes out than went in, a third is lost). */
bool pr_try_loss (const PrTry *attempt, double *loss);
bool pr_try_residual (const PrTry *attempt, double *residual);
bool pr_try_lambda (const PrTry *attempt, double *lambda);
/* Are both of one material, group and bar (to half a mm)? */
bool pr_try_alike (const PrTry *a, const PrTry *b);
/* From those of ATTEMPTS that are alike WANTED, whose other members are not read. */
void pr_own_figures (const PrTry *attempts, size_t n, const PrTry *wanted, PrOwnFigures *own);
/* The bar to cut by OWN, where the model says MODEL mm reckoning with a loss of MODEL_LOSS; SPREAD (may be NULL): how sure,
 * mm, the smith's own scatter in a single shoe left out. Without attempts it is MODEL. */
double pr_own_cut (const PrOwnFigures *own, double model, double model_loss, double *spread);
