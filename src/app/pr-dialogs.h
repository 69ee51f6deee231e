/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Small questions the window asks. */
#pragma once
#include <gtk/gtk.h>
#include "pr-board.h"
#include "pr-document.h"

/* Which foot is it? The answer goes into the document; closing it leaves the foot untold. */
void pr_ask_foot (GtkWindow *parent, PrDocument *doc);
/* How large is a millimetre here? The answer goes to the board and into the book. */
void pr_measure_screen (GtkWindow *parent, PrDocument *doc, PrBoard *board);
