/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Feet, visits and horses deleted, and had back; another book taken in, and given up again. */
#pragma once
#include "pr-book-merge.h"
#include "pr-book-trash.h"
#include "pr-document.h"

/* Out of the book's listings, and off the board where it is open there. Says "done"; one pr_document_undo brings it back as
 * it was, until something else is changed or opened. After that pr_document_bring_back does, for 30 days. */
bool pr_document_delete (PrDocument *doc, PrBookKind kind, PrBookId id, GError **error);
bool pr_document_bring_back (PrDocument *doc, PrBookKind kind, PrBookId id, GError **error);
/* MERGED (transfer full) was done to the book: the last foot of it is opened, and it says "done"; one pr_document_undo takes all of
 * it back, until something else is changed or opened. FALSE with error where that foot cannot be opened; what was taken in
 * stands. */
bool pr_document_merged (PrDocument *doc, PrMerged *merged, GError **error);
