/* SPDX-License-Identifier: GPL-3.0-or-later */
/* PrBarStrip: the bar under the board, straight, as long as the window is wide. Names above,
 * distances below, draw and upset as colour and as words. Signal "hover" (double s: middle-line
 * place of the shoe under the pointer, negative when there is none). */
#pragma once
#include <gtk/gtk.h>
#include "pr-document.h"

#define PR_TYPE_BAR_STRIP (pr_bar_strip_get_type ())
G_DECLARE_FINAL_TYPE (PrBarStrip, pr_bar_strip, PR, BAR_STRIP, GtkWidget)

void pr_bar_strip_set_document (PrBarStrip *strip, PrDocument *doc);
/* Shows where middle-line place S lies on the bar; negative hides it. */
void pr_bar_strip_point_out (PrBarStrip *strip, double s);
