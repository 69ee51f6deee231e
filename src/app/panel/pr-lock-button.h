/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small toggle that keeps a part of the shoe as it is at the next fit or style. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

/* BITS: 1 << PR_LOCK_* of all it locks. PART: what a screen reader calls it, "Toe". */
GtkWidget *pr_lock_button_new (PrDocument *doc, guint64 bits, const char *part);
