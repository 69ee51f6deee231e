/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The shoe as it was forged, on the plan of the foot that is open: a photo of it, what it shows, how far it is off. It is
 * there until another foot is opened or it is left, and follows the plan; it is kept with the foot when a person says so.
 * Whatever happens to it is told as PR_CHANGED_FORGED. */
#pragma once
#include "pr-compare-data.h"
#include "pr-document.h"
#include "pr-learn.h"
#include "pr-seen-find.h"

/* Looks in the background for the shoe in FILE; a failure is told as trouble and leaves what was there. */
void pr_document_take_forged (PrDocument *doc, GFile *file, const PrSeenOptions *how);
/* The same in a photo that came from a phone. */
void pr_document_take_forged_received (PrDocument *doc, const PrReceived *photo, const PrSeenOptions *how);
/* NULL: there is none. Transfer none, good until the next change. While the plan is being dragged it is the one before. */
const PrComparison *pr_document_forged (PrDocument *doc);
/* What it is made of; NULL as above. */
const PrSeen *pr_document_forged_seen (PrDocument *doc);
/* The sheet it lay on, with its photo laid flat; NULL as above. */
const PrTracing *pr_document_forged_sheet (PrDocument *doc);
/* While ON its edges are drawn by hand on that; told as PR_CHANGED_STAGE too. */
void pr_document_draw_forged (PrDocument *doc, bool on);
bool pr_document_forged_is_drawn (PrDocument *doc);
/* A stretch of an edge as the person drew it, N points where the sheet shows it (pr-seen-redraw.h); what is kept with the foot is it
 * as it was until it is kept again. One step back as long as nothing else is done. FALSE with error: all is as it was. */
bool pr_document_redraw_forged (PrDocument *doc, const PrSheetPt *stroke, size_t n, GError **error);
/* The person has another way to lay it on the plan. */
void pr_document_lay_forged (PrDocument *doc, PrLay lay);
void pr_document_leave_forged (PrDocument *doc);
/* Is it one of the attempts in the book? */
bool pr_document_forged_is_kept (PrDocument *doc);
/* Keeps it with the open foot as an attempt, with its photo. Of TOLD the person's own figures are read (id, foot, sizes and the
 * like are filled in here): minutes, heats, note, cut, leftover, masses. A second time the same attempt is there twice. */
bool pr_document_keep_forged (PrDocument *doc, const PrBookAttempt *told, GError **error);
/* Element type PrBookAttempt, of the open foot, oldest first. Transfer full; empty without a book. */
GPtrArray *pr_document_attempts (PrDocument *doc);
/* What the person's earlier shoes tell about the bar of this one ("by your last six shoes: 248 ± 3 mm"); NULL: nothing.
 * Transfer full. */
char *pr_document_own_bar (PrDocument *doc);
/* Is the bar of the open foot cut by them? */
bool pr_document_uses_own (PrDocument *doc);
/* Cuts it by them, as they are now, or by the model again. One step. FALSE with error: they tell nothing. */
bool pr_document_use_own (PrDocument *doc, bool use, GError **error);
/* What an attempt came to, one line. Transfer full. */
char *pr_document_attempt_words (PrDocument *doc, const PrBookAttempt *attempt);
