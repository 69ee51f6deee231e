/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the targets share that end in a shoe. */
#pragma once
#include "fuzz.h"
#include "pr-job.h"

/* A foot of usual size, the plan as a style has it. Transfer full. */
PrJob *fuzz_job (void);
/* Everything that is made from a job whose hoof and shoe stand: report, dividers, order, rack, offers. */
void fuzz_use_job (PrJob *job);
/* Styles of the program, loaded once; transfer none. */
const GPtrArray *fuzz_styles (void);
/* NULL when the bytes are no JSON. Transfer full. */
JsonNode *fuzz_json (const uint8_t *data, size_t size);
/* NODE as one of the seeds; takes NODE. */
void fuzz_seed_json (GPtrArray *seeds, JsonNode *node);
