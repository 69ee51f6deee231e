/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrPracticeWindow: classes and their seasons, and while a run is going its clock; F11 fills the screen. One beside the document's
 * window, which stays, hidden, when it is closed: what was asked once is not asked again. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_PRACTICE_WINDOW (pr_practice_window_get_type ())
G_DECLARE_FINAL_TYPE (PrPracticeWindow, pr_practice_window, PR, PRACTICE_WINDOW, GtkWindow)

/* Brings the one of PARENT to the front, or makes it. DOC has a book. */
void pr_practice_window_show (GtkWindow *parent, PrDocument *doc);
/* The same where a run was going when the program ended, and nothing else. */
void pr_practice_window_ask (GtkWindow *parent, PrDocument *doc);
