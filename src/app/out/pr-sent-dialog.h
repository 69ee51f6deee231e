/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrSentDialog: a foot that somebody sent, as a small book: says what is in it and asks whether to take it
 * in. What is taken in is opened; trouble with that is told by the document.
 *
 * Signal "answered" (gboolean taken): once, after that, when the dialog has gone. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_SENT_DIALOG (pr_sent_dialog_get_type ())
G_DECLARE_FINAL_TYPE (PrSentDialog, pr_sent_dialog, PR, SENT_DIALOG, GtkDialog)

/* Is FILE such a book? Its bytes tell, not its name. */
bool pr_sent_is (GFile *file);
/* Asks about FILE. NULL with error when it cannot be read, or there is no book to take it into. Present it. */
PrSentDialog *pr_sent_dialog_new (GtkWindow *parent, PrDocument *doc, GFile *file, GError **error);
