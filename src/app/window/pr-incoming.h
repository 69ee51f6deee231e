/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrIncoming: the ways a photo, or a foot somebody sent, comes into a window: opened, dropped, pasted; and
 * the questions where it goes. What was sent is asked about first, one by one; then the photos are taken, one
 * after the other, to where they would have gone without it.
 *
 * Signals: "begun" (something comes in); "refused" (const char *sentence, gboolean more: other things that
 * came with it are still taken, so the sentence must outlive them). */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_INCOMING (pr_incoming_get_type ())
G_DECLARE_FINAL_TYPE (PrIncoming, pr_incoming, PR, INCOMING, GObject)

/* Takes what is dropped on WINDOW and pasted into it, which must outlive it. */
PrIncoming *pr_incoming_new (GtkWindow *window, PrDocument *doc);
void pr_incoming_open (PrIncoming *in, GFile **files, int n_files);
/* Asks for photos; one, when it is known to be of FOOT. */
void pr_incoming_choose (PrIncoming *in, PrFoot foot);
/* Asks for a whole other book. */
void pr_incoming_choose_book (PrIncoming *in);
/* The window goes: nothing more is taken. */
void pr_incoming_stop (PrIncoming *in);
