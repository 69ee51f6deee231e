/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Feet, visits and horses deleted, and had back. */
#pragma once
#include "pr-book-trash.h"
#include "pr-document.h"

/* Out of the book's listings, and off the board where it is open there. Says "done"; one pr_document_undo brings it back as
 * it was, until something else is changed or opened. After that pr_document_bring_back does, for 30 days. */
bool pr_document_delete (PrDocument *doc, PrBookKind kind, PrBookId id, GError **error);
bool pr_document_bring_back (PrDocument *doc, PrBookKind kind, PrBookId id, GError **error);
