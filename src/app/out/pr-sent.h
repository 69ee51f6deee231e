/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One foot as a small book: written for somebody else, or taken in from somebody else. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

/* Asks for a file and writes the open foot to it. */
void pr_send_foot (GtkWindow *parent, PrDocument *doc);

/* Is FILE such a book? Its bytes tell, not its name. */
bool pr_sent_is (GFile *file);

/* Called once, when the question has been answered. */
typedef void (*PrSentDone) (GtkWindow *parent, bool taken);
/* Says what FILE holds and asks whether to take it in; what was taken in is opened. FALSE with error, and
 * DONE is not called, when FILE cannot be read. */
bool pr_sent_ask (GtkWindow *parent, PrDocument *doc, GFile *file, PrSentDone done, GError **error);
