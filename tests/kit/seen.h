/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A plan's own shoe as a photo would show it, exactly, or forged wrong on purpose. */
#pragma once
#include "pr-job.h"
#include "pr-seen.h"

/* The open shoe of JOB as it is seen on the sheet with FACE up: turned by ANGLE, the foot's origin at (X, Y), each point moved in
 * the foot frame by MOVE (may be NULL) before. SEEN must be empty. */
void kit_seen (const PrJob *job, PrFace face, double angle, double x, double y, PrPt (*move) (PrPt),
               PrSeen *seen);
