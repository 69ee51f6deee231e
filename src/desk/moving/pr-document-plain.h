/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The document's book as folders of plain files (pr-plain.h). */
#pragma once
#include "pr-document.h"
#include "pr-paper.h"

/* Begins to write it into a new folder in the folder ABOVE, templates for PAPER: from a copy, so that work goes on meanwhile.
 * pr_document_busy tells how far it is, pr_document_stop_errand stops it, and it says "said" or "trouble". FALSE with error when
 * it cannot begin. */
bool pr_document_write_plain (PrDocument *doc, const char *above, PrPaper paper, GError **error);
