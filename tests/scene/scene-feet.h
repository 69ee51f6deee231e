/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Feet of known shape, from a table: what shoes are laid on to be judged. Each is what a hand draws round a trimmed
 * foot, exact and smooth: from the medial buttress round the toe to the lateral one, its ends turned in as the wall
 * turns into the bars. The shares are common practice, no source, but where a published figure is named.
 *
 * Foot frame: x lateral, y to the toe, mm; the frog's own axis is x = 0, the widest line y = 0. */
#pragma once
#include "pr-path.h"
#include "pr-sheet.h"

typedef struct {
  const char *name;
  PrFoot foot;
  double width, length; /* mm; toe to the mean of the buttresses */
  double ahead;         /* share of the length ahead of the widest line */
  double heels;         /* distance of the buttresses, share of the width */
  double point;         /* of the toe: 0 an ellipse, 0.1 pointed, -0.1 blunt */
  double flare[2];      /* by which a quarter stands out beyond that, mm: medial, lateral */
  double uneven;        /* lateral half wider than the medial, mm */
  double toe_over;      /* the toe drawn over to the lateral side, mm */
  double heel_back;     /* medial buttress further back than the lateral, mm */
  double turned;        /* drawn turned on its sheet, degrees clockwise from toe up */
} SceneFoot;

typedef struct {
  PrPath outline; /* medial to lateral buttress, SCENE_FEET_STEP_MM apart or less */
  PrPt toe;       /* on x = 0 */
  PrPt buttress[2], frog_apex, frog[2];
} SceneFootLine;

#define SCENE_FEET_STEP_MM 0.5

const SceneFoot *scene_feet (size_t *n);
/* OUT is cleared first. */
void scene_foot_line (const SceneFoot *foot, SceneFootLine *out);
/* A point of it on the sheet, which is A4 and has it in its middle. */
PrSheetPt scene_foot_on_sheet (const SceneFoot *foot, PrPt p);
void scene_foot_line_clear (SceneFootLine *line);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SceneFootLine, scene_foot_line_clear)
