/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrSentDialog: a foot that somebody sent, as a small book, or a whole other book: says what is in it, shows feet and horses
 * that differ side by side, with the choice which of both stays, and asks whether to take it in. What is taken in is opened; trouble with that is told by the document. Both reading and taking in are done
 * in the background, shown, and can be stopped; the dialog comes into sight when there is something to ask, or
 * when it takes longer than a glance.
 *
 * Signals, of which one is emitted, once, when the dialog has gone: "answered" (gboolean taken); "refused"
 * (const char *sentence) when it cannot be read, or there is no book to take it into. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_SENT_DIALOG (pr_sent_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrSentDialog, pr_sent_dialog, PR, SENT_DIALOG, GtkDialog)

/* Is FILE such a book? Its bytes tell, not its name. */
bool pr_sent_is (GFile *file);
/* Asks about FILE, and shows itself. WHOLE: it is a person's own other book, and may be larger than what is sent. Transfer
 * none. */
PrSentDialog *pr_sent_dialog_new (GtkWindow *parent, PrDocument *doc, GFile *file, bool whole);
