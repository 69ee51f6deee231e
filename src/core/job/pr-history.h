/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrHistory: what one foot looked like before each change of it, and after each that was taken back.
 * A step is a copy of the foot's sources; all else is made from them again. One foot has one history, for
 * as long as the program runs, whichever foot is opened meanwhile.
 *
 * Steps with the same tag that follow each other quickly are one (arrow keys, typing). At most
 * PR_HISTORY_MOST steps are kept, and at most PR_HISTORY_PICTURES flat pictures with them; the picture
 * of an older step is made from its photo again. Plain data, for one thread at a time. */
#pragma once
#include "pr-sources.h"

#define PR_HISTORY_MOST 200
#define PR_HISTORY_PICTURES 2 /* beside the one on the board: each may hold 48 MB */
/* Nudges closer together than this are one step, microseconds. */
#define PR_HISTORY_SAME_US (800 * 1000)

typedef struct _PrHistory PrHistory;

PrHistory *pr_history_new (void);
void pr_history_free (PrHistory *history);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PrHistory, pr_history_free)

/* BEFORE (transfer full) stood until now; what was taken back before can no longer be done again. TAG may
 * be NULL. NOW: a monotonic time, microseconds. */
void pr_history_push (PrHistory *history, PrSources *before, const char *tag, gint64 now);
bool pr_history_can_undo (const PrHistory *history);
bool pr_history_can_redo (const PrHistory *history);
/* What stood before the newest change; NOW (copied) can be had again with redo. NULL when there is
 * nothing to take back. Transfer full. */
PrSources *pr_history_undo (PrHistory *history, const PrSources *now);
PrSources *pr_history_redo (PrHistory *history, const PrSources *now);
/* The foot is put away: no pictures are kept for it. */
void pr_history_rest (PrHistory *history);
