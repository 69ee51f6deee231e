/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What somebody sent, as a small book: looked into, and taken into the document's book, off the main thread.
 *
 * READY is called on the main thread, always; DATA must live until then. TOLD (DONE 0..1) is called there too, and
 * not once STOP is cancelled. What was stopped ends with G_IO_ERROR_CANCELLED, and has changed nothing. */
#pragma once
#include "pr-book-merge.h"
#include "pr-document.h"

typedef void (*PrSentTold) (double done, gpointer data);

/* WHOLE: a person's own other book is meant, which may be larger than what is sent. */
void pr_sent_look (PrDocument *doc, const char *file, bool whole, GCancellable *stop, PrSentTold told,
                   GAsyncReadyCallback ready, gpointer data);
/* At least one foot; NULL with error. Transfer full. */
PrMerge *pr_sent_look_finish (GAsyncResult *result, GError **error);

/* MERGE is what was looked at, with what was chosen; transfer none, it lives until READY. */
void pr_sent_take (PrDocument *doc, const char *file, bool whole, const PrMerge *merge, GCancellable *stop,
                   PrSentTold told, GAsyncReadyCallback ready, gpointer data);
/* Opens what was taken in; FALSE with error when nothing was, or it cannot be opened. */
bool pr_sent_take_finish (PrDocument *doc, GAsyncResult *result, GError **error);
