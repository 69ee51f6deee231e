/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrFootThumb: a small picture of one foot of a visit, as a button. An empty one waits for a
 * photo. */
#pragma once
#include <gtk/gtk.h>
#include "pr-foot.h"
#include "pr-point.h"

#define PR_TYPE_FOOT_THUMB (pr_foot_thumb_get_type ())
G_DECLARE_FINAL_TYPE (PrFootThumb, pr_foot_thumb, PR, FOOT_THUMB, GtkButton)

/* OUTLINE: N points as PrSheetPt, y down; taken over (transfer full); NULL: nothing there yet. */
GtkWidget *pr_foot_thumb_new (PrFoot foot, GArray *outline);
