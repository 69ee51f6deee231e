/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrSide: the job in its order (tracing, hoof, shoe, nailing, iron), each part folded to one line
 * that tells its result. */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_SIDE (pr_side_get_type ())
G_DECLARE_FINAL_TYPE (PrSide, pr_side, PR, SIDE, GtkBox)

void pr_side_set_document (PrSide *side, PrDocument *doc);
