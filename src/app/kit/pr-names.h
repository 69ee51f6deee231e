/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text that somebody wrote, shown where its length must not matter: names in labels and lists are cut, and the
 * whole is told when the pointer rests on them. What wraps instead says so in its template (wrap-mode
 * word-char, so that one long word wraps too). */
#pragma once
#include <gtk/gtk.h>

/* LABEL is cut at its end, or after LINES of wrapped text; its tooltip is the whole while it is cut. */
void pr_label_cut (GtkLabel *label, int lines);
/* The same for what stands in EDITABLE while nothing is typed; it asks for no more room than for CHARS letters. */
void pr_editable_cut (GtkEditableLabel *editable, int chars);
/* DROP shows strings of any length: cut on its button and in its list, which marks the one that is chosen. */
void pr_drop_down_cut (GtkDropDown *drop);
