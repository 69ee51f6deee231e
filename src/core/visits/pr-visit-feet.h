/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which feet of a horse's visits can be laid on which. */
#pragma once
#include "pr-record.h"

/* A foot of the book that was drawn on a visit. */
typedef struct {
  PrBookId id, visit;
  PrFoot foot;
  char *date;
} PrVisitFoot;

void pr_visit_foot_free (PrVisitFoot *foot);
/* All feet of HORSE, newest visit first. Element type PrVisitFoot, transfer full; NULL with error. */
GPtrArray *pr_visit_feet (PrBook *book, PrBookId horse, GError **error);
/* The same foot of the newest visit before VISIT that has a tracing; 0: there is none. DATE (may be NULL) receives that
 * visit's, transfer full. */
PrBookId pr_visit_earlier (PrBook *book, PrBookId horse, PrBookId visit, PrFoot foot, char **date);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrVisitFoot, pr_visit_foot_free)
