/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Small questions the window asks. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

/* Which foot is it? The answer goes into the document; closing it leaves the foot untold. */
void pr_ask_foot (GtkWindow *parent, PrDocument *doc);

/* A small window over PARENT with CHILD in it, which Escape closes. Present it when it is filled. */
GtkWidget *pr_dialog_new (GtkWindow *parent, const char *title, GtkWidget *child);
/* Text for it, broken into lines. */
GtkWidget *pr_dialog_words (const char *text);
