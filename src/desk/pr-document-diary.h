/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is written beside horses and visits, and what is due. A book must be there. */
#pragma once
#include "pr-book-diary.h"
#include "pr-document.h"

/* HORSE in place of what the book has of it; says "done", and is one pr_document_undo until something else is changed or opened.
 * The same of date, note, card's colour and what is told the vet of VISIT. What is as it was changes nothing. */
bool pr_document_describe_horse (PrDocument *doc, const PrBookHorse *horse, GError **error);
bool pr_document_describe_visit (PrDocument *doc, const PrBookVisit *visit, GError **error);
/* Another room has written over, or deleted, what WAS tells (transfer full, freed with FREE_WAS). Says SENTENCE, "done"; one
 * pr_document_undo calls BACK, until something else is changed or opened. */
void pr_document_done_elsewhere (PrDocument *doc, PrBringBack back, gpointer was, GDestroyNotify free_was,
                                 const char *sentence);
/* "next due 11 December 2026", "was due 1 November 2026"; NULL: never, or it has no visit or no shoe. LATE (may be NULL): is that day past?
 * Transfer full. */
char *pr_document_due_words (PrDocument *doc, const PrBookHorse *horse, bool *late);
/* The same of a day alone, TODAY and DUE ISO 8601. Transfer full. */
char *pr_due_words (const char *due, const char *today, bool *late);
/* What is due as a calendar (pr-ics.h), in FILE. */
bool pr_document_write_due (PrDocument *doc, const char *file, GError **error);
