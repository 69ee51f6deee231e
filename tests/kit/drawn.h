/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A foot as a tracing gives it. */
#pragma once
#include "pr-sheet.h"

/* N points in the sheet frame, heel to heel, toe up, round (150, 150) mm: 127 mm wide at SIZE 1, the lateral side
 * a little fuller, and on the left for a left foot, which is drawn round while it stands. */
void kit_drawn (PrFoot foot, double size, PrSheetPt *out, size_t n);
