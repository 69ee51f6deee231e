/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrToast: one sentence over the board about what was just done, with the way back where there is one. It
 * moves nothing, and goes by itself, but not while the pointer or the keyboard is on it. */
#pragma once
#include <gtk/gtk.h>
#include <stdbool.h>
#include "pr-document.h"

#define PR_TYPE_TOAST (pr_toast_get_type ())
G_DECLARE_FINAL_TYPE (PrToast, pr_toast, PR, TOAST, GtkBox)

/* In place of what it said before. UNDO offers the action "win.undo". */
void pr_toast_say (PrToast *toast, const char *sentence, bool undo);
void pr_toast_hide (PrToast *toast);
/* From now on it says what DOC has done, with the way back, until another foot is opened. */
void pr_toast_follow (PrToast *toast, PrDocument *doc);
