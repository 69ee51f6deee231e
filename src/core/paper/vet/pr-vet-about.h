/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a sheet to the vet is about, as plain data. All of it belongs to whoever asks for the sheet. */
#pragma once
#include "pr-compare-data.h"
#include "pr-vet-note.h"

typedef struct {
  const PrJob *job;           /* of a foot with its shoe */
  const PrComparison *forged; /* the forged shoe on that plan; NULL: none */
  const PrVetNote *note;
} PrVetAbout;
