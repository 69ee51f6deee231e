/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The document's work on the photo itself: how it came to its scale, and its line drawn by hand.
 * A photo stands in one of three ways: its scale waits to be marked (pr_document_marking), it has a
 * scale but no line yet (pr_document_bare), or it is a foot with an outline (pr_document_job). What
 * changes between them is told as PR_CHANGED_PLACE, or for the first way PR_CHANGED_STAGE. */
#pragma once
#include "pr-document.h"
#include "pr-marking.h"

/* NULL while no scale is being marked. Transfer none. */
const PrMarking *pr_document_marking (PrDocument *doc);
/* Shows the open foot's photo for marking, read from the book in the background. */
void pr_document_mark_scale (PrDocument *doc);
/* Traces the photo being marked as OPTIONS say; when that fails the marking goes on with the reason. */
void pr_document_use_marks (PrDocument *doc, const PrTraceOptions *options);
/* Back to what was open. */
void pr_document_leave_marking (PrDocument *doc);

/* The flat photo with no line found; NULL while there is none. WHY (may be NULL) receives a sentence. */
const PrTracing *pr_document_bare (PrDocument *doc, const char **why);

/* How the open foot's photo was traced. */
const PrTraceOptions *pr_document_asked (PrDocument *doc);
/* Traces the open foot's photo again, as one undo step; the plan is fitted to what comes of it. */
void pr_document_trace_again (PrDocument *doc, const PrTraceOptions *options);
/* The same on PAPER, of a plain sheet or of corners marked as those of one. It is not asked for again, even where it is the
 * one that was taken before. */
void pr_document_take_paper (PrDocument *doc, PrPaper paper);
/* The same with the paper's cut edges taken as true, or the print. */
void pr_document_trust (PrDocument *doc, PrTrust trust);
/* Is it to be told which paper the open foot's plain sheet is? */
bool pr_document_wants_paper (PrDocument *doc);
/* The papers that the open foot's plain sheet may be by its shape, and how wide the foot is on each, mm. Returns how
 * many; 0 without a sheet or a line. */
size_t pr_document_papers (PrDocument *doc, PrPaper paper[PR_N_PAPERS], double foot[PR_N_PAPERS]);

/* A stretch of the outline, or with no outline all of it, from a stroke of the hand (sheet mm). One
 * undo step. TO_INK: to the ink beside the stroke. */
bool pr_document_draw_line (PrDocument *doc, const PrSheetPt *stroke, size_t n, bool to_ink, GError **error);

/* More feet drawn on the open foot's sheet (the tracing's others). The NTH line in place of the one it has, the shoe fitted
 * to it: one step, says "done". */
bool pr_document_take_line (PrDocument *doc, size_t nth, GError **error);
/* The NTH line as another foot of the visit, which is open then: of the pair when that is not there yet, else asked for. That the
 * first foot has it no longer is one step there. */
bool pr_document_file_line (PrDocument *doc, size_t nth, GError **error);
/* None of them is wanted: one step, says "done". */
void pr_document_leave_lines (PrDocument *doc);
