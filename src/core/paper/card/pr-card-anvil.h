/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ten figures a smith looks up at from the anvil: bar to cut; web and thickness at toe, quarters and heels; the
 * shoe's length and width, heel to heel; from the toe to either heel and to the first nail. */
#pragma once
#include "pr-job.h"

#define PR_N_ANVIL_FIGURES 10
#define PR_QUARTER_PLACE 0.5 /* of a branch, where the plan tells the quarter's web */

typedef struct {
  char *label, *figure;
} PrAnvilFigure;

/* Elements PrAnvilFigure, freed with it: PR_N_ANVIL_FIGURES of them, none of a shoe that is not built. BRIEF: each in few
 * letters, for narrow paper: of a bar in pieces the sum, of a section whose branches differ the webs. Transfer full. */
GArray *pr_anvil_figures (const PrJob *job, PrUnit unit, bool brief);
