/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What somebody sent, as a small book: looked into, and taken into the document's book, off the main thread.
 *
 * READY is called on the main thread, always; DATA must live until then. TOLD (DONE 0..1) is called there too, and
 * not once STOP is cancelled. What was stopped ends with G_IO_ERROR_CANCELLED, and has changed nothing. */
#pragma once
#include "pr-document.h"

typedef void (*PrSentTold) (double done, gpointer data);

void pr_sent_look (PrDocument *doc, const char *file, GCancellable *stop, PrSentTold told,
                   GAsyncReadyCallback ready, gpointer data);
/* Element type PrBookSent, at least one; NULL with error. Transfer full. */
GPtrArray *pr_sent_look_finish (GAsyncResult *result, GError **error);

void pr_sent_take (PrDocument *doc, const char *file, GCancellable *stop, PrSentTold told,
                   GAsyncReadyCallback ready, gpointer data);
/* Opens what was taken in; FALSE with error when nothing was, or it cannot be opened. */
bool pr_sent_take_finish (PrDocument *doc, GAsyncResult *result, GError **error);
