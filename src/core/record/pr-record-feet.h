/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The feet of a visit that have a shoe. */
#pragma once
#include "pr-record.h"

typedef struct {
  PrBookId id;
  PrJob *job;
} PrRecordFoot;

/* Of VISIT, in the order of PrFoot, of each foot the one that was filed last; lengths in sentences are in UNIT. One that cannot be
 * read is told in *TROUBLE (may be NULL; transfer full) and left out. Element type PrRecordFoot, transfer full; NULL with
 * error. */
GPtrArray *pr_record_feet (PrBook *book, PrBookId visit, PrUnit unit, GError **trouble, GError **error);
/* Their jobs alone: element type PrJob, not owned. Transfer container. */
GPtrArray *pr_record_feet_jobs (const GPtrArray *feet);
